"""Cards of the section: the profile and the rabbet, in their order, cut by cut, with the section after each."""

from collections.abc import Iterator
from dataclasses import dataclass

from framecalc.bench.as_cut import Quantity
from framecalc.bench.cards import Card, CardLine, Fact, Machine, SectionState, Setting
from framecalc.bench.cautions import CAUTIONS, FEED, RABBET_AT_THE_SAW
from framecalc.bench.passes import deepest_pass_mm
from framecalc.bench.rabbet_ways import RabbetCut, RabbetWay, Tools, rabbet_cuts, round_corner
from framecalc.bench.sections import Blank, milled_top, plain_top, rabbeted, solid
from framecalc.plan.bench.writing import BenchJob, GroupAtBench, named
from framecalc.plan.frame import FramePlan
from framecalc.section.milling import MillingStep, is_milled, shapes_the_face
from framecalc.section.profile import FaceShape
from framecalc.section.rabbeted import Section
from framecalc.words import Wording, capitalised, joined, typed, worded

_TRAY = "Top of the wall down on the table: this is the room over the ledge."
_PLAIN_BACK = "The face is milled already: let plain wood run on the fence."
_SQUARE_UP = "It would touch the package: square the corners with a chisel, {square} off either wall."
_MAY_STAY = "Round corners may stay: the package clears them."
_STRIP = "Glue in long lengths, before the saw. Both parts have a cutting plan of their own."
_POINTS = "By the typed points: set up with your own cutters, on a test piece."

_MANY_PASSES = "So deep a rabbet goes faster on the table saw, or built up with a strip."

MOST_PASSES = 8
"""With more passes another way is faster. Source: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Milled:
    """A section of the job: the frame that stands for it, its group, and the frames that have it."""

    frame: FramePlan
    group: GroupAtBench
    names: tuple[str, ...]


def section_cards(job: BenchJob) -> Iterator[Card]:
    """The cards of rabbet and profile, in the order in which they are milled; none for bought or milled sticks."""
    sections = tuple(_sections(job))
    rabbet, profile = tuple(_rabbets(job, sections)), tuple(_profiles(job, sections))
    is_after_glue = job.project.bench.rabbet_way is RabbetWay.BEARING
    cards = [_card(job, Machine.PROFILE, profile), *([] if is_after_glue else [_card(job, Machine.RABBET, rabbet)])]
    in_order = cards if _is_profile_first(sections) else cards[::-1]
    yield from (card for card in in_order if card.settings)


def inside_card(job: BenchJob) -> Iterator[Card]:
    """The card of a bearing bit, after glue-up; none where the rabbet is cut before."""
    if job.project.bench.rabbet_way is not RabbetWay.BEARING:
        return
    settings = tuple(_rabbets(job, tuple(_sections(job))))
    if settings:
        yield _card(job, Machine.ROUTER, settings)


def _card(job: BenchJob, machine: Machine, settings: tuple[Setting, ...]) -> Card:
    is_sawn = machine is Machine.RABBET and job.project.bench.rabbet_way is RabbetWay.TABLE_SAW
    is_glued_on = machine is Machine.RABBET and job.project.bench.rabbet_way is RabbetWay.STRIP
    return Card(
        machine=machine,
        settings=settings,
        says=(_STRIP,) if is_glued_on else (),
        feed="" if is_sawn or is_glued_on else FEED[machine],
        cautions=() if is_glued_on else RABBET_AT_THE_SAW if is_sawn else CAUTIONS[machine],
        measured=() if machine is Machine.PROFILE else (Quantity.RABBET_WIDTH, Quantity.RABBET_DEPTH),
    )


def _sections(job: BenchJob) -> Iterator[_Milled]:
    """Every section that is milled here, once in its group."""
    if job.project.timber.milled:
        return
    for group in job.groups:
        alike: dict[object, list[FramePlan]] = {}
        for frame in group.frames:
            if not (frame.is_bought or frame.has_loose_ledge or group.group.is_ledge):
                alike.setdefault(frame.section, []).append(frame)
        for frames in alike.values():
            yield _Milled(frame=frames[0], group=group, names=tuple(one.frame.name for one in frames))


def _is_profile_first(sections: tuple[_Milled, ...]) -> bool:
    orders = (one.frame.milling_order for one in sections)
    return any(order is not None and order.first is MillingStep.PROFILE for order in orders)


def _blank(milled: _Milled) -> Blank:
    """What the rabbet is cut into: the plain blank, or the profiled one where the profile comes first."""
    frame = milled.frame
    section, order = frame.section, frame.milling_order
    if not isinstance(section, Section):
        return Blank(
            width_mm=frame.blank_width_mm,
            rabbet_width_mm=section.ledge_width_mm,
            rabbet_depth_mm=section.height_mm - section.ledge_thickness_mm,
            top=plain_top(width_mm=frame.blank_width_mm, thickness_mm=section.height_mm),
        )
    is_profiled = order is not None and order.first is MillingStep.PROFILE
    plain = plain_top(width_mm=section.face_width_mm, thickness_mm=section.thickness_mm)
    return Blank(
        width_mm=section.face_width_mm,
        rabbet_width_mm=section.rabbet_width_mm,
        rabbet_depth_mm=section.rabbet_depth_mm,
        top=milled_top(section.outline) if is_profiled else plain,
    )


def _tools(job: BenchJob, frame: FramePlan) -> Tools:
    bench = job.project.bench
    bit = bench.bearing_bit if bench.rabbet_way is RabbetWay.BEARING else bench.bit
    density_kg_m3 = frame.wood.density_kg_m3 if frame.wood else 0.0
    return Tools(
        kerf_mm=job.project.shop.kerf.mm,
        deepest_pass_mm=deepest_pass_mm(bit_mm=bit.mm, density_kg_m3=density_kg_m3),
        step_mm=float(frame.step.size_mm),
    )


def _rabbets(job: BenchJob, sections: tuple[_Milled, ...]) -> Iterator[Setting]:
    """Every setting once, for all sections that are cut at it."""
    found: dict[tuple[str, ...], list[tuple[_Milled, RabbetCut]]] = {}
    for milled in sections:
        for cut in _cuts(job, milled):
            key = (cut.does, cut.says, *(job.near(length_mm) for _, length_mm in cut.settings))
            found.setdefault(key, []).append((milled, cut))
    for place, alike in enumerate(found.values(), start=1):
        yield _rabbet(job, alike, place)


def _rabbet(job: BenchJob, alike: list[tuple[_Milled, RabbetCut]], place: int) -> Setting:
    _, cut = alike[0]
    (label, first_mm), *others = cut.settings
    return Setting(
        title=cut.does,
        serves=named(name for one, _ in alike for name in one.names),
        label=label,
        big=job.near(first_mm),
        facts=tuple(Fact(label=name, text=job.near(length_mm)) for name, length_mm in others),
        says=(cut.says, *_rabbet_notes(job, [one for one, _ in alike])),
        lines=tuple(
            CardLine(
                key=one.group.key("rabbet", place), text=joined(": ", [job.title(one.group.group), named(one.names)])
            )
            for one in _once_a_group(alike)
        ),
        sections=(SectionState(caption=cut.does, before=cut.before, after=cut.after),),
    )


def _once_a_group(alike: list[tuple[_Milled, RabbetCut]]) -> list[_Milled]:
    """The first section of each group: its sticks are one pile."""
    return list({one.group.group.key: one for one, _ in reversed(alike)}.values())[::-1]


def _rabbet_notes(job: BenchJob, sections: list[_Milled]) -> Iterator[str]:
    frames = [one.frame for one in sections]
    if any(frame.is_tray for frame in frames):
        yield _TRAY
    if _is_profile_first(tuple(sections)):
        yield _PLAIN_BACK
    if job.project.bench.rabbet_way is RabbetWay.BEARING:
        yield _round_corners(job, frames)
    if any(len(_cuts(job, one)) > MOST_PASSES for one in sections):
        yield _MANY_PASSES


def _cuts(job: BenchJob, milled: _Milled) -> tuple[RabbetCut, ...]:
    return rabbet_cuts(job.project.bench.rabbet_way, _blank(milled), _tools(job, milled.frame))


def _round_corners(job: BenchJob, frames: list[FramePlan]) -> str:
    radius_mm = job.project.bench.bearing_bit.mm / 2
    corners = [
        round_corner(
            radius_mm,
            clearance_across_mm=frame.sizes.clearance_across_mm,
            clearance_up_mm=frame.sizes.clearance_up_mm,
        )
        for frame in frames
    ]
    if any(corner.touches for corner in corners):
        return worded(_SQUARE_UP, square=job.said(corners[0].off_walls_mm))
    return _MAY_STAY


def _profiles(job: BenchJob, sections: tuple[_Milled, ...]) -> Iterator[Setting]:
    for place, milled in enumerate(sections, start=1):
        section, order = milled.frame.section, milled.frame.milling_order
        if isinstance(section, Section) and order and shapes_the_face(section):
            yield from _profile(job, milled, section, place)


def _profile(job: BenchJob, milled: _Milled, section: Section, place: int) -> Iterator[Setting]:
    """The cuts of one profile: the face first, which every edge is set from, then its edges."""
    order = milled.frame.milling_order
    why = () if order is None else (worded("Mill the {first} first: {why}", first=order.first.value, why=order.why),)
    for number, (what, label, big, says) in enumerate(_shapes(job, section), start=1):
        yield Setting(
            title=what,
            serves=named(milled.names),
            label=label,
            big=big,
            says=(*says, *(why if number == 1 else ())),
            lines=(
                CardLine(
                    key=milled.group.key("profile", 10 * place + number),
                    text=job.title(milled.group.group),
                ),
            ),
            sections=(_profiled(milled, section),),
        )


def _shapes(job: BenchJob, section: Section) -> Iterator[tuple[Wording, str, str, tuple[str, ...]]]:
    if section.face is FaceShape.POINTS:
        yield typed("Face"), "Points", str(len(section.points)), (_POINTS,)
    elif section.face is not FaceShape.FLAT:
        yield worded("Face, {face}", face=section.face.value), "Fall over the width", job.near(section.face_drop_mm), ()
    for name, edge in (("Sight edge", section.sight_edge), ("Outer edge", section.back_edge)):
        if is_milled(edge):
            what = capitalised(f"{name}: {edge.shape.value}")
            yield (
                what,
                "Size",
                job.near(edge.size_mm),
                ("Bit height and reach: the size. Fence flush with the bearing.",),
            )


def _profiled(milled: _Milled, section: Section) -> SectionState:
    """The section with its face milled: before or after the rabbet, whichever order it is."""
    blank, top = _blank(milled), milled_top(section.outline)
    whole = Blank(
        width_mm=blank.width_mm,
        rabbet_width_mm=blank.rabbet_width_mm,
        rabbet_depth_mm=blank.rabbet_depth_mm,
        top=top,
    )
    if _is_profile_first((milled,)):
        plain = plain_top(width_mm=section.face_width_mm, thickness_mm=section.thickness_mm)
        return SectionState(caption="Profile", before=((0, 0), (section.face_width_mm, 0), *plain), after=solid(whole))
    depth_mm = blank.rabbet_depth_mm
    return SectionState(
        caption="Profile", before=rabbeted(blank, depth_mm=depth_mm), after=rabbeted(whole, depth_mm=depth_mm)
    )
