"""What stands in the folds of the sheets page, each in a line: the stock, and how it is cut."""

from collections.abc import Mapping

from framecalc.project import Project
from framecalc.words import joined, typed
from webapp.live.answers import first_few, plural


def fold_of(path: str) -> str:
    """The fold in which a field stands.

    >>> fold_of("sheets.stock.s1.across"), fold_of("sheets.glass.trim")
    ('stock', 'ways')
    """
    return "stock" if path.startswith("sheets.stock") else "ways"


def folds_of(project: Project) -> Mapping[str, str]:
    """The line of each fold."""
    stock = project.sheets.stock
    named = first_few([typed(entry.name) for entry in stock])
    return {
        "stock": joined("", (plural(len(stock), "entry", "entries"), ": ", named)) if stock else "nothing yet",
        "ways": project.sheets.aim.value,
    }
