"""One stick: what four members take of it, and what a stick on the rack allows.

A *stick* is a length of stock of the member's section. Two members laid long point to long point share the kerf between
them, which takes kerf·√2 along the stick when the blade stands at 45°. The *trim* is what is cut away at each end of
the stick, the end's own mitre cut included.
"""

from collections.abc import Sequence
from math import sqrt

from framecalc.errors import ImpossibleSize
from framecalc.limits import require_positive
from framecalc.sizes.chain import require_land
from framecalc.sizes.members import slant_kerf_mm
from framecalc.sizes.shape import RECTANGLE, Shape
from framecalc.units import TOLERANCE_MM

KERFS_IN_A_STICK = 3
"""Kerfs between the four members of a frame."""


def stick_round_mm(edges_mm: Sequence[float], *, kerf_mm: float, trim_mm: float) -> float:
    """The shortest stick that yields the mitred pieces round a frame.

    ``stick = edges + (n - 1) * kerf / cos(180°/n) + 2 * trim``; two pieces that meet long point to long point share
    the cut between them, which takes kerf·√2 along the stick of a rectangle.

    Args:
        edges_mm: their n long edges, in order round the frame [mm], > 0.
        kerf_mm: width of the saw cut, square to the blade [mm], >= 0.
        trim_mm: what is cut away at each end of the stick, its end cut included [mm], >= 0.
    Raises:
        OutOfRange: a long edge is not above zero.
    Source: plane geometry.

    >>> round(stick_round_mm([348, 471, 348, 471], kerf_mm=3, trim_mm=20), 3)
    1690.728
    """
    require_positive(least_edge_mm=min(edges_mm))
    sides = len(edges_mm)
    return sum(edges_mm) + (sides - 1) * slant_kerf_mm(kerf_mm, sides=sides) + 2 * trim_mm


def face_width_from_stick(
    *,
    package_across_mm: float,
    package_up_mm: float,
    clearance_across_mm: float,
    clearance_up_mm: float,
    rabbet_width_mm: float,
    stick_length_mm: float,
    kerf_mm: float,
    trim_mm: float,
    shape: Shape = RECTANGLE,
) -> float:
    """The widest members that one stick yields around a package.

    ``stick = 2 * (rabbet across + rabbet up) + 8 * (face width - rabbet width) * cos S + waste``, solved for the face
    width.

    Args:
        stick_length_mm: the stick on the rack [mm].
        shape: a rectangle; S is the slope of its sides.
        rest: as in `sizes_around` and `stick_round_mm`.
    Raises:
        ImpossibleSize: the stick is too short for members of any width, or their width takes nothing of it.
    Source: plane geometry.

    >>> frame = dict(package_across_mm=297, package_up_mm=420, clearance_across_mm=3, clearance_up_mm=3)
    >>> face_width_from_stick(**frame, rabbet_width_mm=6, stick_length_mm=1678, kerf_mm=0, trim_mm=20)
    30.0
    """
    require_positive(package_across_mm=package_across_mm, package_up_mm=package_up_mm)
    rabbet_mm = package_across_mm + clearance_across_mm + package_up_mm + clearance_up_mm
    least_mm = 2 * rabbet_mm + _waste_mm(kerf_mm, trim_mm)
    _require_stick(stick_length_mm, least_mm=least_mm)
    if not shape.flat_ratio:
        raise ImpossibleSize("Sides on edge need the same stick: enter a smaller slope.", field="slope_deg")
    return rabbet_width_mm + (stick_length_mm - least_mm) / 8 / shape.flat_ratio


def picture_scale_from_stick(
    *,
    picture_across_mm: float,
    picture_up_mm: float,
    fixed_across_mm: float,
    fixed_up_mm: float,
    clearance_across_mm: float,
    clearance_up_mm: float,
    rabbet_width_mm: float,
    face_width_mm: float,
    stick_length_mm: float,
    kerf_mm: float,
    trim_mm: float,
    shape: Shape = RECTANGLE,
) -> float:
    """The scale at which a picture of fixed proportion is framed by one stick; 1 is the picture as given.

    ``package = scale * picture + fixed`` in each direction, and the perimeter uses up the stick.

    Args:
        picture_across_mm, picture_up_mm: the picture at scale 1 [mm], > 0.
        fixed_across_mm, fixed_up_mm: what the package has beside the picture, such as mat borders less overlaps [mm].
        stick_length_mm: the stick on the rack [mm].
        rest: as in `sizes_around` and `stick_round_mm`.
    Raises:
        OutOfRange: a length is out of its range.
        ImpossibleSize: the stick is too short for a picture of any size.
    Source: plane geometry.

    >>> frame = dict(clearance_across_mm=3, clearance_up_mm=3, rabbet_width_mm=6, face_width_mm=30)
    >>> picture_scale_from_stick(picture_across_mm=297, picture_up_mm=420, fixed_across_mm=0, fixed_up_mm=0, **frame,
    ...                          stick_length_mm=921, kerf_mm=0, trim_mm=0)
    0.5
    """
    require_positive(artwork_across_mm=picture_across_mm, artwork_up_mm=picture_up_mm)
    require_land(rabbet_width_mm=rabbet_width_mm, face_width_mm=face_width_mm)
    fixed_mm = fixed_across_mm + fixed_up_mm + clearance_across_mm + clearance_up_mm
    least_mm = 2 * fixed_mm + 8 * (face_width_mm - rabbet_width_mm) * shape.flat_ratio + _waste_mm(kerf_mm, trim_mm)
    _require_stick(stick_length_mm, least_mm=least_mm)
    return (stick_length_mm - least_mm) / (2 * (picture_across_mm + picture_up_mm))


def _waste_mm(kerf_mm: float, trim_mm: float) -> float:
    return KERFS_IN_A_STICK * kerf_mm * sqrt(2) + 2 * trim_mm


def _require_stick(stick_length_mm: float, *, least_mm: float) -> None:
    if stick_length_mm - least_mm <= TOLERANCE_MM:
        raise ImpossibleSize(
            "Stick too short: enter more than {least}, not {stick}.",
            field="stick_length_mm",
            lengths={"stick": stick_length_mm, "least": least_mm},
        )
