"""Make the serif of the client's page: `python tests/fonts/serif.py NORMAL.woff2 ITALIC.woff2` in a checkout.

It needs `fonttools` and `brotli`; `static/fonts/README.md` says from which files the shipped ones are made.
"""

import sys
from pathlib import Path
from typing import Any

from subset import write_sums

FONTS = Path(__file__).parents[2] / "static/fonts"
FEATURES = ["ccmp", "locl", "mark", "kern", "liga", "lnum", "tnum"]
RANGES = ((0x20, 0x7E), (0xA0, 0xFF), (0x2010, 0x201F))
SIGNS = "\u0131\u0152\u0153\u2026\u2032\u2033\u2044\u20ac\u2122\u2212\u2022"


def signs() -> list[int]:
    """The letters of western European names, figures, and the marks between them."""
    return sorted({code for first, last in RANGES for code in range(first, last + 1)} | {ord(sign) for sign in SIGNS})


def subset(source: Path) -> Any:
    """The font with those letters, at its one weight."""
    from fontTools.subset import Options, Subsetter
    from fontTools.ttLib import TTFont
    from fontTools.varLib.instancer import instantiateVariableFont

    font = instantiateVariableFont(TTFont(source), {"wght": 400})
    cutter = Subsetter(Options(layout_features=FEATURES, hinting=False, name_IDs=[0, 1, 2, 3, 4, 5, 6, 13, 14]))
    cutter.populate(unicodes=signs())
    cutter.subset(font)
    font.flavor = "woff2"
    return font


if __name__ == "__main__":
    for given, name in zip(sys.argv[1:], ("garamond", "garamond-italic"), strict=True):
        subset(Path(given)).save(FONTS / f"{name}.woff2")
    write_sums()
