"""The package in the rabbet: worked values, laws, findings and their ways out."""

import tomllib
from pathlib import Path
from typing import Any

import pytest
from shapely import box
from shapely.affinity import translate

from framecalc.artwork.measuring import ArtworkKind
from framecalc.findings import Finding, Severity
from framecalc.package.layers import Layer, LayerKind, stack_layers
from framecalc.package.retainers import Retainer
from framecalc.package.seat import LEAST_COVER_MM, Cover, Seat, cover, rabbet_findings, seat

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/rabbet.toml").read_text("utf-8"))


def panel(*, thickness_mm: float, tolerance_mm: float = 0, rabbet_depth_mm: float = 12) -> Seat:
    layer = Layer(name="panel", kind=LayerKind.ARTWORK, thickness_mm=thickness_mm, tolerance_mm=tolerance_mm)
    return seat(stack_layers((layer,)), rabbet_depth_mm=rabbet_depth_mm)


def strip(
    *, rabbet_width_mm: float = 6, clearance_across_mm: float = 3, clearance_up_mm: float = 3, **taper_mm: float
) -> Cover:
    return cover(
        rabbet_width_mm=rabbet_width_mm,
        clearance_across_mm=clearance_across_mm,
        clearance_up_mm=clearance_up_mm,
        package_across_mm=300,
        package_up_mm=400,
        **taper_mm,
    )


def found(seat: Seat, cover: Cover | None) -> dict[str, Finding]:
    return {finding.code: finding for finding in of_a_panel(seat, cover)}


def of_a_panel(seat: Seat, cover: Cover | None) -> tuple[Finding, ...]:
    return rabbet_findings(seat, cover, kind=ArtworkKind.PANEL, held_by=Retainer.POINTS)


@pytest.mark.parametrize("check", CHECKS["seat"], ids=lambda check: check["name"])
def test_worked_seat(check: dict[str, Any]) -> None:
    layers = tuple(
        Layer(name=kind, kind=LayerKind(kind), thickness_mm=thickness_mm, tolerance_mm=tolerance_mm)
        for kind, thickness_mm, tolerance_mm in check["layers"]
    )
    seated = seat(stack_layers(layers), rabbet_depth_mm=check["rabbet_depth_mm"])
    assert seated.left_over_mm == pytest.approx(check["expect_left_over_mm"], abs=check["tolerance_mm"], rel=0)
    assert seated.left_over_worst_mm == pytest.approx(check["expect_worst_mm"], abs=check["tolerance_mm"], rel=0)


@pytest.mark.parametrize("check", CHECKS["cover"], ids=lambda check: check["name"])
def test_worked_cover(check: dict[str, Any]) -> None:
    covered = cover(
        rabbet_width_mm=check["rabbet_width_mm"],
        clearance_across_mm=check["clearance_mm"][0],
        clearance_up_mm=check["clearance_mm"][1],
        package_across_mm=check["package_mm"][0],
        package_up_mm=check["package_mm"][1],
    )
    within = {"abs": check["tolerance_mm"], "rel": 0}
    assert [covered.worst_across_mm, covered.worst_up_mm] == pytest.approx(check["expect_worst_mm"], **within)
    assert [covered.centred_across_mm, covered.centred_up_mm] == pytest.approx(check["expect_centred_mm"], **within)
    assert covered.hidden_ratio == pytest.approx(check["expect_hidden_ratio"], abs=check["tolerance_ratio"], rel=0)


@pytest.mark.parametrize("tolerance_mm", [0.0, 0.2, 1.5])
def test_what_is_left_over_lies_between_worst_and_best(tolerance_mm: float) -> None:
    layers = tuple(
        Layer(name=str(name), kind=LayerKind.MAT, thickness_mm=2, tolerance_mm=tolerance_mm) for name in range(3)
    )
    seated = seat(stack_layers(layers), rabbet_depth_mm=10)
    in_order = [seated.left_over_worst_mm, seated.left_over_mm, seated.left_over_best_mm]
    assert in_order == sorted(in_order)
    assert seated.left_over_best_mm - seated.left_over_worst_mm == pytest.approx(6 * tolerance_mm)


@pytest.mark.parametrize("clearance_across_mm", [0.0, 1.5, 3.0])
@pytest.mark.parametrize("clearance_up_mm", [0.0, 2.0, 5.0])
def test_cover_is_what_shapely_sees_behind_the_sight_size(clearance_across_mm: float, clearance_up_mm: float) -> None:
    """Lay the package in the opening: centred for the share hidden, in the corner for the strip at worst."""
    covered = strip(clearance_across_mm=clearance_across_mm, clearance_up_mm=clearance_up_mm)
    package, sight = box(0, 0, 300, 400), box(6, 6, 300 + clearance_across_mm - 6, 400 + clearance_up_mm - 6)
    centred = translate(package, clearance_across_mm / 2, clearance_up_mm / 2)
    assert covered.hidden_ratio == pytest.approx(1 - centred.intersection(sight).area / package.area)
    assert covered.centred_across_mm == pytest.approx(sight.bounds[0] - centred.bounds[0])
    assert covered.worst_across_mm == pytest.approx(package.bounds[2] - sight.bounds[2])
    assert covered.worst_up_mm == pytest.approx(package.bounds[3] - sight.bounds[3])


def test_a_lip_that_misses_the_package_hides_nothing() -> None:
    assert strip(rabbet_width_mm=2, clearance_across_mm=8, clearance_up_mm=8).hidden_ratio == 0


def test_turning_the_package_turns_the_cover() -> None:
    upright, turned = strip(clearance_across_mm=2), strip(clearance_up_mm=2)
    assert (upright.worst_across_mm, upright.worst_up_mm) == (turned.worst_up_mm, turned.worst_across_mm)


def test_the_narrowest_place_of_a_crooked_piece_is_covered_least() -> None:
    crooked = strip(taper_across_mm=1.8)
    assert crooked.worst_across_mm == pytest.approx(strip().worst_across_mm - 1.8)
    assert crooked.worst_up_mm == strip().worst_up_mm
    assert crooked.centred_across_mm == strip().centred_across_mm


@pytest.mark.parametrize(
    ("thickness_mm", "tolerance_mm", "code", "severity"),
    [
        (12.1, 0.0, "rabbet.proud", Severity.WARN),
        (11.9, 0.2, "rabbet.may-be-proud", Severity.WARN),
        (12.0, 0.0, "rabbet.no-room-for-points", Severity.NOTE),
        (9.1, 0.0, "rabbet.no-room-for-points", Severity.NOTE),
        (8.9, 0.2, "rabbet.no-room-for-points", Severity.NOTE),
    ],
)
def test_a_package_that_fills_its_rabbet_is_found_and_a_deeper_rabbet_mends_it(
    thickness_mm: float, tolerance_mm: float, code: str, severity: Severity
) -> None:
    finding = found(panel(thickness_mm=thickness_mm, tolerance_mm=tolerance_mm), strip())[code]
    assert finding.severity is severity
    (way,) = finding.ways
    assert way.argument == "rabbet_depth_mm"
    mended = panel(thickness_mm=thickness_mm, tolerance_mm=tolerance_mm, rabbet_depth_mm=way.value_mm)
    assert found(mended, strip()) == {}


@pytest.mark.parametrize("unit_mm", [1.0, 25.4])
def test_exactly_the_room_for_points_is_enough(unit_mm: float) -> None:
    assert found(panel(thickness_mm=0.4 * unit_mm, rabbet_depth_mm=0.4 * unit_mm + 3), strip()) == {}


def test_a_package_lying_deep_is_noted() -> None:
    finding = found(panel(thickness_mm=4, rabbet_depth_mm=17), strip())["rabbet.deep"]
    assert (finding.severity, finding.lengths["left"], finding.ways[0].value_mm) == (Severity.NOTE, 13, 7)


@pytest.mark.parametrize("direction", ["across", "up"])
@pytest.mark.parametrize(
    ("clearance_mm", "severity"),
    [(4.5, None), (4.6, Severity.WARN), (5.9, Severity.WARN), (6.0, Severity.STOP), (7.0, Severity.STOP)],
)
def test_a_line_of_light_is_found_in_its_own_direction(
    direction: str, clearance_mm: float, severity: Severity | None
) -> None:
    findings = found(panel(thickness_mm=8), strip(**{f"clearance_{direction}_mm": clearance_mm}))
    if severity is None:
        assert findings == {}
        return
    assert list(findings) == [f"rabbet.light-{direction}"]
    finding = findings[f"rabbet.light-{direction}"]
    assert finding.severity is severity
    wider, tighter = finding.ways
    assert (
        found(
            panel(thickness_mm=8), strip(rabbet_width_mm=wider.value_mm, **{f"clearance_{direction}_mm": clearance_mm})
        )
        == {}
    )
    assert tighter.argument == f"clearance_{direction}_mm"
    assert found(panel(thickness_mm=8), strip(**{tighter.argument: tighter.value_mm})) == {}


def test_clearance_is_not_taken_away_altogether() -> None:
    """A rabbet of 1 covers too little however tight the package sits."""
    finding = found(panel(thickness_mm=8), strip(rabbet_width_mm=1, clearance_across_mm=0.2))["rabbet.light-across"]
    assert [way.argument for way in finding.ways] == ["rabbet_width_mm"]
    assert finding.ways[0].value_mm == pytest.approx(0.2 + LEAST_COVER_MM)


def test_in_a_tray_only_a_proud_artwork_is_noted() -> None:
    assert found(panel(thickness_mm=12), None) == {}
    finding = found(panel(thickness_mm=13, tolerance_mm=0.5), None)["tray.artwork-proud"]
    assert (finding.severity, finding.lengths["proud"], finding.argument) == (Severity.NOTE, 1.0, "tray_height_mm")
    assert finding.sentence == "The artwork stands {proud} above the wall of the tray."


def test_what_only_the_thickest_layers_would_do_is_not_told_as_a_fact() -> None:
    """Fault: a panel that lies 0.3 mm below the wall was said to stand 0.2 mm above it."""
    finding = found(panel(thickness_mm=11.7, tolerance_mm=0.5), None)["tray.artwork-proud"]
    assert finding.lengths["proud"] == pytest.approx(0.2)
    assert (
        finding.sentence
        == "With every layer at its thickest the artwork would stand {proud} above the wall of the tray."
    )


def test_sentences_carry_no_digits_and_every_name_in_braces_has_its_length() -> None:
    cases = [
        *of_a_panel(panel(thickness_mm=13), strip(clearance_up_mm=5, clearance_across_mm=7)),
        *of_a_panel(panel(thickness_mm=11.9, tolerance_mm=0.3), strip()),
        *of_a_panel(panel(thickness_mm=11), strip()),
        *of_a_panel(panel(thickness_mm=11, rabbet_depth_mm=40), strip()),
        *of_a_panel(panel(thickness_mm=13), None),
    ]
    assert len(cases) == 7
    for finding in cases:
        assert not any(sign.isdigit() for sign in finding.sentence + finding.why)
        assert finding.sentence.format_map({name: "" for name in finding.lengths})


@pytest.mark.parametrize(
    ("thickness_mm", "held_by", "codes"),
    [
        (13.0, Retainer.STRIP, ["rabbet.proud"]),
        (11.0, Retainer.CLIPS, []),
        (4.0, Retainer.SHIM, []),
        (11.0, Retainer.POINTS, ["rabbet.no-room-for-points"]),
    ],
)
def test_of_points_nothing_is_said_to_a_canvas_that_is_screwed(
    thickness_mm: float, held_by: Retainer, codes: list[str]
) -> None:
    said = rabbet_findings(panel(thickness_mm=thickness_mm), strip(), kind=ArtworkKind.CANVAS, held_by=held_by)
    assert [finding.code for finding in said] == codes
    assert all(finding.severity is Severity.NOTE for finding in said)


def test_what_stands_proud_is_told_with_what_holds_it() -> None:
    (said,) = rabbet_findings(panel(thickness_mm=13), strip(), kind=ArtworkKind.PAPER, held_by=Retainer.CLIPS)
    assert said.severity is Severity.WARN and "held by offset clips" in said.sentence
