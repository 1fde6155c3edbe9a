"""How much a job takes: by hand, by definition of the units, and by laws."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.errors import ImpossibleSize, OutOfRange
from framecalc.price.quantities import (
    NET,
    UNIT_WORDS,
    Measure,
    Needs,
    SoldAs,
    parts_on_a_sheet,
    quantity_of,
    sticks_for,
)
from framecalc.records import replace

FRAME = Needs(
    count=1,
    long_points_mm=(400, 400, 300, 300),
    stick_mm=1440,
    section_mm2=30 * 20,
    package_across_mm=360,
    package_up_mm=260,
    face_mm2=400 * 300 - 340 * 240,
    retainers=14,
)
ONE = Decimal(1)


def total(measure: Measure, *needs: Needs, amount: str = "1", stock: SoldAs | None = None) -> Decimal:
    return quantity_of(measure, needs=needs, amount=Decimal(amount), stock=stock or SoldAs()).total


def test_units_by_definition() -> None:
    """A board foot is 12 × 12 × 1 in, a square foot 144 in², a foot 12 in (NIST SP 811, from memory, not re-read)."""
    inch = 25.4
    board = replace(FRAME, stick_mm=12 * inch, section_mm2=12 * inch * inch)
    assert total(Measure.BOARD_FT, board) == 1
    assert total(Measure.STICK_FT, board) == 1
    square = replace(FRAME, package_across_mm=12 * inch, package_up_mm=24 * inch, face_mm2=288 * inch * inch)
    assert total(Measure.AREA_FT2, square) == 2
    assert total(Measure.FACE_FT2, square) == 2
    metre = replace(FRAME, stick_mm=1000, section_mm2=1e6, package_across_mm=500, package_up_mm=2000, face_mm2=1e6)
    measures = (Measure.STICK_M, Measure.BOARD_M3, Measure.AREA_M2, Measure.FACE_M2)
    assert [total(measure, metre) for measure in measures] == [1, 1, 1, 1]


def test_by_hand() -> None:
    five = replace(FRAME, count=5)
    assert total(Measure.STICK_M, five) == Decimal("7.200")
    assert total(Measure.AREA_M2, five) == Decimal("0.468")
    assert total(Measure.FRAME, five, amount="4") == 20
    assert total(Measure.HOUR, five, amount="0.75") == Decimal("3.750")
    assert total(Measure.HOUR_JOB, five, amount="0.75") == Decimal("0.75")
    assert total(Measure.JOB, five, amount="2") == 2


def test_two_mats_take_twice_the_board_and_none_takes_none() -> None:
    square = replace(FRAME, package_across_mm=500)
    assert total(Measure.AREA_M2, replace(square, layers=2)) == 2 * total(Measure.AREA_M2, square)
    assert total(Measure.AREA_M2, replace(FRAME, layers=0)) == 0
    sheet = SoldAs(sheet_across_mm=800, sheet_up_mm=600)
    assert total(Measure.SHEET, replace(FRAME, layers=0), stock=sheet) == 0


@pytest.mark.parametrize("measure", Measure)
def test_every_measure_has_a_unit_and_gives_more_for_more_frames(measure: Measure) -> None:
    stock = SoldAs(stick_mm=2400, sheet_across_mm=800, sheet_up_mm=600)
    few, many = (total(measure, replace(FRAME, count=count), stock=stock) for count in (1, 12))
    assert UNIT_WORDS[measure]
    assert few <= many
    assert (few == many) is (measure in (Measure.JOB, Measure.HOUR_JOB))


@pytest.mark.parametrize("measure", Measure)
def test_a_batch_weighs_what_it_takes(measure: Measure) -> None:
    stock = SoldAs(stick_mm=2400, sheet_across_mm=800, sheet_up_mm=600)
    needs = [FRAME, replace(FRAME, count=3)]
    first, second = quantity_of(measure, needs=needs, amount=ONE, stock=stock).weights
    assert first > 0
    assert second == pytest.approx(3 * first, abs=Decimal("0.002"))


def test_what_is_only_estimated_says_from_what() -> None:
    assert "kerfs" in quantity_of(Measure.STICK_M, needs=[FRAME], amount=ONE, stock=SoldAs()).estimate
    assert quantity_of(Measure.FRAME, needs=[FRAME], amount=ONE, stock=SoldAs()).estimate == ""
    assert all(quantity_of(measure, needs=[FRAME], amount=ONE, stock=SoldAs()).estimate for measure in NET)


# --- sticks


PIECES = st.lists(st.floats(50, 2000), min_size=1, max_size=30)


@given(PIECES, st.floats(0, 5), st.floats(0, 20))
def test_sticks_hold_their_pieces_and_are_not_many_more_than_the_wood(
    pieces: list[float], kerf: float, trim: float
) -> None:
    stick = 2040 + kerf
    count = sticks_for(pieces, stick_mm=stick, kerf_mm=kerf, trim_mm=trim)
    least = sum(pieces) / (stick - 2 * trim)
    assert least - 1e-6 <= count <= len(pieces)
    room = stick - 2 * trim + kerf
    assert count <= 2 * sum(piece + kerf for piece in pieces) / room + 1


def test_sticks_by_hand() -> None:
    """2400 less 20 of trims: 900 + 3 + 900 + 3 + 500 = 2306 fits, and 600 + 600 + 600 + 500 with kerfs 2309."""
    pieces = [900, 900, 600, 600, 600, 500, 500]
    assert sticks_for(pieces, stick_mm=2400, kerf_mm=3, trim_mm=10) == 2


def test_a_piece_as_long_as_the_stick_fits() -> None:
    assert sticks_for([1000], stick_mm=1000, kerf_mm=3, trim_mm=0) == 1
    with pytest.raises(ImpossibleSize, match="does not fit into a stick") as refusal:
        sticks_for([1000], stick_mm=1000, kerf_mm=3, trim_mm=1)
    assert refusal.value.field == "stick_length"


# --- sheets


def test_parts_on_a_sheet_by_hand() -> None:
    """Four feet by eight: 16 × 20 in parts go 3 × 4 or, turned, 2 × 6: twelve either way."""
    inch = 25.4
    size = {"across_mm": 16 * inch, "up_mm": 20 * inch, "sheet_across_mm": 48 * inch, "sheet_up_mm": 96 * inch}
    assert parts_on_a_sheet(**size) == 12


def test_a_kerf_counts_between_parts_only() -> None:
    size = {"across_mm": 100.0, "up_mm": 100.0, "sheet_across_mm": 206.0, "sheet_up_mm": 100.0}
    assert parts_on_a_sheet(**size, kerf_mm=6) == 2
    assert parts_on_a_sheet(**size, kerf_mm=6.1) == 1


@given(st.floats(50, 900), st.floats(50, 900), st.floats(600, 3000), st.floats(600, 3000))
def test_turning_sheet_or_part_gives_as_many_parts(
    across: float, up: float, sheet_across: float, sheet_up: float
) -> None:
    plain = parts_on_a_sheet(across_mm=across, up_mm=up, sheet_across_mm=sheet_across, sheet_up_mm=sheet_up)
    turned = parts_on_a_sheet(across_mm=up, up_mm=across, sheet_across_mm=sheet_across, sheet_up_mm=sheet_up)
    assert plain == turned <= sheet_across * sheet_up / (across * up) + 1e-6


def test_a_part_larger_than_the_sheet_is_refused() -> None:
    with pytest.raises(ImpossibleSize, match="Enter a larger sheet than"):
        total(Measure.SHEET, FRAME, stock=SoldAs(sheet_across_mm=300, sheet_up_mm=300))


@pytest.mark.parametrize("measure", [Measure.STICK, Measure.SHEET])
def test_whole_pieces_of_no_size_are_refused(measure: Measure) -> None:
    with pytest.raises(OutOfRange, match="Enter more than 0 mm"):
        total(measure, FRAME)


@pytest.mark.parametrize(("piece_mm", "sticks"), [(493, 2), (493.5, 2), (494, 2), (488.5, 1), (489, 2)])
def test_pieces_share_a_stick_where_their_kerf_and_both_trims_leave_room(piece_mm: float, sticks: int) -> None:
    """1000 less twice 10 is 980; two pieces and the cut between them take 2 × 488.5 + 3 = 980."""
    assert sticks_for([piece_mm] * 2, stick_mm=1000, kerf_mm=3, trim_mm=10) == sticks


@pytest.mark.parametrize(("piece_mm", "is_refused"), [(980, False), (980.5, True)])
def test_a_piece_as_long_as_what_the_trims_leave_fits_and_tells_its_length_if_not(
    piece_mm: float, is_refused: bool
) -> None:
    if not is_refused:
        assert sticks_for([piece_mm], stick_mm=1000, kerf_mm=3, trim_mm=10) == 1
        return
    with pytest.raises(ImpossibleSize) as refusal:
        sticks_for([piece_mm], stick_mm=1000, kerf_mm=3, trim_mm=10)
    assert refusal.value.lengths == {"piece": 980.5, "stick": 1000}


@pytest.mark.parametrize(("count", "layers", "sheets"), [(9, 1, 1), (10, 1, 2), (5, 2, 2), (4, 2, 1), (5, 0, 0)])
def test_sheets_hold_all_layers_of_all_frames(count: int, layers: int, sheets: int) -> None:
    """Nine of 400 × 300 to a sheet of 1220 × 915."""
    frame = replace(FRAME, package_across_mm=400, package_up_mm=300, count=count, layers=layers)
    assert total(Measure.SHEET, frame, stock=SoldAs(sheet_across_mm=1220, sheet_up_mm=915)) == sheets


def test_retainers_and_layers_are_counted_for_every_frame() -> None:
    two = replace(FRAME, count=2, layers=3)
    assert total(Measure.RETAINER, two) == 28 and total(Measure.AREA_M2, two) == 3 * total(
        Measure.AREA_M2, replace(two, layers=1)
    )
