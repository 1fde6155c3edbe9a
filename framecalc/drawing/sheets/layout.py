"""A sheet layout: one sheet to scale with its parts, its numbered cuts, trim, kerf and left-overs.

Grey is lost, pale is left over; a blue line is a cut, from edge to edge of its piece, and its number gives the
order.
"""

from collections.abc import Iterator
from functools import lru_cache

from framecalc.drawing.dimension import Axis, DimensionSpan, beyond_mm, draw_dimension
from framecalc.drawing.lettering import shortened
from framecalc.drawing.pen import Pen, rectangle, run
from framecalc.drawing.sheet import (
    PAPERS,
    Area,
    Sheet,
    TitleBlock,
    View,
    draw_border,
    draw_paper_bars,
    draw_scale_bar,
    draw_title_block,
    fit_scale,
    panel,
    scale_text,
)
from framecalc.drawing.sheets.labels import LINE_MM, Labels, SheetLabel, Tag, label_sheet
from framecalc.drawing.style import CAPITAL_RATIO, LETTER_MM, LOOKS, Role
from framecalc.geometry.outline import Point
from framecalc.plan.figures import fine_figure
from framecalc.records import Record, replace
from framecalc.sheets.answer import CutSheet, SheetCut
from framecalc.sheets.materials import SheetCutting
from framecalc.units import Unit, describe_size

PANEL_ACROSS_MM, MOST_UP_MM = 100.0, 118.0
"""The panel's width, and how high a sheet is drawn at most: letters stay 12 px on a telephone."""

LEFT_MM = 10.4
"""Room beside the sheet for its height."""

BESIDE_BAR_MM = 5.0
"""Kept free on paper for the scale bar that stands in its lower left corner."""

LIST_GAP_MM, LEAST_LIST_MM = 9.0, 80.0
"""Between a sheet and the list of its cuts, and how wide that list is at least."""

_GROUND = {
    SheetCutting.GLASS: LOOKS[Role.PICTURE].fill,
    SheetCutting.PLASTIC: LOOKS[Role.PICTURE].fill,
    SheetCutting.BOARD: "#ffffff",
    SheetCutting.PANEL: LOOKS[Role.WOOD].fill,
}
"""The colour of a part, by how it is cut."""


class DrawnSheet(Record):
    """One sheet of a layout to draw: its number and count, its material, its trim; what its left-overs are called."""

    sheet: CutSheet
    number: int
    of: int
    material: str
    cutting: SheetCutting
    trim_mm: float
    unit: Unit
    off_cut: str = "off-cut"

    @property
    def title(self) -> str:
        """The title of the drawing, in words."""
        size = describe_size(self.sheet.stock.across_mm, self.sheet.stock.up_mm, unit=self.unit)
        parts = len(self.sheet.parts)
        return f"{self.material}, sheet {self.number} of {self.of}: {size}, {parts} part{'s' if parts != 1 else ''}"


@lru_cache(maxsize=256)
def draw_layout_panel(drawn: DrawnSheet, *, name: str) -> str:
    """Draw a sheet as SVG for a page.

    Args:
        name: the drawing's own name in its page, from which its ids are made.
    """
    stock = drawn.sheet.stock
    flat = panel(PANEL_ACROSS_MM, MOST_UP_MM)
    top_mm = flat.lanes_above(1) + 1
    scale = min((PANEL_ACROSS_MM - LEFT_MM - 1.5) / stock.across_mm, MOST_UP_MM / stock.up_mm)
    view = View(scale=scale, left_mm=LEFT_MM, base_mm=top_mm + stock.up_mm * scale)
    labels = label_sheet(drawn.sheet, view, unit=drawn.unit, off_cut=drawn.off_cut, legend_mm=PANEL_ACROSS_MM - 2)
    legend_mm = view.base_mm + 2 + beyond_mm([_up_span(drawn, view)], flat)
    sheet = replace(flat, up_mm=legend_mm + len(labels.legend) * LINE_MM + 6)
    pen = Pen(name=name, across_mm=sheet.across_mm, up_mm=sheet.up_mm, title=drawn.title, inline=True)
    _draw(pen, drawn, sheet, view, labels)
    _draw_legend(pen, labels, left_mm=1, top_mm=legend_mm)
    draw_scale_bar(pen, sheet, scale=scale, unit=drawn.unit)
    return pen.svg()


@lru_cache(maxsize=32)
def draw_layout_paper(drawn: DrawnSheet, *, block: TitleBlock, paper: str, cuts: tuple[str, ...] = ()) -> str:
    """Draw a sheet on a paper of its own, as an SVG file at a stated scale.

    Args:
        block: the contents of the title block.
        paper: one of PAPERS.
        cuts: the cuts in words, in their order; they stand beside the sheet or under it, whichever has more room.
    Raises:
        KeyError: there is no such paper.
    """
    sheet = PAPERS[paper]
    view, labels, room = _on_paper(drawn, sheet)
    pen = Pen(name="layout", across_mm=sheet.across_mm, up_mm=sheet.up_mm, title=drawn.title, inline=False)
    draw_border(pen, sheet)
    _draw(pen, drawn, sheet, view, labels)
    _draw_legend(pen, labels, left_mm=room.left_mm, top_mm=room.bottom_mm)
    _draw_list(pen, cuts, _beside(drawn, view, room, sheet))
    draw_title_block(pen, sheet, block=block, scale=scale_text(view.scale, drawn.unit))
    draw_paper_bars(pen, sheet, scale=view.scale, unit=drawn.unit, of="")
    return pen.svg()


def _on_paper(drawn: DrawnSheet, sheet: Sheet) -> tuple[View, Labels, Area]:
    """Lay a sheet out on paper: the legend takes of its room, and a smaller drawing may need a longer legend."""
    stock, lines = drawn.sheet.stock, 0
    while True:
        room = sheet.room.less(left_mm=BESIDE_BAR_MM, bottom_mm=lines * LINE_MM + 2)
        inner = room.less(left_mm=sheet.lanes(1), top_mm=sheet.lanes_above(1))
        largest = min(inner.across_mm / stock.across_mm, inner.up_mm / stock.up_mm)
        scale = fit_scale(largest, sheet=sheet, unit=drawn.unit)
        view = View(scale=scale, left_mm=inner.left_mm, base_mm=inner.top_mm + stock.up_mm * scale)
        labels = label_sheet(drawn.sheet, view, unit=drawn.unit, off_cut=drawn.off_cut, legend_mm=room.across_mm)
        if len(labels.legend) <= lines:
            return view, labels, room
        lines = len(labels.legend)


def _draw(pen: Pen, drawn: DrawnSheet, sheet: Sheet, view: View, labels: Labels) -> None:
    _draw_areas(pen, drawn, view)
    _draw_cuts(pen, drawn.sheet.cuts, view, labels.tags)
    stock = drawn.sheet.stock
    pen.line(view.rectangle(0, 0, stock.across_mm, stock.up_mm), Role.OUTLINE)
    for label in labels.parts:
        _write(pen, label, Role.LETTER)
    for label in labels.left_overs:
        _write(pen, label, Role.FAINT)
    _draw_size(pen, drawn, sheet, view)


def _draw_areas(pen: Pen, drawn: DrawnSheet, view: View) -> None:
    """Draw the waste below everything, over it the left-overs and the parts."""
    stock = drawn.sheet.stock
    pen.area(view.rectangle(0, 0, stock.across_mm, stock.up_mm), Role.SHADOW)
    left_overs = drawn.sheet.left_overs
    paths = [view.rectangle(one.x_mm, one.y_mm, one.x_mm + one.across_mm, one.y_mm + one.up_mm) for one in left_overs]
    if paths:
        pen.area("".join(paths), Role.MAT)
    parts = drawn.sheet.parts
    paths = [view.rectangle(one.x_mm, one.y_mm, one.x_mm + one.across_mm, one.y_mm + one.up_mm) for one in parts]
    pen.area("".join(paths), Role.THIN, fill=_GROUND[drawn.cutting] or "")


def _draw_cuts(pen: Pen, cuts: tuple[SheetCut, ...], view: View, tags: dict[int, Tag]) -> None:
    for cut in cuts:
        tag = tags.get(cut.number)
        for piece in _pieces(view.at(cut.start), view.at(cut.end), tag):
            pen.line(run(piece), Role.GIVEN)
        if tag:
            box = tag.box
            pen.line(rectangle(box.left_mm, box.top_mm, box.right_mm, box.bottom_mm), Role.GIVEN)
            pen.text(tag.text, _base(_middle(box)), anchor="middle", role=Role.GIVEN_LETTER)


def _pieces(start: Point, end: Point, tag: Tag | None) -> Iterator[tuple[Point, Point]]:
    """The line of a cut, left out inside its own tag."""
    if tag is None:
        yield start, end
        return
    box = tag.box
    if start[0] == end[0]:
        yield start, (start[0], box.bottom_mm if start[1] > end[1] else box.top_mm)
        yield (start[0], box.top_mm if start[1] > end[1] else box.bottom_mm), end
    else:
        yield start, (box.left_mm, start[1])
        yield (box.right_mm, start[1]), end


def _write(pen: Pen, label: SheetLabel, role: Role) -> None:
    """Lines of letters, one under the other, around their middle; turned ones run up from line to line to the right."""
    first = -(len(label.lines) - 1) / 2
    for number, line in enumerate(label.lines):
        off_mm = (first + number) * LINE_MM
        x_mm, y_mm = label.middle
        place = (x_mm + off_mm, y_mm) if label.is_turned else (x_mm, y_mm + off_mm)
        if label.is_turned:
            pen.text(line, (place[0] + _LETTER_HALF_MM, place[1]), role=role, anchor="middle", turned_deg=-90)
        else:
            pen.text(line, _base(place), role=role, anchor="middle")


_LETTER_HALF_MM = LETTER_MM * CAPITAL_RATIO / 2


def _base(middle: Point) -> Point:
    """The base line of letters whose middle is at a point."""
    return middle[0], middle[1] + _LETTER_HALF_MM


def _middle(box: Area) -> Point:
    return (box.left_mm + box.right_mm) / 2, (box.top_mm + box.bottom_mm) / 2


def _draw_size(pen: Pen, drawn: DrawnSheet, sheet: Sheet, view: View) -> None:
    """The sheet's own size, above it and to its left."""
    across, up = _across_span(drawn, view), _up_span(drawn, view)
    across_mm, up_mm = across.feet_mm[0] - sheet.lane_above(0), up.feet_mm[0] - sheet.lane(0)
    draw_dimension(pen, across, axis=Axis.ACROSS, lane_mm=across_mm, toward=1, limit_mm=across.to_mm)
    draw_dimension(pen, up, axis=Axis.UP, lane_mm=up_mm, toward=1, limit_mm=up.to_mm)


def _across_span(drawn: DrawnSheet, view: View) -> DimensionSpan:
    stock = drawn.sheet.stock
    top_mm = view.y(stock.up_mm)
    figure = fine_figure("sheet_across", "sheet, across", stock.across_mm, unit=drawn.unit)
    return DimensionSpan(from_mm=view.x(0), to_mm=view.x(stock.across_mm), feet_mm=(top_mm, top_mm), figure=figure)


def _up_span(drawn: DrawnSheet, view: View) -> DimensionSpan:
    stock = drawn.sheet.stock
    left_mm = view.x(0)
    figure = fine_figure("sheet_up", "sheet, up", stock.up_mm, unit=drawn.unit)
    return DimensionSpan(from_mm=view.y(stock.up_mm), to_mm=view.y(0), feet_mm=(left_mm, left_mm), figure=figure)


def _draw_legend(pen: Pen, labels: Labels, *, left_mm: float, top_mm: float) -> None:
    for number, line in enumerate(labels.legend, start=1):
        pen.text(line, (left_mm, top_mm + number * LINE_MM - 0.6), role=Role.FAINT)


def _beside(drawn: DrawnSheet, view: View, room: Area, sheet: Sheet) -> Area:
    """The larger of the rooms to the right of a sheet and under it."""
    stock = drawn.sheet.stock
    right_mm, top_mm = view.x(stock.across_mm), view.y(stock.up_mm)
    bottom_mm = view.y(0) + beyond_mm([_up_span(drawn, view)], sheet)
    to_the_right = room.less(left_mm=right_mm + LIST_GAP_MM - room.left_mm, top_mm=top_mm - room.top_mm)
    under = room.less(top_mm=bottom_mm + LIST_GAP_MM - room.top_mm)
    rooms = [one for one in (to_the_right, under) if one.across_mm >= LEAST_LIST_MM]
    return max(rooms, key=lambda one: one.up_mm, default=room.less(top_mm=room.up_mm))


def _draw_list(pen: Pen, lines: tuple[str, ...], room: Area) -> None:
    """Lines of a list, as many as there is room for; the last one says how many are left out."""
    fitting = int(room.up_mm / LINE_MM)
    if len(lines) > fitting:
        lines = (*lines[: max(0, fitting - 1)], f"and {len(lines) - max(0, fitting - 1)} more")[:fitting]
    for number, line in enumerate(lines, start=1):
        pen.text(shortened(line, to_mm=room.across_mm), (room.left_mm, room.top_mm + number * LINE_MM - 1))
