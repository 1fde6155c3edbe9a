"""What the client's pictures read of a frame: its sizes, its wood and light, what it holds, the wall."""

from collections.abc import Iterator
from math import hypot

from framecalc.drawing.from_front import FrameFromFront
from framecalc.drawing.package.mat_from_front import windows_from_front
from framecalc.drawing.ring import Size
from framecalc.drawing.sheet import View
from framecalc.geometry.outline import Point
from framecalc.look.figure import Sawn, WoodFigure, figure_of, sawn_as
from framecalc.look.finish import SeenFinish, paint_tone, seen_finish
from framecalc.look.grain import mean_tint_ratio
from framecalc.look.light import Facet, facets
from framecalc.look.tones import early_and_late, saturated, shaded, wood_tone
from framecalc.package.layers import LayerKind
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure
from framecalc.project import Look
from framecalc.records import Record, replace
from framecalc.timber.sticks.problem import Grain as StickGrain
from framecalc.units import Unit

MOST_OUT_MM = 24.0
"""The deepest that a frame's shadow on the wall is drawn from. Our own, set by eye, no source."""

BREAKS_AT = {"bottom-left": 0, "top-left": 1, "top-right": 2, "bottom-right": 3}
"""The number of the corner at which the grain breaks, clockwise from the bottom left."""


class SeenWood(Record):
    """The wood of a frame as it is seen: its figure, its tones under the finish, its section, where its grain runs."""

    figure: WoodFigure
    sawn: Sawn
    finish: SeenFinish
    tone: str
    early: str
    late: str
    facets: tuple[Facet, ...]
    seed: str
    runs: StickGrain
    breaks_at: int


class ClientFront(FrameFromFront):
    """All that the client's pictures read from a plan. `lip_mm`: how high the sight edge stands over what it holds."""

    artwork_mm: Size
    is_tray: bool
    is_glazed: bool
    wood: SeenWood
    lip_mm: float
    thick_mm: float
    look: Look
    outside: tuple[Figure, Figure]
    unit: Unit
    title: str

    @property
    def face_mm(self) -> float:
        """How wide a member is from the front."""
        return (self.outside_mm[0] - self.sight_mm[0]) / 2

    @property
    def stands_out_mm(self) -> float:
        """From how far out it throws its shadow: a deep frame no more than a room's own light allows."""
        return min(self.thick_mm, MOST_OUT_MM)

    @property
    def alone(self) -> "ClientFront":
        """The same with the usual room about it: away from its wall nothing of the room is seen but the colour."""
        usual = {name: Look.model_fields[name].default for name in ("on_wall", "beside", "light", "eye_line")}
        return replace(self, look=self.look.model_copy(update=usual))

    @property
    def says(self) -> str:
        """Its size in a line."""
        across, up = self.outside
        return f"{across.text} × {up.text} {self.unit} outside"


class SideSeen(Record):
    """One member on the sheet: where its outer edge starts and which way it runs, and where its mitres end inside.

    Places along it and across are in millimetres of the work, from the start of the outer edge.
    """

    start: Point
    along: Point
    inward: Point
    long_mm: float
    inner_from_mm: float
    inner_to_mm: float


def read_client(plan: FramePlan) -> ClientFront:
    """Read the view of a client from a plan."""
    across, up = plan.figures["outside_across"], plan.figures["outside_up"]
    wood = seen_wood(plan)
    return ClientFront(
        sizes=plan.sizes,
        windows=windows_from_front(plan),
        fillet_mm=plan.package.fillet_mm,
        artwork_mm=(plan.settled.artwork_across_mm, plan.settled.artwork_up_mm),
        is_tray=plan.is_tray,
        is_glazed=any(layer.kind is LayerKind.GLAZING for layer in plan.layers),
        wood=wood,
        lip_mm=_lip_mm(plan, wood),
        thick_mm=plan.frame.section.thickness.mm,
        look=plan.frame.look,
        outside=(across, up),
        unit=plan.unit,
        title=f"{plan.frame.name}: {across.text} × {up.text} {plan.unit} outside",
    )


def seen_wood(plan: FramePlan) -> SeenWood:
    """Read the wood of a frame as it is seen."""
    frame, timber = plan.frame, plan.project.timber
    finish, figure = seen_finish(frame.look.finish), figure_of(frame.species)
    tone = _finished(plan, finish)
    early, late = early_and_late(tone, late_share_ratio=0 if finish.hides else mean_tint_ratio(figure))
    return SeenWood(
        figure=figure,
        sawn=sawn_as(frame.species, ring_deg=float(frame.corner.seasons.ring)),
        finish=finish,
        tone=tone,
        early=early,
        late=late,
        facets=_facets(plan),
        seed=f"{frame.id}/{frame.species.casefold()}",
        runs=timber.grain,
        breaks_at=BREAKS_AT[timber.corner],
    )


def sides_on(front: ClientFront, view: View) -> Iterator[SideSeen]:
    """The members on the sheet, clockwise from the left one, or from the lowest corner of a polygon."""
    outer, inner = front.shape.corners(*front.outside_mm), front.shape.corners(*front.sight_mm)
    for here in range(len(outer)):
        after = (here + 1) % len(outer)
        (x, y), (end_x, end_y) = outer[here], outer[after]
        long_mm = hypot(end_x - x, end_y - y)
        along = (end_x - x) / long_mm, (end_y - y) / long_mm
        ends = [(px - x) * along[0] + (py - y) * along[1] for px, py in (inner[here], inner[after])]
        yield SideSeen(
            start=view.at(outer[here]),
            along=(along[0], -along[1]),
            inward=(along[1], -along[0]),
            long_mm=long_mm,
            inner_from_mm=ends[0],
            inner_to_mm=ends[1],
        )


def _finished(plan: FramePlan, finish: SeenFinish) -> str:
    """The tone under its finish: a chosen colour as it is, else that of the paint or of the wood, deepened."""
    look = plan.frame.look
    if look.wood_colour:
        return look.wood_colour
    tone = (finish.hides and paint_tone(look.finish)) or wood_tone(plan.frame.species)
    return saturated(shaded(tone, by_ratio=1 - finish.deeper_ratio), by_ratio=finish.saturation_ratio)


def _facets(plan: FramePlan) -> tuple[Facet, ...]:
    """The show side, made narrower where the sides slope."""
    found, narrow = facets(plan.section.outline, face_width_mm=plan.settled.face_width_mm), plan.shape.flat_ratio
    if narrow == 1:
        return found
    return tuple(replace(one, from_mm=one.from_mm * narrow, to_mm=one.to_mm * narrow) for one in found if narrow)


def _lip_mm(plan: FramePlan, wood: SeenWood) -> float:
    """How high the sight edge stands over the glazing, or over the ledge of a tray."""
    top_mm = wood.facets[-1].to_up_mm if wood.facets else plan.frame.section.thickness.mm
    if plan.is_tray:
        return max(1.0, top_mm - plan.frame.section.ledge_thickness.mm)
    return max(1.0, top_mm - plan.frame.section.rabbet_depth.mm)
