"""Files of cutting plans keep their keys, so that every file ever written still opens."""

import json
from collections.abc import Iterator
from typing import Any

import pytest
from cutting_jobs import cut, frame_of
from sheet_jobs import by_chance, laid_out

from framecalc.sheets.answer import SheetLayout
from framecalc.timber.sticks.answer import StickPlan
from framecalc.timber.sticks.problem import StickProblem, Stock
from framecalc.words import Words, localise, typed, worded
from webapp.data.plan_file import file_text, read_answer

STOCK = (Stock(name="share", length_mm=1300, count=3),)
PLAN = cut(StickProblem(pieces=frame_of("standing", across_mm=348, up_mm=471), stock=STOCK, kerf_mm=3, width_mm=30))


def _keys(value: Any) -> set[str]:
    if isinstance(value, dict):
        return set(value).union(*map(_keys, value.values()))
    return set().union(*map(_keys, value)) if isinstance(value, list) else set()


def _from_before() -> Any:
    """A plan as it was written before files had a digest."""
    document = json.loads(file_text(PLAN))
    del document["digest"]
    return document


def _paths(value: Any, *way: Any) -> Iterator[tuple[Any, ...]]:
    """The ways to all values in a file."""
    parts = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, part in parts:
        yield (*way, key)
        yield from _paths(part, *way, key)


@pytest.mark.parametrize("wrong", ["Infinity", 7.5, [], None, 10**30])
def test_a_plan_of_which_anything_was_changed_is_refused(wrong: Any) -> None:
    written = file_text(PLAN)
    for path in _paths(json.loads(written)):
        document = holder = json.loads(written)
        for step in path[:-1]:
            holder = holder[step]
        holder[path[-1]] = "another" if path == ("digest",) or holder[path[-1]] == wrong else wrong
        with pytest.raises(ValueError, match=r"."):
            read_answer(StickPlan, json.dumps(document))


@pytest.mark.parametrize("number", ["NaN", "Infinity", "-Infinity", "1e999"])
def test_a_plan_from_before_with_a_number_that_is_none_is_refused(number: str) -> None:
    text = json.dumps(_from_before() | {"longest_left_mm": "here"}).replace('"here"', number)
    with pytest.raises(ValueError, match="no number"):
        read_answer(StickPlan, text)


def test_a_plan_is_written_with_the_keys_of_the_first_version() -> None:
    keys = _keys(json.loads(file_text(PLAN)))
    assert {"standing", "worths", "worth"} <= keys
    assert not {"proof_status", "shares", "share"} & keys


def test_a_layout_too_is_written_with_the_keys_of_the_first_version() -> None:
    layout = laid_out(by_chance(1))
    text = file_text(layout)
    assert "worth_ratio" in _keys(json.loads(text)) and "share_ratio" not in _keys(json.loads(text))
    assert read_answer(SheetLayout, text) == layout


@pytest.mark.parametrize("indent", [None, 2])
def test_a_plan_is_read_back_as_it_was_with_names_that_are_keys_too(indent: int | None) -> None:
    assert read_answer(StickPlan, file_text(PLAN, indent=indent)) == PLAN


def test_which_letters_were_typed_is_read_back() -> None:
    stock = (Stock(name=typed("mat {x mould"), length_mm=1300, count=3),)
    pieces = frame_of(worded("{name} ledge", name="mat"), across_mm=348, up_mm=471)
    plan = cut(StickProblem(pieces=pieces, stock=stock, kerf_mm=3, width_mm=30))
    read = read_answer(StickPlan, file_text(plan))
    assert read == plan
    for one in (plan, read):
        stick = one.sticks[0]
        assert localise(stick.stock.name, Words.UK) == "mat {x mould"
        assert localise(stick.strips[0].pieces[0].piece.frame, Words.UK) == "mat ledge"
        assert "“mat {x mould”" in localise(one.proof.saying.in_mm, Words.UK)


def test_a_plan_from_before_that_says_of_no_letter_who_typed_it_is_read() -> None:
    assert read_answer(StickPlan, json.dumps(_from_before())) == PLAN


@pytest.mark.parametrize("runs", [None, 1, "mat", [1], {}])
def test_runs_that_are_no_texts_are_refused(runs: Any) -> None:
    document = _from_before()
    document["sticks"][0]["stock"]["name"] = {"ours, typed": runs}
    with pytest.raises(ValueError, match=r"name"):
        read_answer(StickPlan, json.dumps(document))


@pytest.mark.parametrize("text", ["", "{", "[]", "[" * 100_000, '{"a":' * 100_000, '{"standing": "proved"}'])
def test_what_is_no_plan_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"."):
        read_answer(StickPlan, text)
