"""The layers of a package in a section, each with its hatch, and the leader lines that name them.

The leaders rise (or fall) side by side from a dot in each layer and turn at right angles to their labels, which stand
in the order of the layers: no leader crosses another, and the labels never touch.
"""

from collections.abc import Sequence
from math import inf
from typing import Protocol

from framecalc.drawing.breaks import SWING_MM, break_line
from framecalc.drawing.lettering import shortened, text_across_mm
from framecalc.drawing.pen import Pen, circle, number, rectangle, run
from framecalc.drawing.style import LETTER_MM, PATTERNS, Hatch, Role
from framecalc.package.layers import LayerKind
from framecalc.plan import FramePlan
from framecalc.project import Layer
from framecalc.records import Record
from framecalc.units import Length, Unit

LABEL_MM = 4.7
"""From one label to the next."""

FEW_LABELS, UP_MM = 6, 76.0
"""How tall the panel of a section is, for so many labels; more make it taller, so that they do not crowd the member."""

LEADER_MM = 1.7
"""From one leader to the next."""

THIN_MM, HAIR_MM = 0.9, 0.22
"""A layer thinner than this on the sheet is filled and not hatched; none is drawn thinner than a hair."""

HATCHES = {
    LayerKind.FILLET: Hatch.FILLET,
    LayerKind.GLAZING: Hatch.GLAZING,
    LayerKind.MAT: Hatch.MAT,
    LayerKind.SPACER: Hatch.SPACER,
    LayerKind.ARTWORK: Hatch.ARTWORK,
    LayerKind.BACKING: Hatch.BACKING,
    LayerKind.BACK: Hatch.BACK,
    LayerKind.DUST_COVER: Hatch.PAPER,
}


class DrawnLayer(Record):
    """A layer as drawn: its kind, name, typed thickness, and how far in it reaches (None: all the way)."""

    kind: LayerKind
    name: str
    thickness: str
    thickness_mm: float
    reach_mm: float | None = None

    def label(self, *, to_mm: float = inf) -> str:
        """Its name, shortened if it has no room, and its thickness, never shortened."""
        thickness_mm = text_across_mm(f" {self.thickness}")
        return f"{shortened(self.name, to_mm=to_mm - thickness_mm)} {self.thickness}"


class Named(Protocol):
    """What has a label."""

    def label(self, *, to_mm: float = inf) -> str:
        """The words, shortened if they have no room."""


class Pointed(Named, Protocol):
    """What a leader points at, on the sheet."""

    @property
    def top_mm(self) -> float:
        """Its upper edge."""

    @property
    def right_mm(self) -> float:
        """Where it ends."""

    @property
    def middle_mm(self) -> float:
        """Its middle, down the sheet."""


class LayerStrip(Record):
    """A layer on the sheet."""

    layer: DrawnLayer
    left_mm: float
    top_mm: float
    right_mm: float
    bottom_mm: float

    @property
    def middle_mm(self) -> float:
        """Its middle, down the sheet."""
        return (self.top_mm + self.bottom_mm) / 2

    def label(self, *, to_mm: float = inf) -> str:
        """The words at its leader."""
        return self.layer.label(to_mm=to_mm)


def read_layers(plan: FramePlan, *, sight_mm: float | None = None) -> tuple[DrawnLayer, ...]:
    """Read the layers in the rabbet from a plan.

    A mat ends at its window, a spacer under the lip, `sight_mm` from its edge, and a fillet shows beside the lip.
    """
    layers = [layer for layer in plan.layers if layer.kind.is_in_rabbet]
    lowest = max((at for at, layer in enumerate(layers) if layer.kind is LayerKind.MAT), default=-1)
    return tuple(
        _drawn(layer, plan.unit, _reach_mm(plan, layer.kind, sight_mm, is_upper=at < lowest))
        for at, layer in enumerate(layers)
    )


def _reach_mm(plan: FramePlan, kind: LayerKind, sight_mm: float | None, *, is_upper: bool) -> float | None:
    """How far in a layer reaches; an upper mat ends before the lower one by the reveal."""
    mats = plan.package.mats
    if kind is LayerKind.MAT and mats:
        return mats.mat.border_sides_mm - (mats.reveal_mm if is_upper else 0.0)
    if sight_mm is None or kind not in (LayerKind.SPACER, LayerKind.FILLET):
        return None
    return sight_mm + (plan.package.fillet_mm if kind is LayerKind.FILLET else 0.0)


def read_cover(plan: FramePlan) -> DrawnLayer | None:
    """Read the dust cover from a plan, if there is one."""
    covers = (layer for layer in plan.layers if layer.kind is LayerKind.DUST_COVER)
    return next((_drawn(layer, plan.unit, None) for layer in covers), None)


def _drawn(layer: Layer, unit: Unit, reach_mm: float | None) -> DrawnLayer:
    return DrawnLayer(
        kind=layer.kind,
        name=layer.name,
        thickness=thickness_text(layer.thickness, unit=unit),
        thickness_mm=layer.thickness.mm,
        reach_mm=reach_mm,
    )


def thickness_text(thickness: Length, *, unit: Unit) -> str:
    """A thickness as typed, with its unit only if that is not the project's own.

    >>> from framecalc.units import parse_length
    >>> ply = parse_length("6 mm")
    >>> thickness_text(ply, unit=Unit.MM), thickness_text(ply, unit=Unit.INCH)
    ('6', '6 mm')
    """
    return thickness.text.removesuffix(unit.value).rstrip()


def stack_strips(
    layers: Sequence[DrawnLayer], *, left_mm: float, top_mm: float, right_mm: float, scale: float
) -> list[LayerStrip]:
    """Lay layers on the sheet, from the top down."""
    strips = []
    for layer in layers:
        bottom_mm = top_mm + layer.thickness_mm * scale
        end_mm = right_mm if layer.reach_mm is None else min(right_mm, left_mm + layer.reach_mm * scale)
        strips.append(LayerStrip(layer=layer, left_mm=left_mm, top_mm=top_mm, right_mm=end_mm, bottom_mm=bottom_mm))
        top_mm = bottom_mm
    return strips


def draw_strips(pen: Pen, strips: Sequence[LayerStrip], *, break_mm: float) -> None:
    """Draw layers, broken off by a freehand line at `break_mm`."""
    if not strips:
        return
    top, bottom, left = strips[0].top_mm, strips[-1].bottom_mm, min(strip.left_mm for strip in strips)
    wave = break_line((break_mm, top - 1), (break_mm, bottom + 1))
    clip = pen.clip(f"{wave}H{number(left - 1)}V{number(top - 1)}Z")
    for strip in strips:
        _draw_strip(pen, strip, break_mm, clip)
    pen.line(wave, Role.BREAK)


def widest_label_mm(layers: Sequence[Named]) -> float:
    """The room that the widest label needs."""
    return max((text_across_mm(layer.label()) for layer in layers), default=0.0)


def draw_leaders_left(pen: Pen, strips: Sequence[Pointed], *, first_mm: float, labels_mm: float) -> None:
    """Name layers in a column left of their leaders; the first label's middle lies at `labels_mm`.

    The lowest layer has the leftmost leader where the labels stand above, the uppermost where they stand below.
    """
    above = bool(strips) and labels_mm < strips[0].top_mm
    for row, strip in enumerate(strips):
        place = len(strips) - 1 - row if above else row
        text_mm = first_mm - 1.4
        text = strip.label(to_mm=text_mm - 1)
        _leader(pen, strip, first_mm + place * LEADER_MM, labels_mm + row * LABEL_MM, text_mm + 0.7)
        pen.text(text, (text_mm, labels_mm + row * LABEL_MM + LETTER_MM * 0.36), anchor="end")


def draw_leaders_right(
    pen: Pen, strips: Sequence[Pointed], *, first_mm: float, labels_mm: float, limit_mm: float
) -> None:
    """Name layers in a column right of their leaders and above the package, up to `limit_mm`."""
    text_mm = first_mm + (len(strips) - 1) * LEADER_MM + 1.9
    for row, strip in enumerate(strips):
        text = strip.label(to_mm=limit_mm - text_mm)
        _leader(pen, strip, first_mm + row * LEADER_MM, labels_mm + row * LABEL_MM, text_mm - 0.7)
        pen.text(text, (text_mm, labels_mm + row * LABEL_MM + LETTER_MM * 0.36))


def section_up_mm(layers: Sequence[Named]) -> float:
    """The height of the panel of a section with these layers."""
    return UP_MM + LABEL_MM * max(0, len(layers) - FEW_LABELS)


def _draw_strip(pen: Pen, strip: LayerStrip, break_mm: float, clip: str) -> None:
    hatch = HATCHES[strip.layer.kind]
    thick_mm = strip.bottom_mm - strip.top_mm
    over_mm = SWING_MM + 0.5 if strip.right_mm >= break_mm else 0
    grow_mm = max(0.0, HAIR_MM - thick_mm) / 2
    path = rectangle(strip.left_mm, strip.top_mm - grow_mm, strip.right_mm + over_mm, strip.bottom_mm + grow_mm)
    fill = pen.hatch(hatch) if thick_mm > THIN_MM else PATTERNS[hatch].solid
    pen.area(path, Role.LAYER if thick_mm > THIN_MM / 2 else Role.THIN, fill=fill, clip=clip)


def _leader(pen: Pen, strip: Pointed, at_mm: float, label_mm: float, text_mm: float) -> None:
    """From a dot in the layer to the label; a layer that ends short of its leader is reached along its own height."""
    dot_mm = min(at_mm, strip.right_mm - 1.2)
    corner = [(at_mm, strip.middle_mm)] if dot_mm < at_mm else []
    pen.line(run([(dot_mm, strip.middle_mm), *corner, (at_mm, label_mm), (text_mm, label_mm)]), Role.LEADER)
    pen.line(circle((dot_mm, strip.middle_mm), 0.45), Role.ARROW)
