"""Room for connections: who waits longest goes, strangers before the owner, and nobody goes who is being served."""

from dataclasses import dataclass

import pytest

from webapp.server.room import MOST_OF_ONE_STRANGER, MOST_OPEN, MOST_STRANGERS, make_room


@dataclass(eq=False, kw_only=True)
class Guest:
    """A connection that only says what it is."""

    address: str = "127.0.0.1"
    is_stranger: bool = False
    waiting_since: float | None = 0.0
    has_left: bool = False

    def leave(self) -> None:
        self.has_left = True


def strangers(count: int, *, serving: bool = False) -> list[Guest]:
    """Strangers from an address each, the one that has waited longest last."""
    return [
        Guest(address=f"10.0.0.{number}", is_stranger=True, waiting_since=None if serving else float(count - number))
        for number in range(count)
    ]


def owners(count: int) -> list[Guest]:
    return [Guest(waiting_since=float(-number)) for number in range(count)]


def left(guests: list[Guest]) -> list[Guest]:
    return [guest for guest in guests if guest.has_left]


@pytest.mark.parametrize("new", [Guest(), Guest(is_stranger=True, address="10.1.0.1")])
def test_where_there_is_room_nobody_goes(new: Guest) -> None:
    guests = [*strangers(MOST_STRANGERS - 1), *owners(9), new]
    assert make_room(new, guests) and not left(guests)


def test_a_stranger_too_many_sends_the_one_away_that_waited_longest() -> None:
    there, new = strangers(MOST_STRANGERS), Guest(is_stranger=True, address="10.1.0.1", waiting_since=-99.0)
    assert make_room(new, [*there, new])
    assert left([*there, new]) == [there[-1]]


def test_strangers_send_no_owner_away() -> None:
    there, mine = strangers(MOST_STRANGERS), owners(50)
    new = Guest(is_stranger=True, address="10.1.0.1")
    assert make_room(new, [*mine, *there, new])
    assert not left(mine)


def test_one_address_of_strangers_has_a_share_of_its_own() -> None:
    theirs = [Guest(is_stranger=True, address="10.9.9.9") for _ in range(MOST_OF_ONE_STRANGER)]
    other, new = strangers(2), Guest(is_stranger=True, address="10.9.9.9")
    assert make_room(new, [*other, *theirs, new])
    assert len(left(theirs)) == 1 and not left(other)


def test_the_owner_sends_strangers_away_before_another_page_of_the_owner() -> None:
    there, mine, new = strangers(5), owners(MOST_OPEN - 5), Guest()
    assert make_room(new, [*mine, *there, new])
    assert left([*mine, *there]) == [there[-1]]


def test_of_the_owners_pages_the_one_that_waited_longest_goes() -> None:
    mine, new = owners(MOST_OPEN), Guest(waiting_since=-999.0)
    assert make_room(new, [*mine, new])
    assert left([*mine, new]) == [mine[-1]]


def test_where_all_are_being_served_the_newcomer_is_told() -> None:
    there, new = strangers(MOST_STRANGERS, serving=True), Guest(is_stranger=True, address="10.1.0.1")
    assert not make_room(new, [*there, new])
    assert not left([*there, new])
