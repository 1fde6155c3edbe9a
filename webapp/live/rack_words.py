"""Sticks of the rack in words: length and section."""

from framecalc.findings import Rounding
from framecalc.units import Step, Unit, describe_size, format_length
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
