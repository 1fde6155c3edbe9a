"""Findings on a section: when they are made, and that each way out does what it says."""

from typing import Any

import pytest

from framecalc.findings import Finding, Severity
from framecalc.records import replace
from framecalc.section.findings import LEAST_LAND_MM, LEAST_LIP_MM, section_findings
from framecalc.section.profile import Edge, EdgeShape, FaceShape
from framecalc.section.rabbeted import Section, milled_section

SQUARE = Edge(shape=EdgeShape.SQUARE, size_mm=1)
SOUND: dict[str, Any] = {
    "face_width_mm": 40.0,
    "thickness_mm": 24.0,
    "rabbet_width_mm": 7.0,
    "rabbet_depth_mm": 12.0,
    "sight_edge": SQUARE,
    "back_edge": SQUARE,
    "face": FaceShape.FLAT,
    "face_drop_mm": 4.0,
}


def mill(**changed: Any) -> Section:
    return milled_section(**SOUND | changed)


def found(section: Section) -> dict[str, Finding]:
    return {finding.code: finding for finding in section_findings(section)}


def after(changed: dict[str, Any], finding: Finding, argument: str) -> dict[str, Finding]:
    """The findings once a way out has been taken."""
    (value_mm,) = (way.value_mm for way in finding.ways if way.argument == argument)
    if argument == "sight_edge_mm":
        return found(mill(**changed | {"sight_edge": replace(changed["sight_edge"], size_mm=value_mm)}))
    return found(mill(**changed | {argument: value_mm}))


def test_a_sound_section_has_no_findings() -> None:
    assert section_findings(mill()) == ()


@pytest.mark.parametrize(
    ("changed", "says", "arguments"),
    [
        ({"rabbet_depth_mm": 20.0}, "{lip} thick;", ["rabbet_depth_mm", "thickness_mm"]),
        (
            {"sight_edge": Edge(shape=EdgeShape.ROUND, size_mm=9)},
            "{lip} thick at the sight edge;",
            ["sight_edge_mm", "rabbet_depth_mm", "thickness_mm"],
        ),
        (
            {"sight_edge": Edge(shape=EdgeShape.STEP, size_mm=4), "face": FaceShape.TOWARD},
            "{lip} thick at the sight edge;",
            ["sight_edge_mm", "face_drop_mm", "rabbet_depth_mm", "thickness_mm"],
        ),
        (
            {"face": FaceShape.TOWARD, "face_drop_mm": 9.0},
            "{lip} thick at the sight edge;",
            ["face_drop_mm", "rabbet_depth_mm", "thickness_mm"],
        ),
        (
            {"face": FaceShape.AWAY, "face_drop_mm": 9.0, "rabbet_width_mm": 36.0},
            "{inside} from the sight edge",
            ["face_drop_mm", "rabbet_depth_mm", "thickness_mm"],
        ),
        (
            {"sight_edge": Edge(shape=EdgeShape.COVE, size_mm=9), "face": FaceShape.AWAY},
            "{lip} thick at the sight edge;",
            ["sight_edge_mm", "rabbet_depth_mm", "thickness_mm"],
        ),
    ],
)
def test_a_thin_lip_is_warned_of_and_every_way_out_mends_it(
    changed: dict[str, Any], says: str, arguments: list[str]
) -> None:
    finding = found(mill(**changed))["section.lip-thin"]
    assert finding.severity is Severity.WARN
    assert says in finding.sentence
    assert [way.argument for way in finding.ways] == arguments
    assert finding.argument == arguments[0]
    for argument in arguments:
        assert "section.lip-thin" not in after(changed, finding, argument)


def test_a_way_out_of_a_thin_lip_leaves_exactly_the_usual_lip_under_a_round_over() -> None:
    finding = found(mill(sight_edge=Edge(shape=EdgeShape.ROUND, size_mm=9)))["section.lip-thin"]
    assert {way.argument: way.value_mm for way in finding.ways} == pytest.approx(
        {"sight_edge_mm": 7, "rabbet_depth_mm": 10, "thickness_mm": 26}
    )


def test_no_way_out_is_offered_that_cannot_be_milled() -> None:
    """A lip of 2 over a rabbet of 2: a rabbet shallower by 3 is none."""
    finding = found(mill(thickness_mm=4.0, rabbet_depth_mm=2.0))["section.lip-thin"]
    assert [way.argument for way in finding.ways] == ["thickness_mm"]


@pytest.mark.parametrize("inch_mm", [1.0, 25.4])
def test_a_lip_of_exactly_the_limit_is_not_thin(inch_mm: float) -> None:
    depth_mm = 0.3 * inch_mm
    section = mill(thickness_mm=depth_mm + LEAST_LIP_MM, rabbet_depth_mm=depth_mm)
    assert "section.lip-thin" not in found(section)


def test_a_thin_land_is_warned_of_and_widened() -> None:
    changed = {"face_width_mm": 18.0, "rabbet_width_mm": 12.0}
    finding = found(mill(**changed))["section.land-thin"]
    assert finding.lengths["land"] == 6
    assert {way.argument: way.value_mm for way in finding.ways} == {"face_width_mm": 22, "rabbet_width_mm": 8}
    for way in finding.ways:
        assert "section.land-thin" not in after(changed, finding, way.argument)


def test_a_land_is_not_widened_into_a_rabbet_that_holds_nothing() -> None:
    finding = found(mill(face_width_mm=12.0))["section.land-thin"]
    assert [way.argument for way in finding.ways] == ["face_width_mm"]


def test_a_land_of_exactly_the_limit_is_not_thin() -> None:
    assert "section.land-thin" not in found(mill(face_width_mm=7 + LEAST_LAND_MM))


@pytest.mark.parametrize(("rabbet_width_mm", "noted"), [(4.9, True), (5.0, False), (4.7625, True)])
def test_a_narrow_rabbet_is_noted(rabbet_width_mm: float, noted: bool) -> None:
    assert ("section.rabbet-narrow" in found(mill(rabbet_width_mm=rabbet_width_mm))) is noted


@pytest.mark.parametrize(
    ("thickness_mm", "says"), [(9.0, "may be {screw} long at most"), (13.0, None), (2.5, "no screw holds there")]
)
def test_the_screw_that_the_land_allows_is_said_when_it_is_short(thickness_mm: float, says: str | None) -> None:
    findings = found(mill(thickness_mm=thickness_mm, rabbet_depth_mm=1.0))
    if says is None:
        assert "section.screw-short" not in findings
    else:
        assert says in findings["section.screw-short"].sentence
        assert findings["section.screw-short"].ways[0].value_mm == pytest.approx(13)


def test_a_cove_on_the_back_edge_shortens_the_screw() -> None:
    cove = Edge(shape=EdgeShape.COVE, size_mm=20)
    finding = found(mill(back_edge=cove))["section.screw-short"]
    assert finding.lengths["wood"] == pytest.approx(24 - (20**2 - 16.5**2) ** 0.5)


def test_sentences_carry_no_digits_and_every_name_in_braces_has_its_length() -> None:
    bad = mill(
        face_width_mm=12.0,
        thickness_mm=9.0,
        rabbet_width_mm=4.0,
        rabbet_depth_mm=7.0,
        sight_edge=Edge(shape=EdgeShape.ROUND, size_mm=1),
    )
    findings = section_findings(bad)
    assert len(findings) == 4
    for finding in findings:
        assert not any(sign.isdigit() for sign in finding.sentence + finding.why)
        assert finding.sentence.format_map({name: "" for name in finding.lengths})
