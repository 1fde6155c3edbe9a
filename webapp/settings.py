"""What a start of the program takes for granted when nothing else is said: the data folder, the address, the port."""

from pathlib import Path

import platformdirs

LOOPBACK = "127.0.0.1"
"""Where is listened for this computer alone."""

HEAD_S = 15
"""How long a connection is kept without a whole request head: when it is new, and after each answer."""

QUIET_S = 15
"""How long no part of a body may come, and no part of an answer be taken."""

WHOLE_S = 180
"""How long a request and its answer may take the other side in all: a photo of 25 MB over 2 Mbit/s takes 100 s."""

TAKEN_AT_ONCE = 32
"""How many connections are accepted before others are looked at, and may wait to be accepted."""

LEAVING_S = 2
"""How long an answer may wait to be taken when the server stops."""

STOPPING_S = 10
"""How long answers may still be worked out when the server stops."""

LOOK_S = 1
"""How often each connection is looked at for this."""

USUAL_PORT = 8420
"""A port that the registry of the internet gives to nobody; from memory, not re-read."""


def usual_data_folder() -> Path:
    """Say where this platform keeps a person's application data."""
    return Path(platformdirs.user_data_dir("rabbetry", appauthor=False))


def usual_cache_folder() -> Path:
    """Say where this platform keeps what a program can make again."""
    return Path(platformdirs.user_cache_dir("rabbetry", appauthor=False))
