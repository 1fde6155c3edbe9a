"""What can be wrong with an input: the numbers describe nothing that can exist, or cannot be read at all.

Every error is one sentence for the person at the bench and names the `field` (a topic's argument, or a path in the
project file) beside which it belongs.
"""


class FrameCalcError(ValueError):
    """The root of all refusals. `field` names the argument or path that the sentence is about."""

    def __init__(self, sentence: str, *, field: str = "") -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.field = field


class UnreadableLength(FrameCalcError):
    """A text that is no length in the grammar of `units.parse_length`."""


class OutOfRange(FrameCalcError):
    """A length or a count that can be read and lies outside what this field can be."""


class ImpossibleSize(FrameCalcError):
    """Sizes that leave nothing: no sight, no package, no member."""


class ImpossibleSection(FrameCalcError):
    """A section that cannot be milled from its blank."""


class ImpossibleArtwork(FrameCalcError):
    """Measurements that no quadrilateral has."""


class UnreadableProject(FrameCalcError):
    """A file that is no project, or one of a schema or with a field that is not known here."""
