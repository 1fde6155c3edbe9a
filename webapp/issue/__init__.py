"""What a client was shown: shares, prices and approvals, as issued.

A share keeps what it shows, drawings, words and prices, beside the inputs; nothing on a client's page is looked up
again. An approval names the digest of that record; fields with their usual value are left out of the digest, so that a
later version may add some. What changed since then is what a client is told, not fields of the file. The price of a
share is compared with its own revision counted anew, so that only an edit of the job is told as a change.
"""
