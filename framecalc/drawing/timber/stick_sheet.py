"""The cutting plan on paper: sticks and boards under each other, on as many sheets as they need, at stated scales.

Lengths and widths have a scale each, both standard scales and both shown by a bar to measure. Pieces that have no
room for their name carry a number, and a key under their stick explains it.
"""

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from math import ceil

from framecalc.drawing.lettering import shortened, text_across_mm
from framecalc.drawing.pen import Pen, rectangle
from framecalc.drawing.sheet import (
    BINDING_MM,
    INCH_SCALES,
    ISO_SCALES,
    MARGIN_MM,
    PAPERS,
    Sheet,
    TitleBlock,
    bar_length,
    draw_border,
    draw_title_block,
    fit_scale,
    ratio_text,
)
from framecalc.drawing.style import Role
from framecalc.drawing.timber.cuts import DrawnCut
from framecalc.drawing.timber.strip import CutView, draw_cut, letter_on_paper, words_fit
from framecalc.records import Record, replace
from framecalc.units import MM_PER_UNIT, Unit

TITLE_MM, APART_MM = 5.5, 4.5
"""Room for the title over a cut, and between two cuts."""

LEAST_STRIP_MM = 5.4
"""No strip is drawn lower than this, so that letters stand in it."""

MOST_STRIP_MM = 32.0
"""Nor is one drawn higher than this, however empty the sheet."""

LINE_MM, GUTTER_MM = 4.6, 6.0
"""A line of the key, and the room between its columns."""


class Scales(Record):
    """The scale of the lengths and that of the widths."""

    along: float
    across: float

    @property
    def text(self) -> str:
        """Both scales as a sheet prints them."""
        return f"along {ratio_text(self.along)}, across {ratio_text(self.across)}"


def sheets_of(cuts: Sequence[DrawnCut], *, paper: str) -> tuple[tuple[DrawnCut, ...], ...]:
    """Lay cuts on sheets of paper, in their order.

    Args:
        paper: one of PAPERS.
    Source: derived.
    """
    return _packed(cuts, _scales(cuts, PAPERS[paper]), PAPERS[paper])


def _packed(cuts: Sequence[DrawnCut], scales: Scales, sheet: Sheet) -> tuple[tuple[DrawnCut, ...], ...]:
    """The cuts one under the other, a sheet at a time."""
    sheets, used_mm = [[cuts[0]]], _row_mm(cuts[0], scales, sheet)
    for cut in cuts[1:]:
        row_mm = _row_mm(cut, scales, sheet)
        used_mm += row_mm
        if used_mm > sheet.room.up_mm:
            sheets.append([])
            used_mm = row_mm
        sheets[-1].append(cut)
    return tuple(map(tuple, sheets))


@lru_cache(maxsize=64)
def draw_stick_sheet(cuts: tuple[DrawnCut, ...], *, number: int, paper: str, block: TitleBlock) -> str:
    """Draw one sheet of a cutting plan, as an SVG file of true size.

    Args:
        cuts: all cuts of the plan, so that every sheet has the same scales.
        number: which sheet, from 1 on.
        paper: one of PAPERS.
    Raises:
        IndexError: there is no such sheet.
    Source: derived.
    """
    sheet, scales = PAPERS[paper], _scales(cuts, PAPERS[paper])
    drawn = sheets_of(cuts, paper=paper)[number - 1]
    title = f"{block.project}, {block.frame}: {'; '.join(cut.title for cut in drawn)}"
    pen = Pen(name="cutting-plan", across_mm=sheet.across_mm, up_mm=sheet.up_mm, title=title, inline=False)
    draw_border(pen, sheet)
    top_mm = sheet.room.top_mm
    for cut in drawn:
        pen.text(
            shortened(cut.title, to_mm=sheet.room.across_mm, bold=True),
            (sheet.room.left_mm, top_mm + 3.5),
            role=Role.STRONG,
        )
        view = CutView(
            left_mm=sheet.room.left_mm,
            top_mm=top_mm + TITLE_MM,
            along=scales.along,
            across=scales.across,
        )
        draw_cut(pen, cut, view)
        letter_on_paper(pen, cut, view)
        _draw_key(pen, _key_of(cut, scales, sheet), left_mm=view.left_mm, top_mm=view.y(cut.width_mm))
        top_mm += _row_mm(cut, scales, sheet)
    draw_title_block(pen, sheet, block=block, scale=scales.text)
    _draw_bars(pen, sheet, scales, block.unit)
    return pen.svg()


def _scales(cuts: Sequence[DrawnCut], sheet: Sheet) -> Scales:
    """The largest scale that holds the longest cut; across it the largest that takes no more sheets than need be."""
    unit, room = cuts[0].unit, sheet.room
    along = fit_scale(room.across_mm / max(cut.length_mm for cut in cuts), sheet=sheet, unit=unit)
    wide_mm = max(cut.width_mm for cut in cuts)
    highest = fit_scale((room.up_mm - TITLE_MM - APART_MM) / wide_mm, sheet=sheet, unit=unit)
    wanted = max(along, LEAST_STRIP_MM / min(cut.strip_mm for cut in cuts))
    rising = tuple(reversed(ISO_SCALES if unit is Unit.MM else INCH_SCALES))
    least = Scales(along=along, across=min(next((scale for scale in rising if scale >= wanted), highest), highest))
    most = MOST_STRIP_MM / max(cut.strip_mm for cut in cuts)
    larger = (replace(least, across=scale) for scale in rising if least.across < scale <= min(most, highest))
    sheets = len(_packed(cuts, least, sheet))
    return max(
        (scales for scales in larger if len(_packed(cuts, scales, sheet)) == sheets),
        key=lambda scales: scales.across,
        default=least,
    )


def _row_mm(cut: DrawnCut, scales: Scales, sheet: Sheet) -> float:
    return TITLE_MM + cut.width_mm * scales.across + _key_of(cut, scales, sheet).up_mm + APART_MM


class _Key(Record):
    """The key to the numbers on the pieces of a cut, in columns read downward."""

    lines: tuple[str, ...] = ()
    column_mm: float = 0.0
    rows: int = 0

    @property
    def up_mm(self) -> float:
        return self.rows * LINE_MM + (1.0 if self.rows else 0.0)


@lru_cache(maxsize=512)
def _key_of(cut: DrawnCut, scales: Scales, sheet: Sheet) -> _Key:
    """No key where every piece has room for its words; one that is too long for its sheet gets narrower columns."""
    if words_fit(cut, along=scales.along):
        return _Key()
    lines = tuple(f"{piece.number}: {piece.words}" for strip in cut.strips for piece in strip.pieces)
    side_by_side = int(sheet.room.across_mm / (max(map(text_across_mm, lines)) + GUTTER_MM))
    free_mm = sheet.room.up_mm - TITLE_MM - cut.width_mm * scales.across - APART_MM
    columns = max(1, side_by_side, ceil(len(lines) / max(1, int(free_mm / LINE_MM))))
    return _Key(lines=lines, column_mm=sheet.room.across_mm / columns, rows=ceil(len(lines) / columns))


def _draw_key(pen: Pen, key: _Key, *, left_mm: float, top_mm: float) -> None:
    for place, line in enumerate(key.lines):
        column, row = divmod(place, key.rows)
        at = (left_mm + column * key.column_mm, top_mm + (row + 1) * LINE_MM)
        pen.text(shortened(line, to_mm=key.column_mm - GUTTER_MM / 2), at)


def _draw_bars(pen: Pen, sheet: Sheet, scales: Scales, unit: Unit) -> None:
    """A bar for lengths and an upright one for widths, each with its length."""
    x, y = BINDING_MM + 5, sheet.up_mm - MARGIN_MM - 5
    along, across = (_bar(scale, unit, longest_mm) for scale, longest_mm in ((scales.along, 55), (scales.across, 14)))
    pen.area(rectangle(x, y - 1, x + along[1] / 2, y), Role.BAR)
    pen.area(rectangle(x, y - across[1] / 2, x + 1, y), Role.BAR)
    pen.line(rectangle(x, y - 1, x + along[1], y) + rectangle(x, y - across[1], x + 1, y), Role.EDGE)
    pen.text(f"across: {across[0]}", (x + 3, y - 8))
    pen.text(f"along: {along[0]}", (x + 3, y - 3))


def _bar(scale: float, unit: Unit, longest_mm: float) -> tuple[str, float]:
    """The text of a bar, and its length on the sheet [mm]."""
    length: Fraction = bar_length(scale, unit, longest_mm=longest_mm)
    printed = length * Fraction(scale).limit_denominator(1000)
    long_mm = float(length * MM_PER_UNIT[unit]) * scale
    return f"{float(length):g} {unit.value} prints {float(printed):g} {unit.value}", long_mm
