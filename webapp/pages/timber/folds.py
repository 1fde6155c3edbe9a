"""What stands in the folds of the timber page, each in a line: the stock, grain and spares, the saw, the allowances."""

from collections.abc import Mapping

from framecalc.project import Project
from framecalc.project.timber import Stock
from framecalc.words import joined, typed, worded
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
    unit = project.unit
    return {
        "stock": _stock(project.timber.stock),
        "grain": joined(", ", (project.timber.grain.value, plural(project.timber.spares, "spare"))),
        "saw": worded("{kerf} · {trim} {unit}", kerf=texts["shop.kerf"], trim=texts["shop.end_trim"], unit=unit),
        "milling": worded(
            "edge {edge}, jointing {width}, planing {thickness} {unit}",
            edge=texts["edge"],
            width=texts["width_allowance"],
            thickness=texts["thickness_allowance"],
            unit=unit,
        ),
    }


def _stock(stock: tuple[Stock, ...]) -> str:
    """The entries by name."""
    return first_few([typed(entry.name) for entry in stock]) or "nothing typed yet"
