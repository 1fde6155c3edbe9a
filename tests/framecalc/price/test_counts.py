"""Counted quantities: by hand, and by the law that the shares of the batches are the whole."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.price.counts import COUNTED_SHEETS, COUNTED_WOOD, MaterialUse, quantity_taken
from framecalc.price.quantities import NET, Measure
from framecalc.records import replace

OAK = MaterialUse(
    pieces=3,
    shares=(Fraction(2), Fraction(1)),
    length_mm=Fraction(7000),
    wood_mm3=Fraction(1_800_000),
    area_mm2=Fraction(250_000),
)
BOTH = [True, True]


def total(measure: Measure, *taken: MaterialUse, wanted: list[bool] = BOTH, amount: str = "1") -> Decimal:
    found = quantity_taken(measure, taken=taken, wanted=wanted, amount=Decimal(amount), counted_by="a plan")
    assert found.counted_by == "a plan"
    return found.total


def test_by_hand() -> None:
    assert total(Measure.STICK, OAK) == 3 and total(Measure.STICK_M, OAK) == 7
    assert total(Measure.BOARD_M3, OAK) == Decimal("0.0018") and total(Measure.AREA_M2, OAK) == Decimal("0.25")
    assert total(Measure.SHEET, OAK, amount="2") == 6
    assert total(Measure.STICK, OAK, wanted=[True, False]) == 2
    assert total(Measure.STICK_M, OAK, wanted=[False, True]) == Decimal("2.333")


def test_what_no_batch_takes_a_share_of_is_in_none() -> None:
    assert total(Measure.STICK, replace(OAK, shares=(Fraction(0), Fraction(0)))) == 0


def test_units_by_definition() -> None:
    """A foot is 304.8 mm, a board foot 144 in³, a square foot 144 in² (NIST SP 811, from memory, not re-read)."""
    inch = Fraction(254, 10)
    taken = MaterialUse(
        pieces=1, shares=(Fraction(1),), length_mm=24 * inch, wood_mm3=288 * inch**3, area_mm2=432 * inch**2
    )
    assert total(Measure.STICK_FT, taken, wanted=[True]) == 2
    assert total(Measure.BOARD_FT, taken, wanted=[True]) == 2
    assert total(Measure.AREA_FT2, taken, wanted=[True]) == 3


@pytest.mark.parametrize("measure", [Measure.STICK_M, Measure.BOARD_M3, Measure.AREA_M2])
def test_of_what_no_plan_measures_nothing_is_counted(measure: Measure) -> None:
    unmeasured = MaterialUse(pieces=1, shares=(Fraction(1),))
    assert total(measure, unmeasured, wanted=[True]) == 0
    assert total(measure, OAK, replace(unmeasured, shares=(Fraction(1), Fraction(0)))) == total(measure, OAK)


def test_two_woods_are_added_and_what_they_take_for_granted_is_said_once() -> None:
    usual = MaterialUse(pieces=1, shares=(Fraction(0), Fraction(1)), estimate="usual sticks")
    found = quantity_taken(
        Measure.STICK, taken=[OAK, usual, usual], wanted=BOTH, amount=Decimal(1), counted_by="a plan"
    )
    assert found.total == 5 and found.weights == (2, 3) and found.estimate == "usual sticks"


def test_every_net_measure_of_wood_and_sheets_can_be_counted() -> None:
    assert NET <= COUNTED_WOOD | COUNTED_SHEETS


@given(
    pieces=st.integers(1, 500),
    shares=st.lists(st.fractions(0, 10_000), min_size=1, max_size=6).filter(any),
    measure=st.sampled_from([Measure.STICK, Measure.SHEET]),
)
def test_whole_pieces_stay_whole_and_the_shares_are_all_of_them(
    pieces: int, shares: list[Fraction], measure: Measure
) -> None:
    taken = MaterialUse(pieces=pieces, shares=tuple(shares))
    found = quantity_taken(measure, taken=[taken], wanted=[True] * len(shares), amount=Decimal(1), counted_by="a plan")
    assert found.total == pieces
    assert float(sum(found.weights)) == pytest.approx(pieces, abs=0.0005 * len(shares))
