"""Whether a frame in the clamps is square: outside sides and two diagonals into a verdict in words.

Opposite sides are compared *first*: a frame whose top is longer than its bottom, its sides alike, has two equal
diagonals and no right angle. Only when opposite sides agree do the diagonals say how far it is *out of square*. The
*rising* diagonal runs from bottom left to top right, the *falling* one from top left to bottom right.
"""

from enum import StrEnum
from math import acos, asin, degrees, hypot, radians, sin, sqrt, tan

from framecalc.errors import ImpossibleSize
from framecalc.findings import Finding, Severity
from framecalc.limits import require_between, require_positive
from framecalc.records import Record

TAPE_MM = 0.5
"""The finest reading of a tape between two hooks (common practice, no source)."""

MISREAD_RATIO = 4.0
"""Six measures disagree when the sixth is off by more than four readings' worth: each of the five may stray."""

MOST_SKEW_DEG = 20.0
"""A frame that leans further was misread. Ours, no source."""


class SquarenessVerdict(StrEnum):
    """What the six measures say, in the order in which they are asked."""

    MISREAD = "no flat frame has these six measures: read them again"
    SIDES_DIFFER = "opposite sides differ: the diagonals cannot make it square"
    OUT_OF_SQUARE = "out of square"
    SQUARE = "square, as near as the tape tells"


class Squeeze(StrEnum):
    """Along which diagonal the frame has to be squeezed."""

    NONE = "leave it"
    RISING = "along the rising diagonal, bottom left to top right"
    FALLING = "along the falling diagonal, top left to bottom right"


class OutsideMeasures(Record):
    """What the tape says around a frame, all six."""

    across_top_mm: float
    across_bottom_mm: float
    up_left_mm: float
    up_right_mm: float
    diagonal_rising_mm: float
    diagonal_falling_mm: float


class CornerAngles(Record):
    """The inside angles of the frame, each from the two sides and the diagonal that close its triangle."""

    top_right_deg: float
    bottom_right_deg: float
    bottom_left_deg: float
    top_left_deg: float


class Squareness(Record):
    """The verdict, and the numbers that it rests on; differences are top − bottom, left − right, rising − falling."""

    verdict: SquarenessVerdict
    squeeze: Squeeze
    across_difference_mm: float
    up_difference_mm: float
    diagonal_difference_mm: float
    disagreement_mm: float
    skew_deg: float
    angles: CornerAngles


def check_square(measures: OutsideMeasures, *, tape_mm: float = TAPE_MM) -> Squareness:
    """Judge a frame by its four sides and two diagonals.

    ``sin φ = (rising² − falling²) / (4·a·b)`` with a and b the mean of opposite sides; positive where the top leans
    right.

    Args:
        measures: all six [mm], > 0.
        tape_mm: the finest reading of the tape [mm], > 0.
    Raises:
        OutOfRange: a measure is not above zero.
        ImpossibleSize: no quadrilateral has these sides and diagonals.
    Source: derived (law of cosines in the two triangles of a parallelogram).

    >>> trapezoid = OutsideMeasures(across_top_mm=404, across_bottom_mm=400, up_left_mm=300, up_right_mm=300,
    ...                             diagonal_rising_mm=501.6, diagonal_falling_mm=501.6)
    >>> check_square(trapezoid).verdict.value
    'opposite sides differ: the diagonals cannot make it square'
    """
    _require_lengths(measures, tape_mm=tape_mm)
    angles = _angles(measures)
    disagreement_mm = measures.diagonal_falling_mm - _falling_from_the_rest_mm(measures)
    across_difference_mm = measures.across_top_mm - measures.across_bottom_mm
    up_difference_mm = measures.up_left_mm - measures.up_right_mm
    diagonal_difference_mm = measures.diagonal_rising_mm - measures.diagonal_falling_mm
    verdict = _verdict(
        disagreement_ratio=abs(disagreement_mm) / tape_mm,
        sides_ratio=max(abs(across_difference_mm), abs(up_difference_mm)) / tape_mm,
        diagonals_ratio=abs(diagonal_difference_mm) / tape_mm,
    )
    return Squareness(
        verdict=verdict,
        squeeze=_squeeze(verdict, diagonal_difference_mm),
        across_difference_mm=across_difference_mm,
        up_difference_mm=up_difference_mm,
        diagonal_difference_mm=diagonal_difference_mm,
        disagreement_mm=disagreement_mm,
        skew_deg=_skew_deg(measures),
        angles=angles,
    )


def diagonals_mm(across_mm: float, up_mm: float, *, skew_deg: float = 0.0) -> tuple[float, float]:
    """Find the rising and the falling diagonal of a frame whose opposite sides agree.

    ``√(a² + b² ± 2ab·sin φ)``

    Args:
        across_mm, up_mm: outside [mm], > 0.
        skew_deg: φ, positive where the top leans right [°], −20 to 20.
    Raises:
        OutOfRange: length or angle out of range.
    Source: law of cosines.

    >>> [round(diagonal, 3) for diagonal in diagonals_mm(348, 471)]
    [585.615, 585.615]
    """
    require_positive(across_mm=across_mm, up_mm=up_mm)
    require_between(-MOST_SKEW_DEG, MOST_SKEW_DEG, skew_deg=skew_deg)
    square, turn = across_mm**2 + up_mm**2, 2 * across_mm * up_mm * sin(radians(skew_deg))
    return sqrt(square + turn), sqrt(square - turn)


def forced_gap_mm(skew_deg: float, *, mitre_length_mm: float) -> float:
    """Find the gap that true mitres are forced to when the frame is held out of square.

    ``m · tan |φ|``: two corners open at the outside, the other two at the inside.

    Args:
        skew_deg: φ [°], −20 to 20.
        mitre_length_mm: m [mm], > 0.
    Raises:
        OutOfRange: length or angle out of range.
    Source: derived.

    >>> round(forced_gap_mm(0.5, mitre_length_mm=42.43), 2)
    0.37
    """
    require_positive(mitre_length_mm=mitre_length_mm)
    require_between(-MOST_SKEW_DEG, MOST_SKEW_DEG, skew_deg=skew_deg)
    return mitre_length_mm * tan(radians(abs(skew_deg)))


def clearance_lost_mm(skew_deg: float, *, rabbet_across_mm: float, rabbet_up_mm: float) -> float:
    """Find what being out of square takes from the clearance of a true artwork, in each direction.

    ``a·b/(a + b) · φ``: the artwork may turn a little, and turns until both directions lose alike.

    Args:
        skew_deg: φ [°], −20 to 20.
        rabbet_across_mm, rabbet_up_mm: a and b [mm], > 0.
    Raises:
        OutOfRange: length or angle out of range.
    Source: derived (first order in φ; compared with turned rectangles in the tests).

    >>> round(clearance_lost_mm(0.5, rabbet_across_mm=300, rabbet_up_mm=423), 2)
    1.53
    """
    require_positive(rabbet_across_mm=rabbet_across_mm, rabbet_up_mm=rabbet_up_mm)
    require_between(-MOST_SKEW_DEG, MOST_SKEW_DEG, skew_deg=skew_deg)
    shared_mm = rabbet_across_mm * rabbet_up_mm / (rabbet_across_mm + rabbet_up_mm)
    return shared_mm * radians(abs(skew_deg))


def squareness_findings(
    squareness: Squareness, *, forced_mm: float, gap_mm: float, lost_mm: float, clearance_mm: float
) -> tuple[Finding, ...]:
    """Judge a frame by six measures: its corners, and whether the artwork fits.

    Args:
        forced_mm: the gap that true mitres are forced to, from `forced_gap_mm` [mm].
        gap_mm: the gap allowed [mm].
        lost_mm: what the clearance loses, from `clearance_lost_mm` [mm].
        clearance_mm: the smaller clearance of the two directions [mm].
    Source: derived; the limits are the user's.

    >>> measures = OutsideMeasures(across_top_mm=348, across_bottom_mm=348, up_left_mm=471, up_right_mm=471,
    ...                            diagonal_rising_mm=588.05, diagonal_falling_mm=583.17)
    >>> [finding.code for finding in squareness_findings(
    ...     check_square(measures), forced_mm=0.37, gap_mm=0.1, lost_mm=1.5, clearance_mm=3)]
    ['squareness.forced-gap']
    """
    if squareness.verdict is SquarenessVerdict.SQUARE:
        return ()
    if squareness.verdict is not SquarenessVerdict.OUT_OF_SQUARE:
        return (_undecided(squareness),)
    found = []
    if lost_mm > clearance_mm:
        found.append(_artwork_binds(lost_mm, clearance_mm))
    if forced_mm > gap_mm:
        found.append(_forced_gap(squareness, forced_mm))
    return tuple(found)


def _require_lengths(measures: OutsideMeasures, *, tape_mm: float) -> None:
    require_positive(
        across_top_mm=measures.across_top_mm,
        across_bottom_mm=measures.across_bottom_mm,
        up_left_mm=measures.up_left_mm,
        up_right_mm=measures.up_right_mm,
        diagonal_rising_mm=measures.diagonal_rising_mm,
        diagonal_falling_mm=measures.diagonal_falling_mm,
        tape_mm=tape_mm,
    )


def _verdict(*, disagreement_ratio: float, sides_ratio: float, diagonals_ratio: float) -> SquarenessVerdict:
    if disagreement_ratio > MISREAD_RATIO:
        return SquarenessVerdict.MISREAD
    if sides_ratio > 1:
        return SquarenessVerdict.SIDES_DIFFER
    return SquarenessVerdict.OUT_OF_SQUARE if diagonals_ratio > 1 else SquarenessVerdict.SQUARE


def _squeeze(verdict: SquarenessVerdict, diagonal_difference_mm: float) -> Squeeze:
    if verdict is not SquarenessVerdict.OUT_OF_SQUARE:
        return Squeeze.NONE
    return Squeeze.RISING if diagonal_difference_mm > 0 else Squeeze.FALLING


def _skew_deg(measures: OutsideMeasures) -> float:
    across_mm = (measures.across_top_mm + measures.across_bottom_mm) / 2
    up_mm = (measures.up_left_mm + measures.up_right_mm) / 2
    sine = (measures.diagonal_rising_mm**2 - measures.diagonal_falling_mm**2) / (4 * across_mm * up_mm)
    if abs(sine) > sin(radians(MOST_SKEW_DEG)):
        raise ImpossibleSize(
            "Measure again: diagonals of {rising} and {falling} lean over 20°.",
            field="diagonal_rising_mm",
            lengths={"rising": measures.diagonal_rising_mm, "falling": measures.diagonal_falling_mm},
        )
    return degrees(asin(sine))


def _angles(measures: OutsideMeasures) -> CornerAngles:
    rising, falling = (
        ("diagonal_rising_mm", measures.diagonal_rising_mm),
        (
            "diagonal_falling_mm",
            measures.diagonal_falling_mm,
        ),
    )
    return CornerAngles(
        top_right_deg=_angle_deg(measures.across_top_mm, measures.up_right_mm, falling),
        bottom_right_deg=_angle_deg(measures.across_bottom_mm, measures.up_right_mm, rising),
        bottom_left_deg=_angle_deg(measures.across_bottom_mm, measures.up_left_mm, falling),
        top_left_deg=_angle_deg(measures.across_top_mm, measures.up_left_mm, rising),
    )


def _angle_deg(one_mm: float, other_mm: float, diagonal: tuple[str, float]) -> float:
    """The angle between two sides that a diagonal closes to a triangle."""
    name, diagonal_mm = diagonal
    if not abs(one_mm - other_mm) < diagonal_mm < one_mm + other_mm:
        raise ImpossibleSize(
            "Sides of {one} and {other} cannot reach a diagonal of {diagonal}.",
            field=name,
            lengths={"one": one_mm, "other": other_mm, "diagonal": diagonal_mm},
        )
    return degrees(acos((one_mm**2 + other_mm**2 - diagonal_mm**2) / (2 * one_mm * other_mm)))


def _falling_from_the_rest_mm(measures: OutsideMeasures) -> float:
    """The falling diagonal that the four sides and the rising one leave: two triangles on the rising diagonal."""
    rising_mm = measures.diagonal_rising_mm
    right = _apex(rising_mm, measures.across_bottom_mm, measures.up_right_mm)
    left = _apex(rising_mm, measures.up_left_mm, measures.across_top_mm)
    return hypot(right[0] - left[0], right[1] + left[1])


def _apex(base_mm: float, from_start_mm: float, from_end_mm: float) -> tuple[float, float]:
    """The third corner of a triangle: how far along its base, and how far from it."""
    along_mm = (base_mm**2 + from_start_mm**2 - from_end_mm**2) / (2 * base_mm)
    return along_mm, sqrt(max(from_start_mm**2 - along_mm**2, 0.0))


def _undecided(squareness: Squareness) -> Finding:
    misread = squareness.verdict is SquarenessVerdict.MISREAD
    differ_mm = max(abs(squareness.across_difference_mm), abs(squareness.up_difference_mm))
    return Finding(
        code="squareness.misread" if misread else "squareness.sides-differ",
        severity=Severity.WARN,
        sentence=(
            "No flat frame has these six measures: one is off by {by}."
            if misread
            else "Opposite sides differ by {by}: compare the members before the diagonals."
        ),
        why=(
            "Four sides and one diagonal give the other; read again, or look whether the frame lies flat."
            if misread
            else "With sides unlike, equal diagonals do not make a right angle."
        ),
        source="derived",
        argument="diagonal_falling_mm" if misread else "across_top_mm",
        lengths={"by": abs(squareness.disagreement_mm) if misread else differ_mm},
    )


def _artwork_binds(lost_mm: float, clearance_mm: float) -> Finding:
    return Finding(
        code="squareness.artwork-binds",
        severity=Severity.STOP,
        sentence="So far out of square the frame takes {lost} of the clearance of {clearance}: the artwork will bind.",
        why="The artwork is square and the rabbet is not.",
        source="derived",
        argument="diagonal_rising_mm",
        lengths={"lost": lost_mm, "clearance": clearance_mm},
    )


def _forced_gap(squareness: Squareness, forced_mm: float) -> Finding:
    return Finding(
        code="squareness.forced-gap",
        severity=Severity.WARN,
        sentence=f"True mitres are forced open by {{gap}}: slacken, squeeze {squareness.squeeze.value}, tighten.",
        why="The frame leans while the mitres are square.",
        source="derived",
        argument="diagonal_rising_mm",
        lengths={"gap": forced_mm},
    )
