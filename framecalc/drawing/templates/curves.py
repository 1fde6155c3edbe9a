"""An arc as the curves that paper is drawn with; each lies within a ten thousandth of the radius."""

from math import atan2, ceil, cos, pi, sin, tan

from framecalc.geometry.outline import Arc, Point, sweep_rad


def curves_of(arc: Arc) -> list[tuple[Point, Point, Point, Point]]:
    """An arc as cubic curves of at most an eighth of a turn: `4/3 tan(φ/4)` of the radius to each handle.

    Source: derived; such a curve is off by less than 0.00001 of the radius.
    """
    sweep, radius = sweep_rad(arc), arc.radius_mm
    pieces = ceil(abs(sweep) / (pi / 4))
    start_rad = atan2(arc.start[1] - arc.centre[1], arc.start[0] - arc.centre[0])
    turn, handle = sweep / pieces, 4 / 3 * tan(sweep / pieces / 4)

    def on(angle: float, out: float) -> Point:
        """A place on the arc, `out` radii along its tangent."""
        x, y = cos(angle) - out * sin(angle), sin(angle) + out * cos(angle)
        return arc.centre[0] + radius * x, arc.centre[1] + radius * y

    angles = [start_rad + turn * number for number in range(pieces)]
    return [(on(a, 0), on(a, handle), on(a + turn, -handle), on(a + turn, 0)) for a in angles]
