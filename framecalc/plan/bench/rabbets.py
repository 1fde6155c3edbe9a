"""Cards of the section: the profile and the rabbet, in their order, cut by cut, with the section after each."""

from collections.abc import Iterator
from itertools import pairwise

from framecalc.bench.as_cut import Quantity
from framecalc.bench.cards import Card, CardLine, Fact, Machine, SectionState, Setting
from framecalc.bench.cautions import CAUTIONS, FEED, RABBET_AT_THE_SAW
from framecalc.bench.passes import deepest_pass_mm
from framecalc.bench.rabbet_ways import RabbetCut, RabbetWay, Tools, rabbet_cuts, round_corner
from framecalc.plan.bench.milled import MilledSection, blank_of, is_profile_first, sections_of
from framecalc.plan.bench.profiles import HOLD_DOWNS, profile_settings, why_in_this_order
from framecalc.plan.bench.writing import BenchJob, named
from framecalc.plan.frame import FramePlan
from framecalc.section.milling import LEAST_BEARING_MM, MillingStep
from framecalc.section.profile import FaceShape
from framecalc.section.rabbeted import Section
from framecalc.units import TOLERANCE_MM
from framecalc.words import joined, worded

_TRAY = "Top of the wall down on the table: this is the room over the ledge."
_PLAIN_BACK = "The face is milled already: let plain wood run on the fence."
_LITTLE_LEFT = "Only {left} of the sight edge stays to run on the fence: the table saw is safer."
_FACE_LEANS = "The face does not lie flat on the fence: tape a wedge to it, {fall} thick at the low edge."
_SQUARE_UP = "It would touch the package: square the corners with a chisel, {square} off either wall."
_MAY_STAY = "Round corners may stay: the package clears them."
_TRY = "Try each setting on scrap of this section before the good wood."
_STRIP = "Glue in long lengths, before the saw. Both parts have a cutting plan of their own."

_LITTLE_TO_ROLL_ON = "Only {left} of the sight edge stays for the bearing to roll on: choose another way."
_MANY_PASSES = "The cutter must be this long. So deep a rabbet goes faster on the table saw, or built up with a strip."

MOST_PASSES = 8
"""With more passes another way is faster, and one setting tells of all. Source: common practice, no source."""

_ON_A_FENCE = (RabbetWay.ROUTER_TABLE, RabbetWay.TABLE_SAW)


def section_cards(job: BenchJob) -> Iterator[Card]:
    """The cards of rabbet and profile, in the order in which they are milled; none for bought or milled sticks."""
    sections = tuple(sections_of(job))
    rabbet, profile = tuple(_rabbets(job, sections)), tuple(profile_settings(job, sections))
    is_after_glue = job.project.bench.rabbet_way is RabbetWay.BEARING
    cards = [
        _card(job, Machine.PROFILE, profile, says=(HOLD_DOWNS, *dict.fromkeys(why_in_this_order(sections)))),
        *([] if is_after_glue else [_card(job, Machine.RABBET, rabbet, says=(_TRY,))]),
    ]
    in_order = cards if is_profile_first(sections) else cards[::-1]
    yield from (card for card in in_order if card.settings)


def inside_card(job: BenchJob) -> Iterator[Card]:
    """The card of a bearing bit, after glue-up; none where the rabbet is cut before."""
    if job.project.bench.rabbet_way is not RabbetWay.BEARING:
        return
    settings = tuple(_rabbets(job, tuple(sections_of(job))))
    if settings:
        yield _card(job, Machine.ROUTER, settings)


def _card(job: BenchJob, machine: Machine, settings: tuple[Setting, ...], *, says: tuple[str, ...] = ()) -> Card:
    is_sawn = machine is Machine.RABBET and job.project.bench.rabbet_way is RabbetWay.TABLE_SAW
    is_glued_on = machine is Machine.RABBET and job.project.bench.rabbet_way is RabbetWay.STRIP
    return Card(
        machine=machine,
        settings=settings,
        says=(_STRIP,) if is_glued_on else says,
        feed="" if is_sawn or is_glued_on else FEED[machine],
        cautions=() if is_glued_on else RABBET_AT_THE_SAW if is_sawn else CAUTIONS[machine],
        measured=() if machine is Machine.PROFILE else (Quantity.RABBET_WIDTH, Quantity.RABBET_DEPTH),
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


def _rabbets(job: BenchJob, sections: tuple[MilledSection, ...]) -> Iterator[Setting]:
    """Every setting once, for all sections that are cut at it."""
    found: dict[tuple[str, ...], list[tuple[MilledSection, RabbetCut]]] = {}
    for milled in sections:
        for cut in _cuts(job, milled):
            key = (cut.does, cut.says, *(job.near(length_mm) for _, length_mm in cut.settings))
            found.setdefault(key, []).append((milled, cut))
    for place, alike in enumerate(found.values(), start=1):
        yield _rabbet(job, alike, place)


def _rabbet(job: BenchJob, alike: list[tuple[MilledSection, RabbetCut]], place: int) -> Setting:
    _, cut = alike[0]
    (label, first_mm), *others = cut.settings
    return Setting(
        title=cut.does,
        serves=named(name for one, _ in alike for name in one.names),
        label=label,
        big=job.near(first_mm),
        facts=tuple(Fact(label=name, text=job.near(length_mm)) for name, length_mm in others),
        says=(cut.says, *_rabbet_notes(job, [one for one, _ in alike], cut)),
        lines=tuple(_sticks(job, _once_a_group(alike), place)),
        sections=(SectionState(caption=cut.does, before=cut.before, after=cut.after),),
    )


def _sticks(job: BenchJob, piles: list[MilledSection], place: int) -> Iterator[CardLine]:
    """A line for each pile of sticks; one pile needs no name."""
    alone = "All frames" if job.project.bench.rabbet_way is RabbetWay.BEARING else "All sticks"
    for one in piles:
        name = joined(": ", [job.title(one.group.group), named(one.names)])
        yield CardLine(key=one.group.key("rabbet", place), text=name if len(piles) > 1 else alone)


def _once_a_group(alike: list[tuple[MilledSection, RabbetCut]]) -> list[MilledSection]:
    """The first section of each group: its sticks are one pile."""
    return list({one.group.group.key: one for one, _ in reversed(alike)}.values())[::-1]


def _rabbet_notes(job: BenchJob, sections: list[MilledSection], cut: RabbetCut) -> Iterator[str]:
    """What is to be known before the first cut, and at the last."""
    frames, cuts, way = [one.frame for one in sections], _cuts(job, sections[0]), job.project.bench.rabbet_way
    if cut == cuts[0] and any(frame.is_tray for frame in frames):
        yield _TRAY
    if cut == cuts[0] and is_profile_first(tuple(sections)) and way in _ON_A_FENCE:
        yield _PLAIN_BACK
    if cut == cuts[0]:
        yield from _little_left(job, frames)
    if cut == cuts[-1] and way is RabbetWay.TABLE_SAW:
        yield from _leaning_face(job, frames)
    if cut == cuts[-1] and way is RabbetWay.BEARING:
        yield _round_corners(job, frames)


def _little_left(job: BenchJob, frames: list[FramePlan]) -> Iterator[str]:
    """How little of a milled sight edge is left to run on, where it is too little."""
    little = {RabbetWay.ROUTER_TABLE: _LITTLE_LEFT, RabbetWay.BEARING: _LITTLE_TO_ROLL_ON}
    pattern = little.get(job.project.bench.rabbet_way, "")
    left_mm = [one.sight_side_top_mm - one.rabbet_depth_mm for one in map(_section, frames) if one]
    if pattern and min(left_mm, default=LEAST_BEARING_MM) < LEAST_BEARING_MM - TOLERANCE_MM:
        yield worded(pattern, left=job.said(min(left_mm)))


def _leaning_face(job: BenchJob, frames: list[FramePlan]) -> Iterator[str]:
    """What keeps a bevelled face upright on the fence."""
    shaped = [one for one in map(_section, frames) if one]
    falls_mm = [one.face_drop_mm for one in shaped if one.face in (FaceShape.TOWARD, FaceShape.AWAY)]
    if falls_mm:
        yield worded(_FACE_LEANS, fall=job.said(max(falls_mm)))


def _section(frame: FramePlan) -> Section | None:
    """The section of a member whose profile is milled before its rabbet."""
    order, section = frame.milling_order, frame.section
    is_first = order is not None and order.first is MillingStep.PROFILE
    return section if isinstance(section, Section) and is_first else None


def _cuts(job: BenchJob, milled: MilledSection) -> tuple[RabbetCut, ...]:
    cuts = rabbet_cuts(job.project.bench.rabbet_way, blank_of(milled), _tools(job, milled.frame))
    return (_all_in_one(cuts),) if len(cuts) > MOST_PASSES else cuts


def _all_in_one(cuts: tuple[RabbetCut, ...]) -> RabbetCut:
    """Many passes as one setting: the last height, the first, and by how much the cutter is raised."""
    heights_mm = [cut.settings[0][1] for cut in cuts]
    raised_mm = max(high_mm - low_mm for low_mm, high_mm in pairwise(heights_mm))
    return RabbetCut(
        does=f"{len(cuts)} passes",
        settings=(
            ("Last bit height", heights_mm[-1]),
            *cuts[-1].settings[1:],
            ("First", heights_mm[0]),
            ("Raise by", raised_mm),
        ),
        says=f"{cuts[-1].says} {_MANY_PASSES}",
        before=cuts[0].before,
        after=cuts[-1].after,
    )


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
