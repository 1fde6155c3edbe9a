"""What the pages of a cut show, before and after: sticks that leave the rack, off-cuts that come back, the plan."""

from collections.abc import Iterable

from framecalc.errors import FrameCalcError
from framecalc.plan.job_light import JobPage
from framecalc.project import Project
from framecalc.records import Record
from framecalc.timber.rack import RackChange
from framecalc.units import Unit
from framecalc.words import Words, joined, typed
from webapp.data.errors import UnreadableFile
from webapp.data.rack_file import CutEntry, RackEntry, RackFile, digest_of, entry_of
from webapp.live.addresses import CLIENT, CUT, TIMBER
from webapp.live.days import day
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.of_project import OfProject
from webapp.live.work.claims import Claim, Claims, claims_on
from webapp.live.work.rack_words import length_said, origin_said, section_said
from webapp.pages.cut.cutting import CuttablePlan, DrawnSticks, NoPlanToCut, drawn, record_of

NO_CHANGE = RackChange(taken=(), returned=())
NOBODY: Claims = {}


class MovedStick(Record):
    """A stick that leaves the rack or comes back; `claims` are the other projects that count on it."""

    tag: str
    length: str
    section: str
    says: str
    claims: tuple[Claim, ...] = ()


class CutShown(OfProject, Record):
    """What marking a plan as cut changes; `refused` says why it is impossible, `shown` identifies the change shown.

    `before` is the day of the last cut, `after` the number of cuts so far. `changed` says what has changed since the
    client's yes.
    """

    project: Project
    timber_at: str
    address: str
    title: str
    names: str
    verdict: str
    goes: tuple[MovedStick, ...]
    besides: tuple[str, ...]
    comes: tuple[MovedStick, ...]
    shown: str
    before: str
    after: int
    refused: str
    notice: str
    changed: str
    client_at: str


def cut_shown(desk: Desk, cutting: CuttablePlan, *, notice: str = "") -> CutShown:
    """What marking a plan as cut changes."""
    file, unit, project = desk.rack.read(), cutting.opened.project.unit, cutting.opened.project
    change, refused = _change(cutting, file)
    before = file.cuts_of(cutting.opened.project_id, problem=cutting.group.key)
    claims = claims_on(desk, file, but=cutting.opened.project_id)
    return CutShown(
        project=project,
        timber_at=TIMBER(project_id=cutting.opened.project_id),
        address=CUT(project_id=cutting.opened.project_id, key=cutting.group.key),
        title=cutting.title,
        names=", ".join(cutting.group.names),
        verdict=cutting.view.verdict,
        goes=_moved((entry for entry in file.sticks if entry.stick in change.taken), unit, claims),
        besides=cutting.besides(),
        comes=_moved((entry_of(stick, "new") for stick in change.returned), unit),
        shown=digest_of(change),
        before=day(before[0].when) if before else "",
        after=len(before),
        refused=refused,
        notice=notice,
        changed=_changed(desk, cutting.opened),
        client_at=f"{CLIENT(project_id=cutting.opened.project_id)}#links",
    )


def _changed(desk: Desk, opened: ProjectAtRevision) -> str:
    """What has changed since the client's yes."""
    found = desk.beside(opened.project_id, opened.plan)
    return next((one.sentence for one in found if one.page is JobPage.CLIENT), "")


class NoPlanShown(OfProject, Record):
    """The page for a missing plan; `cut` is its record if it was cut, on a `day`."""

    project: Project
    timber_at: str
    missing: str
    cut: str
    day: str


def no_plan_shown(desk: Desk, project_id: str, key: str, missing: NoPlanToCut) -> NoPlanShown:
    """The page for a missing plan: the project has changed since, or the plan was never computed.

    Raises:
        NoSuchProject: the project is missing too.
    """
    opened = desk.open(project_id)
    before = desk.rack.read().cuts_of(project_id, problem=key)
    return NoPlanShown(
        project=opened.project,
        timber_at=TIMBER(project_id=project_id),
        missing=missing.sentence,
        cut=before[0].id if before else "",
        day=day(before[0].when) if before else "",
    )


class RecordShown(Record):
    """The record of a cut; `undone` is the day of its undo, `said` why it cannot be undone."""

    words: Words
    cut: CutEntry
    title: str
    revision: int
    day: str
    undone: str
    verdict: str
    goes: tuple[MovedStick, ...]
    comes: tuple[MovedStick, ...]
    sticks: DrawnSticks
    timber_at: str
    again_at: str
    said: str


def record_shown(desk: Desk, cut_id: str, *, said: str = "") -> RecordShown:
    """The record of a cut, with the chalk tags of its off-cuts.

    Raises:
        NotOnTheRack: there is no such cut.
        UnreadableFile: its record is damaged.
    """
    cut, text = desk.rack.record(cut_id)
    try:
        record = record_of(text)
    except ValueError as error:
        raise UnreadableFile(f"what was kept of the cut of {day(cut.when)} is damaged") from error
    return RecordShown(
        words=record.words,
        cut=cut,
        title=record.title,
        revision=record.revision,
        day=day(cut.when),
        undone=day(cut.undone),
        verdict=record.verdict,
        goes=_moved(cut.taken, record.unit),
        comes=_moved(cut.returned, record.unit),
        sticks=drawn(record),
        timber_at=TIMBER(project_id=cut.project) if desk.store.has(cut.project) else "",
        again_at=CUT(project_id=cut.project, key=cut.problem) if desk.store.has(cut.project) else "",
        said=said,
    )


def _change(cutting: CuttablePlan, file: RackFile) -> tuple[RackChange, str]:
    """The change to the rack, or why it is impossible."""
    try:
        return cutting.change(file), ""
    except FrameCalcError as error:
        return NO_CHANGE, error.sentence


def _moved(entries: Iterable[RackEntry], unit: Unit, claims: Claims = NOBODY) -> tuple[MovedStick, ...]:
    return tuple(
        MovedStick(
            tag=entry.tag,
            length=length_said(entry, unit),
            section=section_said(entry, unit),
            says=joined(
                ", ", filter(None, (typed(entry.species), typed(entry.profile), _kind(entry), origin_said(entry)))
            ),
            claims=claims.get(entry.tag, ()),
        )
        for entry in entries
    )


def _kind(entry: RackEntry) -> str:
    return "rough board" if entry.is_board else ""
