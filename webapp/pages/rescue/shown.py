"""What the page shows: what is typed, and the ways that are left, each with its cost."""

from framecalc.bench.rescue import Rescue, Trouble
from framecalc.errors import FrameCalcError
from framecalc.findings import Rounding
from framecalc.project import Project
from framecalc.records import Record
from framecalc.sizes.shape import RECTANGLE_SIDES
from framecalc.units import describe_length, format_length
from webapp.live.addresses import BENCH, RESCUE
from webapp.live.answers import refusal
from webapp.live.desk import Desk, ProjectAtRevision, new_id
from webapp.live.of_project import OfOpened
from webapp.pages.rescue.wish import RescueWish, ways_for


class RescueWay(Record):
    """One way: what to do and its cost; `number` is that of its button, 0 where nothing changes in the plan."""

    number: int
    says: str
    cost: str


class RescueShown(OfOpened):
    """What the page shows."""

    wish: RescueWish
    ways: tuple[RescueWay, ...]
    wrong: str = ""
    taken: str = ""
    once: str = ""

    @property
    def address(self) -> str:
        """The address of the page."""
        return RESCUE(project_id=self.opened.project_id)

    @property
    def bench_at(self) -> str:
        """The bench."""
        return BENCH(project_id=self.opened.project_id)

    @property
    def has_copies(self) -> bool:
        """Whether a frame is made more than once."""
        return any(frame.count > 1 for frame in self.project.frames)

    @property
    def troubles(self) -> tuple[tuple[str, str], ...]:
        """What can go wrong, as choices."""
        return tuple((one.value, one.value.capitalize()) for one in Trouble)

    @property
    def sides(self) -> tuple[tuple[str, str], ...]:
        """The sides, as choices."""
        return tuple((side, side.capitalize()) for side in RECTANGLE_SIDES)


def rescue_shown(desk: Desk, opened: ProjectAtRevision, wish: RescueWish, *, taken: str = "") -> RescueShown:
    """What the page shows."""
    if not wish.by:
        return RescueShown(opened=opened, wish=wish, ways=(), taken=taken)
    unit = opened.project.unit
    try:
        found = ways_for(wish, desk=desk, opened=opened)
    except FrameCalcError as error:
        wrong = refusal(error, lambda length_mm: describe_length(length_mm, unit=unit))
        return RescueShown(opened=opened, wish=wish, ways=(), wrong=wrong)
    ways = tuple(
        RescueWay(
            number=number if way.changes or way.again else 0,
            says=way.says,
            cost=f"{_wood(way, opened.project)} wood, {way.minutes_min} min, {way.looks.words}",
        )
        for number, way in enumerate(found, start=1)
    )
    return RescueShown(opened=opened, wish=wish, ways=ways, once=new_id())


def _wood(way: Rescue, project: Project) -> str:
    if not way.wood_mm:
        return "no"
    return format_length(way.wood_mm, step=project.shop.step(project.unit), rounding=Rounding.UP).full
