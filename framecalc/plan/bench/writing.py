"""What the cards of a job share: its groups with their cutting plans, and how lengths and names are written."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from hashlib import sha256

from framecalc.bench.cutters import Cutter
from framecalc.findings import Rounding
from framecalc.plan.frame import FramePlan
from framecalc.plan.inputs import is_cut_here
from framecalc.plan.timber.as_cut import longer_mm
from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.machine_work import MachineWork, tick_key
from framecalc.plan.timber.runs import FrameRun, runs_of
from framecalc.project import Project
from framecalc.records import Record, cached_property, field
from framecalc.timber.sticks.answer import StickPlan
from framecalc.timber.sticks.problem import Piece
from framecalc.units import describe_length, describe_size, format_length
from framecalc.words import Wording, joined, typed, worded

CutsElsewhere = tuple[tuple[float, ...], ...]

MOST_NAMED = 3
"""As many frames are named on a setting; more are counted."""


class GroupAtBench(Record, dict=True):
    """A group of members and its cutting plan, where there is one."""

    project: Project
    group: TimberGroup
    plan: StickPlan | None = None

    @cached_property
    def work(self) -> MachineWork | None:
        """The work at the machines, once there is a cutting plan."""
        return MachineWork(project=self.project, group=self.group, plan=self.plan) if self.plan else None

    def key(self, name: str, number: int) -> str:
        """The key of a line, from 1 on: that of the list of the same name, where there is a cutting plan."""
        return tick_key(self.plan.problem_hash if self.plan else self.group.key, name, number)

    @property
    def frames(self) -> tuple[FramePlan, ...]:
        """Its frames."""
        return self.group.frames


class CutToSize(Record):
    """The sides of a frame that come cut to size: they are fitted, joined and glued here, and no more."""

    frame_id: str

    def key(self, name: str, number: int) -> str:
        """The key of a line, from 1 on."""
        return tick_key(sha256(f"cut to size {self.frame_id}".encode()).hexdigest(), name, number)


class BenchJob(Record, dict=True):
    """A job at the bench: its frames, its groups in the order of their cutting plans, the cutters of the shop.

    `cuts_elsewhere`: by frame, the errors of each setting of its saw that other frames tell of [°].
    """

    project: Project
    frames: tuple[FramePlan, ...]
    groups: tuple[GroupAtBench, ...]
    cutters: tuple[Cutter, ...] = ()
    cuts_elsewhere: Mapping[str, CutsElsewhere] = field(default_factory=dict)

    @property
    def worked(self) -> Iterator[tuple[GroupAtBench, MachineWork]]:
        """The groups that have a cutting plan."""
        for group in self.groups:
            if group.work:
                yield group, group.work

    @property
    def at_the_saw(self) -> Iterator[GroupAtBench]:
        """The groups that are cut at the mitre saw: all but strips that are glued to members before."""
        return (group for group in self.groups if not group.group.is_strip)

    @property
    def cut_to_size(self) -> Iterator[FramePlan]:
        """The frames whose sides come cut to size, and not joined."""
        for frame in self.frames:
            if not is_cut_here(frame.frame) and not frame.frame.section.moulding.sale.is_joined:
                yield frame

    @cached_property
    def runs(self) -> dict[str, FrameRun]:
        """The runs round the frames, by what is chalked on their pieces."""
        return {run.name: run for run in runs_of(self.frames)}

    def longer_mm(self, piece: Piece) -> float:
        """By how much a long point is longer than planned, by what came out; nothing once long points are measured."""
        run = self.runs.get(piece.frame)
        return longer_mm(run, piece) if run else 0.0

    def said(self, length_mm: float) -> str:
        """A length for a sentence."""
        return describe_length(length_mm, unit=self.project.unit)

    def left(self, length_mm: float) -> str:
        """What is left over, down to the step of the tape."""
        step = self.project.shop.step(self.project.unit)
        return format_length(length_mm, step=step, rounding=Rounding.DOWN).full

    def near(self, length_mm: float) -> str:
        """A number to set a machine to: the nearest step of the tape."""
        return format_length(length_mm, step=self.project.shop.step(self.project.unit)).full

    def title(self, group: TimberGroup) -> Wording:
        """What the members of a group have in common."""
        section = group.section
        size = describe_size(section.width_mm, section.thickness_mm, unit=self.project.unit)
        name = section.moulding or section.wood
        return joined(" ", filter(None, (typed(name[:1].upper() + name[1:]), size)))


def named(names: Iterable[str]) -> Wording:
    """The frames that a setting serves: by name, or how many.

    >>> named(["Hall", "Stairs"]), named(["a", "b", "c", "d"])
    ('Hall, Stairs', '4 frames')
    """
    once: Sequence[str] = tuple(dict.fromkeys(names))
    if len(once) > MOST_NAMED:
        return worded("{count} frames", count=len(once))
    return joined(", ", map(typed, once))
