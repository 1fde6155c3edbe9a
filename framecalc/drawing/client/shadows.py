"""Soft shadows: of a frame on its wall, of an edge on what lies deeper. Each is a stack of pale layers, no filter.

A layer's opacity is a whole number of 255ths, which every renderer rounds alike. How soft and how dark shadows are is
our own, set by eye, no source.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import hypot

from framecalc.drawing.pen import Pen, number, point_text, run
from framecalc.drawing.ring import Size, ring
from framecalc.drawing.sheet import View
from framecalc.geometry.outline import Point
from framecalc.look.light import LIGHT
from framecalc.records import replace
from framecalc.sizes.shape import Shape

SHADOW = "#160e06"
LEAST_OPACITY = 2 / 255
WALL_LAYERS, EDGE_LAYERS = 15, 18
INSET, FALLS, SOFT = (0.1, 0.6), (0.2, 1.35), (0.1, 1.55)
"""Of a shadow on the wall, its nearest and its farthest layer to the thickness: how far in it begins, how far it falls,
how round and wide it is."""


def away_from_lamp(view: View, deep_mm: float) -> View:
    """Where a shadow falls that something throws on what lies so much deeper."""
    across, up = (-part / LIGHT[2] * deep_mm * view.scale for part in LIGHT[:2])
    return replace(view, left_mm=view.left_mm + across, base_mm=view.base_mm - up)


def reach_on_wall_mm(thick_mm: float) -> float:
    """How far the shadow of a frame reaches beyond its outer edge, down or across."""
    slope = max(abs(part) for part in LIGHT[:2]) / LIGHT[2]
    return thick_mm * (FALLS[1] * slope + SOFT[1] - INSET[1])


def draw_on_wall_behind(shape: Shape, outside_mm: Size, view: View, pen: Pen, *, thick_mm: float) -> None:
    """Draw the shadow of a frame on its wall: wider and farther off as it fades."""
    layers = max(7, min(WALL_LAYERS, round(thick_mm * view.scale * 6)))
    for layer in range(layers):
        far = layer / (layers - 1)
        inset_mm = thick_mm * (INSET[0] + (INSET[1] - INSET[0]) * far)
        size = outside_mm[0] - 2 * inset_mm, outside_mm[1] - 2 * inset_mm
        fallen = away_from_lamp(view, thick_mm * (FALLS[0] + (FALLS[1] - FALLS[0]) * far))
        soft_mm = thick_mm * (SOFT[0] + (SOFT[1] - SOFT[0]) * far**1.3)
        path = _rounded([fallen.at(corner) for corner in shape.corners(*size)], soft_mm * view.scale)
        opacity = (8.6 - 6.8 * far**0.7) / 255 * WALL_LAYERS / layers
        pen.tint(path, "#000000", opacity=max(LEAST_OPACITY, opacity))


def draw_inside_edge(
    shape: Shape,
    size_mm: Size,
    view: View,
    pen: Pen,
    *,
    deep_mm: float,
    dark: float,
    soft_mm: float,
    middle: Point = (0.0, 0.0),
) -> None:
    """Draw the shadow that the edge of an opening throws on what lies deeper inside it."""
    clip = pen.clip(ring(view, shape, size_mm, middle))
    beyond = ring(view, shape, (size_mm[0] + 8 * deep_mm + 20, size_mm[1] + 8 * deep_mm + 20), middle)
    layers = max(3, min(EDGE_LAYERS, round(deep_mm * view.scale * 4)))
    with pen.within(clip=clip):
        for layer in range(layers):
            part = layer / (layers - 1)
            narrower = 2 * soft_mm * part
            opening = min(size_mm[0], size_mm[1]) > 2 * narrower
            size = (size_mm[0] - narrower, size_mm[1] - narrower) if opening else size_mm
            fallen = away_from_lamp(view, deep_mm * (0.2 + part))
            path = beyond + ring(fallen, shape, size, middle)
            opacity = dark * (1.3 - part) / layers
            pen.tint(path, SHADOW, opacity=max(LEAST_OPACITY, opacity), even_odd=True)


def draw_round_panel(shape: Shape, size_mm: Size, view: View, pen: Pen, *, deep_mm: float) -> None:
    """Draw the shadow of a panel on the floor that it stands over."""
    layers = 7
    for layer in range(layers):
        fallen, soft_mm = away_from_lamp(view, deep_mm * 0.3), deep_mm * 0.16 * (layer + 1)
        path = _rounded([fallen.at(corner) for corner in shape.corners(*size_mm)], soft_mm * view.scale)
        pen.tint(path, "#000000", opacity=16 / 255)


def _rounded(corners: Sequence[Point], radius: float) -> str:
    """An outline set outward by a radius, with round corners. Corners run clockwise on the sheet."""
    steps = list(_offset(corners, radius))
    arc = f"A{number(radius)},{number(radius)} 0 0 1 "
    sides = [f"{point_text(start)}L{point_text(end)}" for start, end in steps]
    return "M" + arc.join(sides) + arc + point_text(steps[0][0]) + "Z"


def _offset(corners: Sequence[Point], by: float) -> Iterator[tuple[Point, Point]]:
    for (x, y), (end_x, end_y) in pairwise((*corners, corners[0])):
        long = hypot(end_x - x, end_y - y) or 1.0
        out = (end_y - y) / long * by, (x - end_x) / long * by
        yield (x + out[0], y + out[1]), (end_x + out[0], end_y + out[1])


def edge_lines(shape: Shape, size_mm: Size, view: View) -> Iterator[tuple[str, Point]]:
    """Each side of an outline on the sheet, with the direction in which its middle lies, across and up."""
    corners = shape.corners(*size_mm)
    for (x, y), (end_x, end_y) in pairwise((*corners, corners[0])):
        long = hypot(end_x - x, end_y - y) or 1.0
        yield run([view.at((x, y)), view.at((end_x, end_y))]), ((end_y - y) / long, (x - end_x) / long)
