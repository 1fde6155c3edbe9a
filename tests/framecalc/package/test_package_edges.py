"""The package half a millimetre to either side of its limits, and the numbers that its sentences tell."""

import pytest

from framecalc.errors import ImpossibleSize, OutOfRange
from framecalc.findings import Severity
from framecalc.package.box import box_around, box_depth_findings, box_findings
from framecalc.package.canvas import Folds, canvas_findings, stretch, tray_screw
from framecalc.package.growth import Growth, Room, growth_findings, hold_panel
from framecalc.package.sag import Beam
from framecalc.package.shelf import ready_made
from framecalc.package.stiffening import Back, Stiffened, Stiffener, least_high_mm, stiffened, stiffened_findings
from framecalc.records import replace
from framecalc.wood.seasons import Air

BOX = box_around(object_depth_mm=30, rabbet_across_mm=300, rabbet_up_mm=400, clearance_mm=2, wall_mm=8)
"""36 deep inside."""


@pytest.mark.parametrize("sizes", [(300.0, 400.0), (400.0, 300.0)])
def test_walls_of_half_the_narrower_side_leave_nothing(sizes: tuple[float, float]) -> None:
    room = {"rabbet_across_mm": sizes[0], "rabbet_up_mm": sizes[1], "clearance_mm": 2.0, "object_depth_mm": 30.0}
    left = box_around(wall_mm=148.5, **room)
    assert min(left.inside_across_mm, left.inside_up_mm) == 1
    with pytest.raises(ImpossibleSize) as refusal:
        box_around(wall_mm=149, **room)
    assert refusal.value.lengths == {"wall": 149, "room": 298}


@pytest.mark.parametrize(("margin_mm", "is_dark"), [(44.5, True), (45, False)])
def test_a_shadow_is_as_long_as_lip_pane_and_box_are_deep(margin_mm: float, is_dark: bool) -> None:
    """In light from 45 degrees: 6 + 3 + 36."""
    found = box_findings(BOX, lip_mm=6, glazing_mm=3, margin_mm=margin_mm, lamp_deg=45, covered_mm=8)
    assert [one.lengths for one in found] == ([pytest.approx({"shadow": 45, "margin": 44.5})] if is_dark else [])


@pytest.mark.parametrize(("covered_mm", "is_seen"), [(7.5, True), (8, False)])
def test_walls_are_in_view_past_what_is_covered(covered_mm: float, is_seen: bool) -> None:
    found = box_findings(BOX, lip_mm=6, glazing_mm=3, margin_mm=99, lamp_deg=0, covered_mm=covered_mm)
    assert bool(found) is is_seen
    assert all({8, covered_mm} == set(one.lengths.values()) for one in found)


@pytest.mark.parametrize(
    ("depth_mm", "spacer_mm", "lengths"), [(41, 36, []), (40.5, 36, [{"needed": 41, "depth": 40.5}])]
)
def test_a_box_needs_its_inside_and_what_is_around_it(
    depth_mm: float, spacer_mm: float, lengths: list[dict[str, float]]
) -> None:
    found = box_depth_findings(BOX, around_mm=5, rabbet_depth_mm=depth_mm, spacer_mm=spacer_mm)
    assert [one.lengths for one in found] == lengths


@pytest.mark.parametrize("spacer_mm", [35.5, 36.5, 0])
def test_spacers_that_are_no_walls_are_said_on_either_side(spacer_mm: float) -> None:
    (found,) = box_depth_findings(BOX, around_mm=5, rabbet_depth_mm=60, spacer_mm=spacer_mm)
    assert found.lengths == {"height": 36, "spacer": spacer_mm}


@pytest.mark.parametrize("folds", Folds)
@pytest.mark.parametrize(
    ("beside_mm", "code", "lengths"),
    [
        (5.5, "folds", {"widest": 406, "rabbet": 405.5}),
        (6, "keys", {"play": 4, "room": 6.35}),
        (8, "keys", {"play": 6, "room": 6.35}),
        (8.5, None, {}),
    ],
)
def test_a_canvas_enters_over_its_folds_and_its_keys_have_room(
    folds: Folds, beside_mm: float, code: str | None, lengths: dict[str, float]
) -> None:
    """Bars of 400, cloth of 1: 402 over it, 406 over the folds, and 6.35 for the keys."""
    canvas = stretch(bars_across_mm=400, bars_up_mm=400, cloth_mm=1, folds=folds, has_keys=True)
    direction = "across" if folds is Folds.SIDES else "up"
    sizes = {"rabbet_across_mm": 450.0, "rabbet_up_mm": 450.0} | {f"rabbet_{direction}_mm": 400 + beside_mm}
    for is_tray, argument in ((True, "tray_gap_mm"), (False, f"clearance_{direction}_mm")):
        found = canvas_findings(canvas, is_tray=is_tray, **sizes)
        assert [one.code for one in found] == ([f"canvas.{code}-{direction}"] if code else [])
        assert [one.argument for one in found] == ([argument] if code else [])
        assert [one.lengths for one in found] == ([pytest.approx(lengths)] if code else [])


def test_a_bar_too_thin_for_a_screw_is_refused_with_the_thinnest_that_takes_one() -> None:
    with pytest.raises(ImpossibleSize) as refusal:
        tray_screw(ledge_thickness_mm=6, bar_thickness_mm=10.5)
    least_mm = refusal.value.lengths["least"]
    taken = tray_screw(ledge_thickness_mm=6, bar_thickness_mm=least_mm)
    assert taken.shortest_mm == taken.longest_mm


@pytest.mark.parametrize(
    ("clearance_mm", "code", "severity"),
    [
        (1.5, "growth.binds-across", Severity.STOP),
        (2, "growth.tight-across", Severity.WARN),
        (2.5, "growth.tight-across", Severity.WARN),
        (3, None, None),
    ],
)
@pytest.mark.parametrize("is_tray", [False, True])
def test_what_grows_by_two_wants_two_and_a_little_play(
    clearance_mm: float, code: str | None, severity: Severity | None, is_tray: bool
) -> None:
    one, still = Growth(length_mm=900, swells_mm=2, shrinks_mm=0), Growth(length_mm=900, swells_mm=0, shrinks_mm=0)
    found = growth_findings(
        one,
        still,
        name="panel",
        clearance_across_mm=clearance_mm,
        clearance_up_mm=0,
        rabbet_width_mm=9,
        is_tray=is_tray,
    )
    assert [(finding.code, finding.severity) for finding in found] == ([(code, severity)] if code else [])
    for finding in found:
        (way,) = finding.ways
        assert way.value_mm * (2 if is_tray else 1) == 3
        assert finding.lengths == {"swells": 2, "clearance": clearance_mm}


@pytest.mark.parametrize(("width_mm", "is_light"), [(6, True), (6.5, False)])
def test_what_shrinks_keeps_its_cover(width_mm: float, is_light: bool) -> None:
    """A rabbet of 6 less a clearance of 3 and 2 of shrinking leaves 1 under the lip; 1.5 is to stay."""
    one, still = Growth(length_mm=900, swells_mm=0, shrinks_mm=2), Growth(length_mm=900, swells_mm=0, shrinks_mm=0)
    found = growth_findings(
        still, one, name="panel", clearance_across_mm=3, clearance_up_mm=3, rabbet_width_mm=width_mm
    )
    assert [(finding.code, finding.lengths["cover"]) for finding in found] == (
        [("growth.light-up", 1)] if is_light else []
    )
    assert [way.value_mm for finding in found for way in finding.ways] == ([6.5] if is_light else [])


@pytest.mark.parametrize(("from_edge_mm", "travel_mm"), [(0, 2), (50, 1.5), (100, 1), (200, 0)])
def test_a_screw_travels_by_how_far_it_is_from_the_middle_line(from_edge_mm: float, travel_mm: float) -> None:
    growth = Growth(length_mm=400, swells_mm=1.5, shrinks_mm=2.5)
    held = hold_panel(growth, grain_runs_up=False, screw_mm=4, from_edge_mm=from_edge_mm)
    assert (held.travel_mm, held.slot_mm) == (travel_mm, 4 + travel_mm)
    with pytest.raises(OutOfRange):
        hold_panel(growth, grain_runs_up=False, screw_mm=4, from_edge_mm=200.5)


def test_a_room_is_as_warm_and_as_damp_as_its_airs() -> None:
    fitted, dry, damp = (
        Air(temperature_c=temperature, humidity_pct=humidity)
        for temperature, humidity in ((18, 50), (25, 30), (12, 70))
    )
    room = Room(fitted=fitted, driest=dry, dampest=damp)
    assert (room.warming_k, room.cooling_k, room.damping_pct, room.drying_pct) == (7, 6, 20, 20)
    still = Room(fitted=fitted, driest=fitted, dampest=fitted)
    assert (still.warming_k, still.cooling_k, still.damping_pct, still.drying_pct) == (0, 0, 0, 0)
    outside = Room(fitted=replace(damp, humidity_pct=80), driest=damp, dampest=dry)
    assert (outside.damping_pct, outside.drying_pct) == (0, 10)


@pytest.mark.parametrize(
    ("sag_mm", "severities"), [(3, []), (3.5, [Severity.WARN]), (5.9, [Severity.WARN]), (6.1, [Severity.STOP])]
)
def test_twice_the_limit_is_a_stop_with_a_stiffener_too(sag_mm: float, severities: list[Severity]) -> None:
    one = Stiffened(kind=Stiffener.BAR, long_mm=900, wide_mm=20, out_mm=3, mass_kg=1, sag_mm=sag_mm, limit_mm=3)
    found = stiffened_findings(one)
    assert [finding.severity for finding in found] == severities
    assert all(finding.lengths == {"sag": sag_mm, "limit": 3} for finding in found)


BEAM = Beam(
    span_mm=1000,
    package_kg=6,
    elasticity_mpa=10_000,
    second_moment_mm4=20_000,
    area_mm2=400,
    density_kg_m3=500,
    face_width_mm=25,
    thickness_mm=20,
    rabbet_width_mm=6,
    rabbet_depth_mm=10,
)
BACK = Back(most_high_mm=100, up_mm=800, density_kg_m3=500, top_kg=0.2)


def test_stiffeners_weigh_by_their_size_and_a_strut_ends_inside_the_edges() -> None:
    strip, bar, strut = (stiffened(BEAM, BACK, kind=kind, out_mm=12, wide_mm=20) for kind in Stiffener)
    assert (strip.long_mm, bar.long_mm, strut.long_mm) == (1000, 1000, 788)
    assert [one.mass_kg for one in (strip, bar, strut)] == pytest.approx([0.12, 1.884, 0.09456])
    assert all((one.wide_mm, one.out_mm, one.limit_mm) == (20, 12, BEAM.limit_mm) for one in (strip, bar, strut))


def test_a_beam_that_is_stiff_already_takes_the_lowest_strip_and_one_without_room_what_there_is() -> None:
    stiff = replace(BEAM, second_moment_mm4=1e6)
    assert least_high_mm(stiff, BACK, kind=Stiffener.STRIP, out_mm=12) == 12
    assert least_high_mm(stiff, replace(BACK, most_high_mm=8), kind=Stiffener.STRIP, out_mm=12) == 8


def test_only_laminated_glass_on_the_shelf_is_of_laminated_glass() -> None:
    made = {ready.name: ready.material for ready in ready_made().values() if ready.name.startswith("Glass, ")}
    assert {material for name, material in made.items() if "lami" in name} <= {"glass_laminated"}
    assert {material for name, material in made.items() if "lami" not in name} == {"glass"}
