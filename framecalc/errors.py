"""What can be wrong with an input: the numbers describe nothing that can exist, or cannot be read at all.

Every error is one sentence for the person at the bench and names the `field` (a topic's argument, or a path in the
project file) beside which it belongs. A topic names lengths in braces, `"the lip is {lip}"`, as a finding does:
`sentence` writes them in millimetres, `wording` and `lengths` let `plan.py` write them in the project's unit.
"""

from collections.abc import Mapping

from framecalc.words import Wording, typed


def quoted(name: str) -> Wording:
    """Quote what a person called a thing, to be put into a sentence; a brace in it names no length.

    Source: derived.

    >>> quoted("hall {left}").format_map({"left": "6 mm"})
    '“hall {left}”'
    """
    return typed(f"“{name}”")


class FrameCalcError(ValueError):
    """The root of all refusals. `field` names the argument or path that the sentence is about."""

    def __init__(self, wording: str, *, field: str = "", lengths: Mapping[str, float] | None = None) -> None:
        self.wording = wording
        self.lengths = dict(lengths or {})
        written = {name: f"{length_mm:.6g} mm" for name, length_mm in self.lengths.items()}
        self.sentence = wording.format_map(written) if written else wording
        self.field = field
        super().__init__(self.sentence)


class UnreadableLength(FrameCalcError):
    """A text that is no length in the grammar of `units.parse_length`."""


class UnreadableNumber(FrameCalcError):
    """A text that is no number, or one that can be read two ways."""


class OutOfRange(FrameCalcError):
    """A length or a count that can be read and lies outside what this field can be."""


class ImpossibleSize(FrameCalcError):
    """Sizes that leave nothing: no sight, no package, no member."""


class ImpossibleSection(FrameCalcError):
    """A section that cannot be milled from its blank."""


class ImpossibleArtwork(FrameCalcError):
    """Measurements that no quadrilateral has."""


class ImpossibleLayout(FrameCalcError):
    """Parts that no sheet at hand or to buy can hold, or more of them than one layout takes."""


class UnreadableProject(FrameCalcError):
    """A file that is no project, or one of a schema or with a field that is not known here."""


class ImpossibleTimber(FrameCalcError):
    """Boards, sticks and pieces of which no cutting plan can be made."""


class ImpossibleJoint(FrameCalcError):
    """A joint larger than the members that it would join."""
