"""The stylesheet of drawings in a page, made from the table of looks.

`python -m framecalc.drawing.stylesheet` rewrites `static/drawing.css` in a checkout.
"""

from pathlib import Path

from framecalc.drawing.style import LOOKS, PAGE_FONT, RoleLook


def css() -> str:
    """The stylesheet of drawings in a page.

    >>> css().splitlines()[1]
    '.drawing { display: block; width: 100%; height: auto; }'
    """
    rules = [f".drawing .{role} {{ {_declarations(look)} }}" for role, look in LOOKS.items()]
    head = "/* Made from the table in framecalc/drawing/style.py by `python -m framecalc.drawing.stylesheet`. */"
    return "\n".join([head, ".drawing { display: block; width: 100%; height: auto; }", *rules]) + "\n"


def _declarations(look: RoleLook) -> str:
    shapes = {"font-family": f"{PAGE_FONT}, {{}}", "font-size": "{}px"}
    return " ".join(f"{name}: {shapes.get(name, '{}').format(value)};" for name, value in look.attributes().items())


def main() -> None:
    """Rewrite the stylesheet in a checkout."""
    sheet = Path(__file__).parents[2] / "static" / "drawing.css"
    sheet.write_text(css(), "utf-8")


if __name__ == "__main__":
    main()
