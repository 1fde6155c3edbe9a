"""What lengths are measured in: the two units, the steps of a tape, and how close two lengths are one."""

from enum import StrEnum
from fractions import Fraction

from framecalc.records import cached_property

MM_PER_INCH = Fraction(254, 10)
"""International inch, exact. Source: NIST SP 811 (2008 ed.), Appendix B.8, from memory, not re-read."""

TOLERANCE_MM = 1e-6
"""Two lengths closer than this are one length: far below any tool, far above the noise of floats."""


class Unit(StrEnum):
    """What a bare number is measured in."""

    MM = "mm"
    INCH = "in"


class Step(StrEnum):
    """What a length is written to."""

    EIGHTH = "1/8 in"
    SIXTEENTH = "1/16 in"
    THIRTY_SECOND = "1/32 in"
    SIXTY_FOURTH = "1/64 in"
    MILLIMETRE = "1 mm"
    HALF_MILLIMETRE = "0.5 mm"
    TENTH_MILLIMETRE = "0.1 mm"
    HUNDREDTH_MILLIMETRE = "0.01 mm"

    @cached_property
    def unit(self) -> Unit:
        """The unit in which this step is counted."""
        return Unit(self.value.split()[1])

    @cached_property
    def size(self) -> Fraction:
        """The step in its own unit, exact."""
        return Fraction(self.value.split()[0])

    @property
    def finer(self) -> "Step":
        """The next finer step of its unit that a tape shows, for half of what is written to this one.

        >>> Step.SIXTEENTH.finer, Step.MILLIMETRE.finer
        (<Step.THIRTY_SECOND: '1/32 in'>, <Step.HALF_MILLIMETRE: '0.5 mm'>)
        """
        return _FINER.get(self, self)

    @cached_property
    def size_mm(self) -> Fraction:
        """The step in millimetres, exact."""
        return self.size * MM_PER_UNIT[self.unit]


MM_PER_UNIT = {Unit.MM: Fraction(1), Unit.INCH: MM_PER_INCH}
"""A unit in millimetres, exact."""


_FINER = {
    Step.EIGHTH: Step.SIXTEENTH,
    Step.SIXTEENTH: Step.THIRTY_SECOND,
    Step.THIRTY_SECOND: Step.SIXTY_FOURTH,
    Step.MILLIMETRE: Step.HALF_MILLIMETRE,
    Step.HALF_MILLIMETRE: Step.TENTH_MILLIMETRE,
}
