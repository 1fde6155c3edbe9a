"""The accuracy of the saw: the effect of an angle error at the corners, the result of a test cut, the correction.

An *end error* is the excess of the angle at the long point, between outer edge and cut, over the right one (45° in a
rectangle). The errors of both ends of a joint add up to its *wedge*: a positive one stands open at the
*outside* (the tips) when the corner is held to its angle, a negative one at the *inside* (the sight edge). The errors
of all ends add up to the frame's *total error*; a joint can only pass it on to its neighbours.

All ends cut from one setting carry the same error. A left and a right setting, or a sled with two fences, carry two,
and they cancel when left and right add up to the corner.
"""

from enum import StrEnum
from math import atan, degrees, radians, sqrt, tan

from framecalc.errors import OutOfRange
from framecalc.limits import require_between, require_not_negative, require_positive
from framecalc.records import Record
from framecalc.sizes.polygons import half_turn_deg

MOST_ERROR_DEG = 5.0
"""A larger error comes from a wrong setting, not from the cut; the small-angle sums here no longer hold for it."""


PAPER_MM = 0.1
"""A sheet of copy paper of 80 g/m² (common practice, no source; a stack of ten, measured, is surer)."""


class CutMethod(StrEnum):
    """How the ends are cut, which decides whether their errors add up or cancel."""

    ONE_SETTING = "all ends from one setting"
    TWO_SETTINGS = "a left and a right setting"
    SLED = "a sled with two fences"


class MeasuredJoint(StrEnum):
    """The joint at which a test cut is measured."""

    ONE_JOINT = "one joint, held to a square"
    LAST_JOINT = "the last joint, all others held tight"


class Turn(StrEnum):
    """Which way the gauge or the fence has to turn."""

    NONE = "leave it"
    FROM_SQUARE = "further from a square cut"
    TO_SQUARE = "nearer to a square cut"


class BladeEnds(StrEnum):
    """How the two ends of a joint met a blade that does not stand upright."""

    SAME_SIDE = "face up, both ends on the same side of the blade"
    OPPOSITE_SIDES = "face up, one end on each side of the blade"
    TURNED_OVER = "on the same side of the blade, one end face down"


class Tolerance(Record):
    """The largest error of the saw, as an angle and as a paper shim at the end of the fence.

    It applies to every end when all come from one setting, and to left and right *together* when there are two. With
    `shared` the clamps spread the error over all corners; with `last` all of it lands in the last corner, the members
    sliding along their mitres until the other corners are tight.
    """

    together: bool
    shared_deg: float
    shared_shim_mm: float
    last_deg: float
    last_shim_mm: float

    @property
    def each_end_deg(self) -> float:
        """What the mean error of an end may be when the clamps share: half of what left and right may be together."""
        return self.shared_deg / 2 if self.together else self.shared_deg


class EndCorrection(Record):
    """What a test cut asks for: the error of an end, and the turn and shim that take it away.

    With two settings `turn_deg` is for one fence alone; half of it on each does the same.
    """

    error_deg: float
    turn: Turn
    turn_deg: float
    shim_mm: float


def total_error_deg(*, left_deg: float, right_deg: float, sides: int = 4) -> float:
    """Add up the errors of all ends of a frame.

    ``Σ = n · (δ_left + δ_right)``: eight times δ from one setting, nothing where left and right cancel.

    Args:
        left_deg, right_deg: error of the left and of the right ends [°], −5 to 5.
        sides: 3 to 24.
    Raises:
        OutOfRange: an error too large for a cut.
    Source: derived.

    >>> round(total_error_deg(left_deg=0.1, right_deg=0.1), 9), total_error_deg(left_deg=0.1, right_deg=-0.1)
    (0.8, 0.0)
    """
    half_turn_deg(sides)
    require_between(-MOST_ERROR_DEG, MOST_ERROR_DEG, left_deg=left_deg, right_deg=right_deg)
    return sides * (left_deg + right_deg)


def wedge_gap_mm(mitre_length_mm: float, *, wedge_deg: float) -> float:
    """Measure the open end of a wedge whose other end touches.

    ``gap = m · tan(wedge)``; positive at the outside, negative at the inside.

    Args:
        mitre_length_mm: m [mm], > 0.
        wedge_deg: sum of the errors that meet there [°], −45 to 45.
    Raises:
        OutOfRange: length or wedge out of range.
    Source: derived.

    >>> round(wedge_gap_mm(53.881, wedge_deg=0.8), 3)
    0.752
    """
    require_positive(mitre_length_mm=mitre_length_mm)
    require_between(-45, 45, wedge_deg=wedge_deg)
    return mitre_length_mm * tan(radians(wedge_deg))


def saw_tolerance(
    *, cutting: CutMethod, gap_mm: float, mitre_length_mm: float, fence_mm: float, sides: int = 4
) -> Tolerance:
    """Find how far the saw may be off so that no corner is open by more than the gap allowed.

    From one setting ``δ = atan(g/m) / 2`` when the clamps share it and ``atan(g/m) / 2n`` when it all lands in the last
    corner; with two settings their sum may be twice that. The shim is ``F · tan δ``.

    Args:
        gap_mm: the gap allowed, g [mm], > 0, less than m.
        mitre_length_mm: m [mm], > 0.
        fence_mm: from the turning point to where the shim goes, F [mm], > 0.
        sides: 3 to 24.
    Raises:
        OutOfRange: a length is out of range.
    Source: derived (2n equal errors add up; n corners share them, or one takes them).

    >>> tolerance = saw_tolerance(cutting=CutMethod.ONE_SETTING, gap_mm=0.1, mitre_length_mm=50, fence_mm=450)
    >>> round(tolerance.shared_deg, 3), round(tolerance.last_deg, 4), round(tolerance.shared_shim_mm, 2)
    (0.057, 0.0143, 0.45)
    """
    require_positive(gap_mm=gap_mm, mitre_length_mm=mitre_length_mm, fence_mm=fence_mm)
    half_turn_deg(sides)
    _refuse_gap_as_long_as_the_mitre(gap_mm, mitre_length_mm)
    together = cutting is not CutMethod.ONE_SETTING
    wedge_deg = degrees(atan(gap_mm / mitre_length_mm))
    shared_deg = wedge_deg if together else wedge_deg / 2
    return Tolerance(
        together=together,
        shared_deg=shared_deg,
        shared_shim_mm=shim_mm(shared_deg, fence_mm=fence_mm),
        last_deg=shared_deg / sides,
        last_shim_mm=shim_mm(shared_deg / sides, fence_mm=fence_mm),
    )


def shim_mm(turn_deg: float, *, fence_mm: float) -> float:
    """Find the paper that turns the stock by an angle, laid between fence and stock at the fence's end.

    ``F · tan δ``

    Args:
        turn_deg: δ [°], −45 to 45; the shim has its size alone.
        fence_mm: F [mm], > 0.
    Raises:
        OutOfRange: angle or length out of range.
    Source: derived.

    >>> round(shim_mm(0.05, fence_mm=400), 2)
    0.35
    """
    require_positive(fence_mm=fence_mm)
    require_between(-45, 45, turn_deg=turn_deg)
    return fence_mm * tan(radians(abs(turn_deg)))


def sheets_of_paper(shim_mm: float, *, paper_mm: float = PAPER_MM) -> int:
    """Count the sheets of paper that come nearest to a shim.

    Args:
        shim_mm: [mm], ≥ 0.
        paper_mm: one sheet [mm], > 0.
    Raises:
        OutOfRange: length out of range.
    Source: derived; the thickness of paper is common practice, no source.

    >>> sheets_of_paper(0.72), sheets_of_paper(0.04)
    (7, 0)
    """
    require_not_negative(shim_mm=shim_mm)
    require_positive(paper_mm=paper_mm)
    return round(shim_mm / paper_mm)


def read_test_cut(
    *, outside_gap_mm: float, inside_gap_mm: float, mitre_length_mm: float, tried: MeasuredJoint, sides: int = 4
) -> float:
    """Read the error of an end from the gap at *both* ends of a mitre [°].

    ``δ = atan((outside − inside) / m) / 2`` on one joint, ``/ 2n`` on the last one. With two settings it is the mean of
    left and right. One gap alone says nothing: the last joint is also shifted (see `last_joint_shift_mm`), so that both
    of its ends gape.

    Args:
        outside_gap_mm, inside_gap_mm: by feeler at the tips and at the sight edge [mm], ≥ 0.
        mitre_length_mm: m [mm], > 0.
        tried: on which joint.
        sides: 3 to 24.
    Raises:
        OutOfRange: a length is out of range, or the error is more than a saw that was set can have.
    Source: derived.

    >>> round(read_test_cut(outside_gap_mm=0.3, inside_gap_mm=0, mitre_length_mm=50, tried=MeasuredJoint.ONE_JOINT), 3)
    0.172
    """
    require_not_negative(outside_gap_mm=outside_gap_mm, inside_gap_mm=inside_gap_mm)
    require_positive(mitre_length_mm=mitre_length_mm)
    half_turn_deg(sides)
    ends = 2 if tried is MeasuredJoint.ONE_JOINT else 2 * sides
    error_deg = degrees(atan((outside_gap_mm - inside_gap_mm) / mitre_length_mm)) / ends
    if abs(error_deg) > MOST_ERROR_DEG:
        raise OutOfRange(
            f"Set the gauge afresh: these gaps mean {abs(error_deg):.1f}° in each cut.",
            field="outside_gap_mm",
        )
    return error_deg


def feeler_deg(gap_mm: float, *, mitre_length_mm: float) -> float:
    """Read how far an end is off from the gap at one end of its mitre, held to a true edge [°]: ``atan(gap / m)``.

    Args:
        gap_mm: by feeler, the other end touching [mm], ≥ 0.
        mitre_length_mm: m [mm], > 0.
    Raises:
        OutOfRange: a length is out of range.
    Source: derived.

    >>> round(feeler_deg(0.1, mitre_length_mm=30), 3)
    0.191
    """
    require_not_negative(gap_mm=gap_mm)
    require_positive(mitre_length_mm=mitre_length_mm)
    return degrees(atan(gap_mm / mitre_length_mm))


def correct(error_deg: float, *, cutting: CutMethod, fence_mm: float) -> EndCorrection:
    """Find which way to turn, by how much, and with which shim.

    A joint open at the outside has tips that are too blunt: the cut is too near to square. A fence that pushes the
    stock takes the shim at the end that leads to turn further from square, at the end that trails to turn nearer. From
    one setting the turn is the error; with two one fence takes both errors, ``2δ``.

    Args:
        error_deg: of an end, as read from a test cut [°], −5 to 5.
        fence_mm: F [mm], > 0.
    Raises:
        OutOfRange: angle or length out of range.
    Source: derived.

    >>> correct(0.172, cutting=CutMethod.ONE_SETTING, fence_mm=450).turn.value
    'further from a square cut'
    """
    require_between(-MOST_ERROR_DEG, MOST_ERROR_DEG, error_deg=error_deg)
    turn_deg = abs(error_deg) * (1 if cutting is CutMethod.ONE_SETTING else 2)
    return EndCorrection(
        error_deg=error_deg,
        turn=Turn.NONE if not error_deg else Turn.FROM_SQUARE if error_deg > 0 else Turn.TO_SQUARE,
        turn_deg=turn_deg,
        shim_mm=shim_mm(turn_deg, fence_mm=fence_mm),
    )


def last_joint_shift_mm(error_deg: float, *, outside_across_mm: float, outside_up_mm: float) -> float:
    """Find how far the last joint of a rectangle stands apart, square to the joint, beside its wedge.

    ``2√2 · δ · (W + H)`` for eight equal ends, three joints tight and their tips level; negative means that the ends
    run into each other. It is far more than the wedge, which is why a test cut is read at both ends.

    Args:
        error_deg: of every end [°], −5 to 5.
        outside_across_mm, outside_up_mm: W and H [mm], > 0.
    Raises:
        OutOfRange: angle or length out of range.
    Source: derived (first order in δ; compared with the exact chain of sides in the tests).

    >>> round(last_joint_shift_mm(0.1, outside_across_mm=300, outside_up_mm=400), 2)
    3.46
    """
    require_between(-MOST_ERROR_DEG, MOST_ERROR_DEG, error_deg=error_deg)
    require_positive(outside_across_mm=outside_across_mm, outside_up_mm=outside_up_mm)
    return 2 * sqrt(2) * radians(error_deg) * (outside_across_mm + outside_up_mm)


def blade_gap_mm(thickness_mm: float, *, lean_deg: float, ends: BladeEnds) -> float:
    """Find the gap at the back when the faces touch, or the other way round, from a blade that leans.

    ``2 · t · tan τ`` when both ends lean alike, nothing when one end was cut on each side of the blade, or turned over.

    Args:
        thickness_mm: of the member, t [mm], > 0.
        lean_deg: the blade from upright, τ [°], −5 to 5.
        ends: how the two ends of a joint met the blade.
    Raises:
        OutOfRange: angle or length out of range.
    Source: derived (planes rebuilt in the tests).

    >>> round(blade_gap_mm(20, lean_deg=0.25, ends=BladeEnds.SAME_SIDE), 3)
    0.175
    """
    require_positive(thickness_mm=thickness_mm)
    require_between(-MOST_ERROR_DEG, MOST_ERROR_DEG, lean_deg=lean_deg)
    return 2 * thickness_mm * tan(radians(abs(lean_deg))) if ends is BladeEnds.SAME_SIDE else 0.0


def _refuse_gap_as_long_as_the_mitre(gap_mm: float, mitre_length_mm: float) -> None:
    if gap_mm >= mitre_length_mm:
        raise OutOfRange(
            "Enter a gap under {gap}, for a mitre {mitre} long.",
            field="gap_mm",
            lengths={"gap": gap_mm, "mitre": mitre_length_mm},
        )
