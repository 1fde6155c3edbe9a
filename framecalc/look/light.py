"""Light on a member, seen from the front: every facet of its section in its own light.

A *facet* is a straight part of the section's show side, an arc being cut into several. It is lit by the *sky*, what
comes from everywhere and is not hidden by its neighbours, and by the *lamp*, to the upper left in front of the wall,
by the cosine to its normal and unless a higher part stands before it. A *stop* is a place across the face with the
change of brightness there: 0 as a level face, −1 black. Wood is brighter where the lamp lies across its fibres than
along them, as a brushed surface is: so a flat frame shows its mitres.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import atan2, degrees, hypot, pi, sqrt

from framecalc.geometry.outline import Outline, Point, flatten
from framecalc.look.finish import SeenFinish
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM

LIGHT = (-0.44, 0.58, 0.685)
"""Where the lamp is: across, up and toward the front; length 1. Our own, set by eye, no source."""

SKY_RATIO = 0.46
"""How much of the light comes from everywhere. Our own, set by eye, no source."""

FIBRE_N = 1.5
"""How much more wood throws back across its fibres than along them. Our own, set by eye, no source."""

GAMMA_N = 0.85
"""The exponent from light to tone. Our own, set by eye, no source."""

SAGITTA_MM, SMOOTH_DEG, SOFT_MM, LONG_MM = 0.012, 22.0, 0.08, 3.0
"""How finely an arc is cut; up to which turn two facets are one curve; how soon the light changes at an edge; from
which length a facet is even in itself. Our own, set by eye, no source."""

LEANING_RATIO, BESIDE_MM = 0.2, 0.05
"""How much less of the sky an upright surface takes than a level one; what stands nearer than this beside the middle
of a facet hides nothing of it. Our own, set by eye, no source."""

SHADOW_RAD, LAMP_LEVEL_RATIO = 0.4, 0.6
"""How wide the soft edge of a shadow is; how much of the lamp is seen where a wall reaches just up to it. Our own,
set by eye, no source."""

STOP_TOLERANCE_RATIO = 0.012
"""A stop that lies so near the way between its neighbours is left out."""


class Facet(Record):
    """A straight part of the show side, from the outer side inward, with the heights of its ends over the back."""

    from_mm: float
    to_mm: float
    from_up_mm: float
    to_up_mm: float

    @property
    def normal(self) -> Point:
        """Its normal: how far it points inward, and out to the front."""
        across, up = self.to_mm - self.from_mm, self.to_up_mm - self.from_up_mm
        long = hypot(across, up)
        return -up / long, across / long

    @property
    def middle(self) -> Point:
        """The place and the height of its middle."""
        return (self.from_mm + self.to_mm) / 2, (self.from_up_mm + self.to_up_mm) / 2


class Falling(Record):
    """The lamp as a member sees it: along the member, from the outer side inward, out to the front."""

    along_ratio: float
    inward_ratio: float
    out_ratio: float = LIGHT[2]


class ShadeStop(Record):
    """A place across the face and the change of brightness there."""

    at_mm: float
    change_ratio: float


def facets(outline: Outline, *, face_width_mm: float) -> tuple[Facet, ...]:
    """The parts of a section that look to the front, from the outer side to the picture.

    Args:
        face_width_mm: where the member ends, as seen from the front [mm].
    Source: derived.

    >>> from framecalc.geometry.outline import join
    >>> bevelled = Outline(segments=join([(0, 0), (30, 0), (30, 14), (0, 20), (0, 0)]))
    >>> facets(bevelled, face_width_mm=30)
    (Facet(from_mm=0, to_mm=30, from_up_mm=20, to_up_mm=14.0),)
    """
    return tuple(sorted(_facets(outline, face_width_mm), key=lambda facet: facet.from_mm))


def falling_on(inward: Point) -> Falling:
    """The lamp as a member sees it whose picture lies in a direction.

    Args:
        inward: from its outer side to the picture, across and up, 1 long.
    Source: derived.

    >>> falling_on((0, -1)).inward_ratio, falling_on((1, 0)).inward_ratio
    (-0.58, -0.44)
    """
    across, up = inward
    return Falling(along_ratio=LIGHT[1] * across - LIGHT[0] * up, inward_ratio=LIGHT[0] * across + LIGHT[1] * up)


def stops_across(parts: Sequence[Facet], *, lamp: Falling, finish: SeenFinish) -> tuple[ShadeStop, ...]:
    """The light across a member, from the outer side to the picture.

    Source: Lambert's cosine law; the highlight after J. Blinn, 1977, from memory, not re-read; weights set by eye.

    >>> from framecalc.look.finish import BARE
    >>> level = Facet(from_mm=0, to_mm=30, from_up_mm=20, to_up_mm=20)
    >>> [round(stop.change_ratio, 2) for stop in stops_across([level], lamp=falling_on((0, -1)), finish=BARE)]
    [0.03, 0.03]
    """
    changes = [_change(part, parts, lamp, finish) for part in parts]
    stops: list[ShadeStop] = []
    for number, part in enumerate(parts):
        stops += _stops(part, changes[number], _turn(parts, number - 1), _turn(parts, number))
    return tuple(_thinned(stops))


def brightness_ratio(inward: Point, *, slope: Point) -> float:
    """The light on a plain surface, such as the bevel of a mat, to that on a level one.

    Args:
        inward: the direction that it falls in, across and up, 1 long.
        slope: its normal, along that direction and out to the front, 1 long.
    Source: Lambert's cosine law.

    >>> round(brightness_ratio((0, -1), slope=(0, 1)), 6)
    1.0
    """
    lamp = falling_on(inward)
    lit = max(0.0, slope[0] * lamp.inward_ratio + slope[1] * lamp.out_ratio) / lamp.out_ratio
    return SKY_RATIO + (1 - SKY_RATIO) * lit


def _facets(outline: Outline, face_width_mm: float) -> Iterator[Facet]:
    """Counter-clockwise, whatever looks to the front runs from the picture outward."""
    points = flatten(outline, tolerance_mm=SAGITTA_MM)
    for (right, low), (left, high) in pairwise((*points, points[0])):
        to_mm = min(right, face_width_mm)
        if to_mm - left > TOLERANCE_MM:
            end_up_mm = high + (low - high) * (to_mm - left) / (right - left)
            yield Facet(from_mm=left, to_mm=to_mm, from_up_mm=high, to_up_mm=end_up_mm)


def _change(part: Facet, parts: Sequence[Facet], lamp: Falling, finish: SeenFinish) -> float:
    inward, out = part.normal
    outer_rad, inner_rad = _horizons(part, parts)
    lit = _lit(lamp, outer_rad if lamp.inward_ratio < 0 else inner_rad)
    cosine = max(0.0, inward * lamp.inward_ratio + out * lamp.out_ratio) / lamp.out_ratio
    sky = _sky(part, outer_rad, inner_rad) * (1 - LEANING_RATIO * (1 - out))
    value = SKY_RATIO * sky + (1 - SKY_RATIO) * cosine * (1 if finish.hides else _across_fibre(lamp)) * lit
    return float(max(value, 0) ** GAMMA_N - 1 + _highlight(inward, out, lamp, finish) * lit)


def _across_fibre(lamp: Falling) -> float:
    mean = sqrt(1 - (LIGHT[0] ** 2 + LIGHT[1] ** 2) / 2)
    return 1 + FIBRE_N * (sqrt(1 - lamp.along_ratio**2) / mean - 1)


def _highlight(inward: float, out: float, lamp: Falling, finish: SeenFinish) -> float:
    """More or less of the lamp's image than a level face shows."""
    toward = lamp.out_ratio + 1
    long = sqrt(lamp.along_ratio**2 + lamp.inward_ratio**2 + toward**2)
    half, level = lamp.inward_ratio / long, toward / long
    seen = max(0.0, inward * half + out * level) ** finish.sharpness_n
    return float(finish.sheen_ratio * (seen - level**finish.sharpness_n))


def _horizons(part: Facet, parts: Sequence[Facet]) -> Point:
    """How high other parts stand over the middle of a facet, outward and inward [rad]."""
    x, y = part.middle
    ends = [(one.from_mm, one.from_up_mm) for one in parts] + [(one.to_mm, one.to_up_mm) for one in parts]
    outer = (atan2(up - y, x - at) for at, up in ends if at < x - BESIDE_MM)
    inner = (atan2(up - y, at - x) for at, up in ends if at > x + BESIDE_MM)
    return max(outer, default=0.0), max(inner, default=0.0)


def _lit(lamp: Falling, horizon_rad: float) -> float:
    """How much of the lamp stands over the horizon, with a soft edge."""
    lamp_rad = atan2(lamp.out_ratio, abs(lamp.inward_ratio))
    return max(0.0, min(1.0, (lamp_rad - horizon_rad) / SHADOW_RAD + LAMP_LEVEL_RATIO))


def _sky(part: Facet, outer_rad: float, inner_rad: float) -> float:
    """How much of the half round is open: less only by what others hide, not by the facet's own slope."""
    own_rad = atan2(part.to_up_mm - part.from_up_mm, part.to_mm - part.from_mm)
    hidden = max(0.0, outer_rad - max(0.0, -own_rad)) + max(0.0, inner_rad - max(0.0, own_rad))
    return 1 - hidden / pi


def _turn(parts: Sequence[Facet], number: int) -> bool:
    """Whether there is an edge between a facet and the next: a step, a sharp turn, or the end of the face."""
    if not 0 <= number < len(parts) - 1:
        return True
    here, after = parts[number], parts[number + 1]
    turn_deg = degrees(abs(atan2(*here.normal) - atan2(*after.normal)))
    return abs(here.to_up_mm - after.from_up_mm) > TOLERANCE_MM or turn_deg > SMOOTH_DEG


def _stops(part: Facet, change: float, edge_before: bool, edge_after: bool) -> Iterator[ShadeStop]:
    """One in the middle of a part of a curve, one at each edge and at each end of a long facet."""
    long_mm = part.to_mm - part.from_mm
    soft_mm, is_long = min(SOFT_MM, long_mm / 4), long_mm > LONG_MM
    edge_before, edge_after = edge_before or is_long, edge_after or is_long
    if edge_before:
        yield ShadeStop(at_mm=part.from_mm + soft_mm, change_ratio=change)
    if not edge_before and not edge_after:
        yield ShadeStop(at_mm=part.middle[0], change_ratio=change)
    if edge_after:
        yield ShadeStop(at_mm=part.to_mm - soft_mm, change_ratio=change)


def _thinned(stops: list[ShadeStop]) -> list[ShadeStop]:
    """Without the stops that lie on the way between their neighbours."""
    kept = stops[:1]
    for here, after in pairwise(stops[1:]):
        if not _on_the_way(kept[-1], here, after):
            kept.append(here)
    return kept + stops[1:][-1:]


def _on_the_way(before: ShadeStop, here: ShadeStop, after: ShadeStop) -> bool:
    part = (here.at_mm - before.at_mm) / max(after.at_mm - before.at_mm, TOLERANCE_MM)
    between = before.change_ratio + (after.change_ratio - before.change_ratio) * part
    return abs(between - here.change_ratio) < STOP_TOLERANCE_RATIO
