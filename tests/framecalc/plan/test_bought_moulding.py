"""A bought moulding through the whole plan: sizes, findings, timber, price, record; old files are milled here."""

from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from cutting_jobs import cut
from panel import PANEL_IN_INCHES
from svg_reading import Drawn
from timber_plans import BOARD, STICK, frame

from framecalc.drawing.registry import draw_panel, draw_paper
from framecalc.drawing.setting_out.corner import read_corner
from framecalc.errors import ImpossibleSize, ImpossibleTimber
from framecalc.plan import FramePlan, Plan
from framecalc.plan.client import client_facts
from framecalc.plan.price.counts import LaidOut
from framecalc.plan.price.items import usual_items
from framecalc.plan.price.price import JobPrice, price_job
from framecalc.price.costs import CostGroup
from framecalc.price.quantities import Measure
from framecalc.project import Item, Quote, read_project
from framecalc.records import replace
from framecalc.timber.sticks.problem import Piece, StickProblem, Stock, hash_of

FOOT = {"name": "Ogee 40", "sale": "sticks by the foot", "price": "3", "stick_length": "10 ft"}
PERIMETER_IN = 2 * (13.125 + 16.125)


def bought(name: str = "f1", section: dict[str, Any] | None = None, **moulding: Any) -> dict[str, Any]:
    return frame(name, section={"source": "bought", "moulding": FOOT | moulding, **(section or {})})


def whole(*frames: dict[str, Any], **project: Any) -> Plan:
    return Plan(read_project(PANEL_IN_INCHES | {"frames": list(frames)} | project))


def plan_of(one: dict[str, Any]) -> FramePlan:
    return whole(one).frames[one["id"]]


def priced(*frames: dict[str, Any], items: tuple[Item, ...] = (), **more: Any) -> JobPrice:
    plan = whole(*frames)
    return price_job(plan.project, quote=Quote(items=items), plan=plan, **more)


def test_a_file_without_the_field_is_milled_here_with_the_same_sizes() -> None:
    own, other = plan_of(frame("f1")), plan_of(bought())
    assert own.frame.section.source == "own" and own.milling_order is not None
    assert own.figures["outside_across"] == other.figures["outside_across"]
    assert own.section == other.section


def test_nothing_is_milled_of_a_bought_moulding() -> None:
    plan = plan_of(bought())
    assert plan.milling_order is None
    assert whole(bought()).record()["frames"][0]["section"] == {
        "source": "bought",
        "moulding": "Ogee 40",
    }


def test_no_way_out_changes_the_section_of_a_bought_moulding() -> None:
    """A package as deep as the rabbet twice over stands proud: own wood may be cut deeper, a moulding may not."""
    thick = {
        "package": PANEL_IN_INCHES["frames"][0]["package"]
        | {"layers": [{"id": "pa", "name": "panel", "kind": "artwork", "thickness": "1/2 in", "tolerance": "0 mm"}]}
    }
    own = [way.path for advice in plan_of(frame("f1", **thick)).advice for way in advice.ways]
    other = [way.path for advice in plan_of(bought() | thick).advice for way in advice.ways]
    assert any(path.startswith("frames.f1.section.") for path in own)
    assert not any(path.startswith("frames.f1.section.") for path in other)


def test_one_stick_cannot_settle_the_face_width_of_a_bought_moulding() -> None:
    start = {"given": "stick", "stick_length": "72 in", "stick_solves": "face width"}
    assert plan_of(frame("f1", start=start)).settled.face_width_mm > 0
    with pytest.raises(ImpossibleSize, match="has its face width") as refusal:
        _ = plan_of(bought() | {"start": start}).settled
    assert refusal.value.field == "stick_solves"


def test_a_pattern_counts_in_the_stick_that_a_frame_takes() -> None:
    plain, matched = plan_of(bought()), plan_of(bought(repeat="2 in"))
    more_mm = matched.figures["stick_needed"].exact_mm - plain.figures["stick_needed"].exact_mm
    assert more_mm == pytest.approx(4 * 2 * 25.4)


def test_one_stick_that_settles_the_picture_keeps_the_pattern() -> None:
    start = {"given": "stick", "stick_length": "72 in", "stick_solves": "picture"}
    matched = plan_of(bought(repeat="2 in") | {"start": start})
    assert matched.figures["stick_needed"].exact_mm == pytest.approx(72 * 25.4)


def test_own_wood_and_a_bought_moulding_are_cut_from_sticks_of_their_own() -> None:
    plan = whole(frame("f1", species="ash"), bought("f2") | {"species": "ash"}, timber={"stock": [STICK, BOARD]})
    by_moulding = {group.section.moulding: group for group in plan.timber.groups}
    assert {offer.stock.name for offer in by_moulding[""].offers.values()} == {"stick", "board"}
    [sold] = by_moulding["Ogee 40"].offers.values()
    assert (sold.stock.length_mm, sold.stock.price, sold.board) == (120 * 25.4, Decimal(30), None)


def test_a_board_too_thin_is_nothing_to_a_bought_moulding() -> None:
    thin = BOARD | {"thickness": "1/2 in"}
    assert any(
        "thick" in one.code or "thin" in one.code or one.severity.value == "stop"
        for group in whole(frame("f1"), timber={"stock": [thin]}).timber.groups
        for one in group.findings
    )
    [group] = whole(bought(), timber={"stock": [thin]}).timber.groups
    assert group.findings == () and not any(offer.board for offer in group.offers.values())


def test_sticks_of_the_moulding_at_hand_are_used_and_serve_nothing_else() -> None:
    rest = STICK | {"moulding": "OGEE 40", "length": "70 in", "in_hand": True, "count": 1}
    own, other = whole(frame("f1", species="oak"), bought("f2"), timber={"stock": [rest]}).timber.groups
    assert {own.section.moulding, other.section.moulding} == {"", "Ogee 40"}
    mine = other if other.section.moulding else own
    wood = own if mine is other else other
    assert wood.is_estimate and {"s1", "sold Ogee 40"} == set(mine.offers)
    assert [stick.stock.id for stick in cut(mine.problem).sticks] == ["s1"]


@pytest.mark.parametrize("repeat_in", [0.5, 1.0, 2.5, 6.0])
def test_every_side_may_start_one_repeat_further_on_and_still_fits(repeat_in: float) -> None:
    """However the pattern lies on a stick, each side can be moved to the next start of the pattern."""
    [group] = whole(bought("f1", repeat=f"{repeat_in} in") | {"count": 3}).timber.groups
    repeat_mm, plan = repeat_in * 25.4, cut(group.problem)
    kerf_mm = group.problem.cut_mm - repeat_mm
    for stick in plan.sticks:
        lengths_mm = [placed.piece.length_mm for strip in stick.strips for placed in strip.pieces]
        for phase in range(7):
            at_mm = stick.stock.trim_mm
            for length_mm in lengths_mm:
                start_mm = at_mm + (phase * repeat_mm / 7 - at_mm) % repeat_mm
                at_mm = start_mm + length_mm + kerf_mm
            assert at_mm - kerf_mm <= stick.stock.length_mm - stick.stock.trim_mm + 1e-6


def test_a_turned_plan_leaves_a_bought_moulding_as_it_lies() -> None:
    own, other = sorted(
        whole(frame("f1"), bought("f2"), timber={"turned": True}).timber.groups, key=lambda one: one.section.moulding
    )
    assert own.problem.turned and not own.problem.milled
    assert not other.problem.turned and other.problem.milled


def test_unchanged_name_of_a_problem_without_a_pattern() -> None:
    """Plans and ticks made before patterns counted are found again."""
    piece, stick = Piece(frame="hall", side="top", length_mm=348.0), Stock(name="ash", length_mm=2400.0)
    plain = StickProblem(pieces=(piece,), stock=(stick,), kerf_mm=3.0, width_mm=30.0)
    assert hash_of(plain) == "213068f0a2700f180b419690fe4d61889dc4a6d9f0a355ec196133df0c9a4079"
    assert hash_of(replace(plain, repeat_mm=25.4)) != hash_of(plain)


def test_a_board_in_hand_makes_no_bought_moulding_and_a_stick_of_it_keeps_its_pattern() -> None:
    board = {"length": "96 in", "width": "6 in"}
    with pytest.raises(ImpossibleTimber, match="not milled from a board"):
        _ = whole(bought(), reach=board).frames_from_a_stick.stock
    plain, matched = (whole(bought(**more), reach={"length": "96 in"}) for more in ({}, {"repeat": "3 in"}))
    [plain_mm], [matched_mm] = plain.frames_from_a_stick.clear_mm, matched.frames_from_a_stick.clear_mm
    assert plain_mm - matched_mm == pytest.approx(3 * 25.4)
    assert matched.frames_from_a_stick.cut_mm - plain.frames_from_a_stick.cut_mm == pytest.approx(3 * 25.4)


@pytest.mark.parametrize("sale", ["cut to size by the foot", "cut to size by the side", "joined by the frame"])
def test_sides_that_the_supplier_cuts_are_in_no_cutting_plan(sale: str) -> None:
    plan = whole(bought(sale=sale))
    assert plan.timber.groups == ()
    assert [one.frame.id for one in plan.timber.ordered] == ["f1"]


@pytest.mark.parametrize(
    ("moulding", "quantity", "unit", "amount"),
    [
        ({}, "10.000", "ft", "30.00"),
        ({"sale": "sticks, each", "price": "32"}, "1", "sticks", "32.00"),
        ({"sale": "cut to size by the foot", "price": "4"}, "4.875", "ft", "19.50"),
        ({"sale": "cut to size by the foot", "price": "4", "least_length": "8 ft"}, "8", "ft", "32.00"),
        ({"sale": "cut to size by the side", "price": "7.5"}, "4", "pcs", "30.00"),
        ({"sale": "joined by the frame", "price": "55"}, "1", "pcs", "55.00"),
    ],
)
def test_the_price_of_a_moulding_by_hand(moulding: dict[str, str], quantity: str, unit: str, amount: str) -> None:
    job = priced(bought(**moulding))
    [line] = job.mouldings
    assert (line.name, line.group, line.quantity, line.unit) == ("Ogee 40", CostGroup.WOOD, Decimal(quantity), unit)
    assert job.cost.whole == Decimal(amount)


def test_less_than_the_least_order_is_charged_up_to_it() -> None:
    job = priced(bought(least_order="50"))
    assert [line.amount(job.terms.currency) for line in job.mouldings] == [Decimal(30), Decimal(20)]
    assert job.cost.whole == 50
    assert len(priced(bought(least_order="30")).mouldings) == 1


def test_a_finished_cutting_plan_counts_its_sticks() -> None:
    plan = whole(bought() | {"count": 5})
    [group] = plan.timber.groups
    sticks = cut(group.problem)
    job = price_job(plan.project, quote=Quote(), plan=plan, find=lambda _: LaidOut(wood=((group, sticks),)))
    assert job.mouldings[0].quantity == 10 * sticks.stick_count
    assert job.mouldings[0].counted_by == "the cutting plan"


def test_wood_is_paid_for_only_where_it_is_milled() -> None:
    wood = Item(id="wo", name="Oak", group=CostGroup.WOOD, measure=Measure.STICK_FT, price="9")
    [alone] = priced(bought(), items=(wood,)).of_items
    assert alone.quantity == 0
    both, own = priced(frame("f1"), bought("f2"), items=(wood,)), priced(frame("f1"), items=(wood,))
    assert both.of_items[0].quantity == own.of_items[0].quantity > 0


def test_a_side_longer_than_its_stick_is_a_problem_and_no_offer() -> None:
    job = priced(bought(stick_length="16 in"))
    assert not job.is_complete and job.mouldings == ()
    assert list(job.problems) == ["frames.f1.section.moulding.stick_length"]


def test_a_moulding_without_a_price_keeps_the_offer_back() -> None:
    job = priced(bought(price=None))
    assert not job.is_complete
    assert [one.argument for one in job.findings(today=date(2026, 3, 1)) if one.code == "costs.unpriced"] == [
        "frames.f1.section.moulding.price"
    ]
    assert priced(bought()).is_complete


def test_the_usual_items_leave_out_what_is_not_done_here() -> None:
    def names(*frames: dict[str, Any]) -> list[str]:
        numbers = iter(range(10, 90))
        return [item.name for item in usual_items(whole(*frames).project, new_id=lambda: f"i{next(numbers)}")]

    assert "Milling and cutting" in names(frame("f1")) and "Wood" in names(frame("f1"))
    assert "Cutting" in names(bought()) and not {"Milling and cutting", "Wood"} & set(names(bought()))
    joined = names(bought(sale="joined by the frame"))
    assert not {"Milling and cutting", "Cutting", "Gluing up"} & set(joined)
    assert {"Wood", "Milling and cutting"} <= set(names(frame("f1"), bought("f2")))


def test_the_section_names_the_moulding_and_so_does_the_client() -> None:
    plan = plan_of(bought())
    drawn = Drawn(draw_paper("section", plan, "letter"))
    assert "Ogee 40" in drawn.title
    assert any(text.text in ("molding Ogee 40", "bought molding") for text in drawn.texts)
    own = Drawn(draw_paper("section", plan_of(frame("f1")), "letter"))
    assert not any("mo" in text.text and "lding" in text.text for text in own.texts)
    assert "Ogee 40" in [fact.text for fact in client_facts(plan).facts]


def test_the_corner_shows_the_lines_of_a_typed_face() -> None:
    """Two points between the edges give two more lines round the corner, at their distance from the sight edge."""
    points = [
        {"id": "p1", "across": "1/4 in", "down": "0 in"},
        {"id": "p2", "across": "3/4 in", "down": "0 in", "way": "hollow", "radius": "1/4 in"},
    ]
    section = {"face": "through typed points", "points": points}
    view = read_corner(plan_of(frame("f1", section=section)))
    assert view.arrises_mm == pytest.approx((1.25 * 25.4, 0.75 * 25.4))
    plain, moulded = (
        Drawn(draw_panel("corner", one)) for one in (plan_of(frame("f1")), plan_of(frame("f1", section=section)))
    )
    assert len(moulded.runs("edge")) == len(plain.runs("edge")) + 2


def test_joints_are_cut_in_a_bought_moulding_too() -> None:
    assert plan_of(bought()).corners.stock == plan_of(frame("f1")).corners.stock
