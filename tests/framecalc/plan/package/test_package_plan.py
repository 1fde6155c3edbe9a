"""The package of a frame: windows, cutter distances, weight, growth, retainers, canvas and box, from what is typed."""

import json
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
from panel import PANEL_IN_INCHES

import framecalc
from framecalc.errors import FrameCalcError, ImpossibleSize
from framecalc.findings import Finding, Severity
from framecalc.package.growth import Growth
from framecalc.package.retainers import Retainer
from framecalc.plan import FramePlan, Plan
from framecalc.plan.client import client_facts
from framecalc.plan.light import Stage
from framecalc.project import read_project, set_value

INCH = 25.4
DEMOS = Path(framecalc.__file__).parent / "demos"


def plan_of(demo: str, frame_id: str, changes: dict[str, Any]) -> FramePlan:
    """The plan of one frame of a demo, with fields of the frame changed by path."""
    document = json.loads((DEMOS / f"{demo}.demo.json").read_text("utf-8"))
    document["frames"] = [frame for frame in document["frames"] if frame["id"] == frame_id]
    for path, value in changes.items():
        set_value(document["frames"][0], path, value)
    return Plan(read_project(document)).frames[frame_id]


def matted(**changes: Any) -> FramePlan:
    """A 5 × 7 in print behind a mat, its layers those of the worked stack; a path's dots are double low lines."""
    layers = [
        layer("gl", "glazing", "2.5 mm", tolerance="0.07 mm", thinner="0.34 mm", material="glass"),
        layer("m1", "mat", "1.45 mm", material="matboard_4ply"),
        layer("ar", "artwork", "0.3 mm", material="paper"),
        layer("ba", "backing", "4.8 mm", material="foamboard_5"),
    ]
    typed = {
        "artwork.across": "5 in",
        "artwork.up": "7 in",
        "package.mat": {"overlap": "1/8 in", "border": "2 1/2 in", "bottom": "3 in"},
        "package.layers": layers,
    }
    return plan_of("cafe-prints", "oak5", typed | {path.replace("__", "."): one for path, one in changes.items()})


def layer(name: str, kind: str, thickness: str, tolerance: str = "0 mm", **more: str) -> dict[str, str]:
    return {"id": name, "name": name, "kind": kind, "thickness": thickness, "tolerance": tolerance} | more


def picture(name: str, across: str, up: str, **more: str) -> dict[str, str]:
    return {"id": name, "across": across, "up": up} | more


def codes(findings: tuple[Finding, ...]) -> list[str]:
    return [finding.code for finding in findings]


PAIR = [picture("p2", "5 in", "7 in"), picture("p3", "4 in", "6 in")]


def test_a_solid_panel_of_an_unknown_wood_is_to_be_checked_before_cutting() -> None:
    """Fault: a panel of "oak", which may be two woods, was framed with any clearance, and the light was green."""
    document = deepcopy(PANEL_IN_INCHES)
    document["frames"][0]["artwork"]["kind"] = "solid panel"
    frame = Plan(read_project(document)).frames["f1"]
    (found,) = [one for one in frame.concerns if one.code == "growth.no-wood"]
    assert (found.severity, found.stage) == (Severity.WARN, Stage.CUTTING)
    assert frame.path_of(found.field).endswith("fitting.panel.species")


def test_a_material_that_the_table_does_not_have_is_to_be_chosen() -> None:
    """Fault: a file named one, and nothing on any page said that its weight and its growth were not known."""
    document = deepcopy(PANEL_IN_INCHES)
    layer = document["frames"][0]["package"]["layers"][0]
    layer["material"] = "tin"
    frame = Plan(read_project(document)).frames["f1"]
    (found,) = [one for one in frame.concerns if one.code == "package.no-material"]
    assert (found.severity, found.stage) == (Severity.WARN, Stage.CUTTING)
    assert frame.path_of(found.field).endswith(f"package.layers.{layer['id']}.material")
    assert "“tin” is not in the table" in frame.sentence_of(found)


def test_a_mirror_that_is_no_artwork_touches_nothing() -> None:
    """Fault: a pane with nothing behind it was told to keep off the artwork."""
    document = deepcopy(PANEL_IN_INCHES)
    (panel,) = document["frames"][0]["package"]["layers"]
    document["frames"][0]["package"]["layers"] = [panel | {"name": "mirror", "kind": "glazing"}]
    assert Plan(read_project(document)).frames["f1"].package.gap_findings == ()


def test_a_window_follows_from_image_overlap_and_borders() -> None:
    """5 × 7 in, overlap 1/8 in, borders 2 1/2 and 3 in: window 4 3/4 × 6 3/4 in (worked by hand)."""
    mats = matted().package.mats
    assert mats is not None
    window = mats.windows.windows[0]
    assert (window.across_mm, window.up_mm) == pytest.approx((4.75 * INCH, 6.75 * INCH))
    assert (mats.mat.across_mm, mats.mat.up_mm) == pytest.approx((9.75 * INCH, 12.25 * INCH))


@pytest.mark.parametrize("arrangement", ["row", "column", "grid", "placed by hand"])
@pytest.mark.parametrize("from_behind", [True, False])
def test_cutter_distances_and_window_add_up_to_the_mat(arrangement: str, from_behind: bool) -> None:
    hand = [picture("p2", "5 in", "7 in", left="6 in"), picture("p3", "4 in", "6 in", left="13 in")]
    windows = hand if arrangement == "placed by hand" else PAIR
    mats = matted(
        package__mat__windows=windows, package__mat__arrangement=arrangement, package__mat__from_behind=from_behind
    ).package.mats
    assert mats is not None and len(mats.cut) == 1
    cut = mats.cut[0]
    for setting, window in zip(cut.settings, cut.laid.windows, strict=True):
        assert setting.left_mm + window.across_mm + setting.right_mm == pytest.approx(mats.mat.across_mm)
        assert setting.top_mm + window.up_mm + setting.bottom_mm == pytest.approx(mats.mat.up_mm)
        assert setting.left_mm == pytest.approx(window.left_mm)


def test_a_row_is_borders_windows_and_bridges() -> None:
    mats = matted(package__mat__windows=PAIR, package__mat__gap="1 in").package.mats
    assert mats is not None
    across_mm = sum(window.across_mm for window in mats.windows.windows)
    bridges_mm = sum(bridge.width_mm for bridge in mats.bridges if bridge.between in ((1, 2), (2, 3)))
    assert bridges_mm == pytest.approx(2 * INCH)
    assert 2 * mats.mat.border_sides_mm + across_mm + bridges_mm == pytest.approx(mats.mat.across_mm)


def test_from_behind_left_and_right_change_places() -> None:
    behind, front = (
        matted(package__mat__windows=PAIR, package__mat__from_behind=switch, package__mat__bevel="90").package.mats
        for switch in (True, False)
    )
    assert behind is not None and front is not None
    for one, other in zip(behind.cut[0].settings, front.cut[0].settings, strict=True):
        assert (one.left_mm, one.right_mm, one.top_mm) == pytest.approx((other.right_mm, other.left_mm, other.top_mm))


def test_in_front_the_cutter_follows_the_outer_edge_of_the_bevel() -> None:
    """4-ply at 45° shows 1.45 mm of white seen from the front (worked by hand)."""
    mats = matted(package__mat__from_behind=False).package.mats
    assert mats is not None
    assert mats.cut[0].settings[0].left_mm == pytest.approx(2.5 * INCH - 1.45)
    assert mats.bevel.slope_mm == pytest.approx(2.05, abs=0.005)


def test_the_upper_of_two_mats_is_cut_larger_by_the_reveal_and_leaves_less_in_view() -> None:
    two = [
        layer("m1", "mat", "1.45 mm"),
        layer("m2", "mat", "1.45 mm"),
        layer("ar", "artwork", "0.3 mm"),
    ]
    mats = matted(package__layers=two, package__mat__reveal="1/4 in").package.mats
    assert mats is not None
    upper, lower = (cut.windows.windows[0].across_mm for cut in mats.cut)
    assert upper - lower == pytest.approx(INCH / 2)
    plain = matted(package__layers=two).package.mats
    assert plain is not None and codes(plain.findings) == ["mat.no-reveal"]
    assert "mm" not in plain.findings[0].why, "its lengths are written in the unit of the job"
    assert plain.visible.top_mm - mats.visible.top_mm == pytest.approx(INCH / 4)
    assert mats.findings == ()


def test_a_reveal_without_a_second_mat_is_said() -> None:
    mats = matted(package__mat__reveal="6 mm").package.mats
    assert mats is not None and codes(mats.findings) == ["mat.second-missing"]


def test_borders_in_view_stay_alike_whatever_the_lip_covers() -> None:
    mats = matted(
        package__mat__in_view=True, package__mat__bottom="2 1/2 in", package__clearance_up="6 mm"
    ).package.mats
    assert mats is not None
    visible = mats.visible
    assert (visible.sides_mm, visible.top_mm, visible.bottom_mm) == pytest.approx((2.5 * INCH,) * 3)


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"package__mat__border": "5 mm"}, "mat.border-hidden"),
        ({"package__mat__bottom": "5 mm"}, "mat.border-hidden"),
        ({"package__mat__border": "9 mm", "package__mat__reveal": "5 mm"}, "mat.border-hidden"),
        ({"package__mat__border": "15 mm"}, "windows.narrow-border"),
        ({"package__mat__in_view": True, "package__mat__border": "8 mm"}, "windows.narrow-border"),
        ({"package__mat__in_view": True, "package__mat__bottom": "50 mm"}, "mat.narrow-bottom"),
        ({"package__mat__windows": PAIR, "package__mat__gap": "14 mm", "package__mat__reveal": "5 mm"}, "windows."),
    ],
)
def test_every_way_out_of_a_mat_ends_what_it_was_offered_for(changes: dict[str, Any], code: str) -> None:
    plan = matted(**changes)
    (advice,) = (advice for advice in plan.advice if advice.code.startswith(code))
    assert advice.ways
    for way in advice.ways:
        mended = matted(**changes | {way.path.removeprefix("frames.oak5.").replace(".", "__"): way.text})
        assert not any(left.code.startswith(code) for left in mended.advice)


def test_a_hidden_border_is_told_once_whatever_the_number_of_windows() -> None:
    found = codes(matted(package__mat__border="5 mm", package__mat__windows=PAIR).findings)
    assert found.count("mat.border-hidden") == 1
    assert "windows.narrow-border" not in found


def test_a_gap_is_no_way_out_between_windows_placed_by_hand() -> None:
    hand = [picture("p2", "5 in", "7 in", left="5 in")]
    plan = matted(package__mat__windows=hand, package__mat__arrangement="placed by hand")
    (bridge,) = (advice for advice in plan.advice if advice.code == "windows.narrow-bridge")
    assert bridge.ways == ()


def test_borders_in_view_are_those_of_the_upper_mat() -> None:
    mats = matted(package__mat__in_view=True, package__mat__reveal="1/4 in").package.mats
    assert mats is not None
    assert (mats.visible.sides_mm, mats.visible.bottom_mm) == pytest.approx((2.5 * INCH, 3 * INCH))


def test_a_sheet_that_floats_shows_its_edges_and_is_not_complained_of() -> None:
    mats = matted(package__mat__shows="8 mm").package.mats
    assert mats is not None and mats.findings == ()
    assert mats.windows.windows[0].across_mm == pytest.approx(5 * INCH + 16)


def test_a_fillet_shrinks_what_is_in_view_and_what_shows_of_the_mat() -> None:
    plain = matted()
    filleted = matted(package__layers=[layer("fi", "fillet or liner", "4 mm"), layer("ar", "artwork", "0.3 mm")])
    assert filleted.figures["in_view_across"].exact_mm == pytest.approx(plain.figures["sight_across"].exact_mm - 10)
    bare, narrowed = plain.package.mats, filleted.package.mats
    assert bare is not None and narrowed is not None
    assert bare.visible.sides_mm - narrowed.visible.sides_mm == pytest.approx(5)


def test_a_typed_window_larger_than_its_image_is_a_stop_beside_its_field() -> None:
    second = picture("p2", "5 in", "7 in", opening_across="5 1/2 in", opening_up="6 in")
    plan = matted(package__mat__windows=[second])
    found = next(one for one in plan.advice if one.code == "windows.larger-than-image-across")
    assert found.severity is Severity.STOP and not plan.is_ready
    assert found.path == "frames.oak5.package.mat.windows.p2.opening_across"
    assert found.sentence.startswith("Window 2: the window is")


def test_a_bridge_under_the_least_is_said() -> None:
    plan = matted(package__mat__windows=PAIR, package__mat__gap="8 mm")
    assert "windows.narrow-bridge" in codes(plan.findings)


FILLET = [layer("fi", "fillet or liner", "4 mm")]


@pytest.mark.parametrize(
    ("changes", "says", "field"),
    [
        ({"package__mat__opening_across": "4 in"}, "Enter both sizes of the opening", "package.mat.opening_up"),
        ({"package__mat__overlap": "70 mm"}, "No window left: enter an overlap of less than 63", "package.mat.overlap"),
        (
            {"package__mat__reveal": "63 mm", "package__mat__windows": PAIR},
            "In the upper mat: Windows 1 and 2 overlap: leave 12 mm of board between them",
            "mat.reveal",
        ),
        ({"package__mat__reveal": "90 mm"}, "of border", "mat.reveal"),
        (
            {"package__fillet_shows": "99 mm", "package__mat": None, "package__layers": FILLET},
            "Nothing left of 116 mm: enter a fillet that shows under 99 mm",
            "fillet",
        ),
    ],
)
def test_what_leaves_nothing_is_refused_beside_its_field(changes: dict[str, Any], says: str, field: str) -> None:
    with pytest.raises(FrameCalcError, match=says) as refusal:
        matted(**changes).compute_all()
    assert field in refusal.value.field


def test_a_photograph_against_glass_stops_the_work_and_a_mat_lets_it_go_on() -> None:
    touching = matted(
        artwork__kind="photograph", package__mat=None, package__layers=[layer("gl", "glazing", "2 mm"), ARTWORK]
    )
    assert "glazing.touches" in touching.stops
    assert "glazing.touches" not in matted(artwork__kind="photograph").stops


ARTWORK = layer("ar", "artwork", "0.3 mm")


def test_acrylic_before_pastel_is_warned_of_whatever_plastic_it_is() -> None:
    for material in ("acrylic", "polycarbonate"):
        layers = [layer("gl", "glazing", "3 mm", material=material), layer("sp", "spacer", "6 mm"), ARTWORK]
        plan = matted(artwork__kind="friable", package__layers=layers)
        assert "glazing.acrylic-and-loose-media" in codes(plan.package.gap_findings)


def test_layers_weigh_what_they_weigh_by_hand_and_add_up() -> None:
    """An 8 × 10 in package: glass of 2.5 mm weighs 0.3226 kg (worked by hand); a 4-ply mat 1.05 kg/m² less windows."""
    plan = matted(artwork__across="8 in", artwork__up="10 in", package__mat=None)
    weights = plan.package.weights
    masses = {one.name: one.mass_kg for one in weights.weighed.layers}
    assert masses["gl"] == pytest.approx(0.3226, abs=5e-5)
    assert weights.weighed.mass_kg == pytest.approx(sum(masses.values()))
    windows = matted()
    open_kg = 1.05 * (9.75 * 12.25 - 4.75 * 6.75) * INCH**2 / 1e6
    found = {one.name: one.mass_kg for one in windows.package.weights.weighed.layers}
    assert found["m1"] == pytest.approx(open_kg)


def test_an_artwork_of_unknown_weight_is_named_and_a_typed_one_is_taken() -> None:
    layers = [layer("ar", "artwork", "18 mm")]
    assert matted(package__layers=layers).package.weights.unknown == ("ar",)
    weighed = matted(package__layers=layers, fitting__artwork_weight="1.25").package.weights
    assert (weighed.unknown, weighed.weighed.mass_kg) == ((), 1.25)
    assert matted(fitting__artwork_weight="850 g").frame.fitting.artwork_weight.kg == 0.85


def test_acrylic_that_outgrows_its_clearance_is_a_stop() -> None:
    """1000 mm of acrylic grow by 1.40 mm over 20 K (worked by hand)."""
    air = {"fitted_temperature": "15", "driest_temperature": "35", "dampest_temperature": "15"}
    dry = {f"fitting__room__{name}_humidity": "50" for name in ("fitted", "driest", "dampest")}
    typed = {f"fitting__room__{name}": value for name, value in air.items()} | dry
    plan = matted(
        artwork__across="1000 mm",
        package__mat=None,
        package__clearance_across="1 mm",
        package__layers=[layer("gl", "glazing", "3 mm", material="acrylic"), ARTWORK],
        **typed,
    )
    growth = plan.package.growth
    assert growth.layers[0].across.swells_mm == pytest.approx(1.40, abs=0.005)
    assert "growth.binds-across" in codes(growth.findings)


@pytest.mark.parametrize(("grain", "moves"), [("up", "across"), ("across", "up")])
def test_a_solid_panel_moves_across_its_grain_alone(grain: str, moves: str) -> None:
    plan = matted(
        artwork__kind="solid panel",
        package__mat=None,
        package__layers=[layer("pa", "artwork", "18 mm")],
        fitting__panel__species="black_cherry",
        fitting__panel__grain=grain,
    )
    growth = plan.package.growth
    (panel,) = growth.layers
    still: Growth = panel.up if moves == "across" else panel.across
    assert getattr(panel, moves).swells_mm > 0 and still.swells_mm == 0
    assert growth.hold is not None and growth.hold.slot_mm > 4


def test_the_package_is_held_by_what_its_depth_asks_for_or_by_what_is_wished() -> None:
    plan = matted(section__rabbet_depth="13.35 mm", section__thickness="22 mm")
    held = plan.package.retainers
    assert held is not None and held.retention.retainer is Retainer.POINTS and held.screwing is None
    wished = matted(section__rabbet_depth="10.05 mm", section__thickness="22 mm", fitting__held__by="turn buttons")
    assert wished.package.retainers is not None
    with pytest.raises(ImpossibleSize, match="Use a shim"):
        _ = wished.package.retainers.retention


def test_the_screw_of_a_button_stays_short_of_the_face() -> None:
    plan = matted(section__rabbet_depth="9.05 mm", section__thickness="22 mm", section__face_width="40 mm")
    held = plan.package.retainers
    assert held is not None and held.retention.retainer is Retainer.BUTTONS and held.screwing is not None
    assert held.screwing.screw.length_mm - 1 <= held.screwing.wood_mm - 3


def test_a_canvas_is_widest_over_its_folds_and_a_box_as_deep_as_its_object() -> None:
    canvas = plan_of("maple-canvas", "map1", {"fitting.canvas.cloth": "0.7 mm"}).package.canvas
    assert canvas is not None
    assert canvas.canvas.widest_across_mm == pytest.approx(canvas.canvas.across_mm + 4 * 0.7)
    boxed = plan_of(
        "cafe-prints", "oak5", {"fitting.box.object_depth": "30 mm", "artwork.kind": "object", "package.mat": None}
    ).package.box
    assert boxed is not None and boxed.box.inside_depth_mm == 36
    assert "box.shallow" in codes(boxed.findings)


def test_a_client_is_told_every_window() -> None:
    told = {fact.name: fact.text for fact in client_facts(matted(package__mat__windows=PAIR)).facts}
    assert told["pictures"].startswith("2 of ") and ", 1 of " in told["pictures"]
    assert "picture" not in told


def test_a_panel_of_a_known_wood_weighs_by_its_density() -> None:
    """Fault: a solid panel weighed nothing. Cherry is 560 kg/m³: 500 × 400 × 20 mm of it are 2.24 kg, by hand."""
    plan = matted(
        artwork__kind="solid panel",
        artwork__across="500 mm",
        artwork__up="400 mm",
        package__mat=None,
        package__layers=[layer("pa", "artwork", "20 mm")],
        fitting__panel__species="black_cherry",
    )
    weights = plan.package.weights
    assert weights.unknown == () and weights.weighed.mass_kg == pytest.approx(2.24)
    assert matted(
        artwork__kind="solid panel", package__mat=None, package__layers=[layer("pa", "artwork", "20 mm")]
    ).package.weights.unknown == ("pa",)
