"""Errors of an input: it cannot be read, or its numbers describe nothing that can exist.

Every error is one sentence for the person at the bench and names its `field`: an argument of a topic, or a path in the
project file. A topic names lengths in braces, `"the lip is {lip}"`, as a finding does: `sentence` writes them in
millimetres; with `wording` and `lengths` the plan writes them in the project's unit.
"""

from collections.abc import Mapping

from framecalc.words import Wording, ours, typed


def quoted(name: str) -> Wording:
    """Quote a name that a person typed, for use in a sentence; a brace in it names no length.

    Source: derived.

    >>> quoted("hall {left}").format_map({"left": "6 mm"})
    '“hall {left}”'
    """
    return typed(f"“{name}”")


class FrameCalcError(ValueError):
    """The base of all errors. `field` names the argument or path that the sentence is about."""

    def __init__(
        self,
        wording: str,
        *,
        field: str = "",
        lengths: Mapping[str, float] | None = None,
        measures: Mapping[str, tuple[float, str]] | None = None,
    ) -> None:
        """Make an error; `measures` are values beside their unit (°C, N, MPa), which a job may write in its own."""
        self.wording = ours(wording)
        self.lengths = dict(lengths or {})
        self.measures = dict(measures or {})
        written = {name: f"{length_mm:.6g} mm" for name, length_mm in self.lengths.items()}
        written |= {name: f"{value:g} {sign}" for name, (value, sign) in self.measures.items()}
        self.sentence = self.wording.format_map(written) if written else wording
        self.field = field
        super().__init__(self.sentence)


class UnreadableLength(FrameCalcError):
    """A text that is not a length in the grammar of `units.parse_length`."""


class UnreadableNumber(FrameCalcError):
    """A text that is not a number, or can be read two ways."""


class OutOfRange(FrameCalcError):
    """A readable length or count outside the range of its field."""


class ImpossibleSize(FrameCalcError):
    """Sizes that leave nothing: no sight, no package, no member."""


class ImpossibleSection(FrameCalcError):
    """A section that cannot be milled from its blank."""


class ImpossibleArtwork(FrameCalcError):
    """Measurements that no quadrilateral has."""


class ImpossibleLayout(FrameCalcError):
    """Parts that no sheet on hand or to buy can hold, or more of them than one layout takes."""


class UnreadableProject(FrameCalcError):
    """A file that is not a project, or has an unknown schema or field."""


class ImpossibleTimber(FrameCalcError):
    """Boards, sticks and pieces without a possible cutting plan."""


class ImpossibleJoint(FrameCalcError):
    """A joint larger than the members that it joins."""
