"""What is typed on the page, and the ways that the plan leaves: shown, and carried out by one of them."""

from collections.abc import Mapping

from framecalc.bench.rescue import Rescue, Trouble
from framecalc.errors import OutOfRange
from framecalc.plan.bench.rescue import RescuePlan
from framecalc.records import Record
from framecalc.sizes.shape import RECTANGLE_SIDES
from framecalc.units import parse_length
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.work.other_wood import spares_of


class RescueWish(Record):
    """What was typed on the page."""

    frame_id: str
    copy_number: int
    side: str
    trouble: Trouble
    by: str


def wish_in(texts: Mapping[str, str], opened: ProjectAtRevision) -> RescueWish:
    """What was typed; the first frame, its top and a short piece where nothing was."""
    counts = {frame.id: frame.count for frame in opened.project.frames}
    frame_id, side, trouble, copy = (texts.get(name, "") for name in ("frame", "side", "trouble", "copy"))
    frame_id = frame_id if frame_id in counts else next(iter(counts))
    is_copy = copy.isdecimal() and len(copy) < 6 and 1 <= int(copy) <= counts[frame_id]
    return RescueWish(
        frame_id=frame_id,
        copy_number=int(copy) if is_copy else 1,
        side=side if side in RECTANGLE_SIDES else RECTANGLE_SIDES[0],
        trouble=next((one for one in Trouble if one.value == trouble), Trouble.SHORT),
        by=texts.get("by", "").strip()[:40],
    )


def ways_for(wish: RescueWish, *, desk: Desk, opened: ProjectAtRevision) -> tuple[Rescue, ...]:
    """The ways that are left.

    Raises:
        FrameCalcError: no length was typed, or the frame cannot be computed.
    """
    frame = opened.plan.frames[wish.frame_id]
    by_mm = parse_length(wish.by, bare=opened.project.unit, comma=opened.project.shop.comma).mm
    if not 0 < by_mm <= MOST_MM:
        raise OutOfRange("Enter more than 0, up to 300 mm (12 in)", field="by")
    spares = spares_of(desk, opened, frame)
    plan = RescuePlan(opened.plan, frame, trouble=wish.trouble, side=wish.side, by_mm=by_mm, spares=spares)
    return plan.ways


MOST_MM = 300.0
"""More than a section's width is no rescue but a new piece."""
