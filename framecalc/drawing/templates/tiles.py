"""A template on leaves of paper: how they overlap, where they are cut, what each is called.

Leaves stand in rows from the top, named `A1` at the upper left. The *room* of a leaf lies between its margins. Two
neighbours overlap; the left and the upper one is cut in the middle of that, along its *cut line*, and laid on the other
one. A *register cross* stands on the cut lines: half of it stays on the leaf above, all of it on the one below.
"""

from collections.abc import Iterator
from math import ceil

from framecalc.drawing.sheet import PAPERS
from framecalc.errors import ImpossibleSize
from framecalc.geometry.outline import Point
from framecalc.limits import require_between, require_not_negative, require_positive
from framecalc.records import Record, replace
from framecalc.units import TOLERANCE_MM

MOST_LEAVES = 60
"""More leaves than this nobody puts together."""

BARS_ROOM_MM = 126.0
"""What the bars and their words take both ways, inside what is kept."""

LEAST_OVERLAP_MM, MOST_OVERLAP_MM = 6.0, 40.0
"""Room for the crosses; more than this wastes the paper."""

PAD_MM = 1.0
"""Round the template, so that the lines at its edge are whole."""


class Paper(Record):
    """A paper, what its printer leaves white on each side, and how far two leaves overlap."""

    name: str
    across_mm: float
    up_mm: float
    margin_mm: float = 10.0
    overlap_mm: float = 12.0

    def __post_init__(self) -> None:
        """Refuse a paper that leaves no room for the bars, so that no leaf is without them.

        Raises:
            OutOfRange, ImpossibleSize: so it is.
        """
        require_positive(across_mm=self.across_mm, up_mm=self.up_mm)
        require_not_negative(margin_mm=self.margin_mm)
        require_between(LEAST_OVERLAP_MM, MOST_OVERLAP_MM, overlap_mm=self.overlap_mm)
        kept_mm = min(self.room_across_mm, self.room_up_mm) - self.overlap_mm
        if kept_mm < BARS_ROOM_MM:
            raise ImpossibleSize(
                "Bars need {least} of paper, this keeps {kept}: choose larger paper.",
                field="margin_mm",
                lengths={"kept": max(kept_mm, 0.0), "least": BARS_ROOM_MM},
            )

    @property
    def room_across_mm(self) -> float:
        """Between the left and the right margin."""
        return self.across_mm - 2 * self.margin_mm

    @property
    def room_up_mm(self) -> float:
        """Between the lower and the upper margin."""
        return self.up_mm - 2 * self.margin_mm


PAPER_WORDS = {"a4": "A4", "a3": "A3", "letter": "Letter", "legal": "Legal", "tabloid": "Tabloid"}
"""The papers that templates are printed on, upright."""

LEGAL_MM = (215.9, 355.6)
"""Source: 8 1/2 × 14 in; common practice, no source."""


OWN_PAPER = "own"
"""A paper of the shop's own size, which starts out as an A4."""


def paper_called(name: str) -> Paper:
    """A paper by its name, with usual margins.

    Raises:
        KeyError: there is none.

    >>> paper_called("a4").across_mm, paper_called("letter").up_mm
    (210.0, 279.4)
    """
    if name == OWN_PAPER:
        return replace(paper_called("a4"), name="own paper")
    across_mm, up_mm = LEGAL_MM if name == "legal" else _size_of(name)
    return Paper(name=PAPER_WORDS[name], across_mm=across_mm, up_mm=up_mm)


def _size_of(name: str) -> tuple[float, float]:
    sheet = PAPERS[f"{name}-portrait"]
    return sheet.across_mm, sheet.up_mm


class Tile(Record):
    """One leaf: its row and column from the upper left, and the place of the template at its room's lower left."""

    row: int
    column: int
    left_mm: float
    bottom_mm: float
    is_last_row: bool
    is_last_column: bool

    @property
    def name(self) -> str:
        """Its name.

        >>> Tile(row=1, column=2, left_mm=0, bottom_mm=0, is_last_row=True, is_last_column=True).name
        'B3'
        """
        return tile_name(self.row, self.column)


def tile_name(row: int, column: int) -> str:
    """A leaf by its row and column.

    >>> tile_name(0, 0), tile_name(27, 1)
    ('A1', 'AB2')
    """
    letters = chr(ord("A") + row % 26)
    return f"{'A' * (row // 26)}{letters}{column + 1}"


class Tiling(Record):
    """All leaves of a template on one paper."""

    paper: Paper
    across_mm: float
    up_mm: float
    columns: int
    rows: int

    @property
    def tiles(self) -> Iterator[Tile]:
        """The leaves row by row."""
        paper = self.paper
        step_across_mm = paper.room_across_mm - paper.overlap_mm
        step_up_mm = paper.room_up_mm - paper.overlap_mm
        for row in range(self.rows):
            for column in range(self.columns):
                yield Tile(
                    row=row,
                    column=column,
                    left_mm=column * step_across_mm - PAD_MM,
                    bottom_mm=self.up_mm + PAD_MM - paper.room_up_mm - row * step_up_mm,
                    is_last_row=row == self.rows - 1,
                    is_last_column=column == self.columns - 1,
                )

    def on_leaf(self, tile: Tile, point: Point) -> Point:
        """A place of the template on a leaf, from the leaf's lower left corner."""
        margin_mm = self.paper.margin_mm
        return point[0] - tile.left_mm + margin_mm, point[1] - tile.bottom_mm + margin_mm

    def cut_right_mm(self, tile: Tile) -> float | None:
        """Where a leaf is cut on its right, from its left edge; None where nothing follows."""
        paper = self.paper
        return None if tile.is_last_column else paper.across_mm - paper.margin_mm - paper.overlap_mm / 2

    def cut_below_mm(self, tile: Tile) -> float | None:
        """Where a leaf is cut below, from its lower edge; None where nothing follows."""
        return None if tile.is_last_row else self.paper.margin_mm + self.paper.overlap_mm / 2

    def crosses(self, tile: Tile) -> tuple[Point, ...]:
        """The register crosses of a leaf, from its lower left corner: on the cut lines, its own and its neighbours'."""
        paper, half_mm = self.paper, self.paper.overlap_mm / 2
        near_x, far_x = paper.margin_mm + half_mm, paper.across_mm - paper.margin_mm - half_mm
        near_y, far_y = paper.margin_mm + half_mm, paper.up_mm - paper.margin_mm - half_mm
        left = near_x if tile.column else None
        right = None if tile.is_last_column else far_x
        above, below = far_y if tile.row else None, None if tile.is_last_row else near_y
        upright = [(x, y) for x in (left, right) if x is not None for y in (near_y, far_y)]
        level = [(x, y) for y in (above, below) if y is not None for x in (near_x, far_x)]
        return tuple(dict.fromkeys(upright + level))


def tiling_of(across_mm: float, up_mm: float, *, paper: Paper) -> Tiling:
    """Lay a template on leaves of a paper.

    Args:
        across_mm, up_mm: the template [mm], > 0.
    Raises:
        ImpossibleSize: it would take more leaves than anybody puts together.

    >>> tiling = tiling_of(400, 300, paper=paper_called("a4"))
    >>> tiling.columns, tiling.rows
    (3, 2)
    """
    require_positive(across_mm=across_mm, up_mm=up_mm)
    columns = _leaves(across_mm, paper.room_across_mm, paper.overlap_mm)
    rows = _leaves(up_mm, paper.room_up_mm, paper.overlap_mm)
    if columns * rows > MOST_LEAVES:
        raise ImpossibleSize(f"More than {MOST_LEAVES} leaves: choose a larger paper.")
    return Tiling(paper=paper, across_mm=across_mm, up_mm=up_mm, columns=columns, rows=rows)


def _leaves(length_mm: float, room_mm: float, overlap_mm: float) -> int:
    return max(1, ceil((length_mm + 2 * PAD_MM - overlap_mm - TOLERANCE_MM) / (room_mm - overlap_mm)))
