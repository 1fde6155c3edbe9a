"""The rack beside a project: what suits it, what its stock names that is gone, which of its plans were cut."""

from collections.abc import Iterator
from copy import deepcopy
from dataclasses import dataclass, replace

from framecalc.errors import FrameCalcError
from framecalc.plan.rack_offers import offers_of
from framecalc.plan.timber import TimberGroup
from framecalc.project import Project, read_project
from framecalc.project.timber import Stock
from framecalc.rack import RackStick, StickSection, of_section
from webapp.client_page import day
from webapp.desk import Desk, new_id
from webapp.errors import StoreError
from webapp.forms import Document, Draft
from webapp.rack_file import CutEntry, RackEntry, RackFile
from webapp.rack_page import length_said
from webapp.timber_jobs import GroupWork
from webapp.timber_says import title_of

LONGEST_STOCK = 60
"""As many entries as the stock of a project can hold."""

TAKE, TAKE_OUT = "rack-take", "rack-out"
"""What the buttons ask for: take sticks over from the rack, by their ids; take entries out of the stock, by theirs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offered:
    """Sticks of one wood and profile that suit some members, and are not in the stock of the project yet.

    `take_off_cuts` is what a button sends that takes the off-cuts alone; blank where that is all or nothing of them.
    """

    title: str
    wood: str
    sticks: tuple[str, ...]
    take: str
    take_off_cuts: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CutSaid:
    """A cut of one plan: its id, and its day."""

    id: str
    day: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What the timber page says of the rack; `trouble` where it cannot be read.

    `cuts` are by the hash of the problem; `earlier` those of plans that are not on the page any more. `is_cut`: all
    plans on the page are cut.
    """

    offers: tuple[Offered, ...] = ()
    near: tuple[str, ...] = ()
    gone: tuple[str, ...] = ()
    take_out: str = ""
    count: int = 0
    cuts: dict[str, CutSaid]
    earlier: tuple[CutSaid, ...] = ()
    is_cut: bool = False
    trouble: str = ""


def beside(desk: Desk, project_id: str, project: Project, works: tuple[GroupWork, ...]) -> Beside:
    """Look at the rack for a project."""
    try:
        file = desk.rack.read()
    except StoreError as error:
        return Beside(cuts={}, trouble=error.sentence)
    keys = {work.group.key for work in works}
    cuts = file.cuts_of(project_id)
    open_works = tuple(work for work in works if work.group.key not in {cut.problem for cut in cuts})
    gone = dict(_gone(project, file, [cut for cut in cuts if cut.problem in keys]))
    return Beside(
        offers=tuple(_offers(project, file, open_works)),
        near=tuple(dict.fromkeys(_near(project, file, open_works))),
        gone=tuple(gone.values()),
        take_out=f"{TAKE_OUT}:{','.join(gone)}" if gone else "",
        count=len(file.sticks),
        cuts={cut.problem: CutSaid(id=cut.id, day=day(cut.when)) for cut in reversed(cuts)},
        earlier=tuple(CutSaid(id=cut.id, day=day(cut.when)) for cut in cuts if cut.problem not in keys),
        is_cut=bool(works) and not open_works,
    )


def with_rack(desk: Desk, draft: Draft, do: str) -> Draft:
    """Do to a draft what a button beside the rack asks for; anything else asks for nothing more."""
    name, _, argument = do.partition(":")
    if name not in (TAKE, TAKE_OUT):
        return draft
    document = deepcopy(draft.document)
    stock: list[Document] = document.setdefault("timber", {}).setdefault("stock", [])
    ids = argument.split(",")
    if name == TAKE:
        stock.extend(_entry(entry) for entry in _wanted(desk.rack.read(), ids, stock))
    else:
        stock[:] = [one for one in stock if one["id"] not in ids]
    try:
        return replace(draft, document=document, checked=read_project(document))
    except FrameCalcError as error:
        return replace(draft, messages=draft.messages | {error.field: error.sentence})


def _wanted(file: RackFile, ids: list[str], stock: list[Document]) -> Iterator[RackEntry]:
    """The sticks of these ids that still stand there and are not in the stock, as many as it can hold."""
    there = {entry.id: entry for entry in file.sticks}
    named = {one.get("name") for one in stock if one.get("on_rack")}
    entries = [there[one] for one in dict.fromkeys(ids) if one in there and there[one].tag not in named]
    yield from entries[: max(0, LONGEST_STOCK - len(stock))]


def _entry(entry: RackEntry) -> Document:
    """A stick of the rack as the stock of a project has it."""
    common = {"id": new_id(), "name": entry.tag, "species": entry.species, "length": entry.length.text, "count": 1}
    width = "width" if entry.is_board else "member_width"
    size = {width: entry.width.text, "thickness": entry.thickness.text}
    return common | size | {"in_hand": True, "on_rack": True}


def _offers(project: Project, file: RackFile, works: tuple[GroupWork, ...]) -> Iterator[Offered]:
    left = _left(project, file)
    for work in works:
        sticks = _suitable(project, work.group, left, wood=work.group.section.wood)
        for wood in dict.fromkeys((stick.species, stick.profile) for stick in sticks):
            entries = [left[stick.tag] for stick in sticks if (stick.species, stick.profile) == wood]
            yield _offered(project, work.group, entries)


def _near(project: Project, file: RackFile, works: tuple[GroupWork, ...]) -> Iterator[str]:
    """What would suit some members but for its wood."""
    left = _left(project, file)
    for work in works:
        suits = _suitable(project, work.group, left, wood=work.group.section.wood)
        for stick in _suitable(project, work.group, left, wood=""):
            if stick not in suits:
                yield f"{stick.tag} ({stick.species})"


def _left(project: Project, file: RackFile) -> dict[str, RackEntry]:
    """What stands on the rack and is not in the stock of the project yet, by its tags."""
    named = {one.name for one in project.timber.stock if one.on_rack}
    return {entry.tag: entry for entry in file.sticks if entry.tag not in named}


def _suitable(project: Project, group: TimberGroup, left: dict[str, RackEntry], *, wood: str) -> list[RackStick]:
    """What suits a group, off-cuts first; milled sticks only where the project says that its sticks are milled."""
    section, rack = group.section, tuple(entry.stick for entry in left.values())
    profiles = sorted({stick.profile for stick in rack if bool(stick.profile) is project.timber.milled})
    wanted = StickSection(species=wood, width_mm=section.width_mm, thickness_mm=section.thickness_mm)
    sticks = [stick for one in profiles for stick in of_section(rack, section=replace(wanted, profile=one))]
    stock = [Stock.model_validate(_entry(left[stick.tag]) | {"id": left[stick.tag].id}) for stick in sticks]
    offers = offers_of(stock, project=project, group=group, wood=wood.casefold())
    return [stick for stick in sticks if left[stick.tag].id in offers]


def _offered(project: Project, group: TimberGroup, entries: list[RackEntry]) -> Offered:
    off_cuts = [entry.id for entry in entries if entry.is_off_cut]
    some = 0 < len(off_cuts) < len(entries)
    wood = ", ".join(filter(None, (entries[0].species or "no wood named", entries[0].profile)))
    return Offered(
        title=title_of(group, project.unit),
        wood=wood[:1].upper() + wood[1:],
        sticks=tuple(f"{entry.tag}, {length_said(entry, project.unit)}" for entry in entries),
        take=f"{TAKE}:{','.join(entry.id for entry in entries)}",
        take_off_cuts=f"{TAKE}:{','.join(off_cuts)}" if some else "",
    )


def _gone(project: Project, file: RackFile, cuts: list[CutEntry]) -> Iterator[tuple[str, str]]:
    """Entries of the stock that the rack no longer has as they are, with a sentence; `cuts` took theirs rightly."""
    there = {entry.tag: entry for entry in file.sticks}
    cut = {entry.tag for one in cuts for entry in one.taken}
    for one in project.timber.stock:
        if not one.on_rack or one.name in cut:
            continue
        entry = there.get(one.name)
        if entry is None:
            yield one.id, f"“{one.name}” is no longer on the rack."
        elif not _same_size(entry, one):
            yield one.id, f"“{one.name}” is {entry.length.text} long on the rack, and its sizes differ from those here."


def _same_size(entry: RackEntry, stock: Stock) -> bool:
    width = stock.width if entry.is_board else stock.member_width
    sizes = ((entry.length, stock.length), (entry.width, width), (entry.thickness, stock.thickness))
    return all(here is not None and there.exact_mm == here.exact_mm for there, here in sizes)
