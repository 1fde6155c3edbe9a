"""The template of a mat at its true size: its windows as they are cut, on as many leaves of paper as needed.

The leaves are cut along their frames and butted together; each carries scale bars in both directions, in its margin,
and says which it is. On one leaf as large as the mat nothing has to be put together.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, hypot
from typing import TypeAlias

from framecalc.drawing.package.mat import DrawnWindow, MatDrawing
from framecalc.drawing.pen import Pen, rectangle, run
from framecalc.drawing.ring import Size
from framecalc.drawing.sheet import PAPERS
from framecalc.drawing.style import LETTER_MM, Role
from framecalc.errors import ImpossibleSize
from framecalc.geometry.outline import Point
from framecalc.units import MM_PER_INCH, TOLERANCE_MM, Unit

MARGIN_MM = 15.0
"""What printers leave white, and room for the scale bars."""

SPARED_MM = 2.0
"""A leaf is drawn so much smaller than its paper, so that no browser puts it on two."""

MOST_LEAVES = 60
"""More leaves than this nobody puts together."""

CROSS_MM = 6.0
"""How far the lines of a window run on past its corners, for a rule to be laid along."""

WORDS_MM = 24.0
"""Half of the room that the words in a window take."""

Edge: TypeAlias = tuple[Point, Point]
"""A line from one corner to the next, from the upper left corner of the mat."""

TEMPLATE_PAPERS = ("a4-portrait", "a4", "a3", "letter-portrait", "letter", "tabloid")


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaf:
    """One leaf: its paper, the part of the mat that it shows (from the upper left), and its number."""

    across_mm: float
    up_mm: float
    left_mm: float
    top_mm: float
    right_mm: float
    bottom_mm: float
    says: str

    def at(self, point: Point) -> Point:
        """A point of the mat, from its upper left corner, on the leaf."""
        return point[0] - self.left_mm + MARGIN_MM, point[1] - self.top_mm + MARGIN_MM

    def inside(self, point: Point) -> Point:
        """A point of the mat on the leaf, far enough from its edge for words to stand about it."""
        x, y = self.at(point)
        least, most = MARGIN_MM + WORDS_MM, self.across_mm - MARGIN_MM - WORDS_MM
        return min(max(x, least), most), min(max(y, MARGIN_MM + 4), self.up_mm - MARGIN_MM - 14)

    def holds(self, point: Point) -> bool:
        """Whether a point of the mat lies on this leaf."""
        return self.left_mm <= point[0] < self.right_mm and self.top_mm <= point[1] < self.bottom_mm


def draw_leaves(mat: MatDrawing, *, paper: str) -> tuple[str, ...]:
    """Draw the template on leaves of a paper, as SVGs of true size, row by row from the upper left.

    Args:
        paper: one of TEMPLATE_PAPERS.
    Raises:
        KeyError: there is no such paper.
        ImpossibleSize: it would take more leaves than anybody puts together.
    """
    sheet = PAPERS[paper]
    leaves = tuple(_leaves(mat, sheet.across_mm - SPARED_MM, sheet.up_mm - SPARED_MM))
    return tuple(_draw(mat, leaf, f"template-{number}") for number, leaf in enumerate(leaves, start=1))


def draw_whole(mat: MatDrawing) -> str:
    """Draw the template on one leaf as large as the mat, as an SVG of true size."""
    across_mm, up_mm = mat.outside[0].exact_mm, mat.outside[1].exact_mm
    leaf = Leaf(
        across_mm=across_mm + 2 * MARGIN_MM,
        up_mm=up_mm + 2 * MARGIN_MM,
        left_mm=0,
        top_mm=0,
        right_mm=across_mm,
        bottom_mm=up_mm,
        says="one leaf",
    )
    return _draw(mat, leaf, "template")


def _leaves(mat: MatDrawing, across_mm: float, up_mm: float) -> Iterator[Leaf]:
    room_across_mm, room_up_mm = across_mm - 2 * MARGIN_MM, up_mm - 2 * MARGIN_MM
    columns = ceil((mat.outside[0].exact_mm - TOLERANCE_MM) / room_across_mm)
    rows = ceil((mat.outside[1].exact_mm - TOLERANCE_MM) / room_up_mm)
    if columns * rows > MOST_LEAVES:
        raise ImpossibleSize(f"Too large for {MOST_LEAVES} leaves: choose a larger paper, or one file.")
    for row in range(rows):
        for column in range(columns):
            yield Leaf(
                across_mm=across_mm,
                up_mm=up_mm,
                left_mm=column * room_across_mm,
                top_mm=row * room_up_mm,
                right_mm=(column + 1) * room_across_mm,
                bottom_mm=(row + 1) * room_up_mm,
                says=f"row {row + 1} of {rows}, leaf {column + 1} of {columns}",
            )


def _draw(mat: MatDrawing, leaf: Leaf, name: str) -> str:
    title = f"Template of {mat.name} at true size, {mat.side}, {leaf.says}"
    pen = Pen(name=name, across_mm=leaf.across_mm, up_mm=leaf.up_mm, title=title, inline=False)
    _draw_round(mat, mat.size_mm, mat.middle_mm, leaf, pen)
    for number, drawn in enumerate(mat.windows, start=1):
        _draw_window(mat, drawn, number, leaf, pen)
    frame = rectangle(MARGIN_MM, MARGIN_MM, leaf.across_mm - MARGIN_MM, leaf.up_mm - MARGIN_MM)
    pen.line(frame, Role.HIDDEN)
    _draw_bars(mat, leaf, pen)
    pen.text(f"{mat.name}: {mat.side}; {leaf.says}"[:90], (MARGIN_MM, MARGIN_MM - 4))
    return pen.svg()


def _draw_window(mat: MatDrawing, drawn: DrawnWindow, number: int, leaf: Leaf, pen: Pen) -> None:
    window, up_mm = drawn.window, mat.outside[1].exact_mm
    for start, end in _draw_round(mat, drawn.size_mm, drawn.middle_mm, leaf, pen):
        _draw_line(pen, leaf, *_run_on(start, end), Role.EDGE)
    middle = (window.left_mm + window.across_mm / 2, up_mm - window.bottom_mm - window.up_mm / 2)
    if leaf.holds(middle):
        x, y = leaf.inside(middle)
        pen.text(f"{number}", (x, y), anchor="middle", role=Role.STRONG)
        pen.text(f"{drawn.says} {mat.unit}", (x, y + LETTER_MM + 1.5), anchor="middle")
        pen.text(mat.side, (x, y + 2 * LETTER_MM + 3), anchor="middle", role=Role.FAINT)


def _draw_round(mat: MatDrawing, size_mm: Size, middle_mm: Point, leaf: Leaf, pen: Pen) -> list[Edge]:
    """Draw the outline of the mat or of a window, and tell its edges."""
    (x, y), up_mm = middle_mm, mat.outside[1].exact_mm
    corners = [(x + right, up_mm - y - up) for right, up in mat.shape.corners(*size_mm)]
    edges = list(pairwise((*corners, corners[0])))
    for start, end in edges:
        _draw_line(pen, leaf, start, end, Role.OUTLINE)
    return edges


def _run_on(start: Point, end: Point) -> Edge:
    """An edge that runs on past its corners."""
    long_mm = hypot(end[0] - start[0], end[1] - start[1])
    right, down = ((end[at] - start[at]) * CROSS_MM / long_mm for at in (0, 1))
    return (start[0] - right, start[1] - down), (end[0] + right, end[1] + down)


def _draw_line(pen: Pen, leaf: Leaf, start: Point, end: Point, role: Role) -> None:
    """A line, as far as it lies on the leaf."""
    if part := _on_leaf(leaf, start, end):
        first, last = (tuple(a + ratio * (b - a) for a, b in zip(start, end, strict=True)) for ratio in part)
        pen.line(run([leaf.at((first[0], first[1])), leaf.at((last[0], last[1]))]), role)


def _on_leaf(leaf: Leaf, start: Point, end: Point) -> tuple[float, float] | None:
    """The part of a line that lies on a leaf, in fractions of it; none that is too short to see."""
    begins, ends, far_mm = 0.0, 1.0, hypot(end[0] - start[0], end[1] - start[1])
    for at, low, high in ((0, leaf.left_mm, leaf.right_mm), (1, leaf.top_mm, leaf.bottom_mm)):
        goes_mm = end[at] - start[at]
        if abs(goes_mm) <= TOLERANCE_MM:
            if not low <= start[at] <= high:
                return None
            continue
        meets = sorted(((low - start[at]) / goes_mm, (high - start[at]) / goes_mm))
        begins, ends = max(begins, meets[0]), min(ends, meets[1])
    return (begins, ends) if (ends - begins) * far_mm > TOLERANCE_MM else None


def _draw_bars(mat: MatDrawing, leaf: Leaf, pen: Pen) -> None:
    """A scale bar across in the lower margin and one up in the left one, and how long they must print."""
    long_mm, says = (100.0, "100 mm") if mat.unit is Unit.MM else (4 * float(MM_PER_INCH), "4 inches")
    low_mm = leaf.up_mm - MARGIN_MM + 5
    pen.area(rectangle(MARGIN_MM, low_mm, MARGIN_MM + long_mm / 2, low_mm + 1.2), Role.BAR)
    pen.line(rectangle(MARGIN_MM, low_mm, MARGIN_MM + long_mm, low_mm + 1.2), Role.EDGE)
    left_mm, foot_mm = MARGIN_MM - 5, leaf.up_mm - MARGIN_MM
    pen.area(rectangle(left_mm - 1.2, foot_mm - long_mm / 2, left_mm, foot_mm), Role.BAR)
    pen.line(rectangle(left_mm - 1.2, foot_mm - long_mm, left_mm, foot_mm), Role.EDGE)
    pen.text(f"Both bars print {says} long", (MARGIN_MM, low_mm + 5.6))
