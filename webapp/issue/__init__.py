"""What a client was shown: shares, prices and approvals, as issued."""
