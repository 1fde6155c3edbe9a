"""The artwork: its kind, its measurements, the shape behind the numbers, and how it goes into an opening.

Across is measured at the top and at the bottom, up at the left and at the right, and both diagonals: *rising* from the
bottom left to the top right, *falling* from the top left to the bottom right. Six measurements of a piece with four
corners check each other: the best fit leaves a *misfit*. The *play* is what stays loose when the piece, as crooked as
it is, lies in its opening; being out of square uses up clearance and is never added to it.
"""

from enum import StrEnum
from functools import lru_cache
from math import atan2, degrees

from framecalc.artwork.turning import best_turn, best_turn_behind
from framecalc.evidence import USUAL_PRACTICE
from framecalc.geometry.quadrilateral import Corners, Span, fit_quadrilateral, residuals
from framecalc.limits import require_positive
from framecalc.mats.openings import Opening
from framecalc.records import Record
from framecalc.sizes.chain import USUAL_CLEARANCE_MM
from framecalc.units import TOLERANCE_MM

TAPE_MM = 0.5
"""Two readings of a tape closer than this are taken as equal. Source: common practice, no source."""

PANEL_GROWTH_RATIO = 0.01
"""How much a solid panel grows across its grain from a dry to a damp season: a tangential coefficient of 0.0025 for
each 1 % of moisture, over 4 %. Source: Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), table 13-5, order
of magnitude, from memory, not re-read."""


class ArtworkKind(StrEnum):
    """What is framed, as far as the frame has to know."""

    PAPER = "paper"
    PHOTOGRAPH = "photograph"
    FRIABLE = "friable"
    CANVAS = "canvas"
    PANEL = "panel"
    SOLID_PANEL = "solid panel"
    TEXTILE = "textile"
    OBJECT = "object"


class Allowance(Record):
    """One reason for clearance, what it takes in each direction, both sides together, and where that comes from."""

    reason: str
    amount_mm: float
    source: str


class Measurements(Record):
    """The measurements; None where a diagonal was not measured."""

    across_top_mm: float
    across_bottom_mm: float
    up_left_mm: float
    up_right_mm: float
    diagonal_rising_mm: float | None = None
    diagonal_falling_mm: float | None = None


class ArtworkFit(Record):
    """The shape behind the measurements: its corners from the bottom left, counter-clockwise, up positive.

    `across_mm` and `up_mm` are the largest measured, which the package must be; `least_…` the smallest, which the lip
    must cover. `skew_deg` is by how much the bottom left corner is more open than 90°; a taper is top less bottom, and
    left less right. `verdict` is a sentence without lengths.
    """

    corners: Corners
    misfit_mm: float
    across_mm: float
    up_mm: float
    least_across_mm: float
    least_up_mm: float
    skew_deg: float
    taper_across_mm: float
    taper_up_mm: float
    verdict: str


class LeastRabbet(Record):
    """The smallest upright opening that admits a piece, and the turn at which it does."""

    across_mm: float
    up_mm: float
    turn_deg: float


class Play(Record):
    """A piece in its opening: what is left loose across and up, negative where it does not enter."""

    corners: Corners
    rabbet_across_mm: float
    rabbet_up_mm: float
    across_mm: float
    up_mm: float
    turn_deg: float
    enters: bool


_LARGE_MM = (600.0, 900.0)
"""A large piece is larger than this, in its shorter or its longer side (24 × 36 in). Common practice, no source."""

_BASE = Allowance(reason="room to slide in", amount_mm=USUAL_CLEARANCE_MM, source=USUAL_PRACTICE)
_LARGE = Allowance(reason="a large piece is seldom true", amount_mm=1.6, source=USUAL_PRACTICE)
_MORE_FOR = {
    ArtworkKind.CANVAS: Allowance(
        reason="room for the keys to spread the stretcher", amount_mm=3.0, source=USUAL_PRACTICE
    ),
    ArtworkKind.TEXTILE: Allowance(reason="folded edges are uneven", amount_mm=1.5, source=USUAL_PRACTICE),
    ArtworkKind.OBJECT: Allowance(reason="an object is seldom straight-sided", amount_mm=3.0, source=USUAL_PRACTICE),
}
"""What each item adds. Common practice, no source."""


def usual_clearance(kind: ArtworkKind, *, across_mm: float, up_mm: float) -> tuple[Allowance, ...]:
    """What this kind of artwork usually gets for clearance, item by item; the sum holds in each direction.

    Args:
        kind: what is framed.
        across_mm, up_mm: the artwork [mm], > 0.
    Source: each item names its own.

    >>> [item.amount_mm for item in usual_clearance(ArtworkKind.CANVAS, across_mm=500, up_mm=700)]
    [3.0, 3.0]
    """
    require_positive(artwork_across_mm=across_mm, artwork_up_mm=up_mm)
    shorter_mm, longer_mm = sorted((across_mm, up_mm))
    items = [_BASE]
    if shorter_mm > _LARGE_MM[0] or longer_mm > _LARGE_MM[1]:
        items.append(_LARGE)
    if kind in _MORE_FOR:
        items.append(_MORE_FOR[kind])
    if kind is ArtworkKind.SOLID_PANEL:
        items.append(_panel_growth(longer_mm))
    return tuple(items)


@lru_cache(maxsize=256)
def fit_artwork(measurements: Measurements) -> ArtworkFit:
    """Find the shape behind the measurements, by least squares where they contradict each other.

    Without diagonals the most nearly square shape with those sides is taken, and the verdict says so.

    Args:
        measurements: sides [mm], > 0; diagonals [mm] or None.
    Raises:
        OutOfRange: a measurement is not above zero.
        ImpossibleArtwork: no piece with four corners measures so; `field` is the measurement to read again.
    Source: derived, see `quadrilateral.fit_quadrilateral`.

    >>> fit = fit_artwork(Measurements(across_top_mm=300, across_bottom_mm=302, up_left_mm=400, up_right_mm=400))
    >>> fit.across_mm, fit.least_across_mm, fit.taper_across_mm, round(fit.skew_deg, 3)
    (302, 300, -2, -0.143)
    """
    distances = _distances(measurements)
    corners = fit_quadrilateral(distances)
    top_mm, bottom_mm = measurements.across_top_mm, measurements.across_bottom_mm
    left_mm, right_mm = measurements.up_left_mm, measurements.up_right_mm
    return ArtworkFit(
        corners=corners,
        misfit_mm=max(map(abs, residuals(corners, distances).values())),
        across_mm=max(top_mm, bottom_mm),
        up_mm=max(left_mm, right_mm),
        least_across_mm=min(top_mm, bottom_mm),
        least_up_mm=min(left_mm, right_mm),
        skew_deg=degrees(atan2(corners[3][1], corners[3][0])) - 90,
        taper_across_mm=top_mm - bottom_mm,
        taper_up_mm=left_mm - right_mm,
        verdict=_verdict(measurements),
    )


@lru_cache(maxsize=256)
def lapped_size(fit: ArtworkFit) -> Opening | None:
    """The size that a mat may count on, to lap over all of a crooked piece; none where the piece is a true rectangle.

    It is the largest upright rectangle on the piece, turned as it lies best behind the window.

    Source: derived, see `turning.best_turn_behind`.

    >>> tapered = Measurements(across_top_mm=300, across_bottom_mm=302, up_left_mm=400, up_right_mm=400)
    >>> round(lapped_size(fit_artwork(tapered)).across_mm, 3)
    300.0
    """
    behind = best_turn_behind(fit.corners, across_mm=fit.least_across_mm, up_mm=fit.least_up_mm)
    missing_mm = (fit.across_mm - behind.across_mm) + (fit.up_mm - behind.up_mm)
    return Opening(across_mm=behind.across_mm, up_mm=behind.up_mm) if missing_mm > TOLERANCE_MM else None


def least_rabbet(corners: Corners, *, across_mm: float, up_mm: float) -> LeastRabbet:
    """The smallest upright opening that admits a piece: the larger excess over a wished size is as small as can be.

    Args:
        corners: the piece, as `ArtworkFit.corners`.
        across_mm, up_mm: the size wished, such as the largest measured [mm].
    Source: derived, see `turning.best_turn`.

    >>> least = least_rabbet(((0, 0), (300, 0), (304, 400), (4, 400)), across_mm=300, up_mm=400)
    >>> round(least.across_mm, 2), round(least.up_mm, 2), round(least.turn_deg, 2)
    (301.72, 401.72, 0.33)
    """
    turned = best_turn(corners, across_mm=across_mm, up_mm=up_mm)
    return LeastRabbet(across_mm=turned.across_mm, up_mm=turned.up_mm, turn_deg=turned.turn_deg)


@lru_cache(maxsize=256)
def play(corners: Corners, *, rabbet_across_mm: float, rabbet_up_mm: float) -> Play:
    """What is left loose of a piece in an opening, turned so that the smaller play is as large as it can be.

    Args:
        corners: the piece, as `ArtworkFit.corners`.
        rabbet_across_mm, rabbet_up_mm: the opening, rabbet wall to rabbet wall [mm].
    Source: derived, see `turning.best_turn`.

    >>> loose = play(((0, 0), (300, 0), (300, 400), (0, 400)), rabbet_across_mm=303, rabbet_up_mm=403)
    >>> loose.across_mm, loose.up_mm, loose.enters
    (3.0, 3.0, True)
    """
    turned = best_turn(corners, across_mm=rabbet_across_mm, up_mm=rabbet_up_mm)
    across_mm, up_mm = rabbet_across_mm - turned.across_mm, rabbet_up_mm - turned.up_mm
    return Play(
        corners=corners,
        rabbet_across_mm=rabbet_across_mm,
        rabbet_up_mm=rabbet_up_mm,
        across_mm=across_mm,
        up_mm=up_mm,
        turn_deg=turned.turn_deg,
        enters=min(across_mm, up_mm) >= -TOLERANCE_MM,
    )


def differs(first_mm: float | None, second_mm: float | None) -> bool:
    """Whether two readings were taken, and are further apart than a tape is read.

    Source: common practice, no source.

    >>> differs(300, 300.5), differs(300, 302), differs(300, None)
    (False, True, False)
    """
    return first_mm is not None and second_mm is not None and abs(first_mm - second_mm) > TAPE_MM + TOLERANCE_MM


def _panel_growth(longer_mm: float) -> Allowance:
    return Allowance(
        reason="a solid panel grows across its grain in damp air",
        amount_mm=PANEL_GROWTH_RATIO * longer_mm,
        source="Wood Handbook, FPL-GTR-190 (2010), table 13-5, unchecked: order of magnitude",
    )


def _distances(measurements: Measurements) -> dict[Span, float]:
    sides = {
        Span.BOTTOM: ("across_bottom_mm", measurements.across_bottom_mm),
        Span.RIGHT: ("up_right_mm", measurements.up_right_mm),
        Span.TOP: ("artwork_across_mm", measurements.across_top_mm),
        Span.LEFT: ("artwork_up_mm", measurements.up_left_mm),
        Span.RISING: ("diagonal_rising_mm", measurements.diagonal_rising_mm),
        Span.FALLING: ("diagonal_falling_mm", measurements.diagonal_falling_mm),
    }
    measured = {span: (name, length_mm) for span, (name, length_mm) in sides.items() if length_mm is not None}
    require_positive(**dict(measured.values()))
    return {span: length_mm for span, (_, length_mm) in measured.items()}


def _verdict(tape: Measurements) -> str:
    """Opposite sides first: equal diagonals alone do not make a rectangle."""
    measured = [tape.diagonal_rising_mm is not None, tape.diagonal_falling_mm is not None]
    diagonals_agree = all(measured) and not differs(tape.diagonal_rising_mm, tape.diagonal_falling_mm)
    if differs(tape.across_top_mm, tape.across_bottom_mm) or differs(tape.up_left_mm, tape.up_right_mm):
        return f"No rectangle: opposite sides differ{', although the diagonals agree' if diagonals_agree else ''}."
    if not any(measured):
        return "Opposite sides agree; taken as square, for no diagonal is measured."
    if not all(measured):
        return "Opposite sides agree; the other diagonal would tell whether it is square."
    if diagonals_agree:
        return "A rectangle, as nearly as a tape shows: opposite sides agree, and so do the diagonals."
    return "Out of square: opposite sides agree, and the diagonals differ."
