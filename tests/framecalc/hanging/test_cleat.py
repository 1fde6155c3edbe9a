"""A cleat: both halves of one strip close to a square edge, and the frame hangs by its drop."""

import pytest
from drawn_plans import plan_of

from framecalc.drawing.registry import draw_panel
from framecalc.errors import OutOfRange
from framecalc.hanging.cleat import IN_MM, cleat_for


def test_both_halves_come_of_one_strip_ripped_at_45() -> None:
    cleat = cleat_for(side_mm=900)
    short_mm = cleat.high_mm - cleat.out_mm
    assert cleat.strip_mm == pytest.approx(cleat.high_mm + short_mm)
    assert cleat.drop_mm == pytest.approx(IN_MM + short_mm) and cleat.lift_mm == cleat.out_mm
    assert cleat.long_mm == pytest.approx(600)
    with pytest.raises(OutOfRange):
        cleat_for(side_mm=0)


def test_a_frame_on_a_cleat_drops_to_its_edge_and_asks_for_bumpers() -> None:
    """Fault: a cleat was a point without a size, its drop that of its screws."""
    frame = plan_of("cafe-prints", "oak5", {"hanging.by": "cleat", "hanging.bumper": "6 mm"})
    cleat = frame.hangers.cleat
    assert cleat and frame.hangers.drop_mm == cleat.drop_mm
    assert "hangers.bumpers" in {one.code for one in frame.hangers.findings}
    assert frame.hand_over.deep_mm == pytest.approx(frame.section.thickness_mm + cleat.out_mm)
    assert "cleat" in draw_panel("hangers", frame)
    measured = plan_of("cafe-prints", "oak5", {"hanging.by": "cleat", "hanging.drop": "25 mm"})
    assert measured.hangers.drop_mm == 25


def test_with_bumpers_as_thick_as_the_cleat_it_hangs_upright() -> None:
    frame = plan_of("cafe-prints", "oak5", {"hanging.by": "cleat", "hanging.bumper": "12 mm"})
    assert frame.hangers.lean.lean_deg == pytest.approx(0, abs=0.01)
    assert "hangers.bumpers" not in {one.code for one in frame.hangers.findings}
