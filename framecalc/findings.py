"""A finding: the plan can be computed, but will go wrong at the bench.

A topic makes findings from its own numbers; `plan.py` turns argument names into fields of the project and lengths into
the project's unit. Lengths never stand in the sentence as digits: they are named in braces, and their values travel in
`lengths`, so that every finding is written in the unit and to the step that the project uses.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum


class Severity(StrEnum):
    """How bad it is: a stop keeps the ready light out; a warning and a note do not."""

    STOP = "stop"
    WARN = "warn"
    NOTE = "note"

    @property
    def word(self) -> str:
        """What it is called on a page."""
        return {"stop": "Stop", "warn": "Mind", "note": "Note"}[self.value]


class Rounding(StrEnum):
    """The direction in which a length is brought to a step, chosen by what a wrong direction would cost."""

    NEAREST = "nearest"
    UP = "up"
    DOWN = "down"


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A way out: one argument and the value that would do. `says` is a short verb phrase, with no number in it."""

    argument: str
    value_mm: float
    says: str
    rounding: Rounding = Rounding.NEAREST


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What was found, its measured value and its limit, why it matters, where the limit comes from, the ways out.

    `sentence` and `why` may name lengths in braces, `"the lip is {lip}"`; each name is a key of `lengths` [mm].
    `take_out` is a kind of layer that it would help to take out of the package, where that is a way out.
    """

    code: str
    severity: Severity
    sentence: str
    why: str
    source: str
    argument: str
    lengths: Mapping[str, float] = field(default_factory=dict)
    ways: tuple[Way, ...] = ()
    take_out: str = ""
