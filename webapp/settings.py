"""What a start of the program takes for granted when nothing else is said: the data folder, the address, the port."""

from pathlib import Path

import platformdirs

LOOPBACK = "127.0.0.1"
"""The only address that is served: this computer and nobody else."""

USUAL_PORT = 8420
"""A port that the registry of the internet gives to nobody; from memory, not re-read."""


def usual_data_folder() -> Path:
    """Say where this platform keeps a person's application data."""
    return Path(platformdirs.user_data_dir("rabbetry", appauthor=False))
