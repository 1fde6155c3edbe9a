"""The size chain, from either end, to the tape, and against an outside that is also known."""

import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from framecalc.errors import FrameCalcError, ImpossibleSize, OutOfRange
from framecalc.findings import Severity
from framecalc.sizes.chain import (
    TIGHT_CLEARANCE_MM,
    Sizes,
    fit_to_the_tape,
    known_outside_findings,
    require_land,
    sizes_around,
    sizes_findings,
    sizes_within,
)
from framecalc.units import TOLERANCE_MM, Step, Unit, format_length, parse_length

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/sizes.toml").read_text("utf-8"))
A3 = {"package_across_mm": 297.0, "package_up_mm": 420.0}
OAK = {"clearance_across_mm": 3.0, "clearance_up_mm": 3.0, "rabbet_width_mm": 6.0, "face_width_mm": 30.0}

packages_mm = st.floats(min_value=50, max_value=3000)
clearances_mm = st.floats(min_value=0, max_value=10)
rabbet_widths_mm = st.floats(min_value=0, max_value=20)
lands_mm = st.floats(min_value=1, max_value=130)
steps = st.sampled_from([step for step in Step if step is not Step.HUNDREDTH_MILLIMETRE])


@st.composite
def frames(draw: st.DrawFn) -> Sizes:
    rabbet_width_mm = draw(rabbet_widths_mm)
    return sizes_around(
        package_across_mm=draw(packages_mm),
        package_up_mm=draw(packages_mm),
        clearance_across_mm=draw(clearances_mm),
        clearance_up_mm=draw(clearances_mm),
        rabbet_width_mm=rabbet_width_mm,
        face_width_mm=rabbet_width_mm + draw(lands_mm),
    )


def checked_frame(check: dict[str, Any]) -> Sizes:
    def mm(text: str) -> float:
        return parse_length(text, bare=Unit(check["unit"])).mm

    across, up = check["package"]
    return sizes_around(
        package_across_mm=mm(across),
        package_up_mm=mm(up),
        clearance_across_mm=mm(check["clearance"]),
        clearance_up_mm=mm(check["clearance"]),
        rabbet_width_mm=mm(check["rabbet_width"]),
        face_width_mm=mm(check["face_width"]),
    )


def chain(sizes: Sizes) -> tuple[float, ...]:
    rabbet = sizes.rabbet_across_mm, sizes.rabbet_up_mm
    sight = sizes.sight_across_mm, sizes.sight_up_mm
    return *rabbet, *sight, sizes.outside_across_mm, sizes.outside_up_mm


@pytest.mark.parametrize("check", CHECKS["frame"], ids=lambda check: check["name"])
def test_worked_frame(check: dict[str, Any]) -> None:
    expected = [parse_length(text, bare=Unit(check["unit"])).mm for text in check["expect"]]
    assert chain(checked_frame(check)) == pytest.approx(expected, abs=TOLERANCE_MM)


@pytest.mark.parametrize("check", CHECKS["footage"], ids=lambda check: check["name"])
def test_worked_footage(check: dict[str, Any]) -> None:
    one = next(frame for frame in CHECKS["frame"] if frame["name"] == check["frame"])
    sizes = checked_frame(one)
    assert sizes.perimeter_mm == pytest.approx(check["expect_in"] * 25.4, abs=TOLERANCE_MM)
    over_the_exact_mm = 8 * sizes.rabbet_width_mm - 4 * sizes.clearance_across_mm
    assert check["trade_rule_in"] * 25.4 - sizes.perimeter_mm == pytest.approx(over_the_exact_mm, abs=TOLERANCE_MM)


def test_a_panel_without_clearance_is_a_stop_and_an_eighth_is_none() -> None:
    bare, eighth = (checked_frame(check) for check in CHECKS["frame"] if "11 x 14" in check["name"])
    found = sizes_findings(bare)
    assert {(finding.code, finding.severity) for finding in found} == {("sizes.no-clearance", Severity.STOP)}
    assert [finding.argument for finding in found] == ["clearance_across_mm", "clearance_up_mm"]
    assert sizes_findings(eighth) == ()


@given(sizes=frames())
def test_turning_the_package_turns_the_frame(sizes: Sizes) -> None:
    turned = sizes_around(
        package_across_mm=sizes.package_up_mm,
        package_up_mm=sizes.package_across_mm,
        clearance_across_mm=sizes.clearance_up_mm,
        clearance_up_mm=sizes.clearance_across_mm,
        rabbet_width_mm=sizes.rabbet_width_mm,
        face_width_mm=sizes.face_width_mm,
    )
    rabbet_across, rabbet_up, sight_across, sight_up, outside_across, outside_up = chain(sizes)
    expected = (rabbet_up, rabbet_across, sight_up, sight_across, outside_up, outside_across)
    assert chain(turned) == pytest.approx(expected, abs=TOLERANCE_MM)


@given(less_mm=clearances_mm, more_mm=clearances_mm)
def test_more_clearance_never_shrinks_the_frame(less_mm: float, more_mm: float) -> None:
    less_mm, more_mm = sorted((less_mm, more_mm))
    tight = sizes_around(**A3, **OAK | {"clearance_across_mm": less_mm, "clearance_up_mm": less_mm})
    loose = sizes_around(**A3, **OAK | {"clearance_across_mm": more_mm, "clearance_up_mm": more_mm})
    assert all(one <= other for one, other in zip(chain(tight), chain(loose), strict=True))


@given(sizes=frames())
def test_the_widths_are_read_back_from_the_chain(sizes: Sizes) -> None:
    outside_mm = sizes.rabbet_across_mm + 2 * (sizes.face_width_mm - sizes.rabbet_width_mm)
    assert sizes.outside_across_mm == pytest.approx(outside_mm, abs=TOLERANCE_MM)
    outside_mm = sizes.package_up_mm + sizes.clearance_up_mm + 2 * (sizes.face_width_mm - sizes.rabbet_width_mm)
    assert sizes.outside_up_mm == pytest.approx(outside_mm, abs=TOLERANCE_MM)


@given(sizes=frames())
def test_a_frame_read_from_its_outside_is_the_same_frame(sizes: Sizes) -> None:
    inward = sizes_within(
        outside_across_mm=sizes.outside_across_mm,
        outside_up_mm=sizes.outside_up_mm,
        clearance_across_mm=sizes.clearance_across_mm,
        clearance_up_mm=sizes.clearance_up_mm,
        rabbet_width_mm=sizes.rabbet_width_mm,
        face_width_mm=sizes.face_width_mm,
    )
    assert (inward.package_across_mm, inward.package_up_mm) == pytest.approx(
        (sizes.package_across_mm, sizes.package_up_mm), abs=TOLERANCE_MM
    )
    assert chain(inward) == pytest.approx(chain(sizes), abs=TOLERANCE_MM)


def test_a_rabbet_of_no_width_gives_the_chain_of_a_tray() -> None:
    tray = sizes_around(**A3, **OAK | {"rabbet_width_mm": 0.0})
    assert (tray.sight_across_mm, tray.sight_up_mm) == (tray.rabbet_across_mm, tray.rabbet_up_mm) == (300, 423)


def _fitted(sizes: Sizes, step: Step) -> Sizes:
    """The frame to the tape, where whole steps can make it at all."""
    try:
        return fit_to_the_tape(sizes, step_mm=float(step.size_mm))
    except FrameCalcError:
        assume(False)
        raise


@given(sizes=frames(), step=steps)
def test_to_the_tape_every_set_up_number_is_whole_steps(sizes: Sizes, step: Step) -> None:
    fitted = _fitted(sizes, step)
    for length_mm in (*chain(fitted), fitted.rabbet_width_mm, fitted.face_width_mm):
        steps_found = length_mm / float(step.size_mm)
        assert abs(steps_found - round(steps_found)) * float(step.size_mm) <= TOLERANCE_MM


@given(sizes=frames(), step=steps)
def test_to_the_tape_the_clearance_takes_up_the_difference_and_never_shrinks(sizes: Sizes, step: Step) -> None:
    fitted = _fitted(sizes, step)
    assert (fitted.package_across_mm, fitted.package_up_mm) == (sizes.package_across_mm, sizes.package_up_mm)
    for before_mm, after_mm in (
        (sizes.clearance_across_mm, fitted.clearance_across_mm),
        (sizes.clearance_up_mm, fitted.clearance_up_mm),
    ):
        assert -TOLERANCE_MM <= after_mm - before_mm <= float(step.size_mm) + TOLERANCE_MM


@given(sizes=frames(), step=steps)
def test_a_frame_on_the_tape_already_stays_as_it_is(sizes: Sizes, step: Step) -> None:
    fitted = _fitted(sizes, step)
    assert chain(_fitted(fitted, step)) == pytest.approx(chain(fitted), abs=TOLERANCE_MM)


def test_a_frame_thinner_than_a_step_cannot_be_brought_to_the_tape() -> None:
    with pytest.raises(FrameCalcError) as refusal:
        fit_to_the_tape(sizes_around(**A3, **OAK | {"rabbet_width_mm": 0.0, "face_width_mm": 0.4}), step_mm=1.0)
    assert refusal.value.field == "face_width_mm"


@pytest.mark.parametrize(
    ("clearance_mm", "codes"),
    [
        (-1.0, ["sizes.no-clearance"]),
        (0.0, ["sizes.no-clearance"]),
        (TOLERANCE_MM / 2, ["sizes.no-clearance"]),
        (0.5, ["sizes.tight-clearance"]),
        (TIGHT_CLEARANCE_MM, []),
        (3.175, []),
    ],
)
def test_a_clearance_of_nothing_stops_and_a_tight_one_warns(clearance_mm: float, codes: list[str]) -> None:
    found = sizes_findings(sizes_around(**A3, **OAK | {"clearance_up_mm": clearance_mm}))
    assert [finding.code for finding in found] == codes
    assert all(finding.argument == "clearance_up_mm" for finding in found)


def test_the_way_out_of_no_clearance_is_what_the_kind_usually_gets() -> None:
    (finding,) = sizes_findings(sizes_around(**A3, **OAK | {"clearance_up_mm": 0.0}), usual_clearance_mm=6.0)
    (way,) = finding.ways
    assert (way.argument, way.value_mm) == ("clearance_up_mm", 6.0)
    assert sizes_findings(sizes_around(**A3, **OAK | {way.argument: way.value_mm})) == ()


@given(
    known_across_mm=st.none() | st.floats(min_value=310, max_value=700),
    known_up_mm=st.none() | st.floats(min_value=430, max_value=800),
)
def test_every_way_out_of_a_contradiction_ends_it(known_across_mm: float | None, known_up_mm: float | None) -> None:
    known = {"known_across_mm": known_across_mm, "known_up_mm": known_up_mm}
    for finding in known_outside_findings(sizes_around(**A3, **OAK), **known):
        for way in finding.ways:
            assert finding.code not in _codes_after(known, way.argument, way.value_mm)


def _codes_after(known: dict[str, float | None], argument: str, value_mm: float) -> list[str]:
    name = argument.removeprefix("known_outside_")
    if name != argument:
        return _codes(OAK, known | {f"known_{name}": value_mm})
    return _codes(OAK | {argument: value_mm}, known)


def _codes(section: dict[str, float], known: dict[str, float | None]) -> list[str]:
    return [finding.code for finding in known_outside_findings(sizes_around(**A3, **section), **known)]


def test_a_known_outside_that_agrees_is_no_finding() -> None:
    assert known_outside_findings(sizes_around(**A3, **OAK), known_across_mm=348, known_up_mm=471) == ()


@pytest.mark.parametrize(
    ("known_mm", "found"),
    [(348.0, []), (348.5, []), (348.6, [Severity.NOTE]), (347.0, [Severity.NOTE]), (349.1, [Severity.STOP])],
)
def test_a_known_outside_is_compared_as_a_tape_reads(known_mm: float, found: list[Severity]) -> None:
    findings = known_outside_findings(sizes_around(**A3, **OAK), known_across_mm=known_mm, step_mm=1.0)
    assert [finding.severity for finding in findings] == found


@given(known_mm=st.floats(min_value=346, max_value=700), step=steps)
def test_a_way_out_brought_to_the_tape_ends_the_stop(known_mm: float, step: Step) -> None:
    step_mm = float(step.size_mm)
    for finding in known_outside_findings(sizes_around(**A3, **OAK), known_across_mm=known_mm, step_mm=step_mm):
        for way in finding.ways:
            typed_mm = format_length(way.value_mm, step=step, rounding=way.rounding).written_mm
            is_known = way.argument == "known_outside_across_mm"
            sizes = sizes_around(**A3, **OAK | ({} if is_known else {way.argument: typed_mm}))
            known_after_mm = typed_mm if is_known else known_mm
            left = known_outside_findings(sizes, known_across_mm=known_after_mm, step_mm=step_mm)
            assert all(finding.severity is not Severity.STOP for finding in left)


def test_the_face_width_is_no_way_out_where_it_would_contradict_the_other_direction() -> None:
    found = known_outside_findings(sizes_around(**A3, **OAK), known_across_mm=350, known_up_mm=471)
    assert [way.argument for way in found[0].ways] == ["clearance_across_mm", "known_outside_across_mm"]


def test_members_too_narrow_for_their_rabbet_are_no_way_out() -> None:
    """A face of 30 mm over a rabbet of 6 mm can give up less than 24 mm on each side."""
    for less_mm, is_offered in ((47, True), (49, False)):
        found = known_outside_findings(
            sizes_around(**A3, **OAK), known_across_mm=348 - less_mm, known_up_mm=471 - less_mm
        )
        assert all(("face_width_mm" in [way.argument for way in one.ways]) is is_offered for one in found)


def test_a_contradiction_that_no_clearance_can_take_offers_none() -> None:
    found = known_outside_findings(sizes_around(**A3, **OAK), known_across_mm=340)
    assert [way.argument for way in found[0].ways] == ["face_width_mm", "known_outside_across_mm"]
    assert found[0].lengths == {"known": 340, "outside": 348, "difference": 8}


@pytest.mark.parametrize(
    ("argument", "value_mm", "error", "says"),
    [
        ("package_across_mm", 0.0, OutOfRange, "package across"),
        ("package_up_mm", -1.0, OutOfRange, "package up"),
        ("package_up_mm", float("nan"), OutOfRange, "package up"),
        ("face_width_mm", 0.0, OutOfRange, "face width"),
        ("rabbet_width_mm", -0.1, OutOfRange, "rabbet width"),
        ("rabbet_width_mm", 30.0, ImpossibleSize, "enter a rabbet width under"),
    ],
)
def test_sizes_that_cannot_be_are_refused(
    argument: str, value_mm: float, error: type[FrameCalcError], says: str
) -> None:
    with pytest.raises(error) as refusal:
        sizes_around(**A3 | OAK | {argument: value_mm})
    assert refusal.value.field == argument
    assert says in refusal.value.sentence


def test_rabbets_that_leave_nothing_in_view_are_refused() -> None:
    narrow = {"package_across_mm": 57.0, "package_up_mm": 420.0}
    assert sizes_around(**narrow, **OAK | {"rabbet_width_mm": 29.9}).sight_across_mm == pytest.approx(0.2)
    with pytest.raises(ImpossibleSize, match="Nothing left in view: enter a rabbet width under 30 mm") as refusal:
        sizes_around(**narrow, **OAK | {"rabbet_width_mm": 30.0, "face_width_mm": 40.0})
    assert refusal.value.field == "rabbet_width_mm"


@pytest.mark.parametrize(("outside_mm", "field"), [(51.0, "face_width_mm"), (0.0, "wall_across_mm")])
def test_a_space_that_the_members_use_up_is_refused(outside_mm: float, field: str) -> None:
    with pytest.raises(FrameCalcError) as refusal:
        sizes_within(outside_across_mm=outside_mm, outside_up_mm=400, **OAK)
    assert refusal.value.field == field


def test_a_rabbet_just_narrower_than_its_member_has_land() -> None:
    require_land(rabbet_width_mm=29.9, face_width_mm=30)
