"""What a client is shown: what differs from what they said yes to."""
