"""Sticks of the rack in words: length, section and where they come from."""

from framecalc.findings import Rounding
from framecalc.units import Step, Unit, describe_size, format_length
from framecalc.words import Wording, typed, worded
from webapp.data.rack_file import RackEntry


def length_said(entry: RackEntry, unit: Unit) -> str:
    """The length as typed; that of an off-cut, which nobody typed, in the shop's unit and rounded down."""
    if unit is Unit.INCH and entry.is_off_cut and entry.length.text.endswith("mm"):
        inches = format_length(entry.length.mm, step=Step.SIXTEENTH, rounding=Rounding.DOWN).text
        return f"{inches} in ({entry.length.text})"
    return entry.length.text


def section_said(entry: RackEntry, unit: Unit) -> str:
    """Width and thickness, in the shop's unit."""
    return describe_size(entry.width.mm, entry.thickness.mm, unit=unit)


_OFF_CUT_OF = "off-cut of "


def origin_said(entry: RackEntry) -> Wording:
    """Where it comes from: what the program wrote turns with the shop's words, what was typed stays."""
    stick = entry.origin.removeprefix(_OFF_CUT_OF)
    return typed(stick) if stick == entry.origin else worded("off-cut of {stick}", stick=stick)
