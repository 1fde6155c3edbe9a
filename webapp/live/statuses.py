"""The HTTP statuses of pages that could not do what was asked (RFC 9110; 424: RFC 4918, 11.4; 429: RFC 6585)."""

NOT_THERE = 404
CHANGED_ELSEWHERE = 409
CANNOT_TAKE = 422
UNREADABLE = 424
"""The answer hangs on a file that cannot be read."""

TOO_MANY = 429
