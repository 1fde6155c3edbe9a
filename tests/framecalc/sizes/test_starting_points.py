"""The four ways into the size chain meet in the same frame."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.errors import ImpossibleSize
from framecalc.mats.openings import Opening
from framecalc.mats.wished_mat import Image, MatWish, WindowArrangement
from framecalc.records import replace
from framecalc.sizes.chain import Sizes
from framecalc.sizes.from_one_stick import stick_round_mm
from framecalc.sizes.shape import Shape
from framecalc.sizes.starting_points import SizeWish, StartingPoint, settle
from framecalc.units import TOLERANCE_MM

A3_IN_OAK = SizeWish(
    given=StartingPoint.ARTWORK,
    artwork_across_mm=297,
    artwork_up_mm=420,
    mat=None,
    clearance_across_mm=3,
    clearance_up_mm=3,
    rabbet_width_mm=6,
    face_width_mm=30,
    kerf_mm=3.2,
    trim_mm=10,
)
lengths_mm = st.floats(min_value=100, max_value=1500)
mats = st.one_of(
    st.none(),
    st.builds(
        MatWish,
        overlap_mm=st.floats(0, 5),
        border_mm=st.floats(20, 90),
        bottom_mm=st.floats(90, 120),
    ),
)


def stick_of(sizes: Sizes, *, kerf_mm: float, trim_mm: float) -> float:
    edges_mm = sizes.shape.edges_mm(sizes.outside_across_mm, sizes.outside_up_mm)
    return stick_round_mm(edges_mm, kerf_mm=kerf_mm, trim_mm=trim_mm)


@given(across_mm=lengths_mm, up_mm=lengths_mm, mat=mats)
def test_the_wall_space_of_a_frame_gives_the_frame_back(across_mm: float, up_mm: float, mat: MatWish | None) -> None:
    outward = settle(replace(A3_IN_OAK, artwork_across_mm=across_mm, artwork_up_mm=up_mm, mat=mat))
    inward = settle(
        replace(
            A3_IN_OAK,
            given=StartingPoint.WALL,
            artwork_across_mm=across_mm,
            artwork_up_mm=up_mm,
            mat=mat,
            opening_across_mm=outward.sizes.outside_across_mm,
            opening_up_mm=outward.sizes.outside_up_mm,
        )
    )
    assert inward.sizes.package_across_mm == pytest.approx(outward.sizes.package_across_mm, abs=TOLERANCE_MM)
    if outward.mat and inward.mat:
        assert inward.mat.border_sides_mm == pytest.approx(outward.mat.border_sides_mm, abs=TOLERANCE_MM)
        assert inward.mat.border_bottom_mm == pytest.approx(outward.mat.border_bottom_mm, abs=TOLERANCE_MM)


@given(across_mm=lengths_mm, up_mm=lengths_mm, face_mm=st.floats(min_value=8, max_value=150))
def test_the_stick_of_a_frame_gives_its_face_width_back(across_mm: float, up_mm: float, face_mm: float) -> None:
    wish = replace(A3_IN_OAK, artwork_across_mm=across_mm, artwork_up_mm=up_mm, face_width_mm=face_mm)
    stick_mm = stick_of(settle(wish).sizes, kerf_mm=wish.kerf_mm, trim_mm=wish.trim_mm)
    solved = settle(replace(wish, given=StartingPoint.STICK_FOR_WIDTH, face_width_mm=20, stick_length_mm=stick_mm))
    assert solved.face_width_mm == pytest.approx(face_mm, abs=TOLERANCE_MM)
    assert solved.solved == ("face_width_mm",)


@given(ratio=st.floats(min_value=0.5, max_value=2), mat=mats)
def test_the_stick_of_an_enlarged_picture_gives_its_scale_back(ratio: float, mat: MatWish | None) -> None:
    enlarged = replace(A3_IN_OAK, artwork_across_mm=297 * ratio, artwork_up_mm=420 * ratio, mat=mat)
    stick_mm = stick_of(settle(enlarged).sizes, kerf_mm=3.2, trim_mm=10)
    solved = settle(replace(A3_IN_OAK, given=StartingPoint.STICK_FOR_PICTURE, mat=mat, stick_length_mm=stick_mm))
    assert solved.picture_ratio == pytest.approx(ratio, abs=1e-9)
    assert solved.sizes.outside_up_mm == pytest.approx(settle(enlarged).sizes.outside_up_mm, abs=TOLERANCE_MM)


@given(
    across_mm=lengths_mm,
    up_mm=lengths_mm,
    loose_mm=st.tuples(st.floats(0, 8), st.floats(0, 8)),
    border_mm=st.floats(20, 90),
    fillet_mm=st.floats(0, 4),
)
def test_turning_the_artwork_and_its_play_turns_the_matted_frame(
    across_mm: float, up_mm: float, loose_mm: tuple[float, float], border_mm: float, fillet_mm: float
) -> None:
    mat = MatWish(overlap_mm=3, border_mm=border_mm, bottom_mm=border_mm, in_view=True)
    upright = replace(
        A3_IN_OAK,
        artwork_across_mm=across_mm,
        artwork_up_mm=up_mm,
        clearance_across_mm=loose_mm[0],
        clearance_up_mm=loose_mm[1],
        fillet_mm=fillet_mm,
        mat=mat,
    )
    turned = replace(
        upright,
        artwork_across_mm=up_mm,
        artwork_up_mm=across_mm,
        clearance_across_mm=loose_mm[1],
        clearance_up_mm=loose_mm[0],
    )
    one, other = settle(upright).sizes, settle(turned).sizes
    assert (one.outside_across_mm, one.outside_up_mm) == pytest.approx((other.outside_up_mm, other.outside_across_mm))
    seen = one.sight_up_mm - (up_mm - 2 * 3) - 2 * border_mm
    assert seen == pytest.approx(2 * fillet_mm, abs=TOLERANCE_MM), "what is seen of the mat is what was typed"


@pytest.mark.parametrize("slope_deg", [0, 30, 60])
def test_of_a_sloping_frame_what_is_seen_of_the_mat_is_what_was_typed_too(slope_deg: float) -> None:
    mat = MatWish(overlap_mm=3, border_mm=60, bottom_mm=60, in_view=True)
    sizes = settle(replace(A3_IN_OAK, mat=mat, shape=Shape(slope_deg=slope_deg))).sizes
    assert sizes.sight_across_mm - (297 - 2 * 3) == pytest.approx(2 * 60)


def test_a_stick_for_the_width_asks_for_no_width() -> None:
    wish = replace(A3_IN_OAK, given=StartingPoint.STICK_FOR_WIDTH, stick_length_mm=1700)
    widths = [settle(replace(wish, face_width_mm=face_mm)).face_width_mm for face_mm in (4, 20, 90)]
    assert widths[0] == widths[1] == widths[2] > 6


def test_a_crooked_picture_is_enlarged_with_its_smallest_size() -> None:
    mat = MatWish(overlap_mm=3, border_mm=60, bottom_mm=70)
    crooked = replace(A3_IN_OAK, mat=mat, lapped=Opening(across_mm=290, up_mm=410))
    large = replace(crooked, artwork_across_mm=594, artwork_up_mm=840, lapped=Opening(across_mm=580, up_mm=820))
    stick_mm = stick_of(settle(large).sizes, kerf_mm=3.2, trim_mm=10)
    solved = settle(replace(crooked, given=StartingPoint.STICK_FOR_PICTURE, stick_length_mm=stick_mm))
    assert solved.picture_ratio == pytest.approx(2) and solved.mat is not None
    assert solved.mat.window_across_mm == pytest.approx(580 - 6) and solved.mat.window_up_mm == pytest.approx(820 - 6)


def test_several_windows_placed_by_hand_alone_cannot_be_enlarged_to_a_stick() -> None:
    photo = Image(across_mm=100, up_mm=150, left_mm=400)
    for further, arrangement in (((), WindowArrangement.FREE), ((photo,), WindowArrangement.ROW)):
        mat = MatWish(overlap_mm=3, border_mm=60, bottom_mm=70, further=further, arrangement=arrangement)
        wish = replace(A3_IN_OAK, mat=mat, given=StartingPoint.STICK_FOR_PICTURE, stick_length_mm=3000)
        assert settle(wish).picture_ratio > 0
    free = replace(wish, mat=replace(mat, arrangement=WindowArrangement.FREE))
    with pytest.raises(ImpossibleSize, match="a row, a column or a grid"):
        settle(free)


def test_a_stock_size_is_what_the_frame_takes() -> None:
    wish = replace(A3_IN_OAK, given=StartingPoint.STOCK, opening_across_mm=203.2, opening_up_mm=254)
    settled = settle(replace(wish, artwork_across_mm=200, artwork_up_mm=251))
    assert settled.sizes.rabbet_across_mm == pytest.approx(206.2)
    assert settled.sizes.package_across_mm == 200 and settled.picture_ratio == 1
    assert settled.sizes.clearance_across_mm == pytest.approx(203.2 + 3 - 200)
    assert settled.sizes.clearance_up_mm == pytest.approx(254 + 3 - 251)


def test_a_mat_fills_the_stock_size() -> None:
    mat = MatWish(overlap_mm=3, border_mm=50, bottom_mm=62)
    settled = settle(replace(A3_IN_OAK, given=StartingPoint.STOCK, mat=mat, opening_across_mm=400, opening_up_mm=500))
    assert settled.mat is not None
    assert 2 * settled.mat.border_sides_mm + settled.mat.window_across_mm == pytest.approx(400)
    assert settled.mat.border_bottom_mm - settled.mat.border_top_mm == pytest.approx(12)


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"given": StartingPoint.STICK_FOR_WIDTH, "stick_length_mm": 900}, "stick_length_mm"),
        ({"given": StartingPoint.WALL, "opening_across_mm": 40, "opening_up_mm": 40}, "face_width_mm"),
        ({"rabbet_width_mm": 30}, "rabbet_width_mm"),
    ],
)
def test_what_leaves_nothing_is_refused_beside_its_field(change: dict[str, float], field: str) -> None:
    with pytest.raises(ImpossibleSize) as refusal:
        settle(replace(A3_IN_OAK, **change))
    assert refusal.value.field == field
