"""Lengths: typed text becomes a number (`reading`), a number becomes text (`writing`), and nowhere else.

A *step* is the finest reading of the tape: a sixteenth of an inch, half a millimetre.
"""

from framecalc.units.measures import MM_PER_INCH, MM_PER_UNIT, TOLERANCE_MM, Step, Unit
from framecalc.units.reading import Comma, Length, parse_length, spell_fractions
from framecalc.units.writing import (
    WrittenLength,
    describe_gap,
    describe_length,
    describe_size,
    format_length,
    step_of_sentences,
    whole_steps_mm,
    write_gap,
)

__all__ = [
    "MM_PER_INCH",
    "MM_PER_UNIT",
    "TOLERANCE_MM",
    "Comma",
    "Length",
    "Step",
    "Unit",
    "WrittenLength",
    "describe_gap",
    "describe_length",
    "describe_size",
    "format_length",
    "parse_length",
    "spell_fractions",
    "step_of_sentences",
    "whole_steps_mm",
    "write_gap",
]
