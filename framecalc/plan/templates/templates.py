"""The templates of a frame, made from its plan: mats, sheets of the package, dust cover, and gauges for the machines.

A template that cannot be made is told with its reason; the others are made all the same.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence

from framecalc.artwork.measuring import ArtworkKind
from framecalc.errors import FrameCalcError
from framecalc.geometry.outline import Point
from framecalc.mats.windows import Window
from framecalc.package.layers import LayerKind
from framecalc.package.shelf import GLASSES
from framecalc.plan.frame import FramePlan
from framecalc.plan.inputs import material_of
from framecalc.plan.package.mats import CutMat
from framecalc.plan.sheets.parts import distinct, size_of_part
from framecalc.plan.templates import members
from framecalc.plan.templates.strips import frame_strip
from framecalc.records import Record
from framecalc.sizes.shape import Shape
from framecalc.templates.artwork import SAFE_MM, artwork_panel, hold_down_zones, narrowest_groove_mm
from framecalc.templates.dust_cover import INSET_MM, cover_size_mm
from framecalc.templates.shapes import plate
from framecalc.templates.template import CutFrom, Side, Template, TemplateStep
from framecalc.units import Unit, describe_gap, describe_length, describe_size
from framecalc.words import Wording, capitalised, say, typed

CUT_FROM = {
    LayerKind.GLAZING: CutFrom.GLAZING,
    LayerKind.BACKING: CutFrom.BACKINGS,
    LayerKind.BACK: CutFrom.BACKS,
}
"""What a sheet of the package is cut from."""

NO_LASER_FOR_GLASS = "No laser cuts glass: score it by this outline."

HOLD_AT_EDGE = "Hold it down on the strips along its edge: they are covered later."
HOLD_BELOW = "Hold it down from below: no edge of it is covered."

BITS_DEG = (60, 90)
"""The usual V-bits (common practice, no source)."""

GROOVE_MM = {Unit.MM: 1.0, Unit.INCH: 25.4 / 16}
"""The depth that widths of grooves are told for; twice as deep is twice as wide."""


class TemplateStamp(Record):
    """What a template says of where it comes from."""

    project: str
    frame: str
    revision: str
    date: str


class FrameTemplates(Record):
    """The templates of one frame, and why others could not be made."""

    templates: tuple[Template, ...]
    refusals: tuple[str, ...]
    stamp: TemplateStamp

    def named(self, name: str) -> Template | None:
        """The template of a name, if there is one."""
        return next((one for one in self.templates if one.name == name), None)


def templates_of(plan: FramePlan) -> FrameTemplates:
    """Make every template of a frame.

    Raises:
        FrameCalcError: the frame cannot be computed.
    """
    plan.compute_all()
    made: list[Template] = []
    refusals: list[str] = []
    for make in MAKERS:
        try:
            made.extend(make(plan))
        except FrameCalcError as error:
            refusals.append(error.wording.format_map(_lengths_of(error, plan)) if error.lengths else error.sentence)
    return FrameTemplates(templates=tuple(made), refusals=tuple(refusals), stamp=stamp_of(plan))


def stamp_of(plan: FramePlan) -> TemplateStamp:
    """Say where the templates of a frame come from."""
    saved = plan.project.saved
    count = f"{plan.frame.count} × " if plan.frame.count > 1 else ""
    return TemplateStamp(
        project=plan.project.name,
        frame=f"{count}{plan.frame.name}",
        revision=f"revision {saved.revision}" if saved else "not saved",
        date=saved.when[:10] if saved else "no date",
    )


def _mats(plan: FramePlan) -> Iterator[Template]:
    """Each mat with its windows, as it lies before the person who cuts it."""
    mats = plan.package.mats
    cuts = mats.cut if mats else ()
    for cut, place in zip(cuts, _places(len(cuts)), strict=True):
        yield _mat(plan, cut, place=place, from_behind=mats is not None and mats.from_behind)


def _places(count: int) -> tuple[str, ...]:
    """The places of mats in the package, from the front."""
    if count < 2:
        return ("",) * count
    return ("upper ", *(f"middle {number} " for number in range(1, count - 1)), "lower ")


def _mat(plan: FramePlan, cut: CutMat, *, place: str, from_behind: bool) -> Template:
    words, edge = plan.project.shop.words, "at its back" if from_behind else "at the outer edge of the bevel"
    return plate(
        _corners(plan.shape, cut.laid.across_mm, cut.laid.up_mm),
        windows=[_window_corners(plan.shape, window) for window in cut.laid.windows],
        says=[
            f"{number}: {describe_size(one.across_mm, one.up_mm, unit=plan.unit)}"
            for number, one in enumerate(cut.laid.windows, start=1)
        ],
        name=f"{place}mat".replace(" ", "-"),
        title=_titled(f"{place}mat", cut.name),
        purpose=say("Its outside and its windows, {edge}.", words, edge=edge),
        side=Side.BACK if from_behind else Side.FACE,
        step=TemplateStep.MAT,
        cut_from=CutFrom.MATS,
    )


def _sheets(plan: FramePlan) -> Iterator[Template]:
    """The other sheets of the package, as they are cut."""
    layers = [layer for layer in plan.frame.package.layers if layer.kind.is_sheet and layer.kind is not LayerKind.MAT]
    names = _numbered(layer.kind.value.replace(" ", "-") for layer in layers)
    for layer, name in zip(layers, names, strict=True):
        size = size_of_part(plan)
        yield plate(
            plan.shape.corners(size.across_mm, size.up_mm),
            name=name,
            title=_titled(layer.kind.value, layer.name),
            purpose=say("The size to cut: the rabbet size less the clearance.", plan.project.shop.words),
            side=Side.EITHER,
            step=TemplateStep.SHEET,
            cut_from=CUT_FROM[layer.kind],
            no_laser=NO_LASER_FOR_GLASS if material_of(layer) in GLASSES else "",
        )


def _titled(kind: str, name: str) -> Wording:
    """What a sheet is called: its kind, and its name where that says more."""
    said = capitalised(kind)
    return said if kind.casefold().endswith(name.casefold()) else said + typed(f": {name}")


def _dust_cover(plan: FramePlan) -> Iterator[Template]:
    """The dust cover, a little inside the outer edge; the back of sloping sides is not set out here."""
    if plan.shape.slopes or not any(layer.kind is LayerKind.DUST_COVER for layer in plan.frame.package.layers):
        return
    sizes = plan.sizes
    size_mm = cover_size_mm(outside_across_mm=sizes.outside_across_mm, outside_up_mm=sizes.outside_up_mm)
    yield plate(
        plan.shape.corners(*size_mm),
        name="dust-cover",
        title="Dust cover",
        purpose=f"It ends {describe_length(INSET_MM, unit=plan.unit)} inside the outer edge, all round.",
        side=Side.EITHER,
        step=TemplateStep.SHEET,
        cut_from=CutFrom.COVERS,
    )


def _artwork(plan: FramePlan) -> Iterator[Template]:
    """The artwork with what stays in view of it; an object is no sheet, and a canvas is not worked on a bed."""
    if plan.frame.artwork.kind in (ArtworkKind.OBJECT, ArtworkKind.CANVAS):
        return
    outline, view = _seen_mat(plan) if plan.package.mats else _seen_lip(plan)
    safe, holds = describe_length(SAFE_MM, unit=plan.unit), hold_down_zones(outline, in_view=view)
    yield artwork_panel(
        outline,
        in_view=view,
        safe_mm=SAFE_MM,
        title="Artwork, as it is worked",
        purpose=say(
            "{hold} Work inside the safe zone, {safe} inside what stays in view. "
            "Narrowest V-groove, {deep} deep: {grooves}.",
            plan.project.shop.words,
            hold=HOLD_AT_EDGE if holds else HOLD_BELOW,
            safe=safe,
            deep=describe_length(GROOVE_MM[plan.unit], unit=plan.unit),
            grooves=_grooves(plan.unit),
        ),
    )


def _grooves(unit: Unit) -> str:
    """How wide a groove is at the least, bit by bit."""
    depth_mm = GROOVE_MM[unit]
    widths = ((bit_deg, narrowest_groove_mm(depth_mm=depth_mm, bit_deg=bit_deg)) for bit_deg in BITS_DEG)
    return ", ".join(f"{describe_gap(wide_mm, unit=unit)} by a {bit_deg}° bit" for bit_deg, wide_mm in widths)


def _seen_lip(plan: FramePlan) -> tuple[Sequence[Point], Sequence[Point]]:
    """The artwork and what the lip leaves of it in view; a tray leaves all."""
    sizes, across_mm, up_mm = plan.sizes, plan.settled.artwork_across_mm, plan.settled.artwork_up_mm
    view = (min(sizes.sight_across_mm, across_mm), min(sizes.sight_up_mm, up_mm))
    return plan.shape.corners(across_mm, up_mm), plan.shape.corners(*view)


def _seen_mat(plan: FramePlan) -> tuple[Sequence[Point], Sequence[Point]]:
    """The sheet behind the mat and what its first window leaves of it in view."""
    assert plan.package.mats is not None
    sheet, window = plan.package.mats.sheet, plan.package.mats.in_view.windows[0]
    if not plan.shape.is_rectangle:
        view_mm = min(sheet.across_mm, window.across_mm)
        return plan.shape.corners(sheet.across_mm, sheet.up_mm), plan.shape.corners(view_mm, view_mm)
    left, right = max(sheet.left_mm, window.left_mm), min(sheet.right_mm, window.right_mm)
    bottom, top = max(sheet.bottom_mm, window.bottom_mm), min(sheet.top_mm, window.top_mm)
    return _between(sheet.left_mm, sheet.bottom_mm, sheet.right_mm, sheet.top_mm), _between(left, bottom, right, top)


def _between(left: float, bottom: float, right: float, top: float) -> tuple[Point, ...]:
    return (left, bottom), (right, bottom), (right, top), (left, top)


def _hanging_strip(plan: FramePlan) -> Iterator[Template]:
    """The strip that is taped to the wall; sloping sides have one once the drop is measured."""
    if plan.shape.slopes and not plan.frame.hanging.drop:
        return
    yield frame_strip(plan)


def _lengths_of(error: FrameCalcError, plan: FramePlan) -> dict[str, str]:
    return {name: describe_length(length_mm, unit=plan.unit) for name, length_mm in error.lengths.items()}


def _corners(shape: Shape, across_mm: float, up_mm: float) -> tuple[Point, ...]:
    """The corners of a mat: a rectangle from its lower left one, a polygon round its middle."""
    if shape.is_rectangle:
        return (0.0, 0.0), (across_mm, 0.0), (across_mm, up_mm), (0.0, up_mm)
    return shape.corners(across_mm, up_mm)


def _window_corners(shape: Shape, window: Window) -> tuple[Point, ...]:
    """The corners of a window in that mat."""
    corners = _corners(shape, window.across_mm, window.up_mm)
    if not shape.is_rectangle:
        return corners
    return tuple((window.left_mm + x_mm, window.bottom_mm + y_mm) for x_mm, y_mm in corners)


def _numbered(names: Iterable[str]) -> Iterator[str]:
    """Names with a number behind those that have been there before."""
    return (name.replace(" (", "-").replace(")", "") for name in distinct(names))


MAKERS: tuple[Callable[[FramePlan], Iterator[Template]], ...] = (
    _mats,
    _sheets,
    _dust_cover,
    _artwork,
    members.section,
    members.blocks,
    members.block,
    members.stick,
    members.ends,
    members.face,
    members.sled,
    _hanging_strip,
)
"""What makes the templates of a frame, in the order of its page."""
