"""What the lists of a cutting plan share: their names in the order of the work, their lines, their lengths in words."""

from collections.abc import Iterable, Sequence

from framecalc.findings import Finding
from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.machine_work import MachineWork
from framecalc.project import Project
from framecalc.records import Record, cached_property
from framecalc.timber.sticks.answer import StickPlan
from framecalc.units import describe_length
from webapp.live.lists import JobList, ListRow
from webapp.live.tabbed import Tab
from webapp.pages.timber.says import left_over_words

TITLES = {
    "buy": "Stock to get",
    "rough": "To crosscut first",
    "joint": "To joint: face and edge",
    "rip": "To rip, to rough width",
    "plane": "To plane, to thickness",
    "width": "To joint and rip, to finished width",
    "mill": "Rabbet and profile, in long lengths",
    "tests": "Test pieces first",
    "stops": "Stops, longest first",
    "pieces": "Every piece",
    "again": "Cut again",
    "fit": "Dry fit",
    "left": "Off-cuts",
}
"""Every list by its name in addresses, in the order of the work."""

TABS = (
    Tab(name="stock", title="Stock", lists=("buy",)),
    Tab(name="mill", title="Mill", lists=("rough", "joint", "rip", "plane", "width", "mill")),
    Tab(name="stops", title="Stops", lists=("tests", "stops")),
    Tab(name="pieces", title="Pieces", lists=("pieces", "again", "fit")),
    Tab(name="off-cuts", title="Off-cuts", lists=("left",)),
)
"""The lists that the page shows together."""


class ListMaker(Record, dict=True):
    """Makes the lists of one plan in the unit of its project."""

    project: Project
    group: TimberGroup
    plan: StickPlan

    @cached_property
    def work(self) -> MachineWork:
        """The work at the machines."""
        return MachineWork(project=self.project, group=self.group, plan=self.plan)

    def made(
        self,
        name: str,
        columns: tuple[str, ...],
        cells: Sequence[tuple[str, ...]],
        *,
        below: tuple[str, Sequence[str]] = ("", ()),
        notes: Iterable[str] = (),
        tickable: bool = True,
        done: Sequence[bool] = (),
    ) -> JobList:
        """A list of these lines, each ticked or not; some are `done` whatever is ticked."""
        more, before = below[1] or [""] * len(cells), done or [False] * len(cells)
        keys = (self.work.key(name, number) for number in range(1, len(cells) + 1))
        rows = tuple(
            ListRow(key=key, cells=row, below=longer, is_done=is_done or key in self.project.timber.done)
            for key, row, longer, is_done in zip(keys, cells, more, before, strict=True)
        )
        return JobList(
            name=name,
            title=TITLES[name],
            columns=columns,
            rows=rows,
            below=below[0],
            notes=tuple(notes),
            tickable=tickable,
        )

    def plain(self, finding: Finding) -> str:
        """A finding as a note over a list."""
        lengths = {name: self.length(length_mm) for name, length_mm in finding.lengths.items()}
        return (finding.sentence + " " + finding.why).format_map(lengths)

    def left_over(self, length_mm: float) -> str:
        """A size of an off-cut: it is never said to be larger than it is."""
        return left_over_words(length_mm, project=self.project)

    def length(self, length_mm: float) -> str:
        """A length in words."""
        return describe_length(length_mm, unit=self.project.unit)
