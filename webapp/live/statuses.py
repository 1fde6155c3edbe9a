"""The HTTP statuses of our answers beside 200 (RFC 9110; 424 and 507: RFC 4918, 11.4 and 11.5; 429: RFC 6585)."""

NOTHING_NEW = 204
"""The page shows the answer already; the browser changes nothing."""

SEE_OTHER = 303
"""Saved: the browser goes on to the page that shows it."""

NOT_THERE = 404
CHANGED_ELSEWHERE = 409
CANNOT_TAKE = 422
UNREADABLE = 424
"""The answer hangs on a file that cannot be read."""

TOO_MANY = 429

NOT_SAVED = 507
"""The disk did not take it: what was there before is still there."""
