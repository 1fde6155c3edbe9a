"""A stick or board in hand against the frames of a project."""

import json
from pathlib import Path
from typing import Any

import pytest

import framecalc
from framecalc.errors import FrameCalcError, ImpossibleTimber
from framecalc.plan import Plan
from framecalc.plan.timber.frames_from_a_stick import FramesFromAStick
from framecalc.project import read_project, set_value
from framecalc.timber.sticks.problem import Grain

DEMO = Path(framecalc.__file__).parent / "demos/cafe-prints.demo.json"


def in_hand(*, timber: dict[str, str] | None = None, **typed: Any) -> FramesFromAStick:
    """The demo's linocuts are 433 × 365 mm outside, of members 22 mm wide; kerf 3.2 mm, end trim 20 mm."""
    document: dict[str, Any] = json.loads(DEMO.read_text("utf-8"))
    document["reach"] = typed
    for name, text in (timber or {}).items():
        set_value(document, f"timber.{name}", text)
    return Plan(read_project(document)).frames_from_a_stick


def test_a_usual_stick_is_taken_until_one_is_typed() -> None:
    assert in_hand().clear_mm == (2400 - 2 * 20,)
    assert in_hand(length="1500 mm").clear_mm == (1460,)


def test_a_board_is_ripped_with_the_shop_s_kerf_and_edges() -> None:
    """(160 − 2 · 5 + 3.2) / (22 + 3 + 3.2) = 5.4: five strips."""
    found = in_hand(length="1500 mm", width="160 mm", timber={"edge": "5 mm", "width_allowance": "3 mm"})
    assert found.clear_mm == (1460,) * 5


@pytest.mark.parametrize(
    ("length", "count", "fits", "fits_round"),
    [
        ("1600 mm", 1, False, False),  # 2 · 433 + 2 · 365 and three cuts of 4.53 mm are 1609.6 mm, and two trims
        ("1649.5 mm", 1, False, False),
        ("1649.6 mm", 1, True, True),
        ("950 mm", 2, True, False),
        ("480 mm", 4, True, False),
        ("480 mm", 3, False, False),
        ("470 mm", 4, False, False),
    ],
)
def test_a_frame_fits_or_it_does_not(length: str, count: int, fits: bool, fits_round: bool) -> None:
    (spot,) = in_hand(length=length, count=count).spots
    assert (spot.fits, spot.fits_round) == (fits, fits_round)


def test_the_largest_frame_as_written_can_be_made() -> None:
    found = in_hand(length="1997 mm")
    for one in found.largest_round:
        across_mm, up_mm = (float(figure.text) for figure in (one.across, one.up))
        assert 2 * across_mm + 2 * up_mm + 3 * found.cut_mm <= 1957
        assert across_mm + up_mm >= 1957 / 2 - 1.5 * found.cut_mm - 1
        assert one.across.exact_mm - one.rabbet_across.exact_mm == pytest.approx(2 * (22 - found.lap_mm))


def test_two_short_sticks_make_nothing_with_the_grain_running_round() -> None:
    found = in_hand(length="260 mm", count=4)
    assert found.edge and found.edge_round == () and found.largest_round == ()


def test_the_widest_member_is_never_narrower_than_the_one_that_fits() -> None:
    found = in_hand(length="1900 mm", width="160 mm")
    widest = found.widest(Grain.FREE)
    assert widest is not None and widest.face_width_mm >= 22
    assert [wanted.copies for wanted in found.wanted] == [5]


def test_a_stick_has_no_widest_member() -> None:
    assert in_hand(length="1900 mm").widest(Grain.FREE) is None


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"length": "150 mm"}, "No frame fits 110 mm: enter a longer stick, or narrower members"),
        ({"width": "30 mm"}, "makes no strip of"),
        ({"length": "500 mm", "defect_from": "0 mm", "defect_to": "500 mm"}, "leave nothing of 500 mm"),
        ({"length": "500 mm", "defect_from": "400 mm", "defect_to": "600 mm"}, "lie within the 500 mm"),
        ({"length": "500 mm", "defect_from": "400 mm", "defect_to": "300 mm"}, "must end after it starts"),
    ],
)
def test_what_yields_nothing_gets_a_sentence(typed: dict[str, Any], sentence: str) -> None:
    with pytest.raises(FrameCalcError, match=sentence):
        in_hand(**typed).edge  # noqa: B018


def test_a_frame_that_is_gone_gives_way_to_the_first() -> None:
    assert in_hand(frame="zz99").frame.frame.name == in_hand().frame.frame.name


def test_a_board_that_cannot_hold_the_job_says_so() -> None:
    with pytest.raises(ImpossibleTimber, match="enter a larger board"):
        in_hand(length="400 mm", width="60 mm").widest(Grain.FREE)


def of_a_tray(ledge: str) -> FramesFromAStick:
    """Trays with a wall of 12 mm and a ledge of 26 mm, from a board 160 mm wide."""
    document: dict[str, Any] = json.loads(DEMO.with_name("ash-relief.demo.json").read_text("utf-8"))
    document["frames"] = [frame for frame in document["frames"] if frame["id"] == "tray1"]
    document["frames"][0]["section"] |= {"ledge": ledge, "face_width": "12 mm", "ledge_width": "26 mm"}
    document["timber"] |= {"edge": "5 mm", "width_allowance": "3 mm"}
    document["shop"] |= {"kerf": "3.2 mm"}
    document["reach"] = {"length": "1500 mm", "width": "160 mm"}
    return Plan(read_project(document)).frames_from_a_stick


def test_a_tray_from_solid_takes_strips_as_wide_as_wall_and_ledge() -> None:
    """(160 − 10 + 3.2) / (12 + 26 + 3 + 3.2) = 3.5 and (160 − 10 + 3.2) / (12 + 3 + 3.2) = 8.4."""
    assert [len(of_a_tray(ledge).clear_mm) for ledge in ("solid", "strip")] == [3, 8]
    solid, strip = (of_a_tray(ledge).widest(Grain.FREE) for ledge in ("solid", "strip"))
    assert solid is not None and strip is not None and solid.face_width_mm <= strip.face_width_mm
