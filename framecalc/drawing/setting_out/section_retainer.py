"""The retainer in a section: what the plan of the package holds it with, at its place and size."""

from contextlib import suppress
from math import inf

from framecalc.drawing.lettering import shortened
from framecalc.drawing.pen import Pen
from framecalc.drawing.sheet import View
from framecalc.drawing.style import Role
from framecalc.errors import FrameCalcError
from framecalc.package.retainer_section import Foothold, PartOf, RetainerPart, retainer_parts
from framecalc.package.retainers import Retainer
from framecalc.plan import FramePlan
from framecalc.plan.package.retainers import RetainersPlan
from framecalc.records import Record

_NAMES = {
    Retainer.BUTTONS: "turn button",
    Retainer.POINTS: "point",
    Retainer.SHIM: "shim, turn button",
    Retainer.CLIPS: "offset clip",
    Retainer.STRIP: "strip, turn button",
}


class DrawnRetainer(Record):
    """A retainer as drawn: its kind, its name, and its parts, the last of which presses on the package."""

    kind: Retainer
    name: str
    parts: tuple[RetainerPart, ...]

    @property
    def below_mm(self) -> float:
        """How far it reaches below the back."""
        return max(0.0, *(-part.bottom_mm for part in self.parts))

    def label(self, *, to_mm: float = inf) -> str:
        """Its name, shortened if it has no room."""
        return shortened(self.name, to_mm=to_mm)


class RetainerStrip(Record):
    """The part of a retainer on the sheet to which its leader runs."""

    retainer: DrawnRetainer
    top_mm: float
    right_mm: float
    middle_mm: float

    def label(self, *, to_mm: float = inf) -> str:
        """The words at its leader."""
        return self.retainer.label(to_mm=to_mm)


def read_retainer(plan: FramePlan, *, gap_mm: float) -> DrawnRetainer | None:
    """Read from a plan what holds the package; none in a tray, without a package, or where the wish cannot hold it."""
    retainers = plan.package.retainers
    if retainers is None or not plan.stack.layers:
        return None
    try:
        return _read(retainers, land_mm=plan.figures["land"].exact_mm, gap_mm=gap_mm)
    except FrameCalcError:
        return None


def draw_retainer(retainer: DrawnRetainer, view: View, pen: Pen, *, from_mm: float, break_mm: float) -> RetainerStrip:
    """Draw the parts, and tell where the leader may begin.

    None goes on beyond where the package is broken off, nor outward of `from_mm`: the outer edge, or a break.
    """
    for part in retainer.parts:
        left_mm, right_mm = max(part.left_mm, from_mm), min(part.right_mm, _at(view, break_mm))
        if left_mm >= right_mm:
            continue
        path = view.rectangle(left_mm, part.bottom_mm, right_mm, part.top_mm)
        pen.area(path, Role.METAL if part.of is PartOf.METAL else Role.WOOD)
        pen.line(path, Role.EDGE)
    plate = retainer.parts[-1]
    return RetainerStrip(
        retainer=retainer,
        top_mm=view.y(plate.top_mm),
        right_mm=min(view.x(plate.right_mm), break_mm),
        middle_mm=view.y((plate.top_mm + plate.bottom_mm) / 2),
    )


def _at(view: View, x_mm: float) -> float:
    """A place across the sheet as one of the member."""
    return (x_mm - view.left_mm) / view.scale


def _read(retainers: RetainersPlan, *, land_mm: float, gap_mm: float) -> DrawnRetainer:
    at = Foothold(
        land_mm=land_mm,
        foot_mm=retainers.foot_mm,
        gap_mm=gap_mm,
        from_wall_mm=retainers.from_wall_mm,
        screw_mm=_screw_mm(retainers),
    )
    kind = retainers.retention.retainer
    return DrawnRetainer(kind=kind, name=_NAMES[kind], parts=retainer_parts(retainers.retention, at=at))


def _screw_mm(retainers: RetainersPlan) -> float:
    """The length of its screw; 0 for points, and where no screw is short enough."""
    with suppress(FrameCalcError):
        return retainers.screwing.screw.length_mm if retainers.screwing else 0.0
    return 0.0
