"""What stands in the folds of the timber page, each in a line: the stock, grain and spares, the saw, the allowances."""

from collections.abc import Mapping

from framecalc.project import Project
from framecalc.project.timber import Stock
from framecalc.words import Wording, joined, typed
from webapp.live.answers import first_few, plural

IN_GRAIN = ("grain", "corner", "milled", "turned", "spares", "shortest_useful", "tests", "test_length")


def fold_of(path: str) -> str:
    """The fold in which a field stands.

    >>> fold_of("timber.stock.s1.length"), fold_of("shop.kerf"), fold_of("timber.spares"), fold_of("timber.edge")
    ('stock', 'saw', 'grain', 'milling')
    """
    if path.startswith("shop."):
        return "saw"
    name = path.removeprefix("timber.").partition(".")[0]
    return "stock" if name == "stock" else "grain" if name in IN_GRAIN else "milling"


def folds_of(project: Project, texts: Mapping[str, str]) -> Mapping[str, str]:
    """The line of each fold.

    Args:
        texts: the text in each field of the page.
    """
    return {
        "stock": _stock(project.timber.stock),
        "grain": joined(", ", (project.timber.grain.value, plural(project.timber.spares, "spare"))),
        "saw": _said({"kerf": texts["shop.kerf"], "trim": texts["shop.end_trim"]}, project.unit),
        "milling": _said(
            {
                "edge": texts["edge"],
                "jointing": texts["width_allowance"],
                "planing": texts["thickness_allowance"],
            },
            project.unit,
        ),
    }


def _said(lengths: Mapping[str, str], unit: str) -> Wording:
    """Lengths as they are typed, after what they are of; the unit of the job once, where none has a unit of its own.

    >>> _said({"kerf": "3.2", "trim": "10"}, "mm"), _said({"kerf": "3.2 mm", "trim": "1/2"}, "in")
    ('kerf 3.2, trim 10 mm', 'kerf 3.2 mm, trim 1/2')
    """
    said = joined(", ", (joined(" ", (of, typed(text))) for of, text in lengths.items()))
    has_units = any(letter.isalpha() or letter in "\"'" for text in lengths.values() for letter in text)
    return said if has_units else joined(" ", (said, unit))


def _stock(stock: tuple[Stock, ...]) -> str:
    """The entries by name."""
    return first_few([typed(entry.name) for entry in stock]) or "nothing typed yet"
