"""One stick: what a frame takes of it, and what it allows."""

import tomllib
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from framecalc.errors import FrameCalcError, ImpossibleSize
from framecalc.sizes.chain import Sizes, sizes_around
from framecalc.sizes.from_one_stick import (
    KERFS_IN_A_STICK,
    face_width_from_stick,
    picture_scale_from_stick,
    stick_round_mm,
)
from framecalc.sizes.shape import Shape
from framecalc.units import TOLERANCE_MM

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/stick.toml").read_text("utf-8"))
LOOSE = {"clearance_across_mm": 3.0, "clearance_up_mm": 4.0, "rabbet_width_mm": 6.0}
SAW = {"kerf_mm": 3.2, "trim_mm": 20.0}

packages_mm = st.floats(min_value=50, max_value=3000)
face_widths_mm = st.floats(min_value=7, max_value=150)


def frame(across_mm: float, up_mm: float, *, face_width_mm: float = 30.0) -> Sizes:
    return sizes_around(package_across_mm=across_mm, package_up_mm=up_mm, face_width_mm=face_width_mm, **LOOSE)


def stick_of(sizes: Sizes, *, kerf_mm: float, trim_mm: float) -> float:
    edges_mm = sizes.shape.edges_mm(sizes.outside_across_mm, sizes.outside_up_mm)
    return stick_round_mm(edges_mm, kerf_mm=kerf_mm, trim_mm=trim_mm)


def test_worked_slant_kerfs() -> None:
    (check,) = CHECKS["slant_kerf"]
    sizes = frame(297, 420)
    kerfs_mm = stick_of(sizes, kerf_mm=check["kerf_in"] * 25.4, trim_mm=0) - sizes.perimeter_mm
    found_in = kerfs_mm / 25.4 * check["cuts"] / KERFS_IN_A_STICK
    assert found_in == pytest.approx(check["expect_in"], abs=check["tolerance_in"])


def test_a_stick_with_shared_cuts_is_shorter_than_the_worked_upper_bound() -> None:
    (check,) = CHECKS["stick"]
    inch = 25.4
    sizes = sizes_around(
        package_across_mm=8 * inch,
        package_up_mm=10 * inch,
        clearance_across_mm=inch / 8,
        clearance_up_mm=inch / 8,
        rabbet_width_mm=inch / 4,
        face_width_mm=1.5 * inch,
    )
    kerf_mm = check["kerf_in"] * inch
    needed_in = stick_of(sizes, kerf_mm=kerf_mm, trim_mm=0) / inch
    assert sizes.perimeter_mm / inch == pytest.approx(check["perimeter_in"])
    assert check["perimeter_in"] < needed_in < check["expect_in"]


@given(across_mm=packages_mm, up_mm=packages_mm, face_width_mm=face_widths_mm)
def test_the_stick_of_a_frame_gives_its_face_width_back(across_mm: float, up_mm: float, face_width_mm: float) -> None:
    stick_mm = stick_of(frame(across_mm, up_mm, face_width_mm=face_width_mm), **SAW)
    found_mm = face_width_from_stick(
        package_across_mm=across_mm, package_up_mm=up_mm, stick_length_mm=stick_mm, **LOOSE, **SAW
    )
    assert found_mm == pytest.approx(face_width_mm, abs=TOLERANCE_MM)


@pytest.mark.parametrize("slope_deg", [0, 30, 60])
def test_a_sloping_frame_gives_its_face_width_back_too(slope_deg: float) -> None:
    loose, shape = LOOSE | {"package_across_mm": 300, "package_up_mm": 400}, Shape(slope_deg=slope_deg)
    sizes = sizes_around(**loose, face_width_mm=35, shape=shape)
    stick_mm = stick_of(sizes, kerf_mm=0, trim_mm=20)
    assert face_width_from_stick(
        **loose, stick_length_mm=stick_mm, kerf_mm=0, trim_mm=20, shape=shape
    ) == pytest.approx(35)


def test_edges_that_are_none_take_no_stick() -> None:
    with pytest.raises(FrameCalcError, match="Enter more than 0 mm"):
        stick_round_mm([300, 0, 300, 400], kerf_mm=3, trim_mm=20)


@given(
    across_mm=packages_mm,
    up_mm=packages_mm,
    ratio=st.floats(min_value=0.3, max_value=3),
    fixed_mm=st.floats(min_value=-10, max_value=300),
)
def test_the_stick_of_a_scaled_picture_gives_its_scale_back(
    across_mm: float, up_mm: float, ratio: float, fixed_mm: float
) -> None:
    package_across_mm, package_up_mm = ratio * across_mm + fixed_mm, ratio * up_mm + 2 * fixed_mm
    assume(min(package_across_mm, package_up_mm) > 20)
    found_ratio = picture_scale_from_stick(
        picture_across_mm=across_mm,
        picture_up_mm=up_mm,
        fixed_across_mm=fixed_mm,
        fixed_up_mm=2 * fixed_mm,
        face_width_mm=30.0,
        stick_length_mm=stick_of(frame(package_across_mm, package_up_mm), **SAW),
        **LOOSE,
        **SAW,
    )
    assert found_ratio == pytest.approx(ratio, rel=1e-9)


@given(kerf_mm=st.floats(min_value=0, max_value=5), trim_mm=st.floats(min_value=0, max_value=100))
def test_a_stick_is_never_shorter_than_its_members(kerf_mm: float, trim_mm: float) -> None:
    sizes = frame(297, 420)
    assert stick_of(sizes, kerf_mm=kerf_mm, trim_mm=trim_mm) >= sizes.perimeter_mm + 2 * trim_mm


def test_a_stick_too_short_for_any_members_is_refused_with_what_would_do() -> None:
    with pytest.raises(ImpossibleSize, match="enter more than 1448 mm") as refusal:
        face_width_from_stick(
            package_across_mm=297, package_up_mm=420, stick_length_mm=1448, kerf_mm=0, trim_mm=0, **LOOSE
        )
    assert refusal.value.field == "stick_length_mm"


def test_a_stick_that_leaves_nothing_for_the_picture_is_refused() -> None:
    with pytest.raises(ImpossibleSize) as refusal:
        picture_scale_from_stick(
            picture_across_mm=297,
            picture_up_mm=420,
            fixed_across_mm=100,
            fixed_up_mm=100,
            face_width_mm=30,
            stick_length_mm=600,
            kerf_mm=0,
            trim_mm=0,
            **LOOSE,
        )
    assert refusal.value.field == "stick_length_mm"


def test_no_picture_has_no_scale() -> None:
    with pytest.raises(FrameCalcError) as refusal:
        picture_scale_from_stick(
            picture_across_mm=0,
            picture_up_mm=420,
            fixed_across_mm=0,
            fixed_up_mm=0,
            face_width_mm=30,
            stick_length_mm=3000,
            **LOOSE,
            **SAW,
        )
    assert refusal.value.field == "artwork_across_mm"
