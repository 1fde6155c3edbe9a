"""The sag of the bottom member, against a beam bent bit by bit, and against other ways to the second moment."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some
from scipy.integrate import cumulative_trapezoid, quad
from shapely import Polygon
from shapely.geometry import box

from framecalc.errors import OutOfRange
from framecalc.findings import Severity
from framecalc.geometry.outline import flatten, second_moment_mm4
from framecalc.package.sag import (
    GRAVITY_N_PER_KG,
    Beam,
    beam_sag_mm,
    lift_findings,
    plain_second_moment_mm4,
    sag_findings,
)
from framecalc.records import replace
from framecalc.section.profile import Edge, EdgeShape, FaceShape
from framecalc.section.rabbeted import Section, milled_section

SQUARE = Edge(shape=EdgeShape.SQUARE, size_mm=1)


def section(sight: Edge = SQUARE, back: Edge = SQUARE, face: FaceShape = FaceShape.FLAT) -> Section:
    return milled_section(
        face_width_mm=31.75,
        thickness_mm=19.05,
        rabbet_width_mm=6.35,
        rabbet_depth_mm=9,
        sight_edge=sight,
        back_edge=back,
        face=face,
        face_drop_mm=3,
    )


def beam(**changes: float) -> Beam:
    thin = Beam(
        span_mm=1345,
        package_kg=8.1,
        elasticity_mpa=8550,
        second_moment_mm4=35_530,
        area_mm2=524,
        density_kg_m3=392,
        face_width_mm=31.75,
        thickness_mm=19.05,
        rabbet_width_mm=6.35,
        rabbet_depth_mm=12.7,
    )
    return replace(thin, **changes)


def bent_mm(*, span_mm: float, load_n: float, stiffness: float) -> float:
    """The sag in the middle by integrating M/EI twice along the beam."""
    along = np.linspace(0, span_mm, 20_001)
    bending = load_n / 2 * along - load_n / span_mm * along**2 / 2
    slope = cumulative_trapezoid(bending / stiffness, along, initial=0)
    down = cumulative_trapezoid(slope, along, initial=0)
    return float(np.max(down[-1] / span_mm * along - down))


@pytest.mark.parametrize("span_mm", [300, 914.4, 1345])
@pytest.mark.parametrize("load_n", [5, 93.2])
def test_the_sag_is_that_of_a_beam_bent_bit_by_bit(span_mm: float, load_n: float) -> None:
    found = beam_sag_mm(span_mm=span_mm, load_n=load_n, elasticity_mpa=8550, second_moment_mm4=35_530)
    assert found == pytest.approx(bent_mm(span_mm=span_mm, load_n=load_n, stiffness=8550 * 35_530), rel=1e-6)


@pytest.mark.parametrize(
    ("sight", "back", "face"),
    [
        (SQUARE, SQUARE, FaceShape.FLAT),
        (Edge(shape=EdgeShape.COVE, size_mm=5), SQUARE, FaceShape.FLAT),
        (Edge(shape=EdgeShape.CHAMFER, size_mm=4), Edge(shape=EdgeShape.ROUND, size_mm=6), FaceShape.FLAT),
        (SQUARE, SQUARE, FaceShape.TOWARD),
    ],
)
def test_the_second_moment_is_that_of_the_true_section(sight: Edge, back: Edge, face: FaceShape) -> None:
    """Cut into strips with Shapely, each as high as the wood at its place."""
    milled = section(sight, back, face)
    outline = milled.outline
    wood = Polygon(flatten(outline, tolerance_mm=0.0005))
    width_mm = 31.75 / 4000
    strips = [
        (
            x_mm := (number + 0.5) * width_mm,
            wood.intersection(box(x_mm - width_mm / 2, -1, x_mm + width_mm / 2, 99)).area,
        )
        for number in range(4000)
    ]
    area = sum(part for _, part in strips)
    middle_mm = sum(x_mm * part for x_mm, part in strips) / area
    expected = sum((x_mm - middle_mm) ** 2 * part for x_mm, part in strips)
    assert second_moment_mm4(outline) == pytest.approx(expected, rel=2e-4)


def test_a_plain_section_less_its_rabbet_agrees_with_its_outline_and_with_an_integral() -> None:
    plain = plain_second_moment_mm4(face_width_mm=31.75, thickness_mm=19.05, rabbet_width_mm=6.35, rabbet_depth_mm=9)
    assert plain == pytest.approx(second_moment_mm4(section().outline), rel=1e-9)

    def high_mm(x_mm: float) -> float:
        return 19.05 if x_mm < 25.4 else 10.05

    area = quad(high_mm, 0, 31.75, points=[25.4])[0]
    middle_mm = quad(lambda x_mm: x_mm * high_mm(x_mm), 0, 31.75, points=[25.4])[0] / area
    expected = quad(lambda x_mm: (x_mm - middle_mm) ** 2 * high_mm(x_mm), 0, 31.75, points=[25.4])[0]
    assert plain == pytest.approx(expected, rel=1e-9)


def test_the_member_carries_itself_too() -> None:
    load_n = (8.1 + 524 * 1345 * 392e-9) * GRAVITY_N_PER_KG
    assert beam().sag_mm == pytest.approx(bent_mm(span_mm=1345, load_n=load_n, stiffness=8550 * 35_530), rel=1e-6)


@given(package_kg=some.floats(0.1, 60), span_mm=some.floats(200, 2500))
def test_each_way_out_brings_the_sag_down_to_its_limit_and_no_further_than_it_must(
    package_kg: float, span_mm: float
) -> None:
    plain = {"face_width_mm": 31.75, "thickness_mm": 19.05, "rabbet_width_mm": 6.35, "rabbet_depth_mm": 12.7}
    now = beam(package_kg=package_kg, span_mm=span_mm, second_moment_mm4=plain_second_moment_mm4(**plain))
    for finding in sag_findings(now):
        assert now.sag_mm > now.limit_mm
        for way in finding.ways:
            changed = plain | {way.argument: way.value_mm}
            stiffer = beam(
                package_kg=package_kg,
                span_mm=span_mm,
                second_moment_mm4=plain_second_moment_mm4(**changed),
                area_mm2=524 * way.value_mm / plain[way.argument],
                **changed,
            )
            assert stiffer.sag_mm == pytest.approx(stiffer.limit_mm, rel=1e-3)


def test_twice_the_limit_is_a_stop_and_a_stiff_member_is_silent() -> None:
    assert [finding.severity for finding in sag_findings(beam())] == [Severity.STOP]
    assert [finding.severity for finding in sag_findings(beam(elasticity_mpa=12_620))] == [Severity.WARN]
    assert sag_findings(beam(second_moment_mm4=120_000)) == ()


@pytest.mark.parametrize("quantity", ["span_mm", "elasticity_mpa", "second_moment_mm4"])
def test_a_beam_of_nothing_is_refused(quantity: str) -> None:
    known = {"span_mm": 100.0, "load_n": 1.0, "elasticity_mpa": 1e4, "second_moment_mm4": 1e4}
    with pytest.raises(OutOfRange) as refusal:
        beam_sag_mm(**known | {quantity: 0.0})
    assert refusal.value.field == quantity


@pytest.mark.parametrize(
    ("mass_kg", "longest_mm", "is_glazed", "is_for_two"),
    [(14.9, 1499, True, False), (15.1, 600, False, True), (3, 1600, True, True), (3, 1600, False, False)],
)
def test_two_lift_what_is_heavy_or_long(mass_kg: float, longest_mm: float, is_glazed: bool, is_for_two: bool) -> None:
    found = lift_findings(mass_kg=mass_kg, longest_mm=longest_mm, is_glazed=is_glazed)
    assert bool(found) is is_for_two
    assert all("as two people" in finding.sentence.format_map(finding.lengths) for finding in found)


def test_its_two_corners_carry_the_package_and_the_member() -> None:
    assert 2 * beam().corner_kg == pytest.approx(8.1 + 524 * 1345 * 392e-9)


@pytest.mark.parametrize(("times", "arguments"), [(3.9, ["face_width_mm"]), (4.2, [])])
def test_no_way_out_is_more_than_four_times_as_wide(times: float, arguments: list[str]) -> None:
    """Of a light beam without a rabbet the stiffness grows by the third power of the width."""
    plain = {"face_width_mm": 20.0, "thickness_mm": 20.0, "rabbet_width_mm": 0.0, "rabbet_depth_mm": 0.0}
    one = beam(package_kg=1, density_kg_m3=0, second_moment_mm4=20**4 / 12, **plain)
    sagging = replace(one, package_kg=times**3 * one.limit_mm / one.sag_mm)
    assert sagging.sag_mm == pytest.approx(times**3 * one.limit_mm)
    (finding,) = sag_findings(sagging)
    assert [way.argument for way in finding.ways] == arguments
    assert [way.value_mm for way in finding.ways] == pytest.approx([20 * times] * len(arguments))
    twice = replace(one, package_kg=1.9 * one.limit_mm / one.sag_mm)
    (finding,) = sag_findings(twice)
    assert {way.argument: way.value_mm for way in finding.ways} == pytest.approx(
        {"face_width_mm": 20 * 1.9 ** (1 / 3), "thickness_mm": 38}, rel=1e-4
    )


@pytest.mark.parametrize(("mass_kg", "says"), [(15.1, "heavy"), (14.9, "1600 is long")])
def test_the_reason_why_two_lift_it_is_told(mass_kg: float, says: str) -> None:
    (finding,) = lift_findings(mass_kg=mass_kg, longest_mm=1600, is_glazed=True)
    assert says in finding.sentence.format_map(finding.lengths)
