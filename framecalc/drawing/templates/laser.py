"""A template as a file for a laser: plain SVG 1.1, in millimetres, one group for each operation.

Paths are closed and run one way, inner ones come first, no line is there twice. Strokes are as the shop types them for
its machine.
"""

import re
from collections.abc import Iterable, Iterator
from itertools import pairwise
from math import ceil, cos, pi, sin

from framecalc.drawing.pen import escaped, number, outline_path, run
from framecalc.drawing.style import FONTS
from framecalc.drawing.templates.operations import (
    MOST_KERF_MM,
    USUAL_NAMES,
    GroupNames,
    MachineOperations,
    Operation,
    machine_work,
)
from framecalc.errors import ImpossibleSize, OutOfRange
from framecalc.geometry.outline import Line, Outline, Point, Segment, sweep_rad
from framecalc.limits import require_between
from framecalc.records import Record, replace
from framecalc.templates.template import Template, Word

MARGIN_MM = MOST_KERF_MM / 2 + 1
"""Round the template, so that the widest kerf still lies on the sheet."""

TOLERANCE_RATIO = 1e-6
"""A quarter of a turn that is longer by less than this is one."""

_COLOUR = re.compile(r"#[0-9a-fA-F]{6}|#[0-9a-fA-F]{3}|[a-z]{3,20}")


class Strokes(Record):
    """The strokes by which a machine tells operations apart: colours as typed, and one width."""

    cut: str = "black"
    score: str = "black"
    engrave: str = "black"
    mark: str = "black"
    width_mm: float = 0.1
    names: GroupNames = USUAL_NAMES

    def __post_init__(self) -> None:
        """Refuse a colour that is none, and a width that nobody can draw.

        Raises:
            OutOfRange: so it is; `field` names the operation.
        """
        require_between(0.001, 2, width_mm=self.width_mm)
        for operation in Operation:
            if not _COLOUR.fullmatch(self.colour(operation)):
                wording = "Enter a colour, such as red or #ff0000."
                raise OutOfRange(wording, field=f"{operation.value}_stroke")

    def colour(self, operation: Operation) -> str:
        """The colour of an operation."""
        return str(getattr(self, operation.value))


PLAIN = Strokes()
"""All black: what a machine wants instead is for its user to type."""


def laser_svg(template: Template, *, kerf_mm: float, strokes: Strokes = PLAIN, only_cuts: bool = False) -> str:
    """Write a template for a laser.

    Args:
        kerf_mm: what the beam takes away [mm], 0 to 4.
        only_cuts: leave out what is scored and engraved.
    Raises:
        OutOfRange: a kerf that no beam has.
        ImpossibleSize: no laser cuts it, or a part or a hole is too narrow for the kerf.
    """
    if template.no_laser:
        raise ImpossibleSize(template.no_laser)
    work = machine_work(template, kerf_mm=kerf_mm)
    across_mm, up_mm = template.across_mm + 2 * MARGIN_MM, template.up_mm + 2 * MARGIN_MM
    groups = "\n".join(_groups(work, strokes, up_mm - MARGIN_MM, only_cuts=only_cuts))
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="{number(across_mm)}mm" '
        f'height="{number(up_mm)}mm" viewBox="0 0 {number(across_mm)} {number(up_mm)}">\n'
        f"<title>{escaped(template.title)}</title>\n{groups}\n</svg>\n"
    )


def _groups(work: MachineOperations, strokes: Strokes, base_mm: float, *, only_cuts: bool) -> Iterator[str]:
    """The groups in the order of work: a part that is cut out has moved, so it is cut last."""
    if work.words and not only_cuts:
        fill = f'fill="{strokes.engrave}" stroke="none" font-family="{FONTS}"'
        yield _group(strokes, Operation.ENGRAVE, fill, (_word(word, base_mm) for word in work.words))
    if work.zones and not only_cuts:
        yield _lines(strokes, Operation.MARK, _outlines(work.zones, base_mm))
    if work.scores and not only_cuts:
        lines = (run([_placed(mark.start, base_mm), _placed(mark.end, base_mm)]) for mark in work.scores)
        yield _lines(strokes, Operation.SCORE, lines)
    yield _lines(strokes, Operation.CUT, _outlines(work.cuts, base_mm))


def _outlines(outlines: Iterable[Outline], base_mm: float) -> Iterator[str]:
    return (outline_path(_in_quarters(one), scale=1, left_mm=MARGIN_MM, base_mm=base_mm) for one in outlines)


def _in_quarters(outline: Outline) -> Outline:
    """The same with no arc over a quarter of a turn: a radius rounded to a thousandth bends a half turn by far more."""
    return Outline(segments=tuple(piece for segment in outline.segments for piece in _pieces(segment)))


def _pieces(segment: Segment) -> list[Segment]:
    if isinstance(segment, Line):
        return [segment]
    count = ceil(abs(sweep_rad(segment)) / (pi / 2) - TOLERANCE_RATIO)
    turn_rad = sweep_rad(segment) / count
    (x, y), (from_x, from_y) = segment.centre, segment.start
    places = [segment.start]
    for step in range(1, count):
        c, s = cos(turn_rad * step), sin(turn_rad * step)
        places.append((x + c * (from_x - x) - s * (from_y - y), y + s * (from_x - x) + c * (from_y - y)))
    return [replace(segment, start=start, end=end) for start, end in pairwise([*places, segment.end])]


def _lines(strokes: Strokes, operation: Operation, paths: Iterable[str]) -> str:
    looks = f'fill="none" stroke="{strokes.colour(operation)}" stroke-width="{number(strokes.width_mm)}"'
    return _group(strokes, operation, looks, map(_path, paths))


def _group(strokes: Strokes, operation: Operation, looks: str, parts: Iterable[str]) -> str:
    inside = "\n".join(parts)
    return f'<g id="{strokes.names.of(operation)}" {looks}>\n{inside}\n</g>'


def _path(data: str) -> str:
    return f'<path d="{data}"/>'


def _word(word: Word, base_mm: float) -> str:
    x, y = _placed(word.at, base_mm)
    at = f'x="{number(x)}" y="{number(y)}" font-size="{number(word.letter_mm)}"'
    return f"<text {at}>{escaped(word.text)}</text>"


def _placed(point: Point, base_mm: float) -> Point:
    return MARGIN_MM + point[0], base_mm - point[1]
