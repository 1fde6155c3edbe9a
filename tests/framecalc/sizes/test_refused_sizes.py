"""The number that a refusal asks for is the border itself: a hair to the good side of it is taken, itself it is not."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.errors import ImpossibleSize
from framecalc.sizes.chain import require_land, sizes_around, sizes_within
from framecalc.sizes.from_one_stick import face_width_from_stick, picture_scale_from_stick
from framecalc.sizes.shape import Shape
from framecalc.sizes.tray_sizes import tray_around

HAIR_MM = 0.01
LOOSE = {"clearance_across_mm": 3.0, "clearance_up_mm": 4.0, "rabbet_width_mm": 6.0}

lengths_mm = st.floats(60, 800)
slopes_deg = st.floats(0, 60)


def refused(compute: Callable[..., object], **given_mm: Any) -> dict[str, float]:
    """The lengths of a refusal."""
    with pytest.raises(ImpossibleSize) as refusal:
        compute(**given_mm)
    refusal.value.wording.format_map(refusal.value.lengths)
    return dict(refusal.value.lengths)


@given(across_mm=lengths_mm, up_mm=lengths_mm, slope_deg=slopes_deg, more_mm=st.floats(0, 40))
def test_a_rabbet_just_under_what_is_asked_for_leaves_something_in_view(
    across_mm: float, up_mm: float, slope_deg: float, more_mm: float
) -> None:
    frame = {"package_across_mm": across_mm, "package_up_mm": up_mm, "shape": Shape(slope_deg=slope_deg)}
    frame |= {"clearance_across_mm": 3.0, "clearance_up_mm": 4.0, "face_width_mm": 5000.0}
    too_wide_mm = min(across_mm + 3, up_mm + 4) / 2 / frame["shape"].flat_ratio + more_mm
    said = refused(sizes_around, **frame, rabbet_width_mm=too_wide_mm)
    assert said["rabbet"] == too_wide_mm
    seen = sizes_around(**frame, rabbet_width_mm=said["half"] - HAIR_MM)
    assert min(seen.sight_across_mm, seen.sight_up_mm) == pytest.approx(2 * HAIR_MM * frame["shape"].flat_ratio)
    refused(sizes_around, **frame, rabbet_width_mm=said["half"])


@given(face_mm=st.floats(5, 100), more_mm=st.floats(0, 50))
def test_a_rabbet_just_under_the_face_has_land(face_mm: float, more_mm: float) -> None:
    said = refused(require_land, rabbet_width_mm=face_mm + more_mm, face_width_mm=face_mm)
    assert said == {"face": face_mm}
    require_land(rabbet_width_mm=said["face"] - HAIR_MM, face_width_mm=face_mm)


@given(across_mm=lengths_mm, up_mm=lengths_mm, gap_mm=st.floats(0, 20), more_mm=st.floats(0, 50))
def test_a_ledge_just_under_what_is_asked_for_leaves_an_opening(
    across_mm: float, up_mm: float, gap_mm: float, more_mm: float
) -> None:
    tray = {"artwork_across_mm": across_mm, "artwork_up_mm": up_mm, "gap_mm": gap_mm, "wall_mm": 10.0}
    half_mm = min(across_mm, up_mm) / 2 + gap_mm
    said = refused(tray_around, **tray, ledge_width_mm=half_mm + more_mm)
    assert said == pytest.approx({"ledge": half_mm + more_mm, "half": half_mm})
    opened = tray_around(**tray, ledge_width_mm=said["half"] - HAIR_MM)
    assert min(opened.opening_across_mm, opened.opening_up_mm) == pytest.approx(2 * HAIR_MM)


@given(
    across_mm=lengths_mm, up_mm=lengths_mm, kerf_mm=st.floats(0, 5), trim_mm=st.floats(0, 50), part=st.floats(0.05, 1)
)
def test_a_stick_just_over_what_is_asked_for_is_enough(
    across_mm: float, up_mm: float, kerf_mm: float, trim_mm: float, part: float
) -> None:
    stick = {**LOOSE, "kerf_mm": kerf_mm, "trim_mm": trim_mm}
    package = {"package_across_mm": across_mm, "package_up_mm": up_mm}
    picture = {"picture_across_mm": across_mm, "picture_up_mm": up_mm, "fixed_across_mm": 50.0, "fixed_up_mm": 70.0}
    short_mm = 2 * (across_mm + up_mm) * part
    said = refused(face_width_from_stick, **stick, **package, stick_length_mm=short_mm)
    assert said["stick"] == short_mm
    face_mm = face_width_from_stick(**stick, **package, stick_length_mm=said["least"] + HAIR_MM)
    assert face_mm == pytest.approx(LOOSE["rabbet_width_mm"] + HAIR_MM / 8)
    said = refused(picture_scale_from_stick, **stick, **picture, face_width_mm=30.0, stick_length_mm=60.0 * part)
    scale = picture_scale_from_stick(**stick, **picture, face_width_mm=30.0, stick_length_mm=said["least"] + HAIR_MM)
    assert scale == pytest.approx(HAIR_MM / 2 / (across_mm + up_mm))


@given(
    across_mm=lengths_mm,
    up_mm=lengths_mm,
    slope_deg=slopes_deg,
    rabbet_mm=st.floats(1, 20),
    clearance_mm=st.floats(0, 30),
    more_mm=st.floats(0, 50),
)
def test_members_just_narrower_than_what_is_asked_for_leave_room_in_the_space(
    across_mm: float, up_mm: float, slope_deg: float, rabbet_mm: float, clearance_mm: float, more_mm: float
) -> None:
    space = {"outside_across_mm": across_mm, "outside_up_mm": up_mm, "shape": Shape(slope_deg=slope_deg)}
    space |= {"rabbet_width_mm": rabbet_mm, "clearance_across_mm": clearance_mm, "clearance_up_mm": clearance_mm}
    too_wide_mm = min(across_mm, up_mm) / 2 / space["shape"].flat_ratio + more_mm
    said = refused(sizes_within, **space, face_width_mm=too_wide_mm)
    sizes = sizes_within(**space, face_width_mm=said["face"] - HAIR_MM)
    assert min(sizes.package_across_mm, sizes.package_up_mm, sizes.sight_across_mm, sizes.sight_up_mm) == pytest.approx(
        2 * HAIR_MM * space["shape"].flat_ratio
    )
    refused(sizes_within, **space, face_width_mm=said["face"])


@given(space_mm=st.floats(3, 12), slope_deg=st.sampled_from([0, 30, 90]))
def test_a_space_just_larger_than_what_is_asked_for_has_room(space_mm: float, slope_deg: float) -> None:
    """No member is narrow enough for a space that rabbets or clearance use up alone."""
    space = {"outside_up_mm": 400.0, "face_width_mm": 30.0, "shape": Shape(slope_deg=slope_deg)}
    loose = LOOSE | {"clearance_across_mm": 12.0, "rabbet_width_mm": 9.0}
    said = refused(sizes_within, **space, **loose, outside_across_mm=space_mm)
    assert said["space"] == space_mm
    sizes = sizes_within(**space, **loose, outside_across_mm=said["least"] + HAIR_MM)
    assert min(sizes.package_across_mm, sizes.sight_across_mm) == pytest.approx(HAIR_MM) or slope_deg == 90
    refused(sizes_within, **space, **loose, outside_across_mm=said["least"])
