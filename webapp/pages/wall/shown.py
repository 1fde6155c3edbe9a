"""What the wall page shows beside its fields: the groups, what is on the wall, the frames in their order."""

from collections.abc import Iterator, Mapping
from contextlib import suppress
from typing import ClassVar

from framecalc.drawing.sheet import usual_paper
from framecalc.drawing.wall.group import picture_px, wall_drawing
from framecalc.errors import FrameCalcError
from framecalc.hanging.groups import Arrangement
from framecalc.hanging.hangers import Hanger
from framecalc.hanging.suggested import FURNITURE
from framecalc.hanging.things import ThingKind
from framecalc.plan.hanging.wall import WallPiece
from framecalc.plan.templates.strips import ROWS
from framecalc.project.wall import Wall, WallThing
from framecalc.records import Record, replace
from webapp.live.actions import TAPPED_ACROSS
from webapp.live.addresses import DRAWING_FILE, HAND_OVER, TEMPLATES, WALL
from webapp.live.answers import Link
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.grouped_page import GroupedShown
from webapp.live.typed.answer import FrameAnswer
from webapp.pages.wall.groups import GROUPS, AnswerGroup, WallContext, groups_of


class TapWall(Record):
    """The wall as a picture to tap: its address, its size in pixels of the page."""

    href: str
    across: str
    up: str


class WallShown(GroupedShown):
    """What the wall page shows."""

    titles: ClassVar[Mapping[str, str]] = {name: title for name, (title, _) in GROUPS.items()}
    kinds: ClassVar[tuple[str, ...]] = tuple(ThingKind)

    @property
    def wall(self) -> Wall:
        """The wall as typed."""
        return self.project.wall

    @property
    def things(self) -> tuple[WallThing, ...]:
        """What is on the wall."""
        return self.wall.things

    @property
    def furniture(self) -> tuple[WallThing, ...]:
        """What the group may hang over."""
        return tuple(thing for thing in self.things if thing.kind in FURNITURE)

    @property
    def pieces(self) -> tuple[WallPiece, ...]:
        """The frames in their order, if they can be worked out."""
        with suppress(FrameCalcError):
            return self.answer.whole.wall.pieces
        return ()

    @property
    def tapped(self) -> TapWall | None:
        """The wall to be tapped, where the group is worked out."""
        if self.answer.impossible:
            return None
        with suppress(FrameCalcError):
            drawing, ids = wall_drawing(self.answer.whole), {"project_id": self.answer.project_id}
            saved = self.project.saved.revision if self.project.saved else 0
            href = f"{WALL(frame_id=self.frame.id, **ids)}/picture.svg?revision={saved}"
            up_px = picture_px(drawing, across_px=TAPPED_ACROSS)
            return TapWall(href=href, across=str(TAPPED_ACROSS), up=str(up_px))
        return None

    @property
    def own_places(self) -> tuple[str, ...]:
        """The frames that have a place of their own, by key, each with its name."""
        return tuple(one.id for one in self.wall.places if one.id in self.names)

    @property
    def names(self) -> Mapping[str, str]:
        """What each frame is called, by its key."""
        return {piece.key: piece.name for piece in self.pieces}

    @property
    def is_free(self) -> bool:
        """Whether each frame has its own place."""
        return self.wall.arrangement is Arrangement.FREE

    @property
    def has_wire(self) -> bool:
        """Whether it hangs by a wire."""
        return self.frame.hanging.by == Hanger.WIRE


def wall_shown(desk: Desk, opened: ProjectAtRevision, answer: FrameAnswer) -> WallShown:
    """What the wall page shows."""
    over = Link(href=HAND_OVER(project_id=opened.project_id, frame_id=answer.frame.id), says="Hand over")
    return WallShown(answer=answer, groups=_groups(answer), beside=(over,))


def _groups(answer: FrameAnswer) -> dict[str, AnswerGroup]:
    """Every group; all are empty if the frame is impossible."""
    if answer.impossible:
        return {name: AnswerGroup(name=name) for name in GROUPS}
    groups = groups_of(WallContext(plan=answer.plan, whole=answer.whole))
    return {name: replace(group, links=tuple(_links(answer, group))) for name, group in groups.items()}


def _links(answer: FrameAnswer, group: AnswerGroup) -> Iterator[Link]:
    """The links of a group, to print or download."""
    ids = {"project_id": answer.project_id, "frame_id": answer.frame.id}
    paper = usual_paper(answer.plan.unit).capitalize()
    if group.refuses:
        return
    if group.name == "hangers" and group.drawings:
        yield Link(href=DRAWING_FILE(name="hangers", **ids), says=f"Drawing, {paper}")
    if group.name in ("nails", "group"):
        yield Link(href=f"{WALL(**ids)}/drawing.svg", says=f"Wall, {paper}")
        yield Link(href=f"{WALL(**ids)}/nails.csv", says="Nails, as a table")
    if group.name == "strip":
        at = f"{TEMPLATES(project_id=answer.project_id)}/{answer.frame.id}/hanging-strip/pdf"
        yield Link(href=at, says="Strip of this frame, PDF")
        if answer.whole.wall.grouping.arrangement in ROWS and len(answer.whole.wall.pieces) > 1:
            yield Link(href=f"{WALL(**ids)}/row-strip.pdf", says="Strip of the row, PDF")
