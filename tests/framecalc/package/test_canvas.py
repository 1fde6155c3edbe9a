import pytest
from hypothesis import given
from hypothesis import strategies as some

from framecalc.errors import ImpossibleSize, OutOfRange
from framecalc.package.canvas import Folds, canvas_findings, stretch, tray_screw

sizes = some.floats(100, 2000)


@given(across_mm=sizes, up_mm=sizes, cloth_mm=some.floats(0, 2))
def test_folds_add_four_layers_of_cloth_in_one_direction_only(across_mm: float, up_mm: float, cloth_mm: float) -> None:
    on_sides, on_ends = (
        stretch(bars_across_mm=across_mm, bars_up_mm=up_mm, cloth_mm=cloth_mm, folds=folds, has_keys=False)
        for folds in Folds
    )
    assert on_sides.widest_across_mm - on_sides.across_mm == pytest.approx(4 * cloth_mm)
    assert on_sides.widest_up_mm == on_sides.up_mm
    assert on_ends.widest_up_mm - on_ends.up_mm == pytest.approx(4 * cloth_mm)
    assert on_ends.widest_across_mm == on_ends.across_mm


@pytest.mark.parametrize(
    ("rabbet_mm", "has_keys", "codes"),
    [(404, True, ["canvas.folds-across"]), (406, True, ["canvas.keys-across"]), (406, False, []), (408, True, [])],
)
def test_what_is_said_of_a_canvas(rabbet_mm: float, has_keys: bool, codes: list[str]) -> None:
    canvas = stretch(bars_across_mm=400, bars_up_mm=500, folds=Folds.SIDES, has_keys=has_keys)
    assert bool(canvas.key_room_mm) is has_keys
    found = canvas_findings(canvas, rabbet_across_mm=rabbet_mm, rabbet_up_mm=520)
    assert [finding.code for finding in found] == codes
    assert all(finding.sentence.format_map(finding.lengths) for finding in found)


def test_a_screw_bites_and_stays_short_of_the_canvas() -> None:
    screw = tray_screw(ledge_thickness_mm=6, bar_thickness_mm=11)
    assert (screw.shortest_mm, screw.longest_mm) == (14, 14)
    with pytest.raises(ImpossibleSize, match="brackets"):
        tray_screw(ledge_thickness_mm=6, bar_thickness_mm=10.9)
    with pytest.raises(OutOfRange):
        tray_screw(ledge_thickness_mm=0, bar_thickness_mm=20)
    with pytest.raises(OutOfRange):
        stretch(bars_across_mm=0, bars_up_mm=500, folds=Folds.SIDES, has_keys=True)
