"""The sticks and boards of a cutting plan, one panel each: every piece with its length and its name, and a rule.

Lengths are to scale, shown by the rule from the left end; widths are to a scale of their own. On a wide page a stick
lies along it. On a phone it stands upright: a single strip has its words beside it, a board has them on its pieces.
"""

from collections.abc import Iterator
from functools import lru_cache

from framecalc.drawing.lettering import text_across_mm, wrapped
from framecalc.drawing.pen import Pen, run
from framecalc.drawing.style import CAPITAL_RATIO, LETTER_MM, Role
from framecalc.drawing.timber.cuts import DrawnCut, DrawnLeft, DrawnPiece
from framecalc.drawing.timber.strip import PAD_MM, CutView, draw_cut, places_of, rest_from_mm
from framecalc.geometry.outline import Point
from framecalc.records import Record
from framecalc.units import MM_PER_INCH, Unit

ACROSS_MM, LEFT_MM, LENGTH_MM = 216.0, 1.0, 214.0
"""The panel, where a stick begins on it, and how long it is drawn, whatever its length."""

TOP_MM, STRIP_MM, TALLEST_MM = 6.0, 11.0, 44.0
"""Where a stick begins, how high a strip of it is drawn, and how high a whole board may be."""

RULE_MM, LEAST_STEP_MM = 6.4, 14.5
"""Room for the rule, and how near its figures may stand."""

UPRIGHT_ACROSS_MM, UPRIGHT_LEFT_MM, UPRIGHT_LENGTH_MM = 88.0, 14.0, 130.0
UPRIGHT_TOP_MM, UPRIGHT_STRIP_MM, UPRIGHT_BOARD_MM = 13.0, 15.0, 73.0
"""The same on a phone: the panel, where the stick begins, its length; its top, its width, a board's at most."""

BOLD_ROOM = 0.93
"""The share of a line that letters may fill which are measured as regular ones and written bold."""

BETWEEN_MM = 0.6
"""Between a length and a name on one line, beyond a blank."""

LINE_MM = 4.4
"""From one line of a label to the next."""


class StripLabel(Record):
    """What is written about a stretch of a strip: its length without the unit, and its names, the fullest first."""

    start_mm: float
    end_mm: float
    length: str
    names: tuple[str, ...]


@lru_cache(maxsize=512)
def draw_stick(cut: DrawnCut, *, name: str, is_upright: bool = False) -> str:
    """Draw a stick or a board, as SVG for a page.

    Args:
        name: the start of this drawing's ids, unique on the page.
        is_upright: standing, for a phone.
    """
    view = _upright(cut) if is_upright else _lying(cut)
    across_mm = UPRIGHT_ACROSS_MM if is_upright else ACROSS_MM
    end = view.at(cut.length_mm, cut.width_mm)[1]
    up_mm = end + (3.0 if is_upright else RULE_MM + _over(cut))
    pen = Pen(name=name, across_mm=across_mm, up_mm=up_mm, title=_title(cut), inline=True)
    _write_title(pen, cut.title, across_mm=across_mm - 2, lines=2 if is_upright else 1)
    draw_cut(pen, cut, view)
    is_plain = _is_plain(cut, view)
    for strip, at_mm in places_of(cut):
        for label in _labels(strip.pieces, strip.left, cut, is_plain=is_plain):
            _write(pen, label, cut, view, at_mm)
    _write_rest(pen, cut, view)
    _draw_rule(pen, cut, view)
    return pen.svg()


def _lying(cut: DrawnCut) -> CutView:
    across = min(STRIP_MM / cut.strip_mm, TALLEST_MM / cut.width_mm)
    return CutView(left_mm=LEFT_MM, top_mm=TOP_MM, along=LENGTH_MM / cut.length_mm, across=across)


def _upright(cut: DrawnCut) -> CutView:
    across = min(UPRIGHT_STRIP_MM / cut.strip_mm, UPRIGHT_BOARD_MM / cut.width_mm)
    along = UPRIGHT_LENGTH_MM / cut.length_mm
    return CutView(left_mm=UPRIGHT_LEFT_MM, top_mm=UPRIGHT_TOP_MM, along=along, across=across, is_upright=True)


def _write_title(pen: Pen, title: str, *, across_mm: float, lines: int) -> None:
    """The title over the stick, on as many lines as there are."""
    texts = wrapped(title, to_mm=across_mm * BOLD_ROOM, lines=lines)
    for place, text in enumerate(texts):
        pen.text(text, (LEFT_MM, 4.0 + place * LINE_MM), role=Role.STRONG)


def _over(cut: DrawnCut) -> float:
    """How far crosscuts stand out of the board."""
    return 1.2 if cut.crosscuts else 0.0


def _title(cut: DrawnCut) -> str:
    """What the drawing shows, for who does not see it."""
    pieces = (" ".join((*piece.names[:1], piece.length)) for strip in cut.strips for piece in strip.pieces)
    return f"{cut.title}. {'; '.join(pieces)}"


def _is_plain(cut: DrawnCut, view: CutView) -> bool:
    """Whether the sides alone are written: all pieces are of one frame, and the fullest name of one has no room."""
    pieces = [piece for strip in cut.strips for piece in strip.pieces]
    frames = {piece.names[0].removesuffix(piece.names[-1]) for piece in pieces if piece.names}
    return len(frames) == 1 and not view.is_upright and not all(_has_room(piece, cut, view) for piece in pieces)


def _has_room(piece: DrawnPiece, cut: DrawnCut, view: CutView) -> bool:
    along_mm = (piece.end_mm - piece.start_mm - cut.slope_mm) * view.along
    return not piece.names or text_across_mm(piece.names[0]) <= along_mm - 2 * PAD_MM


def _labels(
    pieces: tuple[DrawnPiece, ...], left: tuple[DrawnLeft, ...], cut: DrawnCut, *, is_plain: bool
) -> Iterator[StripLabel]:
    """What is written on a strip: every piece, and what is left over."""
    for piece in pieces:
        slant = min(cut.slope_mm, (piece.end_mm - piece.start_mm) / 2)
        start_mm, end_mm = piece.start_mm + slant / 2, piece.end_mm - slant / 2
        names = piece.names[-1:] if is_plain else piece.names
        yield StripLabel(start_mm=start_mm, end_mm=end_mm, length=_bare(piece.length, cut), names=names)
    for one in left:
        length = _bare(one.length, cut)
        yield StripLabel(start_mm=one.start_mm, end_mm=one.end_mm, length=length, names=(one.name,))


def _bare(length: str, cut: DrawnCut) -> str:
    """A length without its unit, which the title and the rule give."""
    return length.removesuffix(f" {cut.unit.value}")


def _write(pen: Pen, label: StripLabel, cut: DrawnCut, view: CutView, at_mm: float) -> None:
    """Write a label where it has room: beside a single upright strip, else on the piece."""
    middle_mm = (label.start_mm + label.end_mm) / 2
    along_mm, strip_mm = (label.end_mm - label.start_mm) * view.along, cut.strip_mm * view.across
    if view.is_upright and len(cut.strips) == 1 and not cut.rest_mm:
        at = view.at(middle_mm, cut.width_mm)
        room_mm = UPRIGHT_ACROSS_MM - at[0] - 4
        _write_lines(pen, label, (at[0] + 3, at[1]), across_mm=room_mm, up_mm=along_mm, anchor="start")
        return
    centre = view.at(middle_mm, at_mm + cut.strip_mm / 2)
    across_mm, up_mm = (strip_mm, along_mm) if view.is_upright else (along_mm, strip_mm)
    if view.is_upright and text_across_mm(label.length, bold=True) > across_mm - 2 * PAD_MM:
        _write_turned(pen, label, centre, across_mm=across_mm, along_mm=along_mm)
        return
    _write_lines(pen, label, centre, across_mm=across_mm - 2 * PAD_MM, up_mm=up_mm, anchor="middle")


def _write_turned(pen: Pen, label: StripLabel, at: Point, *, across_mm: float, along_mm: float) -> None:
    """The length, and the fullest name that has room beside it, along a strip that is too narrow for it across."""
    texts = (*(f"{label.length} {name}" for name in label.names), label.length)
    text = next((one for one in texts if text_across_mm(one, bold=True) <= along_mm - 2 * PAD_MM), "")
    if text and across_mm >= LETTER_MM:
        pen.text(
            text, (at[0] + LETTER_MM * CAPITAL_RATIO / 2, at[1]), anchor="middle", role=Role.STRONG, turned_deg=-90
        )


def _write_lines(pen: Pen, label: StripLabel, at: Point, *, across_mm: float, up_mm: float, anchor: str) -> None:
    """The length, and under it the fullest name that has room; both on one line where there is room for one only."""
    if text_across_mm(label.length, bold=True) > across_mm or up_mm < LETTER_MM:
        return
    name = next((one for one in label.names if text_across_mm(one) <= across_mm), "")
    base = at[1] + LETTER_MM * CAPITAL_RATIO / 2
    if up_mm < 2 * LINE_MM:
        _write_line(pen, label, (at[0], base), across_mm=across_mm, anchor=anchor)
        return
    if not name:
        pen.text(label.length, (at[0], base), anchor=anchor, role=Role.STRONG)
        return
    pen.text(label.length, (at[0], base - LINE_MM / 2), anchor=anchor, role=Role.STRONG)
    pen.text(name, (at[0], base + LINE_MM / 2), anchor=anchor)


def _write_line(pen: Pen, label: StripLabel, at: Point, *, across_mm: float, anchor: str) -> None:
    """The length, and behind it the fullest name that has room on the same line."""
    length_mm = text_across_mm(f"{label.length} ", bold=True) + BETWEEN_MM
    name = next((one for one in label.names if length_mm + text_across_mm(one) <= across_mm), "")
    whole_mm = length_mm + text_across_mm(name) if name else text_across_mm(label.length, bold=True)
    x = at[0] - (whole_mm / 2 if anchor == "middle" else 0)
    pen.text(label.length, (x, at[1]), role=Role.STRONG)
    if name:
        pen.text(name, (x + length_mm, at[1]))


def _write_rest(pen: Pen, cut: DrawnCut, view: CutView) -> None:
    """What is left of a board beyond its strips, where there is room to say so; how wide it is, is in the lists."""
    if cut.rest_mm * view.across < LETTER_MM or view.is_upright:
        return
    x, y = view.at(cut.length_mm / 2, rest_from_mm(cut) + cut.rest_mm / 2)
    pen.text("not ripped", (x, y + LETTER_MM * CAPITAL_RATIO / 2), anchor="middle")


def _draw_rule(pen: Pen, cut: DrawnCut, view: CutView) -> None:
    """A rule from the left end, in steps that leave room for its figures: below, or left of an upright stick."""
    step_mm, step = (12 * float(MM_PER_INCH), 12) if cut.unit is Unit.INCH else (250.0, 250)
    while step_mm * view.along < LEAST_STEP_MM:
        step_mm, step = 2 * step_mm, 2 * step
    edge_mm = 0.0 if view.is_upright else cut.width_mm + _over(cut) / view.across
    for count in range(int(cut.length_mm / step_mm) + 1):
        x, y = view.at(count * step_mm, edge_mm)
        text = f"{count * step}" if count else f"0 {'in' if cut.unit is Unit.INCH else 'mm'}"
        if view.is_upright:
            pen.line(run([(x - 1.5, y), (x, y)]), Role.DIMENSION)
            pen.text(text, (x - 2.2, y + LETTER_MM * CAPITAL_RATIO / 2), anchor="end", role=Role.FAINT)
            continue
        pen.line(run([(x, y), (x, y + 1.5)]), Role.DIMENSION)
        if x < LEFT_MM + LENGTH_MM - 5:
            pen.text(text, (x, y + 5.2), anchor="middle" if count else "start", role=Role.FAINT)
    if not view.is_upright:
        pen.line(run([view.at(0, edge_mm), view.at(cut.length_mm, edge_mm)]), Role.DIMENSION)
