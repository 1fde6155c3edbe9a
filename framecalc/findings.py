"""A finding: the plan can be calculated, but something will go wrong at the bench.

A topic makes findings from its own numbers; the plan turns argument names into fields of the project and lengths into
the project's unit. A sentence never holds lengths as digits: it names them in braces, and `lengths` has their values.
Every finding is thus written in the unit and to the step of the project.
"""

from collections.abc import Mapping
from enum import StrEnum

from framecalc.records import Record, field


class Severity(StrEnum):
    """How bad it is: a stop keeps the ready light out; a warning and a note do not."""

    STOP = "stop"
    WARN = "warn"
    NOTE = "note"

    @property
    def word(self) -> str:
        """Its name on a page."""
        return {"stop": "Stop", "warn": "Check", "note": "Note"}[self.value]


class Rounding(StrEnum):
    """The direction in which a length is rounded to a step: the safe one for its use."""

    NEAREST = "nearest"
    UP = "up"
    DOWN = "down"


class Way(Record):
    """A way out: an argument and the value that removes the finding. `says` is a short verb phrase without a number."""

    argument: str
    value_mm: float
    says: str
    rounding: Rounding = Rounding.NEAREST


class Finding(Record):
    """One finding: its sentence, the reason that it matters, the source of its limit, and the ways out.

    `sentence` and `why` may name lengths in braces, `"the lip is {lip}"`; each name is a key of `lengths` [mm].
    `measures` are other values in braces, each beside its unit (°C, N, MPa), which a job writes in its own.
    `take_out` is a kind of layer to remove from the package, where that is a way out.
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
    measures: Mapping[str, tuple[float, str]] = field(default_factory=dict)
