"""The rack: sticks and off-cuts in hand, what a job takes from it and what comes back.

A *change* is all that one cut plan does to the rack: the sticks that go, the off-cuts that come. It can be made, and it
can be taken back, as long as nothing that came has been used.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from framecalc.boards import RoughSize
from framecalc.errors import ImpossibleTimber, quoted
from framecalc.ranges import require_positive
from framecalc.sticks.answer import StickPlan
from framecalc.units import TOLERANCE_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class RackStick:
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


@dataclass(frozen=True, slots=True, kw_only=True)
class StickSection:
    """What sticks must have in common to serve in one job."""

    species: str
    width_mm: float
    thickness_mm: float
    profile: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RackChange:
    """What one job does to the rack."""

    taken: tuple[RackStick, ...]
    returned: tuple[RackStick, ...]


Rack = tuple[RackStick, ...]


def fitting(rack: Rack, *, section: StickSection, rough: RoughSize) -> Rack:
    """Find what on the rack serves a section: off-cuts first, the short ones before the long ones, boards last.

    Sticks must be of the section; boards at least of its rough size, so that one strip comes of them.

    Args:
        section: of the members, milled or blank.
        rough: what is ripped from a board for them.
    Source: derived.
    """
    serving = (stick for stick in rack if _serves(stick, section, rough))
    return tuple(sorted(serving, key=lambda stick: (stick.is_board, not stick.is_off_cut, stick.length_mm, stick.tag)))


def change_of(
    plan: StickPlan, *, rack: Rack, tags: frozenset[str], section: StickSection, shortest_useful_mm: float
) -> RackChange:
    """Work out what a cut plan does to the rack: its sticks go, the off-cuts long enough to be useful come.

    Off-cuts of bought sticks come too. Each gets a tag made from the plan, so that making a change twice shows.

    Args:
        tags: names of those sticks of the plan's stock that stand on the rack.
        section: of the sticks of the plan.
        shortest_useful_mm: the shortest off-cut worth keeping [mm], > 0.
    Raises:
        OutOfRange: the shortest useful length is not above zero.
        ImpossibleTimber: a stick of the plan is no longer on the rack.
    Source: derived.
    """
    require_positive(shortest_useful_mm=shortest_useful_mm)
    by_tag = {stick.tag: stick for stick in rack}
    used = [stick.stock.name for stick in plan.sticks if stick.stock.name in tags]
    _refuse_missing(used, by_tag)
    left = (length for length in _left_overs(plan) if length[1] >= shortest_useful_mm - TOLERANCE_MM)
    return RackChange(
        taken=tuple(by_tag[tag] for tag in used),
        returned=tuple(
            RackStick(
                tag=f"{plan.problem_hash[:6]}-{number}",
                species=section.species,
                length_mm=length_mm,
                width_mm=section.width_mm,
                thickness_mm=section.thickness_mm,
                profile=section.profile,
                origin=f"off-cut of {origin}",
                is_off_cut=True,
            )
            for number, (origin, length_mm) in enumerate(left, start=1)
        ),
    )


def make_change(rack: Rack, change: RackChange) -> Rack:
    """Take sticks from the rack and put the off-cuts on it.

    Raises:
        ImpossibleTimber: a stick is not there, or an off-cut is there already.
    Source: derived.
    """
    return _exchange(rack, gone=change.taken, come=change.returned)


def take_back(rack: Rack, change: RackChange) -> Rack:
    """Undo a change: the off-cuts go, the sticks come back.

    Raises:
        ImpossibleTimber: an off-cut has been used since.
    Source: derived.
    """
    return _exchange(rack, gone=change.returned, come=change.taken)


def _exchange(rack: Rack, *, gone: Iterable[RackStick], come: tuple[RackStick, ...]) -> Rack:
    gone = tuple(gone)
    _refuse_missing([stick.tag for stick in gone], {stick.tag: stick for stick in rack})
    kept = tuple(stick for stick in rack if stick.tag not in {out.tag for out in gone})
    double = next((stick for stick in come if stick.tag in {there.tag for there in kept}), None)
    if double is not None:
        raise ImpossibleTimber(
            f"{quoted(double.tag)} is on the rack already: this change has been made before.", field="rack"
        )
    return tuple(sorted((*kept, *come), key=lambda stick: stick.tag))


def _refuse_missing(tags: Iterable[str], by_tag: dict[str, RackStick]) -> None:
    missing = next((tag for tag in tags if tag not in by_tag), None)
    if missing is not None:
        says = f"{quoted(missing)} is no longer on the rack: plan the job again with what is there."
        raise ImpossibleTimber(says, field="rack")


def _left_overs(plan: StickPlan) -> Iterator[tuple[str, float]]:
    for stick, _, stretch in plan.stretches():
        if stretch.left_over_mm > 0:
            yield stick.label, stretch.left_over_mm


def _serves(stick: RackStick, section: StickSection, rough: RoughSize) -> bool:
    if stick.species.casefold() != section.species.casefold():
        return False
    if stick.is_board:
        spare_mm = stick.width_mm - rough.width_mm, stick.thickness_mm - rough.thickness_mm
        return not section.profile and min(spare_mm) >= -TOLERANCE_MM
    off_mm = abs(stick.width_mm - section.width_mm), abs(stick.thickness_mm - section.thickness_mm)
    return stick.profile == section.profile and max(off_mm) <= TOLERANCE_MM
