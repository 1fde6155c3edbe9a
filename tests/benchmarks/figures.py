"""What benchmarks find: figures, each with the most that is aimed at, printed as lines of one table. Judges nothing."""

from collections.abc import Iterable

from framecalc.records import Record

_HEAD = f"{'what':62} {'measured':>9} {'':12} {'aim':>6}  seen beside"


class Figure(Record):
    """What was measured, and in which unit; `beside` is what else was seen of it.

    `measured` is None where it could not be measured, `aim` where nothing is aimed at.
    """

    what: str
    measured: float | None
    unit: str
    aim: float | None = None
    beside: str = ""

    @property
    def line(self) -> str:
        """Its line of the table."""
        return (
            f"{self.what:62} {_number(self.measured):>9} {self.unit:12} {_number(self.aim):>6}  {self.beside}".rstrip()
        )


def _number(value: float | None) -> str:
    if value is None:
        return "–"
    return f"{value:.2f}" if abs(value) < 100 and value != int(value) else f"{value:.0f}"


def print_figures(figures: Iterable[Figure]) -> None:
    """Print a table, each line as soon as it is found."""
    print(_HEAD)
    for figure in figures:
        print(figure.line, flush=True)
