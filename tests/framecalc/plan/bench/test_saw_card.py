"""The card of the mitre saw: its shim is that of the saw's record, whichever frame of the job told of it."""

from typing import Any

import pytest
from drawn_plans import demo

from framecalc.bench.cards import Card
from framecalc.drawing.bench.stop import draw_stop
from framecalc.plan import Plan
from framecalc.plan.bench.job import bench_job, cards_of
from framecalc.project import read_project


def saw_card(document: dict[str, Any]) -> Card:
    plan = Plan(read_project(document))
    (card,) = (one for one in cards_of(bench_job(plan, [(group, None) for group in plan.timber.groups]))
               if one.title == "Mitre saw")  # fmt: skip
    return card


def shims(card: Card) -> set[str]:
    return {fact.text for setting in card.settings for fact in setting.facts if fact.label == "Shim"}


def with_open_corners(document: dict[str, Any], *, at: int, saw: str = "") -> dict[str, Any]:
    """A job of two frames, one of which tells of test cuts that all gape alike."""
    first = document["frames"][0]
    document["frames"] = [first, {**first, "id": "f9zz", "name": "Second", "corner": {**first["corner"], "saw": saw}}]
    tests = [{"id": f"t{number}", "outside_gap": "0.8 mm", "inside_gap": "0 mm"} for number in range(4)]
    for number, frame in enumerate(document["frames"]):
        frame["corner"] = {**frame["corner"], "tests": tests if number == at else []}
    return document


@pytest.mark.parametrize("at", [0, 1])
def test_one_saw_has_one_shim_whichever_frame_told_of_it(at: int) -> None:
    card = saw_card(with_open_corners(demo("cafe-prints"), at=at))
    assert len(shims(card)) == 1
    assert all(setting.stop and setting.stop.shim for setting in card.settings)


def test_another_saw_says_nothing() -> None:
    card = saw_card(with_open_corners(demo("cafe-prints"), at=1, saw="the other one"))
    (stop, *_) = card.settings
    assert "Shim" not in [fact.label for fact in stop.facts] and stop.stop
    assert "shim" not in draw_stop(stop.stop, name="a")


def test_the_drawing_says_that_there_is_a_shim() -> None:
    card = saw_card(with_open_corners(demo("cafe-prints"), at=0))
    assert card.settings[0].stop
    assert "with a shim behind it" in draw_stop(card.settings[0].stop, name="a")
