"""What the page shows beside its fields: the groups, the piece to tap on, the last time."""

from collections.abc import Iterator, Mapping
from typing import ClassVar

from framecalc.drawing.sheet import usual_paper
from framecalc.project.hand_over import ConditionMark
from framecalc.records import Record, replace
from webapp.live.actions import TAPPED_ACROSS
from webapp.live.addresses import DRAWING_FILE, HAND_OVER, LEAVES, WALL
from webapp.live.answers import Link
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.grouped_page import GroupedShown
from webapp.live.straight_photo import photo_of
from webapp.live.typed.answer import FrameAnswer
from webapp.pages.hand_over.groups import GROUPS, AnswerGroup, HandOverContext, groups_of


class MarkSpot(Record):
    """A mark on the picture that is tapped: its number and its place, in pixels of the page."""

    number: str
    across: str
    down: str
    base: str


class TapPicture(Record):
    """The photo of the piece, to be tapped: its address, its size in pixels of the page, its marks."""

    href: str
    across: str
    up: str
    spots: tuple[MarkSpot, ...]


class HandOverShown(GroupedShown):
    """What the page shows. Without a photo marks are typed by their places."""

    tapped: TapPicture | None = None
    titles: ClassVar[Mapping[str, str]] = {name: title for name, (title, _) in GROUPS.items()}
    above: ClassVar[str] = "hand_over."

    @property
    def marks(self) -> tuple[ConditionMark, ...]:
        """The marks on the piece."""
        return self.frame.hand_over.intake.marks

    @property
    def has_cover(self) -> bool:
        """Whether a dust cover lies over the back."""
        return any(layer.kind.value == "dust cover" for layer in self.frame.package.layers)

    @property
    def is_many(self) -> bool:
        """Whether there is more than one copy to put into a box."""
        return self.frame.count > 1

    @property
    def species(self) -> str:
        """The wood of the frame."""
        return self.frame.species

    @property
    def again_at(self) -> str:
        """The address that begins a job with this frame."""
        return f"{HAND_OVER(project_id=self.answer.project_id, frame_id=self.frame.id)}/again/new"


def hand_over_shown(desk: Desk, opened: ProjectAtRevision, answer: FrameAnswer) -> HandOverShown:
    """What the page shows."""
    photo = "" if answer.impossible else photo_of(answer.plan, project_id=opened.project_id)
    beside = Link(href=WALL(project_id=opened.project_id, frame_id=answer.frame.id), says="Hangers and wall")
    return HandOverShown(
        answer=answer,
        groups=_groups(answer, shop=desk.shop().called, photo=photo),
        tapped=_tapped(answer, photo) if photo else None,
        beside=(beside,),
    )


def _groups(answer: FrameAnswer, *, shop: str, photo: str) -> dict[str, AnswerGroup]:
    """Every group; all are empty if the frame is impossible."""
    if answer.impossible:
        return {name: AnswerGroup(name=name) for name in GROUPS}
    groups = groups_of(HandOverContext(plan=answer.plan, whole=answer.whole, shop=shop, photo=photo))
    return {name: replace(group, links=tuple(_links(answer, group))) for name, group in groups.items()}


def _links(answer: FrameAnswer, group: AnswerGroup) -> Iterator[Link]:
    """The links of a group, to print or download."""
    ids = {"project_id": answer.project_id, "frame_id": answer.frame.id}
    at, paper = HAND_OVER(**ids), usual_paper(answer.plan.unit)
    if group.refuses:
        return
    if group.name == "intake":
        yield Link(href=f"{at}/receipt", says="Receipt, to print", is_file=False)
    if group.name == "label":
        yield Link(href=f"{at}/labels.pdf", says=f"Labels of this frame, PDF, {paper.capitalize()}")
        yield Link(href=f"{at}/labels.pdf?of=job", says=f"Labels of the whole job, PDF, {paper.capitalize()}")
    if group.name == "back" and group.drawings:
        yield Link(href=DRAWING_FILE(name="back", **ids), says=f"Drawing, {paper.capitalize()}")
    if group.name == "packing":
        yield Link(href=f"{at}/packing-sheet", says="Packing sheet, to print", is_file=False)
        yield Link(href=f"{at}/hanging-card", says="Hanging card for the client, to print", is_file=False)
    if group.name == "again":
        yield Link(href=LEAVES(project_id=answer.project_id), says="Everything of this job, zip")


def _tapped(answer: FrameAnswer, photo: str) -> TapPicture:
    fit = answer.plan.fit
    px_per_mm = TAPPED_ACROSS / fit.across_mm
    marks = answer.frame.hand_over.intake.marks
    return TapPicture(
        href=photo,
        across=str(TAPPED_ACROSS),
        up=str(round(fit.up_mm * px_per_mm)),
        spots=tuple(
            MarkSpot(
                number=str(number),
                across=f"{mark.across.mm * px_per_mm:.1f}",
                down=f"{mark.down.mm * px_per_mm:.1f}",
                base=f"{mark.down.mm * px_per_mm + 5:.1f}",
            )
            for number, mark in enumerate(marks, start=1)
        ),
    )
