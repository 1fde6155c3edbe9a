"""The rack: sticks and off-cuts in hand, the sticks that a job uses and the off-cuts that it returns.

A *change* is the effect of one cut plan on the rack: the sticks that leave it, the off-cuts that it gains. It can be
made, and undone as long as none of its off-cuts has been used. Strips of a board without pieces are never ripped: they
stay together, as the *rest* of the board.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping

from framecalc.errors import ImpossibleTimber, quoted
from framecalc.limits import require_positive
from framecalc.records import Record, field, replace
from framecalc.timber.boards import Board
from framecalc.timber.sticks.answer import CutStick, StickPlan
from framecalc.units import TOLERANCE_MM


class RackStick(Record):
    """One stick on the rack, or one rough board. `tag` is chalked on it and names it.

    `profile` is blank while it is a plain blank. `origin` says where it comes from: bought, or the off-cut of which
    stick.
    """

    tag: str
    species: str
    length_mm: float
    width_mm: float
    thickness_mm: float
    profile: str = ""
    origin: str = ""
    is_off_cut: bool = False
    is_board: bool = False


class StickSection(Record):
    """What sticks must have in common to serve in one job. A blank `species` is any wood."""

    species: str
    width_mm: float
    thickness_mm: float
    profile: str = ""


class Ripping(Record):
    """A board, and what is ripped from it: the width of a strip, and of the cut beside it."""

    board: Board
    strip_mm: float
    kerf_mm: float

    def rest_mm(self, strips: int) -> float:
        """How wide the board still is when so many strips are ripped from it: one edge is lost to the first cut."""
        return self.board.width_mm - self.board.edge_mm - strips * (self.strip_mm + self.kerf_mm)


class StockSource(Record):
    """What one stock of a plan is: of which section its off-cuts are, whether it stands on the rack, how it is ripped.

    `tag` names it on the rack; blank for what is bought, or in hand elsewhere. `ripping` is None for a stick.
    `profiles` are what its strips have been milled to before they are cut, by their numbers.
    """

    section: StickSection
    tag: str = ""
    ripping: Ripping | None = None
    profiles: Mapping[int, str] = field(default_factory=dict)


class RackChange(Record):
    """The effect of one job on the rack."""

    taken: tuple[RackStick, ...]
    returned: tuple[RackStick, ...]


Rack = tuple[RackStick, ...]


def of_section(rack: Rack, *, section: StickSection) -> Rack:
    """Find what on the rack may serve a section: off-cuts first, the short ones before the long ones, boards last.

    Sticks must be of the section. Whether a board yields a strip of it, and whether a stick is long enough, is for the
    plan to say. A stick of a wood that nobody named serves any.

    Args:
        section: of the members, milled or blank.
    Source: derived.
    """
    serving = (stick for stick in rack if _serves(stick, section))
    return tuple(sorted(serving, key=lambda stick: (stick.is_board, not stick.is_off_cut, stick.length_mm, stick.tag)))


def change_of(
    plan: StickPlan,
    *,
    rack: Rack,
    source_of: Callable[[CutStick], StockSource],
    tags: Iterator[str],
    shortest_useful_mm: float,
) -> RackChange:
    """Find the change that a cut plan makes: its sticks leave the rack, off-cuts long enough to be useful return.

    Off-cuts of bought sticks are added too.

    Args:
        source_of: what a stick of the plan is.
        tags: names for the off-cuts, none of which is on the rack.
        shortest_useful_mm: the shortest off-cut worth keeping [mm], > 0.
    Raises:
        OutOfRange: the shortest useful length is not above zero.
        ImpossibleTimber: a stick of the plan is no longer on the rack.
    Source: derived.
    """
    require_positive(shortest_useful_mm=shortest_useful_mm)
    by_tag = {stick.tag: stick for stick in rack}
    used = [tag for stick in plan.sticks if (tag := source_of(stick).tag)]
    _refuse_missing(used, by_tag)
    left = (one for stick in plan.sticks for one in _left_of(stick, source_of(stick)))
    useful = (one for one in left if one.length_mm >= shortest_useful_mm - TOLERANCE_MM)
    return RackChange(
        taken=tuple(by_tag[tag] for tag in used),
        returned=tuple(replace(one, tag=tag) for one, tag in zip(useful, tags, strict=False)),
    )


def make_change(rack: Rack, change: RackChange) -> Rack:
    """Take sticks from the rack and put the off-cuts on it.

    Raises:
        ImpossibleTimber: a stick is not there, or an off-cut is there already.
    Source: derived.
    """
    return _exchange(rack, gone=change.taken, come=change.returned)


def take_back(rack: Rack, change: RackChange) -> Rack:
    """Undo a change: remove its off-cuts, put its sticks back.

    Raises:
        ImpossibleTimber: an off-cut has been used since, or the tag of a stick has gone to another.
    Source: derived.
    """
    there = {stick.tag: stick for stick in rack}
    used = next((one.tag for one in change.returned if there.get(one.tag) != one), None)
    if used is not None:
        says = quoted(used) + (
            " came of this cut and has changed or left the rack: put it back as it was, or leave the cut marked."
        )
        raise ImpossibleTimber(says, field="rack")
    return _exchange(rack, gone=change.returned, come=change.taken)


def _exchange(rack: Rack, *, gone: Iterable[RackStick], come: tuple[RackStick, ...]) -> Rack:
    gone = tuple(gone)
    _refuse_missing([stick.tag for stick in gone], {stick.tag: stick for stick in rack})
    kept = tuple(stick for stick in rack if stick.tag not in {out.tag for out in gone})
    double = next((stick for stick in come if stick.tag in {there.tag for there in kept}), None)
    if double is not None:
        says = quoted(double.tag) + " is on the rack already: give the one that stands there another tag."
        raise ImpossibleTimber(says, field="rack")
    return tuple(sorted((*kept, *come), key=lambda stick: stick.tag))


def _refuse_missing(tags: Iterable[str], by_tag: dict[str, RackStick]) -> None:
    missing = next((tag for tag in tags if tag not in by_tag), None)
    if missing is not None:
        says = quoted(missing) + " has left the rack: plan the job again."
        raise ImpossibleTimber(says, field="rack")


def _left_of(stick: CutStick, source: StockSource) -> Iterator[RackStick]:
    """What is left of one stick or board, long or short or nothing at all; its tag is given later."""
    used = [strip for strip in stick.strips if strip.pieces or source.ripping is None]
    if source.ripping is not None and len(used) < stick.stock.strips:
        yield _rest_of(stick, source, source.ripping, strips=len(used))
    for strip in used:
        for stretch in strip.stretches:
            section = replace(source.section, profile=source.profiles.get(strip.number, source.section.profile))
            yield _off_cut(section, stretch.left_over_mm, of=source.tag or stick.label)


def _off_cut(section: StickSection, length_mm: float, *, of: str) -> RackStick:
    return RackStick(
        tag="",
        species=section.species,
        length_mm=length_mm,
        width_mm=section.width_mm,
        thickness_mm=section.thickness_mm,
        profile=section.profile,
        origin=f"off-cut of {of}",
        is_off_cut=True,
    )


def _rest_of(stick: CutStick, source: StockSource, ripping: Ripping, *, strips: int) -> RackStick:
    return RackStick(
        tag="",
        species=source.section.species,
        length_mm=stick.stock.length_mm,
        width_mm=ripping.rest_mm(strips),
        thickness_mm=ripping.board.thickness_mm,
        origin=f"rest of {source.tag or stick.label}" + (", its defects too" if stick.stock.defects else ""),
        is_off_cut=True,
        is_board=True,
    )


def _serves(stick: RackStick, section: StickSection) -> bool:
    off_mm = max(abs(stick.width_mm - section.width_mm), abs(stick.thickness_mm - section.thickness_mm))
    is_of_size = stick.is_board or off_mm <= TOLERANCE_MM
    return is_of_size and stick.profile == section.profile and same_wood(stick.species, section.species)


def same_wood(one: str, other: str) -> bool:
    """Whether two names may mean one wood: capitals do not count, and a blank is any wood.

    Source: derived.

    >>> same_wood("White ash", "white ash"), same_wood("", "oak"), same_wood("ash", "oak")
    (True, True, False)
    """
    return not one or not other or one.strip().casefold() == other.strip().casefold()
