"""Small records of the bench: the number on a card, what past jobs took, how a rescue looks."""

import pytest

from framecalc.bench.as_cut import ALL_SIDES, Quantity, Range, Taken, came_out, in_force, ranges
from framecalc.bench.cards import TITLES, Card, Machine, SectionState, Setting
from framecalc.bench.hours import FrameSize, Spell, WorkStep, experience
from framecalc.bench.rescue import Looks
from framecalc.findings import Severity


@pytest.mark.parametrize(
    ("big", "number", "unit"),
    [("12.5 mm", "12.5", "mm"), ("7 1/16 in", "7 1/16", "in"), ("4", "4", ""), ("12 mm, 14 mm", "12 mm, 14 mm", "")],
)
def test_the_number_of_a_card_and_its_unit_make_up_what_it_says(big: str, number: str, unit: str) -> None:
    setting = Setting(title="Stop", big=big)
    assert (setting.number, setting.unit) == (number, unit)


@pytest.mark.parametrize("frames", [1, 2, 5])
def test_the_time_for_one_frame_is_that_of_its_job_shared_evenly(frames: int) -> None:
    spells = [
        Spell(job=job, step=WorkStep.GLUING, minutes=60, frames=frames, size=FrameSize.SMALL) for job in ("a", "b", "c")
    ]
    found = experience(spells, step=WorkStep.GLUING, size=FrameSize.SMALL)
    assert found and (found.jobs, found.median_min, found.least_min) == (3, 60 / frames, 60 / frames)
    assert experience(spells[:1], step=WorkStep.GLUING, size=FrameSize.SMALL) is None


def test_the_plainer_a_rescue_is_seen_the_later_it_comes_and_each_has_words() -> None:
    assert [looks.words for looks in sorted(Looks)] == ["not seen", "seen a little", "plainly seen"]


def test_what_is_told_of_all_sides_takes_the_place_of_each_side_before_it_and_of_no_other_quantity() -> None:
    depth, width = Quantity.RABBET_DEPTH, Quantity.RABBET_WIDTH
    told = [(depth, "top", 9), (width, "top", 6), (depth, ALL_SIDES, 12)]
    kept = in_force([Taken(side=side, quantity=quantity, value_mm=value_mm) for quantity, side, value_mm in told])
    assert [(one.quantity, one.side, one.value_mm) for one in kept] == told[1:]


def test_a_quantity_runs_from_its_least_to_its_greatest_side_where_it_is_planned() -> None:
    depth, width = Quantity.RABBET_DEPTH, Quantity.RABBET_WIDTH
    told = [Taken(side=side, quantity=depth, value_mm=mm) for side, mm in (("top", 12.4), ("left", 11.7))]
    beside = Taken(side="top", quantity=width, value_mm=6)
    (found,) = ranges([*told, beside], planned_mm={depth: 12, Quantity.THICKNESS: 20})
    assert (found.quantity, found.planned_mm, found.least_mm, found.greatest_mm) == (depth, 12, 11.7, 12.4)
    assert found.furthest_mm == 12.4 and not found.is_as_planned


@pytest.mark.parametrize(
    ("least_mm", "greatest_mm", "is_as_planned"), [(12, 12, True), (11.9, 12, False), (12, 12.1, False)]
)
def test_what_is_off_on_either_side_is_not_as_planned(least_mm: float, greatest_mm: float, is_as_planned: bool) -> None:
    depth = Range(quantity=Quantity.RABBET_DEPTH, planned_mm=12, least_mm=least_mm, greatest_mm=greatest_mm)
    assert depth.is_as_planned is is_as_planned


def test_a_card_is_called_as_the_shop_calls_its_machine_or_as_usual() -> None:
    usual, own = (Card(machine=Machine.MITRE, settings=(), name=name).title for name in ("", "The old saw"))
    assert own == "The old saw" and usual == TITLES[Machine.MITRE]


def test_a_section_that_stays_has_no_shade() -> None:
    whole = ((0, 0), (30, 0), (30, 20), (0, 20))
    assert SectionState(caption="", before=whole, after=whole).legend == "Back below."


@pytest.mark.parametrize(("measured_mm", "how"), [(12.4, "deep"), (11.6, "shallow")])
def test_what_came_out_is_told_by_its_word_and_by_how_much(measured_mm: float, how: str) -> None:
    least_mm, greatest_mm = sorted((12.0, measured_mm))
    depth = Range(quantity=Quantity.RABBET_DEPTH, planned_mm=12, least_mm=least_mm, greatest_mm=greatest_mm)
    found = came_out(depth, effect="so", lengths_mm={}, severity=Severity.NOTE)
    assert f"{{off}} {how}" in found.sentence
    assert found.lengths["off"] == pytest.approx(0.4) and found.lengths["measured"] == measured_mm
