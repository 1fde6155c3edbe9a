"""Cards of the rough board: crosscut, joint, rip, plane, and finished width, by the lists of the cutting plan."""

from collections.abc import Iterator

from framecalc.bench.as_cut import Quantity
from framecalc.bench.cards import Card, CardLine, Fact, Machine, Setting
from framecalc.bench.cautions import CAUTIONS, FEED
from framecalc.bench.finishing import DUST, dust_notes
from framecalc.plan.bench.writing import BenchJob, GroupAtBench
from framecalc.plan.timber.machine_work import MachineWork
from framecalc.timber.lists import JointLine, RipLine
from framecalc.timber.planing import PlaningRun
from framecalc.units import TOLERANCE_MM
from framecalc.words import Wording, joined

_CROSSCUT = ("These boards are bowed: cut them across first, square; the parts lose less in flattening.",)
_FLATTEN = (
    "Face first, hollow side down, light passes. Then one edge, the face against the fence.",
    "Mark the face and the edge: every later cut refers to them.",
)
_RIP = ("Jointed edge along the fence, jointed face down.",)
_REST = "rest of a board ripped before"
_PLANE = (
    "Jointed face down. All strips go through one setting before it is changed.",
    "Measure after sanding, and enter it below.",
)
_WIDTH = ("Ripping frees tensions: joint one edge straight again, then rip the other.",)
"""What stands on the cards. Source: common practice, no source."""


def milling_cards(job: BenchJob) -> Iterator[Card]:
    """The cards up to strips of the finished size; none for stock that needs no machine."""
    settings = {
        Machine.CROSSCUT: tuple(_crosscuts(job)),
        Machine.FLATTEN: tuple(_flattened(job)),
        Machine.RIP: tuple(_ripped(job)),
        Machine.PLANE: tuple(_planed(job)),
        Machine.WIDTH: tuple(_widths(job)),
    }
    for machine, found in settings.items():
        if found:
            yield Card(
                machine=machine,
                settings=found,
                says=_SAYS[machine],
                feed=FEED.get(machine, ""),
                cautions=(*CAUTIONS[machine], *(_dust(job) if machine is Machine.PLANE else ())),
                measured=() if _is_part(job, machine) else _MEASURED.get(machine, ()),
            )


def _dust(job: BenchJob) -> Iterator[str]:
    """What the dust of these woods does, where they are planed and sanded."""
    yield DUST
    yield from dict.fromkeys(note for frame in job.frames for note in dust_notes(frame.frame.species))


def _is_part(job: BenchJob, machine: Machine) -> bool:
    """Whether only a part of the member's thickness is planed there: the rest is glued on."""
    return machine is Machine.PLANE and any(frame.has_strip for frame in job.frames)


_SAYS = {
    Machine.CROSSCUT: _CROSSCUT,
    Machine.FLATTEN: _FLATTEN,
    Machine.RIP: _RIP,
    Machine.PLANE: _PLANE,
    Machine.WIDTH: _WIDTH,
}
_MEASURED = {Machine.PLANE: (Quantity.THICKNESS,), Machine.WIDTH: (Quantity.FACE_WIDTH,)}


def _crosscuts(job: BenchJob) -> Iterator[Setting]:
    """One setting for all boards that are cut at the same places; the first of these is the large number."""
    by_places: dict[tuple[str, ...], list[tuple[GroupAtBench, int, str]]] = {}
    for group, work in job.worked:
        for number, (board, cuts_mm) in enumerate(work.crosscuts, start=1):
            by_places.setdefault(tuple(map(job.near, cuts_mm)), []).append((group, number, board))
    for (first, *others), found in by_places.items():
        yield Setting(
            title="Crosscut",
            serves=joined(", ", dict.fromkeys(job.title(group.group) for group, *_ in found)),
            label="From the left end, cut 1 at",
            big=first,
            facts=tuple(Fact(label=f"Cut {place}", text=cut) for place, cut in enumerate(others, start=2)),
            lines=tuple(CardLine(key=group.key("rough", number), text=board) for group, number, board in found),
        )


def _flattened(job: BenchJob) -> Iterator[Setting]:
    for group, work in job.worked:
        lines = tuple(
            CardLine(key=group.key("joint", number), text=_board(line), says=_out_of_flat(line, job))
            for number, line in enumerate(work.jointed, start=1)
        )
        if lines:
            yield Setting(
                title=job.title(group.group),
                label="Not thinner than",
                big=job.said(work.to_planer_mm),
                facts=(Fact(label="Boards", text=str(len(lines))),),
                lines=lines,
            )


def _out_of_flat(line: JointLine, job: BenchJob) -> str:
    return f"{job.said(line.off_mm)} out of flat" if line.off_mm else "flat as typed"


def _ripped(job: BenchJob) -> Iterator[Setting]:
    """One setting for each place of the fence, for all boards that are ripped there."""
    by_fence: dict[str, list[tuple[GroupAtBench, MachineWork, int, RipLine]]] = {}
    for group, work in job.worked:
        for number, line in enumerate(work.rips, start=1):
            by_fence.setdefault(job.said(line.fence_mm), []).append((group, work, number, line))
    for fence, found in by_fence.items():
        yield Setting(
            title="Rip",
            serves=joined(", ", dict.fromkeys(job.title(group.group) for group, *_ in found)),
            label="Fence to blade",
            big=fence,
            facts=(
                Fact(label="Off the first edge", text=job.said(max(line.edge_mm for *_, line in found))),
                Fact(label="Strips", text=str(sum(line.strips for *_, line in found))),
            ),
            lines=tuple(
                CardLine(key=group.key("rip", number), text=_board(line), says=_strips(line, work, job))
                for group, work, number, line in found
            ),
        )


def _strips(line: RipLine, work: MachineWork, job: BenchJob) -> str:
    rest = f", {job.left(line.rest_mm)} left" if line.rest_mm else ""
    many = "1 strip" if line.strips == 1 else f"{line.strips} strips"
    return f"{many}{rest}{', ' + _REST if line.board in work.rests else ''}"


def _planed(job: BenchJob) -> Iterator[Setting]:
    """One setting for each thickness of the job: the passes down to it, the thickest strips first."""
    by_thickness: dict[str, list[tuple[GroupAtBench, int, PlaningRun]]] = {}
    for group, work in job.worked:
        for number, run in enumerate(work.planing, start=1):
            by_thickness.setdefault(job.said(run.finished_mm), []).append((group, number, run))
    for thickness, found in by_thickness.items():
        first = max((run for *_, run in found), key=lambda run: run.rough_mm)
        yield Setting(
            title="Plane",
            serves=joined(", ", dict.fromkeys(job.title(group.group) for group, *_ in found)),
            label="Last setting",
            big=thickness,
            facts=(
                Fact(label="First", text=job.said(first.first_mm)),
                Fact(label="A pass", text=job.said(first.pass_mm)),
                Fact(label="Passes", text=str(first.passes)),
                Fact(label="Last takes", text=job.said(first.last_mm)),
                *_sanded(job, first.finished_mm),
            ),
            lines=tuple(
                CardLine(
                    key=group.key("plane", number),
                    text=f"{len(run.pieces)} rough at {job.said(run.rough_mm)}",
                    says=f"first setting {job.said(run.first_mm)}",
                )
                for group, number, run in found
            ),
        )


def _sanded(job: BenchJob, planed_mm: float) -> Iterator[Fact]:
    """What is left once it is sanded."""
    sanding_mm = job.project.timber.sanding.mm
    if sanding_mm > TOLERANCE_MM:
        yield Fact(label="After sanding", text=job.said(planed_mm - sanding_mm))


def _widths(job: BenchJob) -> Iterator[Setting]:
    for group, work in job.worked:
        for number, line in enumerate(work.widths, start=1):
            yield Setting(
                title="Finished width",
                serves=job.title(group.group),
                label="Fence to blade",
                big=job.said(line.finished_mm),
                facts=(Fact(label="Now", text=job.said(line.rough_mm)), Fact(label="Strips", text=str(line.strips))),
                lines=(CardLine(key=group.key("width", number), text="All strips"),),
            )


def _board(line: RipLine | JointLine) -> Wording:
    return joined("", [line.board, f", part {line.part}" if line.part else ""])
