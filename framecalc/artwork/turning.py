"""Turning a piece in an upright opening: how far it reaches across and up, and the turn that fits it best.

A piece turned by an angle reaches across as far as the widest of its sides and diagonals does. Each of these reaches is
a sine wave of the angle, bent downward, so the best turn is always at an angle where two of them are equal: those
angles are listed and tried, and no search is needed.
"""

from collections.abc import Iterable, Iterator
from itertools import combinations
from math import acos, atan2, cos, degrees, hypot, pi, remainder, sin

from framecalc.geometry.quadrilateral import Corners
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM

MOST_TURN_RAD = pi / 4
"""A piece turned further lies on its side, which is another opening."""

_ACROSS_PAIRS = ((0, 1), (3, 2), (0, 2), (3, 1))
_UP_PAIRS = ((0, 3), (1, 2), (0, 2), (1, 3))

_Wave = tuple[float, float, float]
"""(p, q, c) stands for p·cos θ + q·sin θ − c."""

_FLAT: _Wave = (0.0, 0.0, 0.0)


class TurnedPiece(Record):
    """A turned piece: its turn, counter-clockwise, and its extent in that position."""

    turn_deg: float
    across_mm: float
    up_mm: float


def best_turn(corners: Corners, *, across_mm: float, up_mm: float) -> TurnedPiece:
    """Turn a piece so that the larger of its two excesses over an opening is least.

    ``minimise max(across(turn) - across_mm, up(turn) - up_mm)`` over at most 45° either way.

    Args:
        corners: the piece, convex and roughly upright, counter-clockwise from the bottom left.
        across_mm, up_mm: the opening [mm].
    Source: derived.

    >>> turned = best_turn(((0, 0), (300, 0), (300, 400), (0, 400)), across_mm=303, up_mm=403)
    >>> turned.turn_deg, turned.across_mm, turned.up_mm
    (0.0, 300.0, 400.0)
    """
    waves = [*_across_waves(corners, across_mm), *_up_waves(corners, up_mm)]
    trials = (_turned(corners, turn_rad) for turn_rad in _trial_turns(combinations(waves, 2)))
    return min(trials, key=lambda turned: max(turned.across_mm - across_mm, turned.up_mm - up_mm))


def best_turn_behind(corners: Corners, *, across_mm: float, up_mm: float) -> TurnedPiece:
    """Turn a piece so that the largest upright rectangle on it misses a wished size by as little as can be.

    ``minimise max(across_mm - across(turn), up_mm - up(turn))``: across is from the left side's innermost corner to the
    right one's, up from the lower to the upper. Each is the least of waves that are bent downward: the best turn is
    where two are equal, or at the top of one.

    Args:
        corners: as in `best_turn`.
        across_mm, up_mm: the wished size [mm].
    Returns: the turn, and the rectangle on the piece in that position.
    Source: derived.

    >>> behind = best_turn_behind(((0, 0), (300, 0), (300, 400), (0, 400)), across_mm=300, up_mm=400)
    >>> behind.turn_deg, behind.across_mm, behind.up_mm
    (0.0, 300.0, 400.0)
    """
    waves = [*_across_waves(corners, across_mm), *_up_waves(corners, up_mm)]
    turns = (*_trial_turns(combinations(waves, 2)), *(atan2(sine_mm, cosine_mm) for cosine_mm, sine_mm, _ in waves))
    trials = (_turned_inside(corners, turn_rad) for turn_rad in turns if abs(turn_rad) <= MOST_TURN_RAD)
    return min(trials, key=lambda turned: max(across_mm - turned.across_mm, up_mm - turned.up_mm))


def least_across_mm(corners: Corners, *, up_mm: float) -> float | None:
    """How wide an opening of a given height must be to admit a piece; None where no width does.

    Args:
        corners: as in `best_turn`.
        up_mm: the height of the opening [mm].
    Source: derived.

    >>> least_across_mm(((0, 0), (300, 0), (300, 400), (0, 400)), up_mm=400)
    300.0
    >>> least_across_mm(((0, 0), (300, 0), (300, 400), (0, 400)), up_mm=299)
    """
    across_waves = tuple(_across_waves(corners, 0.0))
    pairs = [*combinations(across_waves, 2), *((wave, _FLAT) for wave in _up_waves(corners, up_mm))]
    trials = (_turned(corners, turn_rad) for turn_rad in _trial_turns(pairs))
    return min((turned.across_mm for turned in trials if turned.up_mm <= up_mm + TOLERANCE_MM), default=None)


def on_its_side(corners: Corners) -> Corners:
    """The same piece mirrored at a diagonal: across and up change places.

    Source: derived.

    >>> on_its_side(((0, 0), (3, 0), (3, 4), (0, 4)))
    ((0, 0), (4, 0), (4, 3), (0, 3))
    """
    bottom_left, top_left, top_right, bottom_right = ((y_mm, x_mm) for x_mm, y_mm in corners)
    return bottom_left, bottom_right, top_right, top_left


def _turned(corners: Corners, turn_rad: float) -> TurnedPiece:
    cosine, sine = cos(turn_rad), sin(turn_rad)
    xs = [x_mm * cosine - y_mm * sine for x_mm, y_mm in corners]
    ys = [x_mm * sine + y_mm * cosine for x_mm, y_mm in corners]
    return TurnedPiece(turn_deg=degrees(turn_rad), across_mm=max(xs) - min(xs), up_mm=max(ys) - min(ys))


def _turned_inside(corners: Corners, turn_rad: float) -> TurnedPiece:
    """A turned piece, and the upright rectangle between its innermost corners."""
    cosine, sine = cos(turn_rad), sin(turn_rad)
    xs = [x_mm * cosine - y_mm * sine for x_mm, y_mm in corners]
    ys = [x_mm * sine + y_mm * cosine for x_mm, y_mm in corners]
    return TurnedPiece(
        turn_deg=degrees(turn_rad),
        across_mm=min(xs[1], xs[2]) - max(xs[0], xs[3]),
        up_mm=min(ys[2], ys[3]) - max(ys[0], ys[1]),
    )


def _across_waves(corners: Corners, across_mm: float) -> Iterator[_Wave]:
    for start, end in _ACROSS_PAIRS:
        (x1, y1), (x2, y2) = corners[start], corners[end]
        yield x2 - x1, y1 - y2, across_mm


def _up_waves(corners: Corners, up_mm: float) -> Iterator[_Wave]:
    for start, end in _UP_PAIRS:
        (x1, y1), (x2, y2) = corners[start], corners[end]
        yield y2 - y1, x2 - x1, up_mm


def _trial_turns(pairs: Iterable[tuple[_Wave, _Wave]]) -> Iterator[float]:
    yield from (0.0, MOST_TURN_RAD, -MOST_TURN_RAD)
    for first, second in pairs:
        yield from (turn for turn in _meetings(first, second) if abs(turn) <= MOST_TURN_RAD)


def _meetings(first: _Wave, second: _Wave) -> tuple[float, ...]:
    """The angles at which two waves are equal: R·cos(θ − ψ) = c."""
    cosine_mm, sine_mm, level_mm = (one - other for one, other in zip(first, second, strict=True))
    height_mm = hypot(cosine_mm, sine_mm)
    if height_mm <= TOLERANCE_MM or abs(level_mm) > height_mm:
        return ()
    middle, aside = atan2(sine_mm, cosine_mm), acos(level_mm / height_mm)
    return remainder(middle + aside, 2 * pi), remainder(middle - aside, 2 * pi)
