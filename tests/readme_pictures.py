"""Draws the pictures of the README anew, with the program itself: `python tests/readme_pictures.py`."""

import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]
sys.path.insert(0, str(ROOT))

from framecalc.project import read_project  # noqa: E402
from webapp.pages.projects.demos import demo  # noqa: E402
from webapp.written import files_of  # noqa: E402

FOLDER = ROOT / "static" / "readme"
PICTURES = {"front": "front", "section": "section", "cutting-plan": "cutting-plan-1-1"}
"""Each picture, by what the name of its file says among those that `draw` writes."""


def pictures() -> dict[str, str]:
    """The pictures by their names, as they are drawn now."""
    texts = files_of(read_project(demo("cafe-prints.demo")), paper="a4")
    return {name: _named(texts, part) for name, part in PICTURES.items()}


def _named(texts: dict[str, str], part: str) -> str:
    return next(text for name, text in texts.items() if name.endswith(f"-{part}-a4.svg"))


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for name, svg in pictures().items():
        (FOLDER / f"{name}.svg").write_text(svg, "utf-8")
        print(FOLDER / f"{name}.svg")
