"""The cards of a job stand in the order of the work, and say how the wood lies."""

from typing import Any

import pytest
from drawn_plans import demo

from framecalc.bench.cards import Card, Machine
from framecalc.corners.saw_kinds import CUTTING_CAUTIONS, UNPLUG, SawKind
from framecalc.plan import Plan
from framecalc.plan.bench.job import bench_job, cards_of
from framecalc.project import read_project


def cards(way: str = "router table", **section: Any) -> dict[Machine, Card]:
    """The cards of the prints for a café, whose corners have splines, with another section."""
    document = demo("cafe-prints")
    (frame, *_) = document["frames"]
    frame["section"] |= section
    document["frames"] = [frame]
    document["bench"]["rabbet_way"] = way
    plan = Plan(read_project(document))
    return {one.machine: one for one in cards_of(bench_job(plan, [(group, None) for group in plan.timber.groups]))}


def test_a_spline_is_put_in_after_the_glue() -> None:
    order = list(cards())
    assert order.index(Machine.SPLINES) > order.index(Machine.GLUE) and Machine.SLOTS not in order


def test_a_rabbet_is_tried_on_scrap_whichever_machine_cuts_it() -> None:
    says = {way: str(cards(way)[Machine.RABBET].says) for way in ("router table", "table saw", "strip")}
    assert [way for way, said in says.items() if "on scrap" in said] == ["router table", "table saw"]


def test_every_copy_is_closed_dry() -> None:
    (fit,) = cards()[Machine.DRY_FIT].settings
    assert [line.text for line in fit.lines][-1] == "Copy 5 closes" and len({line.key for line in fit.lines}) == 5


def test_an_edge_of_a_bevelled_face_is_cut_as_high_as_it_lies_over_the_table() -> None:
    shaped = {"face": "bevelled toward the picture", "face_drop": "3 mm", "rabbet_depth": "8 mm"}
    face, edge = cards(**shaped, sight_edge={"shape": "step", "size": "2 mm"})[Machine.PROFILE].settings
    facts = {fact.label: fact.text for fact in face.facts}
    assert (facts["Fence to blade"], facts["Blade height"]) == ("17 mm", "22 mm")
    assert edge.big == "5 mm" and "3 mm thick at the low edge" in " ".join(edge.says)
    assert "back against the fence" in " ".join(face.says)


def test_a_strip_is_glued_on_before_the_profile_and_a_bearing_bit_comes_after_it() -> None:
    cove = {"sight_edge": {"shape": "cove", "size": "5 mm"}}
    built_up, inside = list(cards("strip", **cove)), list(cards("bearing bit", **cove))
    assert built_up.index(Machine.RABBET) < built_up.index(Machine.PROFILE)
    assert inside.index(Machine.PROFILE) < inside.index(Machine.GLUE) < inside.index(Machine.ROUTER)


def test_many_passes_are_one_setting() -> None:
    (one,) = cards(thickness="60 mm", rabbet_depth="50 mm")[Machine.RABBET].settings
    facts = {fact.label: fact.text for fact in one.facts}
    assert (one.title, one.big, facts["First"]) == ("18 passes", "50 mm", "3 mm")


@pytest.mark.parametrize(
    "sale, machines",
    [("cut to size by the side", [Machine.DRY_FIT, Machine.GLUE, Machine.SPLINES]), ("joined by the frame", [])],
)
def test_sides_that_come_cut_are_fitted_joined_and_glued_and_whole_frames_are_not(
    sale: str, machines: list[Machine]
) -> None:
    """Fault: sides cut by the supplier had no card at all."""
    found = cards(source="bought", moulding={"name": "No. 7", "sale": sale, "price": "14"})
    assert list(found) == machines
    assert all(len(card.settings) == 1 for card in found.values())


def changed(**changes: Any) -> dict[Machine, Card]:
    """The cards of the prints, with its corner or its shape changed, or its glue."""
    document = demo("cafe-prints")
    (frame, *_) = document["frames"]
    frame["corner"] |= changes.get("corner", {})
    frame |= {name: value for name, value in changes.items() if name == "shape"}
    document["frames"] = [frame]
    document["bench"] |= changes.get("bench", {})
    plan = Plan(read_project(document))
    return {one.machine: one for one in cards_of(bench_job(plan, [(group, None) for group in plan.timber.groups]))}


@pytest.mark.parametrize("kind", [kind for kind in SawKind if kind])
def test_the_card_of_the_saw_is_that_of_its_kind(kind: SawKind) -> None:
    card = changed(corner={"saw_kind": kind.value})[Machine.MITRE]
    assert card.title.lower() == kind.value and card.cautions == CUTTING_CAUTIONS[kind]
    assert (UNPLUG in card.cautions) == (kind in (SawKind.MITRE_SAW, SawKind.TABLE_SAW))


def test_a_saw_of_no_kind_keeps_the_cautions_of_both_motor_saws() -> None:
    card = changed()[Machine.MITRE]
    assert card.title == "Mitre saw" and "At a table saw" in " ".join(card.cautions) and UNPLUG in card.cautions


def test_a_glued_joint_is_told_when_it_may_be_stressed() -> None:
    def strong(**bench: Any) -> str:
        (setting, *_) = changed(bench=bench)[Machine.GLUE].settings
        return {fact.label: fact.text for fact in setting.facts}["Full strength"]

    assert strong(glue="yellow wood glue", temperature="20") == "24 h"
    assert strong(glue="epoxy", temperature="20") == "72 h"
    assert strong(glue="epoxy", strong_hours=12) == "12 h", "the bottle comes first"


def test_a_polygon_is_clamped_in_a_ring_and_checked_across_its_flats() -> None:
    glue = changed(shape={"sides": 6, "size": "300 mm"})[Machine.GLUE]
    assert "ring" in " ".join(glue.says) and "diagonals" not in " ".join((*glue.says, *glue.cautions))
    assert glue.settings[0].label == "Across the flats" and glue.settings[0].big.endswith("mm")
    odd = changed(shape={"sides": 5, "size": "300 mm"})[Machine.GLUE]
    assert (odd.settings[0].label, odd.settings[0].big) == ("Corners", "5")
