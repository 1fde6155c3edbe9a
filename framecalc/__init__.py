"""The trade: pure calculation of a picture frame, and its drawings."""
