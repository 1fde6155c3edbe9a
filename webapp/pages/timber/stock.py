"""The stock of the timber page: each entry in its fold."""

from collections.abc import Iterator

from framecalc.project.timber import Stock
from framecalc.records import Record
from framecalc.words import joined
from webapp.live.typed.answer import Answer


class TimberStockView(Record):
    """One entry of the stock in its fold: its id, one line about it, whether it is a board, its defects.

    `is_open`: the fold is open; `is_crooked`: so is the fold for bow and twist.
    """

    id: str
    name: str
    says: str
    is_board: bool
    is_open: bool
    is_crooked: bool
    defects: tuple[str, ...]


def stock_of(answer: Answer) -> Iterator[TimberStockView]:
    """The entries of the stock, each in its fold."""
    entries = answer.project.timber.stock
    for place, entry in enumerate(entries, start=1):
        here = f"timber.stock.{entry.id}."
        wrong = any(path.startswith(here) for path in answer.reading_messages)
        yield TimberStockView(
            id=entry.id,
            name=entry.name,
            says=_stock_words(entry),
            is_board=entry.width is not None,
            is_open=wrong or len(entries) <= 2 or place == len(entries),
            is_crooked=wrong or entry.bow.mm + entry.twist.mm > 0,
            defects=tuple(defect.id for defect in entry.defects),
        )


def _stock_words(entry: Stock) -> str:
    """One line for the fold: kind, size, count, place."""
    width = entry.width or entry.member_width
    size = " × ".join(length.text for length in (width, entry.length) if length)
    count = "as many as needed" if entry.count is None else f"{entry.count} there"
    return joined(", ", filter(None, (entry.species, size, count, "at hand" if entry.in_hand else "for sale")))
