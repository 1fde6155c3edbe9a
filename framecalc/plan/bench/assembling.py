"""Cards from the saw to the clamps: dry fit, what holds the corner besides glue, and the glue-up."""

from collections.abc import Callable, Iterator, Sequence
from math import hypot

from framecalc.bench.as_cut import Quantity
from framecalc.bench.cards import Card, CardLine, Fact, Machine, Setting
from framecalc.bench.cautions import CAUTIONS, LAP_CAUTION, PIN_CAUTION, SLOT_CAUTION
from framecalc.bench.gluing import NOT_YET, ORDER, ORDER_ROUND, first_coat
from framecalc.corners.clamping import CLAMP_CAUTION, RING_CAUTION
from framecalc.corners.joints.splines import SLED_CAUTIONS, Spline
from framecalc.errors import FrameCalcError
from framecalc.findings import Rounding
from framecalc.plan.bench.timetable import GluePlan, glue_key
from framecalc.plan.bench.writing import BenchJob, CutToSize, GroupAtBench, named
from framecalc.plan.corners.joint import JointPlan
from framecalc.plan.frame import FramePlan
from framecalc.units import describe_size, format_length
from framecalc.words import joined, typed, worded

_SHUT = (
    "Mark the mates, close all corners on a flat bench, one strap round them.",
    "First: wood sits flat, faces flush.",
    "Then: every mitre shut, face and back.",
)
_TRUE = {True: "Then: diagonals equal.", False: "Then: from each corner to what lies across, all alike."}
"""What tells that a rectangle is true, and what tells it of a frame of more sides."""

ACROSS_FLATS = "Across the flats"
"""What is measured of a frame whose sides lie opposite each other."""

_DROPS_IN = "Last: the package drops in."
FAULTS = (
    ("Open at the sight edge, all corners", "the ends are over their angle. Shim, and cut again"),
    ("Open at the outer edge, all corners", "the ends are under their angle. Shim, and cut again"),
    ("Three shut, the last open", "the errors add up. Read the last gap, and type it on Corners"),
    (
        "Shut on the face, open behind",
        "the blade leans, or the rabbet tips the stick. Square the blade, lay a filler strip",
    ),
    ("Diagonals differ, mitres shut", "two sides that should be mates differ in length"),
    ("It rocks", "a member is in wind. Plane it, or swap it"),
    ("The package binds", "rabbet too narrow or long points short. Enter them as cut"),
)
"""What each fault at the dry fit means. Source: common practice, no source."""

Keyed = GroupAtBench | CutToSize
"""What gives the lines of a frame their keys."""

_SLOT = "Fence to the back of the member, mark from the tip."


def dry_fit_card(job: BenchJob) -> Iterator[Card]:
    """The card of the dry fit: a setting for each frame; ledges are fitted into theirs."""
    settings = tuple(_fits(job))
    if settings:
        faults = tuple(f"{fault}: {means}." for fault, means in FAULTS)
        yield Card(
            machine=Machine.DRY_FIT,
            settings=settings,
            says=(*_SHUT, *_trued(job), _DROPS_IN, *faults),
            measured=(Quantity.PACKAGE,),
        )


def slots_card(job: BenchJob) -> Iterator[Card]:
    """The card of what is cut into mitres before the glue-up: slots and laps."""
    yield from _joint_card(job, Machine.SLOTS, _cut_before, _cautions_before)


def splines_card(job: BenchJob) -> Iterator[Card]:
    """The card of what goes into a glued corner: splines, pins and wedges."""
    yield from _joint_card(job, Machine.SPLINES, _put_in_after, _cautions_after)


def _joint_card(
    job: BenchJob,
    machine: Machine,
    settings_of: Callable[[BenchJob, JointPlan], Iterator[Setting]],
    cautions_of: Callable[[JointPlan], Iterator[str]],
) -> Iterator[Card]:
    """The card of one part of the joints, each setting once for all corners that are alike; none where glue is all."""
    found: dict[tuple[object, ...], list[tuple[Keyed, int, FramePlan, Setting]]] = {}
    cautions: dict[str, None] = {}
    for group, number, frame in _members(job):
        try:
            joint = frame.corners.joint
            settings = tuple(settings_of(job, joint))
        except FrameCalcError:
            continue
        cautions |= dict.fromkeys(cautions_of(joint)) if settings else {}
        for setting in settings:
            key = (setting.title, setting.big, setting.facts, setting.says)
            found.setdefault(key, []).append((group, number, frame, setting))
    if found:
        merged = tuple(_merged(alike, f"{machine}{place}") for place, alike in enumerate(found.values(), start=1))
        yield Card(machine=machine, settings=merged, cautions=tuple(cautions))


def glue_card(job: BenchJob) -> Iterator[Card]:
    """The card of the glue-up: a setting for each frame."""
    settings = tuple(_glued(job))
    if settings:
        yield Card(
            machine=Machine.GLUE,
            settings=settings,
            says=(first_coat(job.project.bench.glue), *_in_order(job), NOT_YET),
            cautions=(*_clamped(job), *CAUTIONS[Machine.GLUE]),
        )


def _shapes(job: BenchJob) -> set[bool]:
    """Whether frames of the job are rectangles; both where it has others too."""
    return {frame.shape.is_rectangle for _, _, frame in _members(job)}


def _in_order(job: BenchJob) -> Iterator[str]:
    """The order of clamping, by the shapes of the job."""
    shapes = _shapes(job)
    yield from ORDER if True in shapes else ()
    yield from ORDER_ROUND if False in shapes else ()


def _clamped(job: BenchJob) -> Iterator[str]:
    """The cautions of clamping, by the shapes of the job."""
    shapes = _shapes(job)
    yield from [CLAMP_CAUTION] if True in shapes else []
    yield from [RING_CAUTION] if False in shapes else []


def _trued(job: BenchJob) -> Iterator[str]:
    """How the frames of the job are checked for being true, each way once."""
    yield from dict.fromkeys(_TRUE[frame.shape.is_rectangle] for _, _, frame in _members(job))


def _members(job: BenchJob) -> Iterator[tuple[Keyed, int, FramePlan]]:
    """Every frame with its group and its number in there; not the ledges of one, and none that comes joined."""
    for group in job.groups:
        if not group.group.is_ledge:
            for number, frame in enumerate(group.frames, start=1):
                yield group, number, frame
    for frame in job.cut_to_size:
        yield CutToSize(frame_id=frame.frame.id), 1, frame


def _fits(job: BenchJob) -> Iterator[Setting]:
    for group, number, frame in _members(job):
        yield Setting(
            title=frame.frame.name,
            serves=_copies(frame),
            facts=(_round(job, frame),),
            lines=tuple(_closes(group, number, frame)),
            label=_diagonal(job, frame)[0],
            big=_diagonal(job, frame)[1],
        )


def _round(job: BenchJob, frame: FramePlan) -> Fact:
    """The outside of a frame; its corners where the big figure is the outside."""
    label, _ = _diagonal(job, frame)
    if label == ACROSS_FLATS:
        return Fact(label="Corners", text=str(frame.shape.sides))
    return Fact(label="Outside", text=_outside(job, frame))


def _closes(group: Keyed, number: int, frame: FramePlan) -> Iterator[CardLine]:
    """A line for each copy that closes."""
    if frame.frame.count == 1:
        yield CardLine(key=group.key("fit", number), text="Closes dry")
        return
    for copy in range(1, frame.frame.count + 1):
        yield CardLine(key=group.key(f"fit{number}", copy), text=f"Copy {copy} closes")


def _glued(job: BenchJob) -> Iterator[Setting]:
    glue = GluePlan(job.project)
    times = glue.times
    for _, _, frame in _members(job):
        yield Setting(
            title=frame.frame.name,
            serves=_copies(frame),
            facts=(
                Fact(label="Open time", text=f"{times.open_min:g} min"),
                Fact(label="In the clamps", text=f"{times.clamped_min:g} min"),
                Fact(label="Full strength", text=f"{glue.strong_h} h"),
                *_pull(job, frame),
            ),
            lines=tuple(
                CardLine(key=glue_key(frame.frame.id, copy), text=f"Copy {copy}" if frame.frame.count > 1 else "Glued")
                for copy in range(1, frame.frame.count + 1)
            ),
            label=_diagonal(job, frame)[0],
            big=_diagonal(job, frame)[1],
        )


def _pull(job: BenchJob, frame: FramePlan) -> Iterator[Fact]:
    strap = frame.frame.corner.clamps.strap_force or job.project.shop.strap.pull
    if strap is not None:
        yield Fact(label="Strap", text=strap.full)


def _copies(frame: FramePlan) -> str:
    return worded("× {count}", count=frame.frame.count) if frame.frame.count > 1 else ""


def _diagonal(job: BenchJob, frame: FramePlan) -> tuple[str, str]:
    """Both diagonals of a rectangle, across the flats where sides lie opposite; of another shape its corners."""
    if not frame.shape.is_rectangle and not frame.shape.slopes and frame.shape.sides % 2 == 0:
        return ACROSS_FLATS, format_length(_outside_mm(frame)[0], step=frame.step, rounding=Rounding.UP).full
    if not frame.shape.is_rectangle or frame.shape.slopes:
        return "Corners", str(frame.shape.sides)
    across_mm, up_mm = _outside_mm(frame)
    return "Both diagonals", job.near(hypot(across_mm, up_mm))


def _outside(job: BenchJob, frame: FramePlan) -> str:
    """The outside in the direction of its figure; of a polygon across its flats."""
    sizes_mm = _outside_mm(frame)
    across, up = (format_length(mm, step=frame.step, rounding=Rounding.UP) for mm in sizes_mm)
    return f"{across} × {up.full}" if frame.shape.is_rectangle else f"{across.full} across the flats"


def _outside_mm(frame: FramePlan) -> tuple[float, float]:
    """The outside as it was cut, or as it follows from what came out."""
    sizes = frame.as_cut.for_the_saw.sizes
    return frame.as_cut.outside_mm or (sizes.outside_across_mm, sizes.outside_up_mm)


def _cut_before(job: BenchJob, joint: JointPlan) -> Iterator[Setting]:
    """The settings of one corner before it is glued."""
    thickness_mm = joint.stock.thickness_mm
    for place in joint.slot_places:
        yield Setting(
            title=place.slot.name,
            label="Depth, each member",
            big=job.said(place.slot.depth_mm),
            facts=(
                Fact(label="Height from the back", text=job.said(place.height_mm)),
                Fact(label="From the face", text=job.said(thickness_mm - place.height_mm)),
                Fact(label="Middle from the tip", text=job.said(place.marks.centre_mm)),
            ),
            says=(_SLOT,),
        )
    if joint.lapped:
        yield Setting(
            title=joint.kind.capitalize(),
            label="Cut away, along the member",
            big=job.said(joint.lapped.reach_mm),
            facts=(
                Fact(label="From the back", text=job.said(joint.lapped.low_mm)),
                Fact(label="To", text=job.said(joint.lapped.high_mm)),
            ),
        )


def _put_in_after(job: BenchJob, joint: JointPlan) -> Iterator[Setting]:
    """The settings of one corner once it is glued."""
    for spline in joint.splines:
        yield Setting(
            title="Spline, on the sled",
            label="Blade above the table",
            big=job.said(spline.blade_mm),
            facts=(
                Fact(label="Height from the back", text=job.said(spline.height_mm)),
                Fact(label="Kerf", text=job.said(spline.kerf_mm)),
                Fact(label="Blank", text=_blank(job, spline)),
            ),
            says=("After the glue has cured. The grain of the blank runs across the joint.",),
        )
    if joint.pin:
        yield Setting(
            title="Pin",
            label="From the corner",
            big=job.said(joint.pin.from_corner_mm),
            facts=(
                Fact(label="Height from the back", text=job.said(joint.pin.height_mm)),
                Fact(label="Length", text=job.said(joint.pin.length_mm)),
            ),
            says=("After the clamps are off. In hard wood drill first.",),
        )
    if joint.wedge:
        yield Setting(
            title="Corner wedge",
            label="Height of the wedge",
            big=job.said(joint.wedge.height_mm),
            says=("At the glue-up, while the glue is wet: from behind, face down on a soft, flat bed.",),
        )


def _blank(job: BenchJob, spline: Spline) -> str:
    return describe_size(spline.blank.length_mm, spline.blank.width_mm, unit=job.project.unit)


def _merged(alike: Sequence[tuple[Keyed, int, FramePlan, Setting]], name: str) -> Setting:
    setting = alike[0][-1]
    return Setting(
        title=setting.title,
        serves=named(frame.frame.name for _, _, frame, _ in alike),
        label=setting.label,
        big=setting.big,
        facts=setting.facts,
        says=setting.says,
        lines=tuple(
            CardLine(key=group.key(name, number), text=joined("", [typed(frame.frame.name), _times(frame)]))
            for group, number, frame, _ in alike
        ),
    )


def _times(frame: FramePlan) -> str:
    corners = frame.frame.count * frame.shape.sides
    return f", {corners} corners"


def _cautions_before(joint: JointPlan) -> Iterator[str]:
    if joint.slot_place:
        yield SLOT_CAUTION
    if joint.lapped:
        yield LAP_CAUTION


def _cautions_after(joint: JointPlan) -> Iterator[str]:
    if joint.splines:
        yield from SLED_CAUTIONS
    if joint.pin or joint.wedge:
        yield PIN_CAUTION
