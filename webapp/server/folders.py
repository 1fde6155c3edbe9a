"""Where the templates and the static files lie: inside the installed package, or beside it in a checkout."""

from pathlib import Path


def folder(name: str) -> Path:
    """Find the data folder `name`, which a wheel carries inside the package and a checkout beside it."""
    here = Path(__file__).resolve().parents[1]
    for place in (here / name, here.parent / name):
        if place.is_dir():
            return place
    raise FileNotFoundError(f"{name}: neither in the package nor beside it")


TEMPLATES = folder("templates")
STATIC = folder("static")
