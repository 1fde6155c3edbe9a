"""The rack beside a project: sticks that suit it, stock that is gone or claimed by others, plans already cut."""

from collections.abc import Iterable, Iterator

from framecalc.errors import quoted
from framecalc.project import Project, items_at, set_value
from framecalc.project.document import Document
from framecalc.project.timber import Stock
from framecalc.records import Record
from webapp.data.errors import StoreError
from webapp.data.rack_file import RackEntry, RackFile
from webapp.jobs.timber import GroupWork
from webapp.live.answers import plural
from webapp.live.days import day
from webapp.live.desk import Desk
from webapp.live.typed.forms import Draft, edited
from webapp.live.work.claims import Claim, Claims, claims_on
from webapp.pages.timber.rack_offered import (
    LONGEST_STOCK,
    TAKE,
    RackOffer,
    left_on,
    near_shown,
    offers_shown,
    stock_entry,
)

TAKE_OUT = "rack-out"
"""What a button asks for that takes entries out of the stock, by their ids."""


class SharedSticks(Record):
    """Sticks of the stock that the same other projects count on."""

    tags: tuple[str, ...]
    claims: tuple[Claim, ...]


class CutLink(Record):
    """A cut of one plan: its id, and its day."""

    id: str
    day: str


class RackBeside(Record):
    """What the timber page shows of the rack; `trouble` if it cannot be read.

    `cuts` are by the hash of the problem; `earlier` are cuts of plans no longer on the page. `is_cut`: all plans on the
    page are cut. `take_out` and `leave` are the values of the buttons that remove stock that is gone, and stock that
    other projects count on. `is_full`: the stock of the project holds no more.
    """

    offers: tuple[RackOffer, ...] = ()
    near: tuple[str, ...] = ()
    gone: tuple[str, ...] = ()
    take_out: str = ""
    shared: tuple[SharedSticks, ...] = ()
    leave: str = ""
    is_full: bool = False
    count: int = 0
    cuts: dict[str, CutLink]
    earlier: tuple[CutLink, ...] = ()
    is_cut: bool = False
    trouble: str = ""

    @property
    def asks(self) -> bool:
        """Whether something of it is to be settled."""
        return bool(self.trouble or self.gone or self.shared or self.earlier)

    @property
    def says(self) -> str:
        """It in a line."""
        if self.asks:
            return "something to settle"
        suits = sum(len(one.first) + len(one.more) for one in self.offers)
        return f"{plural(suits, 'stick')} on it {'suits' if suits == 1 else 'suit'}" if suits else "nothing more suits"


def beside(desk: Desk, project_id: str, project: Project, works: tuple[GroupWork, ...]) -> RackBeside:
    """Compare the rack with a project."""
    try:
        file = desk.rack.read()
    except StoreError as error:
        return RackBeside(cuts={}, trouble=error.sentence)
    keys = {work.group.key for work in works}
    cuts = file.cuts_of(project_id)
    open_works = tuple(work for work in works if work.group.key not in {cut.problem for cut in cuts})
    wanted = tuple(_wanted_of(project, open_works if works else None))
    gone, left = dict(_gone(wanted, file)), left_on(file, project)
    claims = claims_on(desk, file, but=project_id)
    shared = {one.id: one.name for one in wanted if one.name in claims}
    return RackBeside(
        offers=tuple(offers_shown(project, left, open_works, claims)),
        near=tuple(dict.fromkeys(near_shown(project, left, open_works))),
        gone=tuple(gone.values()),
        take_out=_take_out(gone),
        shared=tuple(_together(shared.values(), claims)),
        leave=_take_out(shared),
        is_full=len(project.timber.stock) >= LONGEST_STOCK,
        count=len(file.sticks),
        cuts={cut.problem: CutLink(id=cut.id, day=day(cut.when)) for cut in reversed(cuts)},
        earlier=tuple(CutLink(id=cut.id, day=day(cut.when)) for cut in cuts if cut.problem not in keys),
        is_cut=bool(works) and not open_works,
    )


def _take_out(entries: Iterable[str]) -> str:
    ids = ",".join(entries)
    return f"{TAKE_OUT}:{ids}" if ids else ""


def with_rack(desk: Desk, draft: Draft, do: str) -> Draft:
    """Apply a button beside the rack to a draft; other buttons change nothing."""
    name, _, argument = do.partition(":")
    if name not in (TAKE, TAKE_OUT):
        return draft
    stock, ids = items_at(draft.document, "timber.stock"), argument.split(",")
    if name == TAKE:
        stock += [stock_entry(entry, draft.checked) for entry in _wanted(desk.rack.read(), ids, stock)]
    else:
        stock = [one for one in stock if one["id"] not in ids]
    return edited(draft, lambda document: set_value(document, "timber.stock", stock))


def _wanted(file: RackFile, ids: list[str], stock: list[Document]) -> Iterator[RackEntry]:
    """The sticks of these ids that are still on the rack and not in the stock, as many as it can hold."""
    there = {entry.id: entry for entry in file.sticks}
    named = {one.get("name") for one in stock if one.get("on_rack")}
    entries = [there[one] for one in dict.fromkeys(ids) if one in there and there[one].tag not in named]
    yield from entries[: max(0, LONGEST_STOCK - len(stock))]


def _wanted_of(project: Project, works: tuple[GroupWork, ...] | None) -> Iterator[Stock]:
    """The stock from the rack that plans may still take; all of it if no plan can be computed."""
    keys = None if works is None else {offer.stock.typed_id for work in works for offer in work.group.offers.values()}
    for one in project.timber.stock:
        if one.on_rack and (keys is None or one.id in keys):
            yield one


def _together(tags: Iterable[str], claims: Claims) -> Iterator[SharedSticks]:
    """Group the sticks that the same projects count on."""
    by_claims: dict[tuple[Claim, ...], list[str]] = {}
    for tag in tags:
        by_claims.setdefault(claims[tag], []).append(tag)
    yield from (SharedSticks(tags=tuple(found), claims=others) for others, found in by_claims.items())


def _gone(wanted: Iterable[Stock], file: RackFile) -> Iterator[tuple[str, str]]:
    """Entries of the stock that are no longer on the rack in that form, with a sentence."""
    there = {entry.tag: entry for entry in file.sticks}
    for one in wanted:
        entry = there.get(one.name)
        if entry is None:
            yield one.id, quoted(one.name) + " has left the rack."
        elif not _same_size(entry, one):
            differs = f" is {entry.length.text} long on the rack, and its sizes differ from those here."
            yield one.id, quoted(one.name) + differs


def _same_size(entry: RackEntry, stock: Stock) -> bool:
    width = stock.width if entry.is_board else stock.member_width
    sizes = ((entry.length, stock.length), (entry.width, width), (entry.thickness, stock.thickness))
    return all(here is not None and there.exact_mm == here.exact_mm for there, here in sizes)
