"""The package apart: its layers one over the other in the order in which they are laid in, each named, with windows.

The frame lies on its face, so the layer at the lip is laid in first: it is the lowest and has the number 1.
"""

from collections.abc import Iterator
from itertools import pairwise
from typing import TypeAlias

from framecalc.drawing.lettering import wrapped
from framecalc.drawing.package.layers import HATCHES, thickness_text
from framecalc.drawing.pen import Pen, run
from framecalc.drawing.record import ACROSS_MM, Drawing
from framecalc.drawing.sheet import Area, Sheet, panel
from framecalc.drawing.style import LETTER_MM, PATTERNS, Role
from framecalc.geometry.outline import Point
from framecalc.mats.cutter import turned_over
from framecalc.mats.windows import WindowMat
from framecalc.package.layers import LayerKind
from framecalc.package.shelf import SOLID_WOOD
from framecalc.plan import FramePlan
from framecalc.plan.inputs import material_of
from framecalc.records import Record
from framecalc.sizes.shape import Shape
from framecalc.tables.sheets import sheet_materials
from framecalc.units import Unit
from framecalc.words import Words, say

ROW_MM, SHEET_MM, LEAN_MM = 13.0, 9.5, 7.0
"""From one layer to the next, how deep a layer is drawn, and how far its far edge is drawn aside."""

LINE_MM, LINES = 4.6, 3
"""From one line of words to the next, and on how many lines each of the two things said of a layer may stand."""

STRETCH = 1.6
"""How much further apart than on the screen the layers may lie on a large sheet."""

PART = 0.38
"""How much of the room's width the layers take; the rest is for what they are called."""

THINNEST_MM, THICKEST_MM, PER_MM = 0.5, 3.0, 0.22
"""How thick a layer is drawn: at least, at most, and for each of its millimetres."""

NUMBER_MM = 5.4
"""How much room the number of a layer has, before its words."""

STRIP = 0.08
"""How wide strips along the edge are drawn, in parts of the layer."""

STRIPS = (LayerKind.SPACER, LayerKind.FILLET)

OpeningOnLayer: TypeAlias = tuple[float, float, float, float]
"""An opening in a layer: left, near, right, far, in parts of its width and its height."""


class Sheetlet(Record):
    """A layer as drawn: its name, its material, its outline and its openings in fractions of its width and height."""

    kind: LayerKind
    name: str
    thickness: str
    material: str
    thickness_mm: float
    size: tuple[float, float]
    outline: tuple[Point, ...]
    openings: tuple[OpeningOnLayer, ...]


class Exploded(Record):
    """What the drawing reads from a plan: from the lip to the back, or in a tray from the ledge to the front."""

    layers: tuple[Sheetlet, ...]
    is_tray: bool
    unit: Unit
    words: Words
    name: str


def read_exploded(plan: FramePlan) -> Exploded:
    """Read from a plan the layers and their openings, in the order in which they are laid in."""
    layers = tuple(_layers(plan))
    return Exploded(
        layers=layers[::-1] if plan.is_tray else layers,
        is_tray=plan.is_tray,
        unit=plan.unit,
        words=plan.project.shop.words,
        name=plan.frame.name,
    )


def exploded_title(drawing: Exploded) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    named = ", ".join(f"{layer.name} {layer.thickness}" for layer in drawing.layers)
    laid = "laid on the ledge, face up" if drawing.is_tray else "laid in"
    says = f"Package of {{name}} apart, in the order in which it is {laid}: {{named}}"
    return say(says, drawing.words, name=drawing.name, named=named)


def exploded_up_mm(drawing: Exploded) -> float:
    """The height of the panel."""
    return (sum(_rows_mm(drawing, panel(ACROSS_MM, 100).room)) or ROW_MM) + 7


def draw_exploded(drawing: Exploded, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the layers, the first at the bottom; the drawing is to no scale."""
    rows_mm = _rows_mm(drawing, room)
    stretch = min(STRETCH, (room.up_mm - 5) / sum(rows_mm)) if sheet.is_paper and rows_mm else 1.0
    top_mm = room.top_mm
    for number in range(len(rows_mm), 0, -1):
        layer, row_mm = drawing.layers[number - 1], rows_mm[number - 1]
        bottom_mm = top_mm + row_mm * stretch
        beside = Area(left_mm=_words_mm(room), top_mm=top_mm, right_mm=room.right_mm, bottom_mm=bottom_mm)
        deep_mm = min(row_mm * stretch - 3.5, SHEET_MM)
        _draw_layer(layer, pen, (room.left_mm + 1, top_mm), _across_mm(room), deep_mm)
        _name(layer, number, pen, beside)
        top_mm = bottom_mm
    first = "1 lies on the ledge, face up" if drawing.is_tray else "1 is nearest the front"
    pen.text(first, (room.left_mm + 1, top_mm + 2.6), role=Role.FAINT)
    return 0.0


def _across_mm(room: Area) -> float:
    """The drawn width of a layer."""
    return min(90.0, PART * room.across_mm) - LEAN_MM


def _words_mm(room: Area) -> float:
    """The start of the numbers and of the words."""
    return room.left_mm + _across_mm(room) + LEAN_MM + 4


def _rows_mm(drawing: Exploded, room: Area) -> list[float]:
    """The height of each layer on the sheet: as much as its words need."""
    to_mm = room.right_mm - _words_mm(room) - NUMBER_MM
    return [max(ROW_MM, len(_said(layer, to_mm)) * LINE_MM + 3.5) for layer in drawing.layers]


def _layers(plan: FramePlan) -> Iterator[Sheetlet]:
    cuts = iter(plan.package.mats.cut if plan.package.mats else ())
    for layer in plan.layers:
        cut = next(cuts, None) if layer.kind is LayerKind.MAT else None
        yield Sheetlet(
            kind=layer.kind,
            name=layer.name,
            thickness=thickness_text(layer.thickness, unit=plan.unit),
            material=say(_material(material_of(layer)), plan.project.shop.words),
            thickness_mm=layer.thickness.mm,
            size=_size(plan, layer.kind),
            outline=_outline(plan.shape),
            openings=_openings(turned_over(cut.windows), plan.shape) if cut else _inside(layer.kind),
        )


def _outline(shape: Shape) -> tuple[Point, ...]:
    """The outline of a layer in fractions of the rectangle round it, from its near left corner."""
    extent = shape.extent(1, 1)
    corners = shape.corners(1, 1)
    points = ((0.5 + x / extent.across_mm, (y + extent.below_mm) / extent.up_mm) for x, y in corners)
    first, *others = points
    return first, *reversed(others)


def _openings(mat: WindowMat, shape: Shape) -> tuple[OpeningOnLayer, ...]:
    """The windows of a mat seen from behind, in fractions of its size."""
    if not shape.is_rectangle:
        return tuple(_parallel(window.across_mm / mat.across_mm, shape) for window in mat.windows)
    return tuple(
        (one.left_mm / mat.across_mm, one.bottom_mm / mat.up_mm, one.right_mm / mat.across_mm, one.top_mm / mat.up_mm)
        for one in mat.windows
    )


def _parallel(part: float, shape: Shape) -> OpeningOnLayer:
    """A window round the middle of a polygon, so large a part of it."""
    extent = shape.extent(1, 1)
    low = extent.below_mm / extent.up_mm * (1 - part)
    return (1 - part) / 2, low, (1 + part) / 2, low + part


def _size(plan: FramePlan, kind: LayerKind) -> tuple[float, float]:
    """The size of a layer as a fraction of the package; the artwork may be smaller."""
    if kind is not LayerKind.ARTWORK:
        return 1.0, 1.0
    sizes, settled = plan.sizes, plan.settled
    return (
        min(1.0, settled.artwork_across_mm / sizes.package_across_mm),
        min(1.0, settled.artwork_up_mm / sizes.package_up_mm),
    )


def _inside(kind: LayerKind) -> tuple[OpeningOnLayer, ...]:
    """The opening inside a strip along the edge."""
    return ((STRIP, STRIP, 1 - STRIP, 1 - STRIP),) if kind in STRIPS else ()


def _material(name: str) -> str:
    if name == SOLID_WOOD:
        return "solid wood"
    return next((material.name for material in sheet_materials() if material.material_id == name), "")


def _draw_layer(layer: Sheetlet, pen: Pen, corner: Point, across_mm: float, deep_mm: float) -> None:
    """A layer seen aslant from above, and the edge that is turned to whoever looks."""

    def at(right: float, away: float) -> Point:
        """A point of the layer, by fractions of its width from the left and of its height from the near edge."""
        right, away = 0.5 + (right - 0.5) * layer.size[0], 0.5 + (away - 0.5) * layer.size[1]
        return corner[0] + right * across_mm + away * LEAN_MM, corner[1] + (1 - away) * deep_mm

    pattern = PATTERNS[HATCHES[layer.kind]]
    thick_mm = min(THICKEST_MM, max(THINNEST_MM, layer.thickness_mm * PER_MM))
    face = [at(right, away) for right, away in layer.outline]
    holes = [[at(right, away) for right, away in _hole(layer.outline, opening)] for opening in layer.openings]
    for first, second in pairwise((*face, face[0])):
        if second[0] > first[0]:
            edge = [first, second, (second[0], second[1] + thick_mm), (first[0], first[1] + thick_mm)]
            pen.area(run(edge, closed=True), Role.LAYER, fill=pattern.solid)
    pen.area("".join(run(shape, closed=True) for shape in (face, *holes)), Role.LAYER, fill=pattern.ground)


def _hole(outline: tuple[Point, ...], opening: OpeningOnLayer) -> Iterator[Point]:
    """An opening in the form of the layer itself, round the other way."""
    left, low, right, high = opening
    for x, y in reversed(outline):
        yield left + x * (right - left), low + y * (high - low)


def _name(layer: Sheetlet, number: int, pen: Pen, room: Area) -> None:
    """Its number in the order of fitting and its name; under that its thickness and material."""
    said = _said(layer, room.right_mm - room.left_mm - NUMBER_MM)
    middle_mm = room.top_mm + max(SHEET_MM, len(said) * LINE_MM) / 2 + LETTER_MM * 0.36
    pen.text(str(number), (room.left_mm + 2, middle_mm), anchor="middle", role=Role.STRONG)
    for line, (text, role) in enumerate(said):
        down_mm = (line - (len(said) - 1) / 2) * LINE_MM
        pen.text(text, (room.left_mm + NUMBER_MM, middle_mm + down_mm), role=role)


def _said(layer: Sheetlet, to_mm: float) -> list[tuple[str, Role]]:
    under = f"{layer.thickness}, {layer.material}" if layer.material else layer.thickness
    names = [(text, Role.LETTER) for text in wrapped(layer.name, to_mm=to_mm, lines=LINES)]
    return names + [(text, Role.FAINT) for text in wrapped(under, to_mm=to_mm, lines=LINES)]


EXPLODED = Drawing(name="exploded", read=read_exploded, title=exploded_title, draw=draw_exploded, up_mm=exploded_up_mm)
