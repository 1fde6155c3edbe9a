"""What a start of the program takes for granted when nothing else is said: the data folder, the address, the port."""

from pathlib import Path

import platformdirs

LOOPBACK, EVERYWHERE = "127.0.0.1", "0.0.0.0"
"""Where is listened: for this computer alone, or, when that is asked for, for its networks too."""

KEEP_ALIVE_S, MOST_AT_ONCE = 15, 60
"""How long an idle connection is kept, and how many requests are served at once: a few tablets need a handful."""

USUAL_PORT = 8420
"""A port that the registry of the internet gives to nobody; from memory, not re-read."""


def usual_data_folder() -> Path:
    """Say where this platform keeps a person's application data."""
    return Path(platformdirs.user_data_dir("rabbetry", appauthor=False))
