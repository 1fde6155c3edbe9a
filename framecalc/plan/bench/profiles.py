"""Settings of a profile, cut by cut: the cutter that the shop owns for each, its height and fence, what it runs on."""

from collections.abc import Iterator

from framecalc.bench.cards import CardLine, Fact, SectionState, Setting
from framecalc.bench.cutters import CutPlace, Cutter, CutterKind, ProfileCut, profile_cuts, tilt_deg
from framecalc.bench.passes import deepest_pass_mm, pass_heights_mm
from framecalc.bench.rabbet_ways import RabbetWay
from framecalc.bench.sections import Blank, milled_top, plain_top, rabbeted, solid
from framecalc.bench.typed_cuts import TypedCut, typed_cuts
from framecalc.corners.angles import write_angle
from framecalc.geometry.outline import Point
from framecalc.plan.bench.milled import MilledSection, blank_of, is_profile_first
from framecalc.plan.bench.writing import BenchJob, named
from framecalc.section.milling import LEAST_BEARING_MM, shapes_the_face
from framecalc.section.profile import EdgeShape, FaceShape
from framecalc.section.rabbeted import Section
from framecalc.units import TOLERANCE_MM
from framecalc.words import Wording, capitalised, joined, worded

HOLD_DOWNS = "Featherboards on both sides of the cutter: one from above, one against the fence."
_BY_HAND = "No upright cutter makes these lines: plane, scrape or carve them to a template, or change the points."
_NO_BEARING = "A bearing would run into the wood here: one without it is needed."
_MOVE = "It is {wide} wide: cut up to one wall, then move the fence to the other."
_SAW = (
    "At the table saw: stand it on its low edge, back against the fence, blade tilted away from the fence. The waste"
    " falls free. Then plane or sand it."
)
_DOWN = "Face down, {place} against the fence."
_WEDGE = "Tape a wedge to the face, {fall} thick at the low edge: the back must lie level. The bit may cut it."
_NONE = "No cutter on Shop makes it{size}."
_NEAREST = "No cutter on Shop makes it{size}. Nearest: {cutter}."
_LIST = "List your cutters on Shop, and each cut names its own."
_ROLLS = "Its bearing rolls on the {place}: {left} of it stays plain."
_FENCE = "The fence guides it: {left} of the {place} stays plain below."
_STRIP_FIRST = "After the strip is glued on: then the whole section lies under the cutter."
_HARDLY = (
    "Only {left} of the {place} stays plain for the fence: hold it down from above as well, and take light passes."
)
_BEAD = "No bead cutter: a scratch stock ground to the bead does it, or two quirks by the plow and a hollow plane."
_TOO_LITTLE = "Too little stays plain for a bearing ({left}): let the fence guide it."
"""What stands on the cards. Source: common practice, no source."""


def profile_settings(job: BenchJob, sections: tuple[MilledSection, ...]) -> Iterator[Setting]:
    """The cuts of every profile of a job."""
    for place, milled in enumerate(sections, start=1):
        section, order = milled.frame.section, milled.frame.milling_order
        if isinstance(section, Section) and order and shapes_the_face(section):
            yield from _of_section(job, milled, section, place)


def why_in_this_order(sections: tuple[MilledSection, ...]) -> Iterator[Wording]:
    """Why profile or rabbet is milled first, section by section."""
    for frame in (one.frame for one in sections):
        section, order = frame.section, frame.milling_order
        way = frame.project.bench.rabbet_way
        if not (isinstance(section, Section) and order and shapes_the_face(section)):
            continue
        if way is RabbetWay.STRIP:
            yield worded(_STRIP_FIRST)
        elif way is not RabbetWay.BEARING:
            yield worded("Mill the {first} first: {why}", first=order.first.value, why=order.why)


def _of_section(job: BenchJob, milled: MilledSection, section: Section, place: int) -> Iterator[Setting]:
    """The cuts of one profile in their order, each with its line."""
    cuts = profile_cuts(section, cutters=job.cutters, is_rabbeted=not is_profile_first((milled,)))
    plain = cuts[0].before if cuts else section
    settings = (*_face(job, milled, plain), *(_edge(job, milled, cut) for cut in cuts))
    for number, setting in enumerate(settings, start=1):
        key = milled.group.key("profile", 10 * place + number)
        yield Setting(
            title=setting.title,
            serves=named(milled.names),
            label=setting.label,
            big=setting.big,
            facts=setting.facts,
            says=setting.says,
            lines=(CardLine(key=key, text="All sticks"),),
            sections=setting.sections,
        )


def _face(job: BenchJob, milled: MilledSection, section: Section) -> Iterator[Setting]:
    """What is cut on the face, before its edges."""
    if section.face is FaceShape.FLAT:
        return
    if section.face is FaceShape.POINTS:
        yield from _through_points(job, milled, section)
        return
    yield Setting(
        title=worded("Face, {face}", face=section.face.value),
        label="Fall over the width",
        big=job.near(section.face_drop_mm),
        facts=(
            Fact(label="Blade tilted", text=write_angle(tilt_deg(section))),
            Fact(label="Fence to blade", text=job.near(section.thickness_mm - section.face_drop_mm)),
            Fact(label="Blade height", text=job.near(section.face_width_mm)),
        ),
        says=(_SAW,),
        sections=(_state(milled, "Face", _plain(section), milled_top(section.outline)),),
    )


def _through_points(job: BenchJob, milled: MilledSection, section: Section) -> Iterator[Setting]:
    """The cuts of a face through typed points, and what of it no cutter makes."""
    found = typed_cuts(section, cutters=job.cutters, is_rabbeted=not is_profile_first((milled,)))
    for cut in found.cuts:
        yield _bevelled(job, milled, cut) if cut.is_sawn else _typed(job, milled, cut)
    if found.unmade or not found.cuts:
        left = found.cuts[-1].after if found.cuts else _plain(section)
        yield Setting(
            title="Face, by hand",
            label="Lines left",
            big=str(found.unmade),
            says=(_BY_HAND,),
            sections=(_state(milled, "Face", left, milled_top(section.outline)),),
        )


def _bevelled(job: BenchJob, milled: MilledSection, cut: TypedCut) -> Setting:
    return Setting(
        title="Face: bevel",
        label="Fence to blade",
        big=job.near(cut.fence_mm),
        facts=(
            Fact(label="Blade tilted", text=write_angle(cut.tilt_deg)),
            Fact(label="Blade height", text=job.near(cut.height_mm)),
        ),
        says=(_SAW,),
        sections=(_state(milled, "Bevel", cut.before, cut.after),),
    )


def _typed(job: BenchJob, milled: MilledSection, cut: TypedCut) -> Setting:
    is_closed = cut.place is CutPlace.FACE
    return Setting(
        title=worded("Face: {shape}", shape=cut.shape),
        label="Cutter height",
        big=job.near(cut.height_mm),
        facts=(
            *_cutter_fact(job, cut.cutter),
            *_fence(job, cut),
            *_passes(job, milled, cut.takes_mm, cut.cutter),
        ),
        says=(
            worded(_DOWN, place=(CutPlace.OUTER if is_closed else cut.place).value),
            *_lacks(job, cut.cutter, cut.nearest, _size_said(job, cut)),
            *_moves(job, cut),
            *(
                [_NO_BEARING]
                if cut.nearest and cut.cutter is None and cut.nearest.has_bearing and not cut.ends_at_side
                else []
            ),
            *([] if is_closed else [_guided(job, cut.place, cut.cutter, cut.bearing_mm, rolls=cut.rolls)]),
        ),
        sections=(_state(milled, str(capitalised(cut.shape)), cut.before, cut.after),),
    )


def _fence(job: BenchJob, cut: TypedCut) -> Iterator[Fact]:
    if cut.rolls:
        yield Fact(label="Fence", text="at the bearing")
    else:
        label = "Fence to its middle" if cut.place is CutPlace.FACE else "Out of the fence"
        yield Fact(label=label, text=job.near(cut.fence_mm))


def _moves(job: BenchJob, cut: TypedCut) -> Iterator[Wording]:
    """A groove or a step that is wider than its cutter is cut with the fence moved."""
    if cut.cutter and cut.shape in ("groove", "step") and cut.size_mm > cut.cutter.size_mm + TOLERANCE_MM:
        yield worded(_MOVE, wide=job.said(cut.size_mm))


def _size_said(job: BenchJob, cut: TypedCut) -> str:
    size = job.said(cut.size_mm)
    return {"hollow": f"radius {size}", "round-over": f"radius {size}", "chamfer": f"leg {size}"}.get(cut.shape, size)


def _edge(job: BenchJob, milled: MilledSection, cut: ProfileCut) -> Setting:
    return Setting(
        title=capitalised(f"{cut.place}: {cut.shape}"),
        label="Cutter height",
        big=job.near(cut.height_mm),
        facts=(
            *_cutter_fact(job, cut.cutter),
            Fact(label="Fence", text="at the bearing")
            if cut.rolls
            else Fact(label="Out of the fence", text=job.near(cut.out_mm)),
            *_passes(job, milled, cut.size_mm, cut.cutter),
        ),
        says=(
            *_laid(job, cut),
            *_lacks(job, cut.cutter, cut.nearest),
            _guided(job, cut.place, cut.cutter, cut.bearing_mm, rolls=cut.rolls),
            *([_BEAD] if cut.shape == EdgeShape.BEAD.value and cut.cutter is None else []),
        ),
        sections=(
            _state(
                milled,
                str(capitalised(cut.place.value)),
                milled_top(cut.before.outline),
                milled_top(cut.after.outline),
            ),
        ),
    )


def _laid(job: BenchJob, cut: ProfileCut) -> Iterator[Wording]:
    """How the member lies, and what keeps it level on a bevelled face."""
    yield worded(_DOWN, place=cut.place.value)
    if cut.after.face in (FaceShape.TOWARD, FaceShape.AWAY):
        yield worded(_WEDGE, fall=job.said(cut.after.face_drop_mm))


def _guided(job: BenchJob, place: CutPlace, cutter: Cutter | None, bearing_mm: float, *, rolls: bool) -> Wording:
    """What the cut runs on."""
    left = job.said(bearing_mm)
    if rolls:
        return worded(_ROLLS, place=place.value, left=left)
    if cutter and cutter.has_bearing and bearing_mm < LEAST_BEARING_MM:
        return worded(_TOO_LITTLE, left=left)
    pattern = _HARDLY if bearing_mm < LEAST_BEARING_MM - TOLERANCE_MM else _FENCE
    return worded(pattern, place=place.value, left=left)


def _cutter_fact(job: BenchJob, cutter: Cutter | None) -> Iterator[Fact]:
    if cutter:
        yield Fact(label="Cutter", text=cutter_said(job, cutter))


def _lacks(job: BenchJob, cutter: Cutter | None, nearest: Cutter | None, size: str = "") -> Iterator[str]:
    if cutter is None:
        wanted = f" ({size})" if size else ""
        pattern, near = (_NEAREST, cutter_said(job, nearest)) if nearest else (_NONE, "")
        yield worded(pattern, size=wanted, cutter=near) if job.cutters else _LIST


def cutter_said(job: BenchJob, cutter: Cutter) -> str:
    """A cutter in words: what it is, its size, and whether it has a bearing."""
    size = job.said(cutter.size_mm)
    what = {
        CutterKind.STRAIGHT: f"{size} wide",
        CutterKind.ROUND_NOSE: f"{size} wide",
        CutterKind.COVE: f"radius {size}",
        CutterKind.ROUND_OVER: f"radius {size}",
        CutterKind.CHAMFER: f"up to {size}",
        CutterKind.BEAD: f"radius {size}",
    }[cutter.kind]
    return joined(", ", (capitalised(cutter.kind.value), what, *(["with bearing"] if cutter.has_bearing else [])))


def _passes(job: BenchJob, milled: MilledSection, depth_mm: float, cutter: Cutter | None) -> Iterator[Fact]:
    """How many passes: the last one light."""
    frame = milled.frame
    bit_mm = cutter.size_mm if cutter and cutter.kind is CutterKind.STRAIGHT else 2 * depth_mm
    density_kg_m3 = frame.wood.density_kg_m3 if frame.wood else 0.0
    deepest_mm = deepest_pass_mm(bit_mm=bit_mm, density_kg_m3=density_kg_m3)
    heights_mm = pass_heights_mm(depth_mm, deepest_mm=deepest_mm, step_mm=float(frame.step.size_mm))
    if len(heights_mm) > 1:
        yield Fact(label="Passes", text=str(len(heights_mm)))


def _plain(section: Section) -> tuple[Point, ...]:
    return plain_top(width_mm=section.face_width_mm, thickness_mm=section.thickness_mm)


def _state(milled: MilledSection, caption: str, before: tuple[Point, ...], after: tuple[Point, ...]) -> SectionState:
    """The section before and after a cut, with its rabbet where that comes first."""
    blank = blank_of(milled)
    of = [
        Blank(
            width_mm=blank.width_mm,
            rabbet_width_mm=blank.rabbet_width_mm,
            rabbet_depth_mm=blank.rabbet_depth_mm,
            top=top,
        )
        for top in (before, after)
    ]
    if is_profile_first((milled,)):
        return SectionState(caption=caption, before=solid(of[0]), after=solid(of[1]))
    depth_mm = blank.rabbet_depth_mm
    return SectionState(
        caption=caption, before=rabbeted(of[0], depth_mm=depth_mm), after=rabbeted(of[1], depth_mm=depth_mm)
    )
