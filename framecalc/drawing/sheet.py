"""Sheets: the layout of a drawing, its scale, and its margin.

A *sheet* is a panel of the screen or a paper; one unit of it is one millimetre. On a paper the scale is one of the
standard's (or, in an inch project, full size, half, quarter, …) and is stated; on a panel it is whatever fills the
panel, and only a scale bar shows it. A *view* places the work on the sheet: the work's y runs up, the sheet's down.
"""

from collections.abc import Sequence
from fractions import Fraction

from framecalc.drawing.lettering import shortened, text_across_mm
from framecalc.drawing.pen import Pen, rectangle
from framecalc.drawing.style import FIGURE_MM, LETTER_MM, Role
from framecalc.geometry.outline import Point
from framecalc.records import Record
from framecalc.units import MM_PER_UNIT, Unit

ISO_SCALES = (10, 5, 2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50, 1 / 100)
"""Source: ISO 5455:1979, from memory, not re-read."""

INCH_SCALES = (8, 4, 2, 1, 1 / 2, 1 / 4, 1 / 8, 1 / 12, 1 / 16, 1 / 24, 1 / 32, 1 / 64)
"""Full size, half, quarter, eighth, as inch rules are divided; inches to the foot. Common practice, no source."""

MARGIN_MM, BINDING_MM = 10.0, 20.0
"""Border of a paper sheet, and its wider left side for filing. Source: ISO 5457:1999, from memory, not re-read."""

BLOCK_ACROSS_MM, BLOCK_ROW_MM, BLOCK_ROWS = 112.0, 8.5, 3
_UNIT_WORDS = {Unit.MM: "mm", Unit.INCH: "inches"}
_BARS: dict[Unit, tuple[Fraction, ...]] = {
    Unit.MM: tuple(Fraction(n * power) for power in (1, 10, 100, 1000) for n in (1, 2, 5)),
    Unit.INCH: tuple(Fraction(n) for n in ("1/8", "1/4", "1/2", "1", "2", "4", "6", "12", "24", "48", "96")),
}


class Area(Record):
    """An upright part of a sheet."""

    left_mm: float
    top_mm: float
    right_mm: float
    bottom_mm: float

    @property
    def across_mm(self) -> float:
        """Its width."""
        return self.right_mm - self.left_mm

    @property
    def up_mm(self) -> float:
        """Its height."""
        return self.bottom_mm - self.top_mm

    def less(self, *, left_mm: float = 0, top_mm: float = 0, right_mm: float = 0, bottom_mm: float = 0) -> "Area":
        """What is left inside margins."""
        return Area(
            left_mm=self.left_mm + left_mm,
            top_mm=self.top_mm + top_mm,
            right_mm=self.right_mm - right_mm,
            bottom_mm=self.bottom_mm - bottom_mm,
        )


class Sheet(Record):
    """A panel or a paper: its size, and the distances of dimension lines from the shape and from each other."""

    across_mm: float
    up_mm: float
    is_paper: bool = False
    first_lane_mm: float = 5.6
    lane_mm: float = 4.9

    @property
    def figure_mm(self) -> float:
        """The type size of its figures."""
        return FIGURE_MM if self.is_paper else LETTER_MM

    @property
    def whole(self) -> Area:
        """All of it."""
        return Area(left_mm=0, top_mm=0, right_mm=self.across_mm, bottom_mm=self.up_mm)

    @property
    def room(self) -> Area:
        """The area for a drawing: inside the border and above the title block, or the panel less its scale bar."""
        if self.is_paper:
            foot_mm = MARGIN_MM + BLOCK_ROW_MM * BLOCK_ROWS + 4
            return self.whole.less(
                left_mm=BINDING_MM + 5, top_mm=MARGIN_MM + 5, right_mm=MARGIN_MM + 5, bottom_mm=foot_mm
            )
        return Area(left_mm=1, top_mm=1.2, right_mm=self.across_mm - 1.2, bottom_mm=self.up_mm - 6)

    def lane(self, number: int) -> float:
        """The distance of a lane's dimension line from the shape; lane 0 is the nearest."""
        return self.first_lane_mm + number * self.lane_mm

    def lane_above(self, number: int) -> float:
        """The same above the shape, where the letters stand on the far side of the line."""
        return self.lane(number) - LETTER_MM * 0.75

    def lanes_above(self, count: int) -> float:
        """The height of `count` lanes above a shape, with their letters."""
        return self.lane_above(count - 1) + self.figure_mm + 1.0 if count else 0.0

    def lanes(self, count: int) -> float:
        """The width of `count` lanes beside a shape, with their letters."""
        return self.lane(count - 1) + 1.6 if count else 0.0


class View(Record):
    """The view of the work on the sheet: a scale, and the place of the work's origin."""

    scale: float
    left_mm: float
    base_mm: float

    def x(self, x_mm: float) -> float:
        """A place across, on the sheet."""
        return self.left_mm + x_mm * self.scale

    def y(self, y_mm: float) -> float:
        """A place up, on the sheet."""
        return self.base_mm - y_mm * self.scale

    def at(self, point: Point) -> Point:
        """A point on the sheet."""
        return self.x(point[0]), self.y(point[1])

    def rectangle(self, left_mm: float, bottom_mm: float, right_mm: float, top_mm: float) -> str:
        """Path data of an upright rectangle of the work."""
        return rectangle(self.x(left_mm), self.y(top_mm), self.x(right_mm), self.y(bottom_mm))


class TitleBlock(Record):
    """The contents of a paper's title block; `shop` is the name of the shop, if it has one."""

    project: str
    frame: str
    drawing: str
    revision: str
    date: str
    unit: Unit
    shop: str = ""


def panel(across_mm: float, up_mm: float) -> Sheet:
    """A panel of the screen."""
    return Sheet(across_mm=across_mm, up_mm=up_mm)


def _paper(across_mm: float, up_mm: float) -> Sheet:
    return Sheet(across_mm=across_mm, up_mm=up_mm, is_paper=True, first_lane_mm=9, lane_mm=7.5)


_SHORT_LONG_MM = {"a4": (210.0, 297.0), "a3": (297.0, 420.0), "letter": (215.9, 279.4), "tabloid": (279.4, 431.8)}
PAPERS = {name: _paper(long_mm, short_mm) for name, (short_mm, long_mm) in _SHORT_LONG_MM.items()} | {
    f"{name}-portrait": _paper(short_mm, long_mm) for name, (short_mm, long_mm) in _SHORT_LONG_MM.items()
}
"""The papers by name, lying unless they say otherwise. Source: ISO 216:2007; ANSI/ASME Y14.1, A and B; from memory."""


def usual_paper(unit: Unit) -> str:
    """The paper that is at hand where a unit is used: A4, or Letter in an inch shop (common practice, no source).

    >>> usual_paper(Unit.MM), usual_paper(Unit.INCH)
    ('a4', 'letter')
    """
    return "letter" if unit is Unit.INCH else "a4"


def fit_scale(largest: float, *, sheet: Sheet, unit: Unit) -> float:
    """The scale to draw at: `largest`, which just fills the room; on paper the next standard scale below it.

    >>> fit_scale(0.41, sheet=PAPERS["a4"], unit=Unit.MM), fit_scale(0.41, sheet=PAPERS["a4"], unit=Unit.INCH)
    (0.2, 0.25)
    """
    if not sheet.is_paper:
        return largest
    scales = ISO_SCALES if unit is Unit.MM else INCH_SCALES
    return next((scale for scale in scales if scale <= largest * 1.000001), largest)


def scale_text(scale: float, unit: Unit) -> str:
    """The scale of a sheet in words.

    >>> scale_text(0.5, Unit.MM), scale_text(0.25, Unit.INCH), scale_text(2, Unit.MM)
    ('scale 1:2', 'quarter size (1:4)', 'scale 2:1')
    """
    word = {1: "full", 1 / 2: "half", 1 / 4: "quarter", 1 / 8: "eighth"}.get(scale, "")
    return f"{word} size ({ratio_text(scale)})" if word and unit is Unit.INCH else f"scale {ratio_text(scale)}"


def ratio_text(scale: float) -> str:
    """A scale as a ratio.

    >>> ratio_text(0.2), ratio_text(5)
    ('1:5', '5:1')
    """
    return f"{scale:g}:1" if scale >= 1 else f"1:{1 / scale:.3g}"


def draw_scale_bar(pen: Pen, sheet: Sheet, *, scale: float, unit: Unit) -> None:
    """Draw the scale bar of a panel in its lower left corner; its text says the unit of the drawing."""
    length = bar_length(scale, unit, longest_mm=22)
    x, y = 1.0, sheet.up_mm - 1.2
    across_mm = float(length * MM_PER_UNIT[unit]) * scale
    pen.area(rectangle(x, y - 1.1, x + across_mm / 2, y), Role.BAR)
    pen.line(rectangle(x, y - 1.1, x + across_mm, y), Role.EDGE)
    pen.text(_length_text(length, unit), (x + across_mm + 1.6, y + 0.2), role=Role.FAINT)


def bar_length(scale: float, unit: Unit, *, longest_mm: float) -> Fraction:
    """The longest round length in the unit whose bar is at most `longest_mm` on the sheet.

    >>> bar_length(0.2, Unit.MM, longest_mm=60), bar_length(0.25, Unit.INCH, longest_mm=60)
    (Fraction(200, 1), Fraction(6, 1))
    """
    fitting = (bar for bar in reversed(_BARS[unit]) if float(bar * MM_PER_UNIT[unit]) * scale <= longest_mm)
    return next(fitting, _BARS[unit][0])


def draw_paper_bars(pen: Pen, sheet: Sheet, *, scale: float, unit: Unit, of: str) -> None:
    """Draw scale bars across and up in the lower left corner of a paper, with their lengths in print.

    `of` names their drawing, if a sheet holds several.
    """
    length = bar_length(scale, unit, longest_mm=55)
    long_mm = float(length * MM_PER_UNIT[unit]) * scale
    x, y = BINDING_MM + 5, sheet.up_mm - MARGIN_MM - 5
    pen.area(rectangle(x, y - 1, x + long_mm / 2, y), Role.BAR)
    pen.area(rectangle(x, y - long_mm / 2, x + 1, y), Role.BAR)
    pen.line(rectangle(x, y - 1, x + long_mm, y) + rectangle(x, y - long_mm, x + 1, y), Role.EDGE)
    printed = length * Fraction(scale).limit_denominator(1000)
    pen.text(f"{of} {_length_text(length, unit)}".lstrip(), (x + 3, y - 8))
    pen.text(f"prints {_length_text(printed, unit)} long", (x + 3, y - 3), role=Role.FAINT)


def _length_text(length: Fraction, unit: Unit) -> str:
    word = "inch" if unit is Unit.INCH and length <= 1 else _UNIT_WORDS[unit]
    whole, part = divmod(length, 1)
    if unit is Unit.MM or not part:
        return f"{float(length):g} {word}"
    return f"{whole} {part} {word}" if whole else f"{part} {word}"


def draw_border(pen: Pen, sheet: Sheet) -> None:
    """Draw the border of a paper."""
    frame = rectangle(BINDING_MM, MARGIN_MM, sheet.across_mm - MARGIN_MM, sheet.up_mm - MARGIN_MM)
    pen.line(frame, Role.FRAME)


def draw_title_block(pen: Pen, sheet: Sheet, *, block: TitleBlock, scale: str) -> None:
    """Draw the title block in the lower right corner of a paper.

    Source: ISO 7200:2004 (what a block holds), from memory, not re-read.
    """
    right, bottom = sheet.across_mm - MARGIN_MM, sheet.up_mm - MARGIN_MM
    up_mm = BLOCK_ROW_MM * BLOCK_ROWS
    left, top = right - BLOCK_ACROSS_MM, bottom - up_mm
    pen.line(rectangle(left, top, right, bottom), Role.FRAME)
    rows = _rows(block, scale)
    row_mm = up_mm / len(rows)
    for row, cells in enumerate(rows):
        _draw_row(pen, cells, left_mm=left, top_mm=top + row * row_mm, row_mm=row_mm)


def _rows(block: TitleBlock, scale: str) -> Sequence[Sequence[tuple[str, float]]]:
    """The cells of a title block with their widths; with the name of a shop there are four rows, else three."""
    scale_mm = max(52.0, text_across_mm(scale) + 3)  # a scale is never cut: what is called may be
    rows: list[tuple[tuple[str, float], ...]] = [
        ((block.project, 60.0), (block.drawing, 52.0)),
        ((block.frame, BLOCK_ACROSS_MM - scale_mm), (scale, scale_mm)),
        ((block.revision, 32.0), (block.date, 28.0), (f"sizes in {_UNIT_WORDS[block.unit]}", 52.0)),
    ]
    return [((block.shop, BLOCK_ACROSS_MM),), *rows] if block.shop else rows


def _draw_row(pen: Pen, cells: Sequence[tuple[str, float]], *, left_mm: float, top_mm: float, row_mm: float) -> None:
    """One row of a title block."""
    for text, across_mm in cells:
        pen.line(rectangle(left_mm, top_mm, left_mm + across_mm, top_mm + row_mm), Role.EDGE)
        base = (left_mm + 1.5, top_mm + row_mm / 2 + LETTER_MM * 0.36)
        pen.text(shortened(text, to_mm=across_mm - 3), base)
        left_mm += across_mm
