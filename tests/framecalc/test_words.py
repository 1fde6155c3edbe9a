"""Trade words that exist twice."""

import pytest

from framecalc.words import TRADE_WORDS, Words, localise


@pytest.mark.parametrize(
    ("text", "words", "turned"),
    [
        ("Rabbet depth", Words.UK, "Rebate depth"),
        ("a mat window", Words.UK, "a mount window"),
        ("The mitre opens", Words.US, "The miter opens"),
        ("a wide mitre", Words.UK, "a wide mitre"),
        ("matter of format", Words.UK, "matter of format"),
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
