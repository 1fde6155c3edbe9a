"""American and British trade words: one table with both words for each concept.

Code and sentences use one word throughout (rabbet, mat, mitre, timber, molding); this table translates our own
sentences into the words of the shop. Typed text is never translated: a pattern is translated first, then a name is put
into it. A text to be translated later is a `Wording`, which knows which of its letters are ours.
"""

import re
from collections.abc import Callable, Iterable, Iterator
from datetime import date
from enum import StrEnum
from functools import lru_cache
from string import Formatter
from typing import Any, NamedTuple, Protocol, Self


class Words(StrEnum):
    """Whose trade words the pages and drawings use."""

    US = "US"
    UK = "UK"


TRADE_WORDS: dict[Words, dict[str, str]] = {
    Words.US: {"mitre": "miter", "mitres": "miters", "mitred": "mitered", "timber": "lumber", "centre": "center",
               "centres": "centers", "centred": "centered", "colour": "color", "colours": "colors",
               "moulding": "molding", "mouldings": "moldings", "mould": "mold", "grey": "gray", "greys": "grays",
               "metre": "meter", "metres": "meters", "millimetre": "millimeter", "millimetres": "millimeters",
               "vapour": "vapor", "neighbour": "neighbor", "neighbours": "neighbors", "bevelled": "beveled",
               "off-cut": "cutoff", "off-cuts": "cutoffs", "an off-cut": "a cutoff", "tray": "floater",
               "trays": "floaters", "corner wedge": "V-nail", "corner wedges": "V-nails", "wedge": "V-nail",
               "wedges": "V-nails"},
    Words.UK: {"rabbet": "rebate", "rabbets": "rebates", "rabbeted": "rebated", "mat": "mount", "mats": "mounts",
               "matted": "mounted", "mat and mount board": "mount board", "molding": "moulding",
               "moldings": "mouldings", "window": "aperture", "windows": "apertures", "a window": "an aperture",
               "fillet": "slip", "fillets": "slips"},
}  # fmt: skip
"""Common practice, no source: which side of the Atlantic says which."""

_PATTERNS = {
    words: re.compile(rf"\b(?:{'|'.join(sorted(table, key=len, reverse=True))})\b", re.IGNORECASE)
    for words, table in TRADE_WORDS.items()
}


@lru_cache(maxsize=4096)
def _turned(text: str, words: Words) -> str:
    def turn(match: re.Match[str]) -> str:
        word = TRADE_WORDS[words][match[0].lower()]
        return word.capitalize() if match[0][0].isupper() else word

    return _PATTERNS[words].sub(turn, text)


class Run(NamedTuple):
    """A run of letters of a text: ours, or a value that is kept as it is."""

    letters: str
    is_kept: bool


def _merged(runs: Iterable[Run]) -> tuple[Run, ...]:
    """Neighbours of one kind as one run, without blank ones."""
    merged: list[Run] = []
    for run in runs:
        if merged and merged[-1].is_kept is run.is_kept:
            merged[-1] = Run(merged[-1].letters + run.letters, run.is_kept)
        elif run.letters:
            merged.append(run)
    return tuple(merged)


class _Values(Protocol):
    """The values for the holes of a pattern."""

    def __getitem__(self, hole: str, /) -> object:
        """The value of a hole."""


class Wording(str):
    """A text that knows which of its letters are ours, and which belong to values and stay as they are.

    `+`, `joined`, `capitalised` and `format_map` keep that knowledge; any other way to make a new text of it, such as
    an f-string, loses it.
    """

    runs: tuple[Run, ...]

    def __new__(cls, runs: Iterable[Run]) -> Self:
        """Put runs together."""
        merged = _merged(runs)
        wording = super().__new__(cls, "".join([run.letters for run in merged]))
        wording.runs = merged
        return wording

    def __getnewargs__(self) -> tuple[Any, ...]:
        """What a copy is made from."""
        return (self.runs,)

    def __add__(self, other: str) -> "Wording":
        """Put a text behind it; a plain one is ours."""
        return Wording((*self.runs, *_runs(other)))

    def __radd__(self, other: str) -> "Wording":
        """Put a text before it; a plain one is ours."""
        return Wording((*_runs(other), *self.runs))

    def format_map(self, mapping: _Values, /) -> "Wording":
        """Fill the holes in our own letters; braces that somebody typed are no holes."""
        return Wording(_with_values(self.runs, mapping))


def _runs(text: str) -> tuple[Run, ...]:
    return text.runs if isinstance(text, Wording) else (Run(text, is_kept=False),)


def _with_values(runs: Iterable[Run], values: _Values) -> Iterator[Run]:
    """Runs with values in the holes of our own letters."""
    for run in runs:
        yield from (run,) if run.is_kept else _filled(run.letters, values)


def _filled(pattern: str, values: _Values) -> Iterator[Run]:
    parts = [(letters, None if hole is None else values[hole]) for letters, hole in _parsed(pattern)]
    for (letters, value), (between, other) in zip(parts, [*parts[1:], ("", None)], strict=True):
        yield Run(letters, is_kept=False)
        if isinstance(value, Wording):
            yield from value.runs
        elif value is not None:
            text = str(value)
            yield Run(_unit_once(text, str(other)) if between == _TIMES else text, is_kept=True)


@lru_cache(maxsize=2048)
def _parsed(pattern: str) -> tuple[tuple[str, str | None], ...]:
    """The letters of a pattern and the hole after them, piece by piece."""
    return tuple((letters, hole) for letters, hole, _, _ in Formatter().parse(pattern))


def _unit_once(first: str, second: str) -> str:
    """The first length of a pair, without the unit where the second says it: 433 × 365 mm."""
    unit = f" {second.rpartition(' ')[2]}"
    return first.removesuffix(unit) if unit in _UNITS else first


_TIMES, _UNITS = " × ", (" mm", " in")


class _Open(dict[str, object]):
    """Values for some of the holes of a pattern; the others stay open."""

    def __missing__(self, hole: str) -> Wording:
        return Wording((Run(f"{{{hole}}}", is_kept=False),))


@lru_cache(maxsize=4096)
def typed(text: str) -> Wording:
    """Mark a typed text: it is never translated."""
    return Wording((Run(text, is_kept=True),))


def ours(text: str) -> Wording:
    """A text of ours as a wording; one that is a wording already stays as it is."""
    return Wording(_runs(text))


def worded(pattern: str, **values: object) -> Wording:
    """Put values into a pattern of ours. They are kept letter by letter; only a wording keeps its own account.

    Holes for which there is no value stay open, for lengths that are written later.

    >>> localise(worded("The mat of {name} is {size}", name="Mat room"), Words.UK)
    'The mount of Mat room is {size}'
    >>> worded("{across} × {up}", across="433 mm", up="365 mm")
    '433 × 365 mm'
    """
    return Wording(_with_values(_merged(_runs(pattern)), _Open(values)))


def joined(between: str, texts: Iterable[str]) -> Wording:
    """Join texts; plain ones, and what stands between them, are ours.

    >>> localise(joined(", mat, ", [typed("mat"), "mat"]), Words.UK)
    'mat, mount, mount'
    """
    parts = [run for text in texts for run in (Run(between, is_kept=False), *_runs(text))]
    return Wording(parts[1:])


def capitalised(text: str) -> Wording:
    """Begin a sentence with a capital, if it begins with a letter of ours."""
    return _begun(text, str.upper)


def uncapitalised(text: str) -> Wording:
    """Go on with a sentence inside another, if it begins with a letter of ours."""
    return _begun(text, str.lower)


def first_sentence(text: str) -> Wording:
    """The first sentence of a text; the stop of a short word, such as that of a name, ends none.

    >>> first_sentence("2 pieces are short: 136.5 mm. Hold them down with a clamp.")
    '2 pieces are short: 136.5 mm.'
    >>> first_sentence("Mr. Hall: too narrow. Cut it wider.")
    'Mr. Hall: too narrow.'
    """
    end = _END_OF_SENTENCE.search(text)
    left = end.end() if end else len(text)
    kept = []
    for run in _runs(text):
        kept.append(run._replace(letters=run.letters[:left]))
        left -= len(kept[-1].letters)
    return Wording(kept)


_END_OF_SENTENCE = re.compile(r"(?:\w{3}|\d|[”)°%]|\bmm|\bin)\.(?= [A-Z“])")


def _begun(text: str, change: Callable[[str], str]) -> Wording:
    first, *others = Wording(_runs(text)).runs or (Run("", is_kept=False),)
    begun = first if first.is_kept else Run(change(first.letters[:1]) + first.letters[1:], is_kept=False)
    return Wording((begun, *others))


def localise(text: str, words: Words) -> str:
    """Turn the trade words of one of our own sentences into those of the shop, keeping a capital.

    >>> localise("Rabbet depth, mitre length", Words.UK)
    'Rebate depth, mitre length'
    >>> localise("Rabbet depth, mitre length", Words.US)
    'Rabbet depth, miter length'
    """
    if not isinstance(text, Wording):
        return _turned(text, words)
    return "".join(run.letters if run.is_kept else _turned(run.letters, words) for run in text.runs)


def say(pattern: str, words: Words, **values: object) -> Wording:
    """Turn a pattern of ours, then put values into it. What is said is kept: it is not turned again.

    >>> say("Section of {name}: rabbet {size}", Words.UK, name="Grey mat", size="6 mm")
    'Section of Grey mat: rebate 6 mm'
    """
    return typed(localise(worded(pattern, **values) if values else pattern, words))


def day_said(day: date, words: Words) -> str:
    """A day as the shop writes it.

    >>> day_said(date(2026, 11, 29), Words.UK), day_said(date(2026, 11, 29), Words.US)
    ('29 Nov 2026', 'Nov 29, 2026')
    """
    return f"{day:%b} {day.day}, {day.year}" if words is Words.US else f"{day.day} {day:%b} {day.year}"
