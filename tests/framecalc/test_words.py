"""Trade words that exist twice."""

import json
import pickle
from collections.abc import Callable
from copy import copy, deepcopy

import pytest

from framecalc.words import (
    TRADE_WORDS,
    Words,
    capitalised,
    joined,
    localise,
    say,
    typed,
    uncapitalised,
    worded,
)


@pytest.mark.parametrize(
    ("text", "words", "turned"),
    [
        ("Rabbet depth", Words.UK, "Rebate depth"),
        ("a mat window", Words.UK, "a mount aperture"),
        ("The mitre opens", Words.US, "The miter opens"),
        ("a wide mitre", Words.UK, "a wide mitre"),
        ("matter of format", Words.UK, "matter of format"),
        ("An off-cut, a window", Words.US, "A cutoff, a window"),
        ("An off-cut, a window", Words.UK, "An off-cut, an aperture"),
        ("A corner wedge in a tray, 5 millimetres", Words.US, "A V-nail in a floater, 5 millimeters"),
        ("Mat and mount board, a fillet", Words.UK, "Mount board, a slip"),
        ("", Words.UK, ""),
    ],
)
def test_only_whole_trade_words_are_turned(text: str, words: Words, turned: str) -> None:
    assert localise(text, words) == turned


@pytest.mark.parametrize("words", list(Words))
def test_turning_twice_changes_nothing_more(words: Words) -> None:
    for word in TRADE_WORDS[words]:
        once = localise(f"the {word} here", words)
        assert localise(once, words) == once


def uk(text: str) -> str:
    return localise(text, Words.UK)


def test_a_pattern_is_turned_and_what_is_put_into_it_is_not() -> None:
    assert uk(worded("The mat of {name}: a {size} rabbet", name="Mat room")) == "The mount of Mat room: a {size} rebate"
    assert say("Mat of {name}", Words.UK, name="mat {mat}") == "Mount of mat {mat}"


def test_what_is_said_is_not_turned_again() -> None:
    said = say("centre of the mitre", Words.US)
    assert (said, localise(said, Words.UK), localise(said, Words.US)) == ("center of the miter",) * 3


def test_a_wording_in_a_wording_keeps_its_own_account() -> None:
    inner = worded("mat of {name}", name="a mat")
    assert uk(worded("{inner}, {plain}, mat", inner=inner, plain="mat")) == "mount of a mat, mat, mount"


def test_braces_that_were_typed_are_no_holes() -> None:
    sentence = worded("{name} has a mat of {size}", name=typed("{size}"))
    filled = sentence.format_map({"size": "2 mat"})
    assert (filled, uk(filled)) == ("{size} has a mat of 2 mat", "{size} has a mount of 2 mat")
    with pytest.raises(KeyError):
        sentence.format_map({})


def test_texts_are_put_together_without_forgetting() -> None:
    name = typed("mat")
    assert uk("mat " + name + " mat") == "mount mat mount"
    assert uk(joined(" mat ", ["mat", name, name])) == "mount mount mat mount mat"
    assert joined(", ", []) == ""


@pytest.mark.parametrize("change", [capitalised, uncapitalised])
def test_only_our_own_first_letter_is_changed(change: Callable[[str], str]) -> None:
    assert change(typed("Mat") + " mat") == "Mat mat" and change(typed("mat") + " mat") == "mat mat"
    assert change("") == ""
    assert uk(change("mat of " + typed("mat"))).casefold() == "mount of mat"


@pytest.mark.parametrize("copied", [deepcopy, copy, lambda text: pickle.loads(pickle.dumps(text))])
def test_a_copy_knows_what_was_typed(copied: Callable[[str], str]) -> None:
    assert uk(copied("mat " + typed("mat"))) == "mount mat"
    assert json.loads(json.dumps({"name": typed("mat")})) == {"name": "mat"}
