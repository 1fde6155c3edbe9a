"""Make the font that ships with the pages, and the table of letter widths that drawings are laid out with.

`python tests/fonts/subset.py InterVariable.woff2 DejaVuSans.ttf+DejaVuSans-Bold.ttf …` in a checkout, with `fonttools`
and `brotli` installed; `static/fonts/README.md` says from which files the shipped ones are made. Each further face is a
regular and a bold file; what several files hold between them is joined by commas.
"""

import csv
import hashlib
import sys
from math import ceil
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
FONTS, TABLE = ROOT / "static/fonts", ROOT / "framecalc/tables/letter_widths.csv"
WEIGHTS, REGULAR, BOLD = (400, 800), 400, 700

FEATURES = ["ccmp", "locl", "mark", "kern", "tnum", "frac", "numr", "dnom"]
"""Without `calt`, which would show a typed "10x12" as 10×12."""

RANGES = ((0x20, 0x7E), (0xA0, 0x17F), (0x391, 0x3C9), (0x2010, 0x201F), (0x2070, 0x209C), (0x20A0, 0x20BF))
SIGNS = "\u2026\u202f\u2032\u2033\u2044\u2116\u2122⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞←↑→↓↔↕√∞∅⌀∆∑−≈≠≤≥✓✗✕☐☑↶↷⌫�ᵀ"


def signs() -> list[int]:
    """Every letter that the product writes, and those of European names."""
    return sorted({code for first, last in RANGES for code in range(first, last + 1)} | {ord(sign) for sign in SIGNS})


def subset(source: Path) -> Any:
    """The font with the letters, features and weights that the pages use."""
    from fontTools.subset import Options, Subsetter
    from fontTools.ttLib import TTFont
    from fontTools.varLib.instancer import instantiateVariableFont

    font = TTFont(source)
    for mapping in _tabular(font["GSUB"].table):
        for name in set(mapping) - {font.getBestCmap()[ord(digit)] for digit in "0123456789"}:
            del mapping[name]  # hyphens and spaces keep their own width
    options = Options(layout_features=FEATURES, hinting=False, name_IDs=[0, 1, 2, 3, 4, 5, 6, 13, 14])
    cutter = Subsetter(options)
    cutter.populate(unicodes=signs())
    cutter.subset(font)
    font = instantiateVariableFont(font, {"opsz": 14, "wght": WEIGHTS})
    font.flavor = "woff2"
    return font


def widths(font: Any) -> dict[int, int]:
    """The widths of all letters in thousandths of the type size, rounded up; figures as wide as in a table."""
    names, advances, em = font.getBestCmap(), font["hmtx"], font["head"].unitsPerEm
    tabular = _tabular(font["GSUB"].table) if "GSUB" in font else []
    found = {}
    for code, name in names.items():
        each = (advances[shape][0] for shape in {name, *(mapping[name] for mapping in tabular if name in mapping)})
        found[code] = ceil(1000 * max(each) / em)
    return found


def _tabular(tables: Any) -> list[dict[str, str]]:
    """Which shapes take the place of which where figures stand in a table."""
    features = tables.FeatureList.FeatureRecord if tables.FeatureList else ()
    lookups = {at for feature in features if feature.FeatureTag == "tnum" for at in feature.Feature.LookupListIndex}
    steps = [step for at in lookups for step in tables.LookupList.Lookup[at].SubTable]
    steps = [getattr(step, "ExtSubTable", step) for step in steps]
    return [step.mapping for step in steps if hasattr(step, "mapping")]


def faces(arguments: list[str]) -> dict[str, dict[int, int]]:
    """The widths of the further faces, regular and bold."""
    from fontTools.ttLib import TTFont

    columns = {}
    for argument in arguments:
        for files, bold in zip(argument.split("+"), ("", " bold"), strict=True):
            read = [TTFont(file) for file in files.split(",")]
            name = read[0]["name"].getBestFamilyName().lower() + bold
            columns[name] = {code: width for font in read for code, width in widths(font).items()}
    return columns


def write_sums() -> None:
    """Write the checksums of all fonts that ship."""
    files = sorted(FONTS.glob("*.woff2"))
    sums = (f"{hashlib.sha256(file.read_bytes()).hexdigest()}  {file.name}\n" for file in files)
    (FONTS / "SHA256SUMS").write_text("".join(sums), "utf-8")


def main(source: str, *others: str) -> None:
    """Write the font, its checksum and the table of widths."""
    from fontTools.varLib.instancer import instantiateVariableFont

    FONTS.mkdir(exist_ok=True)
    file = FONTS / "inter.woff2"
    subset(Path(source)).save(file)
    write_sums()
    columns = {}
    for name, weight in (("inter", REGULAR), ("inter bold", BOLD)):
        columns[name] = widths(instantiateVariableFont(subset(Path(source)), {"wght": weight}))
    columns |= faces(list(others))
    with TABLE.open("w", encoding="utf-8", newline="") as table:
        rows = csv.writer(table, lineterminator="\n")
        rows.writerow(["code", *columns])
        rows.writerows([f"{code:04x}", *(each.get(code, "") for each in columns.values())] for code in signs())


if __name__ == "__main__":
    main(*sys.argv[1:])
