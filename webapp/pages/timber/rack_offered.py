"""Sticks of the rack to offer to a project: those that suit its members, how they would be cut, who counts on them."""

from collections.abc import Iterator, Mapping

from framecalc.plan.inputs import is_bought
from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.profiles import mills_alike, states_a_section
from framecalc.plan.timber.rack import offers_of
from framecalc.plan.timber.stock import StockOffer
from framecalc.project import Project
from framecalc.project.document import Document
from framecalc.project.timber import Stock
from framecalc.records import Record, cached_property, replace
from framecalc.timber.rack import RackStick, StickSection, of_section
from framecalc.units import Unit
from webapp.data.rack_file import RackEntry, RackFile
from webapp.jobs.timber import GroupWork
from webapp.live.answers import plural
from webapp.live.desk import new_id
from webapp.live.work.claims import Claim, Claims
from webapp.live.work.rack_words import length_said, section_said
from webapp.pages.timber.says import title_of

LONGEST_STOCK = 60
"""As many entries as the stock of a project can hold."""

SHOWN = 8
"""How many sticks that suit are shown at once."""

TAKE = "rack-take"
"""What a button asks for that takes sticks over from the rack, by their ids."""


class OfferedStick(Record):
    """One suitable stick: its tag, length and use, and who counts on it; `take` is the value of its button."""

    tag: str
    length: str
    says: str
    take: str
    claims: tuple[Claim, ...]


class RackOffer(Record):
    """Sticks of one wood and profile that suit some members, and are not in the stock of the project yet.

    `first` are shown at once, `more` in a fold. `takes` are the buttons that add several, with their values: only
    sticks that no other project counts on, as many as the stock can hold.
    """

    title: str
    wood: str
    first: tuple[OfferedStick, ...]
    more: tuple[OfferedStick, ...]
    takes: tuple[tuple[str, str], ...]


class RackLeft(Record, dict=True):
    """The sticks of the rack that are not in the project's stock yet, by tag."""

    entries: Mapping[str, RackEntry]

    @cached_property
    def sticks(self) -> tuple[RackStick, ...]:
        """The sticks as the topics take them."""
        return tuple(entry.stick for entry in self.entries.values())

    @cached_property
    def profiles(self) -> tuple[str, ...]:
        """What is milled into them, each profile once."""
        return tuple(sorted({entry.profile for entry in self.entries.values()}))


def left_on(file: RackFile, project: Project) -> RackLeft:
    """The sticks of the rack that are not in the project's stock yet."""
    named = {one.name for one in project.timber.stock if one.on_rack}
    return RackLeft(entries={entry.tag: entry for entry in file.sticks if entry.tag not in named})


def offers_shown(project: Project, left: RackLeft, works: tuple[GroupWork, ...], claims: Claims) -> Iterator[RackOffer]:
    """Sticks that suit members whose plans are not cut yet, by wood and profile."""
    for work in works:
        found = _suitable(project, work.group, left, wood=work.group.section.wood)
        for wood in dict.fromkeys((stick.species, stick.profile) for stick, _ in found):
            alike = [
                (left.entries[stick.tag], offer) for stick, offer in found if (stick.species, stick.profile) == wood
            ]
            yield _offered(project, work.group, alike, claims)


def near_shown(project: Project, left: RackLeft, works: tuple[GroupWork, ...]) -> Iterator[str]:
    """Sticks that would suit some members but for their wood."""
    for work in works:
        suits = {stick.tag for stick, _ in _suitable(project, work.group, left, wood=work.group.section.wood)}
        for stick, _ in _suitable(project, work.group, left, wood=""):
            if stick.tag not in suits:
                yield f"{stick.tag} ({stick.species})"


def stock_entry(entry: RackEntry, project: Project) -> Document:
    """A stick of the rack as an entry of a project's stock; of a moulding that the project buys, as one of it."""
    common: Document = {"id": new_id(), "name": entry.tag, "species": entry.species, "count": 1}
    width = "width" if entry.is_board else "member_width"
    size = {"length": entry.length.text, width: entry.width.text, "thickness": entry.thickness.text}
    moulding = {"moulding": entry.profile} if _is_moulding(entry.profile, project) else {"profile": entry.profile}
    return common | size | moulding | {"in_hand": True, "on_rack": True}


def _is_moulding(profile: str, project: Project) -> bool:
    """Whether sticks of a profile are of a moulding that a frame of the project is made of."""
    bought = (frame.section.moulding.name.casefold() for frame in project.frames if is_bought(frame))
    return bool(profile) and profile.casefold() in bought


def _suitable(project: Project, group: TimberGroup, left: RackLeft, *, wood: str) -> list[tuple[RackStick, StockOffer]]:
    """The sticks that suit a group, off-cuts first.

    A bought moulding is cut from itself alone. A stick that was milled to a stated section suits members of that
    section alone; one whose profile has but a name suits a project whose sticks are milled.
    """
    section, entries = group.section, left.entries
    profiles = [profile for profile in left.profiles if _suits(profile, project, group)]
    wanted = StickSection(species=wood, width_mm=section.width_mm, thickness_mm=section.thickness_mm)
    sticks = [stick for one in profiles for stick in of_section(left.sticks, section=replace(wanted, profile=one))]
    stock = [
        Stock.model_validate(stock_entry(entries[stick.tag], project) | {"id": entries[stick.tag].id})
        for stick in sticks
    ]
    offers = offers_of(stock, project=project, group=group, wood=wood.casefold())
    return [(stick, offers[entries[stick.tag].id]) for stick in sticks if entries[stick.tag].id in offers]


def _suits(profile: str, project: Project, group: TimberGroup) -> bool:
    """Whether sticks of a profile can be members of a group: a bought moulding is cut from itself alone."""
    if group.section.moulding:
        return profile.casefold() == group.section.moulding.casefold()
    if states_a_section(profile):
        return mills_alike(profile, group.milled_to)
    return bool(profile) is project.timber.milled and not _is_moulding(profile, project)


def _offered(
    project: Project, group: TimberGroup, alike: list[tuple[RackEntry, StockOffer]], claims: Claims
) -> RackOffer:
    first = alike[0][0]
    wood = ", ".join(filter(None, (first.species or "no wood named", first.profile)))
    sticks = tuple(_offered_stick(entry, offer, project.unit, claims) for entry, offer in alike)
    free = [entry for entry, _ in alike if entry.tag not in claims]
    return RackOffer(
        title=title_of(group, project.unit),
        wood=wood[:1].upper() + wood[1:],
        first=sticks[:SHOWN],
        more=sticks[SHOWN:],
        takes=tuple(_takes(free, room=LONGEST_STOCK - len(project.timber.stock))),
    )


def _offered_stick(entry: RackEntry, offer: StockOffer, unit: Unit, claims: Claims) -> OfferedStick:
    return OfferedStick(
        tag=entry.tag,
        length=length_said(entry, unit),
        says=", ".join(filter(None, (entry.origin, *_use(entry, offer, unit)))),
        take=f"{TAKE}:{entry.id}",
        claims=claims.get(entry.tag, ()),
    )


def _use(entry: RackEntry, offer: StockOffer, unit: Unit) -> Iterator[str]:
    """What it is, and how a board is ripped: on edge only if it is too thin or too narrow to lie flat."""
    if not entry.is_board:
        yield "" if entry.origin else "off-cut" if entry.is_off_cut else "whole stick"
        return
    strips = plural(offer.stock.strips, "strip")
    yield f"board {section_said(entry, unit)}"
    yield f"ripped on edge into {strips}: its thickness gives the width of the members" if offer.on_edge else strips


def _takes(free: list[RackEntry], *, room: int) -> Iterator[tuple[str, str]]:
    """The buttons that add several at once."""
    off_cuts = [entry for entry in free if entry.is_off_cut]
    for says, entries in (("the off-cuts", off_cuts), ("all", free)):
        ids = [entry.id for entry in entries[:room]]
        if len(ids) > 1 and (entries is free or len(off_cuts) < len(free)):
            whole = len(ids) == len(entries)
            yield f"Take over {says}" if whole else f"Take over the first {len(ids)}", f"{TAKE}:{','.join(ids)}"
