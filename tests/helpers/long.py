"""How much is tried: a run of all tests tries a few of each kind, `RABBETRY_LONG=1` as many as minutes allow."""

import os

LONG = bool(os.environ.get("RABBETRY_LONG"))


def tries(usual: int, *, long: int) -> range:
    """The seeds of a test whose every try takes long: those of a long run begin with the usual ones."""
    return range(long if LONG else usual)
