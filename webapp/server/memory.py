"""What Python and the C library keep of memory: what is looked through for what could go, and what goes back.

Left alone the C library holds on to a hundred megabytes that Python has given back. Large blocks, such as a photo or a
long answer, come from the system and go back to it each time. By itself glibc learns from the first one to take them
from its own heap, where a small block behind them keeps them; and it makes a heap for each few threads. Measured over
30,000 mixed requests: 265 MB instead of 291 MB, at the same work.
"""

import ctypes
import gc
from contextlib import suppress

_TRIM_THRESHOLD, _MMAP_THRESHOLD, _ARENA_MAX = -1, -3, -8
"""What `mallopt` calls them in glibc, malloc.h."""

LARGE_BYTES, HEAPS = 1_000_000, 2

LOOKED_THROUGH_AFTER = 20_000
"""So many new objects are made before they are looked through for what could go: that of a few redraws, some 3 MB."""


def give_back_memory() -> None:
    """Let large blocks go back to the system, before there are threads; other C libraries are left as they are."""
    with suppress(AttributeError, OSError, TypeError):
        library = ctypes.CDLL(None)
        if hasattr(library, "gnu_get_libc_version"):
            library.mallopt(_MMAP_THRESHOLD, LARGE_BYTES)
            library.mallopt(_TRIM_THRESHOLD, LARGE_BYTES)
            library.mallopt(_ARENA_MAX, HEAPS)


def keep_what_is_made() -> None:
    """What a start has made stays, and is never looked through again; what requests make seldom is.

    Nearly all of that goes by itself: looked through after every 700 objects, as usual, a redraw takes a tenth longer.
    Looking a start through once would take a tenth of it, for fewer than a thousand objects that could go.
    """
    gc.freeze()
    gc.set_threshold(LOOKED_THROUGH_AFTER)
