"""Two revisions of a project side by side: what differs in the words of the pages, and the drawings of both."""

from collections.abc import Iterator
from itertools import islice

from markupsafe import Markup

from framecalc.drawing.registry import draw_panel
from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan, Plan
from framecalc.project import read_project
from framecalc.records import Record
from framecalc.words import Words
from webapp.data.revisions import Revision
from webapp.live.addresses import PROJECT, REVISIONS
from webapp.live.days import written_when
from webapp.live.desk import Desk
from webapp.live.render import drawing
from webapp.pages.revisions.shown import changes_between, filled

MOST_FRAMES = 6
"""Of so many frames that differ the drawings are shown."""

DRAWINGS = ("front", "section")


class ComparedRevision(Record):
    """One of the two revisions; `wrong` says why it is no project that can be drawn here."""

    number: int
    when: str
    name: str
    wrong: str


class DrawnFrame(Record):
    """One frame that is drawn differently, in both revisions; nothing where one has no such frame or drawing."""

    name: str
    pairs: tuple[tuple[Markup, Markup], ...]


class ComparedShown(Record):
    """What the page shows."""

    called: str
    address: str
    project_at: str
    newest: int
    sides: tuple[ComparedRevision, ComparedRevision]
    changes: tuple[str, ...]
    frames: tuple[DrawnFrame, ...]
    more_frames: int
    words: Words


def compared(desk: Desk, project_id: str, before: int, after: int) -> ComparedShown:
    """Compare two revisions of a project.

    Raises:
        NoSuchRevision, UnreadableFile: one is not there.
    """
    words, head, names = desk.shop().words, desk.store.head(project_id), desk.store.names(project_id)
    revisions = desk.store.revision(project_id, before), desk.store.revision(project_id, after)
    (old, old_wrong), (new, new_wrong) = (filled(revision.document) for revision in revisions)
    differing = _differing(*(_plans(revision) for revision in revisions))
    frames = tuple(islice(differing, MOST_FRAMES))
    return ComparedShown(
        called=str(head.document.get("name", project_id)),
        address=REVISIONS(project_id=project_id),
        project_at=PROJECT(project_id=project_id),
        newest=head.number,
        sides=(_side(revisions[0], names, old_wrong), _side(revisions[1], names, new_wrong)),
        changes=changes_between(old, new, words=words),
        frames=frames,
        more_frames=sum(1 for _ in differing),
        words=words,
    )


def _side(revision: Revision, names: dict[int, str], wrong: str) -> ComparedRevision:
    when = written_when(revision.saved.when)
    return ComparedRevision(number=revision.number, when=when, name=names.get(revision.number, ""), wrong=wrong)


def _plans(revision: Revision) -> dict[str, FramePlan]:
    """The frames of a revision by their ids; none where it is no project."""
    try:
        return dict(Plan(read_project(revision.document)).frames)
    except FrameCalcError:
        return {}


def _differing(old: dict[str, FramePlan], new: dict[str, FramePlan]) -> Iterator[DrawnFrame]:
    """The frames that are drawn differently, each with the drawings that differ."""
    for frame_id in dict.fromkeys([*old, *new]):
        before, after = old.get(frame_id), new.get(frame_id)
        drawn = [(_drawn(name, before), _drawn(name, after)) for name in DRAWINGS]
        names = [name for name, (one, other) in zip(DRAWINGS, drawn, strict=True) if one != other]
        if names:
            pairs = tuple((_drawn(name, before, "-before"), _drawn(name, after, "-after")) for name in names)
            yield DrawnFrame(name=_called(before, after), pairs=pairs)


def _called(before: FramePlan | None, after: FramePlan | None) -> str:
    plan = after or before
    return plan.frame.name if plan else ""


def _drawn(name: str, plan: FramePlan | None, which: str = "") -> Markup:
    if plan is None:
        return Markup()
    try:
        return drawing(draw_panel(name, plan, beside=f"-{plan.frame.id}{which}" if which else ""))
    except FrameCalcError:
        return Markup()
