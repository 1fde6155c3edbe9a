"""The plan: one project in, the same numbers everywhere, and nothing ready that should not be."""

import json
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from panel import PANEL_IN_INCHES

from framecalc.errors import FrameCalcError
from framecalc.findings import Finding, Severity
from framecalc.plan import FramePlan, Plan, plan_with
from framecalc.plan.frame import JobStops, no_job_stops
from framecalc.plan.light import FindingPage
from framecalc.project import Frame, Project, Quote, parse_project, project_with, read_project
from framecalc.units import TOLERANCE_MM

DEMOS = sorted((Path(__file__).parents[3] / "framecalc/demos").glob("*demo*.json"))


@pytest.fixture
def panel() -> Project:
    return read_project(PANEL_IN_INCHES)


def planned(project: Project, **changes: str) -> FramePlan:
    paths = {f"frames.f1.{field.replace('__', '.')}": text for field, text in changes.items()}
    return plan_with(project, paths).frames["f1"]


def texts(plan: FramePlan, *names: str) -> list[str]:
    return [f"{plan.figures[f'{name}_across'].text} × {plan.figures[f'{name}_up'].text}" for name in names]


def test_a_panel_with_an_eighth_of_clearance(panel: Project) -> None:
    """Common practice, no source: the sizes of an 11 × 14 panel in 1 1/2 in members with a 1/2 in rabbet."""
    assert texts(planned(panel), "outside", "rabbet") == ["13 1/8 × 16 1/8", "11 1/8 × 14 1/8"]


def test_a_panel_without_clearance_is_a_stop(panel: Project) -> None:
    """Common practice, no source."""
    plan = planned(panel, package__clearance_across="0 in", package__clearance_up="0 in")
    assert texts(plan, "outside", "sight") == ["13 × 16", "10 × 13"]
    assert {finding.code for finding in plan.findings if finding.severity is Severity.STOP} == {"sizes.no-clearance"}
    assert not plan.is_ready


def test_a_note_changes_nothing_about_the_job_and_a_size_does(panel: Project) -> None:
    plan = Plan(panel)
    noted = Plan(panel.model_copy(update={"note": "for the hall"}), before=plan)
    wider = Plan(project_with(panel, {"frames.f1.section.face_width": "2 in"}), before=plan)
    assert noted.content is plan.content
    assert wider.content is not plan.content
    assert Plan(project_with(panel, {"shop.kerf": "1/8 in"}), before=plan).content is not plan.content


def test_a_price_changes_what_the_job_costs_and_nothing_else_about_it(panel: Project) -> None:
    plan = Plan(panel)
    priced = Plan(panel.model_copy(update={"quote": Quote()}), before=plan)
    noted = Plan(priced.project.model_copy(update={"note": "for the hall"}), before=priced)
    assert priced.job is plan.job and priced.content is not plan.content
    assert noted.job is plan.job and noted.content is priced.content


def test_timber_planned_before_a_price_knows_its_frames(panel: Project) -> None:
    """Fault: by identity it did not, and nothing was offered of what its sticks leave over."""
    plan = Plan(panel)
    priced = Plan(panel.model_copy(update={"quote": Quote()}), before=plan)
    assert priced.timber.groups is plan.timber.groups
    assert all(any(group.holds(frame) for group in priced.timber.groups) for frame in priced.frames.values())


@pytest.mark.parametrize("part", ["shop", "timber", "reach", "sheets", "wall", "way", "bench"])
def test_a_job_with_any_other_part_is_worked_out_anew(panel: Project, part: str) -> None:
    plan = Plan(panel)
    changed = panel.model_copy(update={part: getattr(panel, part).model_copy()})
    assert Plan(changed, before=plan).job is not plan.job


def test_a_size_that_is_confirmed_is_found_fault_with_at_once(panel: Project) -> None:
    """A size that is only assumed proves no other one wrong; the frame itself is the same as before."""
    sizes = {"across_bottom": "11 in", "up_right": "14 in", "diagonal_rising": "17 in", "diagonal_falling": "19 in"}
    crooked = project_with(panel, {f"frames.f1.artwork.{name}": text for name, text in sizes.items()})
    assumed = Plan(crooked.model_copy(update={"assumed": ("frames.f1.artwork.across",)}))
    assumed.compute_all()
    confirmed = Plan(assumed.project.model_copy(update={"assumed": ()}), before=assumed)
    assert confirmed.frames["f1"].findings == Plan(confirmed.project).frames["f1"].findings
    assert confirmed.frames["f1"].findings != assumed.frames["f1"].findings


def test_sheets_are_taken_over_where_parts_and_stock_are_the_same() -> None:
    job = parse_project(next(path for path in DEMOS if path.name.startswith("cafe")).read_text("utf-8"))
    plan = Plan(job)
    thicker = Plan(project_with(job, {f"frames.{job.frames[0].id}.section.thickness": "24 mm"}), before=plan)
    sawn = Plan(project_with(job, {"shop.kerf": "2 mm"}), before=plan)
    assert thicker.sheets.groups is plan.sheets.groups
    assert sawn.sheets.groups is not plan.sheets.groups
    assert sawn.sheets.groups == Plan(sawn.project).sheets.groups


def test_a_way_out_ends_its_stop(panel: Project) -> None:
    plan = planned(panel, package__clearance_across="0 in")
    (advice,) = [advice for advice in plan.advice if advice.severity is Severity.STOP]
    way = advice.ways[0]
    assert plan_with(plan.project, {way.path: way.text}).frames["f1"].is_ready


def test_a_way_out_plans_its_own_frame_alone(panel: Project, monkeypatch: pytest.MonkeyPatch) -> None:
    other = panel.frames[0].model_copy(update={"id": "f2", "name": "other"})
    two = panel.model_copy(update={"frames": (*panel.frames, other)})
    plan = plan_with(two, {"frames.f1.package.clearance_across": "0 in"})
    plan.compute_all()
    made: list[str] = []
    first_made = FramePlan.__init__

    def counted(self: FramePlan, project: Project, frame: Frame, *, job_stops: JobStops = no_job_stops) -> None:
        made.append(frame.id)
        first_made(self, project, frame, job_stops=job_stops)

    monkeypatch.setattr(FramePlan, "__init__", counted)
    assert any(advice.ways for advice in plan.frames["f1"].advice)
    assert set(made) == {"f1"}


TROUBLES: dict[str, dict[str, str]] = {
    "as it is": {},
    "no clearance": {"package.clearance_across": "0 mm", "package.clearance_up": "0 mm"},
    "large": {"artwork.across": "1500 mm", "artwork.up": "1500 mm"},
    "shallow": {"section.rabbet_depth": "3 mm"},
    "thin": {"section.thickness": "13 mm"},
    "narrow": {"section.face_width": "10 mm"},
}


@pytest.mark.parametrize("trouble", TROUBLES)
@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_every_way_out_of_a_demo_can_be_typed_and_makes_no_new_stop(path: Path, trouble: str) -> None:
    """On no page: of its frame, of another frame, or of the job."""
    plan = Plan(parse_project(path.read_text("utf-8")))
    changes = {
        f"frames.{frame_id}.{field}": text for frame_id in plan.frames for field, text in TROUBLES[trouble].items()
    }
    plan = plan_with(plan.project, changes)
    stops = _stops(plan)
    for frame_plan in plan.frames.values():
        found = [one.said for one in frame_plan.concerns if one.page is not FindingPage.CORNERS and not one.is_refusal]
        advices = frame_plan.advise(one for one in found if isinstance(one, Finding))
        for way in {(way.path, way.text) for advice in advices for way in advice.ways}:
            assert _stops(plan_with(plan.project, dict([way]))) <= stops, way


def _stops(plan: Plan) -> Counter[tuple[str, str]]:
    """What stops a job, and each of its frames."""
    of_job = Counter(("", one.code) for one in plan.obstacles if one.severity is Severity.STOP)
    return of_job + Counter((name, code) for name, frame in plan.frames.items() for code in frame.stops)


def test_a_way_out_into_a_stop_of_the_timber_is_not_offered() -> None:
    """Fault: a wider face against sag was offered where none of the wood typed is as wide."""
    plan = Plan(parse_project(next(path for path in DEMOS if "cafe" in path.stem).read_text("utf-8")))
    changes = {"artwork.across": "1500 mm", "artwork.up": "1500 mm", "package.layers.gl1.material": "acrylic"}
    plan = plan_with(plan.project, {f"frames.oak5.{path}": text for path, text in changes.items()})
    frame = plan.frames["oak5"]
    (sag,) = [one.said for one in frame.concerns if one.code == "sag.bottom"]
    assert isinstance(sag, Finding) and sag.ways
    assert frame.advise([sag])[0].ways == ()
    alone = FramePlan(plan.project, frame.frame)
    assert alone.advise([sag])[0].ways


def test_a_clearance_that_is_worked_out_is_no_way_out(panel: Project) -> None:
    """Fault: where a stock size leaves the clearance, a button filled a field that then did not count."""
    changes = {"start.given": "stock", "start.stock": "11 x 14 in", "artwork.across": "11 1/8 in"}
    plan = plan_with(panel, {f"frames.f1.{path}": text for path, text in changes.items()}).frames["f1"]
    tight = [advice for advice in plan.advice if advice.path.startswith("frames.f1.package.clearance_")]
    assert tight and all(way.path not in map(plan.path_of, plan.settled.solved) for one in tight for way in one.ways)


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_the_same_project_gives_the_same_plan(path: Path) -> None:
    text = path.read_text("utf-8")
    assert json.dumps(Plan(parse_project(text)).record()) == json.dumps(Plan(parse_project(text)).record())


sizes_mm = st.integers(min_value=120, max_value=2000)
clearances_mm = st.integers(min_value=1, max_value=20)


def _sized(across_mm: float, up_mm: float, clearance_across_mm: float, clearance_up_mm: float) -> FramePlan:
    return planned(
        read_project(PANEL_IN_INCHES),
        artwork__across=f"{across_mm} mm",
        artwork__up=f"{up_mm} mm",
        package__clearance_across=f"{clearance_across_mm} mm",
        package__clearance_up=f"{clearance_up_mm} mm",
    )


@given(across_mm=sizes_mm, up_mm=sizes_mm, loose_mm=clearances_mm, looser_mm=clearances_mm)
def test_turning_the_artwork_turns_everything(across_mm: int, up_mm: int, loose_mm: int, looser_mm: int) -> None:
    upright = _sized(across_mm, up_mm, loose_mm, looser_mm).figures
    turned = _sized(up_mm, across_mm, looser_mm, loose_mm).figures
    for name in ("outside", "sight", "rabbet", "package", "artwork", "clearance", "cover_worst", "play"):
        assert turned[f"{name}_across"].exact_mm == pytest.approx(upright[f"{name}_up"].exact_mm, abs=TOLERANCE_MM)
        assert turned[f"{name}_up"].exact_mm == pytest.approx(upright[f"{name}_across"].exact_mm, abs=TOLERANCE_MM)
    assert turned["stick_needed"].exact_mm == pytest.approx(upright["stick_needed"].exact_mm, abs=TOLERANCE_MM)


@given(across_mm=sizes_mm, up_mm=sizes_mm, loose_mm=clearances_mm, more_mm=clearances_mm)
def test_more_clearance_never_shrinks_the_frame(across_mm: int, up_mm: int, loose_mm: int, more_mm: int) -> None:
    tight = _sized(across_mm, up_mm, loose_mm, loose_mm).sizes
    loose = _sized(across_mm, up_mm, loose_mm + more_mm, loose_mm + more_mm).sizes
    for name in ("outside_across_mm", "outside_up_mm", "sight_across_mm", "rabbet_up_mm"):
        assert getattr(loose, name) > getattr(tight, name)


@given(across_mm=sizes_mm, up_mm=sizes_mm)
def test_the_long_edges_of_the_members_are_the_outside_perimeter(across_mm: int, up_mm: int) -> None:
    plan = _sized(across_mm, up_mm, 3, 3)
    perimeter_mm = 2 * (plan.sizes.outside_across_mm + plan.sizes.outside_up_mm)
    assert sum(member.count * member.long_mm for member in plan.members) == pytest.approx(perimeter_mm)


def test_an_assumed_thickness_keeps_the_light_out(panel: Project) -> None:
    assumed = panel.model_copy(update={"assumed": ("frames.f1.section.thickness", "frames.f1.section.ledge_width")})
    plan = Plan(assumed).frames["f1"]
    assert plan.unconfirmed == ("frames.f1.section.thickness",) and not plan.is_ready
    assert Plan(panel).frames["f1"].is_ready


def test_an_assumed_value_that_takes_no_part_is_not_asked_for(panel: Project) -> None:
    assumed = panel.model_copy(update={"assumed": ("frames.f1.section.ledge_width",)})
    assert Plan(assumed).frames["f1"].is_ready


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"section__rabbet_width": "1 1/2 in"}, "section.rabbet_width"),
        ({"section__rabbet_depth": "3/4 in"}, "section.rabbet_depth"),
        ({"start__given": "wall"}, "start.wall_across"),
        ({"start__given": "stock"}, "start.stock"),
        ({"start__given": "stick"}, "start.stick_length"),
        ({"start__given": "stick", "start__stick_length": "20 in"}, "start.stick_length"),
        ({"artwork__diagonal_rising": "60 in"}, "artwork.diagonal_rising"),
    ],
)
def test_what_cannot_be_is_said_beside_its_field_in_the_project_s_unit(
    panel: Project, changes: dict[str, str], field: str
) -> None:
    with pytest.raises(FrameCalcError) as refusal:
        planned(panel, **changes).compute_all()
    assert refusal.value.field == f"frames.f1.{field}"
    assert "{" not in refusal.value.sentence


def test_a_tray_laps_over_nothing(panel: Project) -> None:
    plan = planned(panel, section__kind="tray")
    assert plan.sizes.sight_across_mm == plan.sizes.rabbet_across_mm == pytest.approx(11 * 25.4 + 2 * 0.25 * 25.4)
    assert plan.cover is None


def test_a_stock_size_can_be_turned(panel: Project) -> None:
    upright = planned(panel, start__given="stock", start__stock="8 x 10 in")
    document = json.loads(json.dumps(PANEL_IN_INCHES))
    document["frames"][0]["start"] = {"given": "stock", "stock": "8 x 10 in", "stock_turned": True}
    turned = Plan(read_project(document)).frames["f1"]
    assert texts(upright, "rabbet") == ["8 1/8 × 10 1/8"] and texts(turned, "rabbet") == ["10 1/8 × 8 1/8"]


def test_words_of_a_british_shop(panel: Project) -> None:
    plan = plan_with(panel, {"shop.words": "UK", "frames.f1.section.rabbet_depth": "5/8 in"}).frames["f1"]
    assert plan.advice
    assert not any("rabbet" in advice.sentence + advice.why for advice in plan.advice)
