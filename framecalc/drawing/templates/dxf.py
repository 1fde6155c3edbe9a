"""A template as a DXF: one layer for each operation, closed polylines with true arcs, in millimetres, y up."""

from io import StringIO
from math import tan
from typing import TYPE_CHECKING

from framecalc.drawing.pen import clean
from framecalc.drawing.style import CAPITAL_RATIO
from framecalc.drawing.templates.operations import (
    USUAL_NAMES,
    GroupNames,
    MachineOperations,
    Operation,
    machine_work,
)
from framecalc.geometry.outline import Arc, Outline, sweep_rad
from framecalc.templates.template import Template

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

COLOUR = 7
"""Black on white, white on black, for all: layers tell operations apart."""


def template_dxf(template: Template, *, kerf_mm: float, names: GroupNames = USUAL_NAMES) -> str:
    """Write a template as a DXF of the year 2010, which programs have long been able to read.

    Args:
        kerf_mm: what the beam takes away [mm], 0 to 4; 0 for a router, whose program makes up for the bit.
        names: what the layers are called.
    Raises:
        OutOfRange: a kerf that no beam has.
        ImpossibleSize: a part or a hole is too narrow for the kerf.
    """
    work = machine_work(template, kerf_mm=kerf_mm)
    document = _empty(names)
    _add(work, document.modelspace(), names)
    written = StringIO()
    document.write(written)
    return written.getvalue()


def _empty(names: GroupNames) -> "Drawing":
    """A document in millimetres with a layer for each operation, without the hour: equal templates, equal files."""
    import ezdxf
    from ezdxf.units import MM

    ezdxf.options.write_fixed_meta_data_for_testing = True
    document = ezdxf.new("R2010", units=MM)
    document.header["$MEASUREMENT"] = 1
    for operation in Operation:
        document.layers.add(names.of(operation), color=COLOUR)
    return document


def _add(work: MachineOperations, space: "Modelspace", names: GroupNames) -> None:
    for operation, outlines in ((Operation.CUT, work.cuts), (Operation.MARK, work.zones)):
        for outline in outlines:
            space.add_lwpolyline(_corners(outline), format="xyb", close=True, dxfattribs=_on(names, operation))
    for mark in work.scores:
        space.add_line(mark.start, mark.end, dxfattribs=_on(names, Operation.SCORE))
    for word in work.words:
        at = _on(names, Operation.ENGRAVE) | {"insert": word.at}
        space.add_text(clean(word.text), height=word.letter_mm * CAPITAL_RATIO, dxfattribs=at)


def _on(names: GroupNames, operation: Operation) -> dict[str, object]:
    return {"layer": names.of(operation)}


def _corners(outline: Outline) -> list[tuple[float, float, float]]:
    """Each corner with the bulge of what follows it: the tangent of a quarter of an arc's sweep, 0 for a line."""
    return [
        (*segment.start, tan(sweep_rad(segment) / 4) if isinstance(segment, Arc) else 0.0)
        for segment in outline.segments
    ]
