"""How a frame leans: it hangs from above and touches the wall below.

A frame hangs by a *link* (a ring, or the wire), which turns freely, from a hook that stands out from the wall. Its
lower back edge, or its bumpers, rest against the wall without friction. Three forces hold it: its weight, the level
push of the wall, and the pull along the link. A hanger that cannot turn, such as a toothed one or a plate, is a link of
no length. The *reach* of a link is how long it is; the *lean* is the angle between the frame's back and the wall.

A frame hung below its centre of gravity leans out far, or tips over: the lower the hanger, the harder the wall pushes.
"""

from bisect import bisect_left
from functools import lru_cache
from itertools import pairwise
from math import asin, degrees, hypot, radians, sin, tan

from framecalc.errors import ImpossibleSize
from framecalc.limits import require_not_negative, require_positive
from framecalc.records import Record

MOST_DEG = 60.0
"""A frame that leans so far has tipped over. Ours, no source."""

_STEPS, _HALVINGS = 600, 45
_STEP_DEG = 2 * MOST_DEG / _STEPS
_LEANS_DEG = tuple(-MOST_DEG + number * _STEP_DEG for number in range(_STEPS + 1))
_LEANS = tuple((sin(radians(deg)), tan(radians(deg))) for deg in _LEANS_DEG)
"""The leans that are tried, each by its sine and its tangent."""


class Hang(Record):
    """How a frame hangs, in the plane across the wall [mm].

    `hanger_up_mm` and `centre_up_mm` are above its lower edge, `centre_out_mm` is in front of its back, `bumper_mm` is
    how far its lower back edge is kept off the wall, `hook_out_mm` how far what rests on the hook is.
    """

    hanger_up_mm: float
    centre_up_mm: float
    centre_out_mm: float
    bumper_mm: float
    hook_out_mm: float
    reach_mm: float = 0.0


class Lean(Record):
    """How it hangs in the end: its lean, how far the top stands out, and what pulls on the hook away from the wall."""

    lean_deg: float
    top_out_mm: float
    pull_ratio: float


@lru_cache(maxsize=256)
def lean_of(hang: Hang, *, up_mm: float) -> Lean:
    """Find how a frame leans on its wall.

    With φ the lean and θ the slant of the link to the wall, moments about the lower edge give
    ``tan θ = ((centre up − hanger up) · tan φ + centre out) / hanger up``, and the link closes the figure:
    ``reach · sin θ = bumper + hanger up · sin φ − hook out``. The pull away from the wall is ``W · tan θ`` (for a link
    of no length ``W · e / k``).

    Args:
        hang: what hangs where.
        up_mm: the height of the frame [mm], > 0.
    Raises:
        OutOfRange: a quantity is out of range.
        ImpossibleSize: it finds no rest and tips over.
    Source: statics of three forces.

    >>> hang = Hang(hanger_up_mm=300, centre_up_mm=200, centre_out_mm=25, bumper_mm=0, hook_out_mm=0)
    >>> lean = lean_of(hang, up_mm=400)
    >>> lean.lean_deg, round(49.033 * lean.pull_ratio, 3)
    (0.0, 4.086)
    """
    require_positive(up_mm=up_mm, hanger_up_mm=hang.hanger_up_mm)
    require_not_negative(reach_mm=hang.reach_mm)
    lean_rad = radians(_rest_deg(hang))
    return Lean(
        lean_deg=degrees(lean_rad),
        top_out_mm=hang.bumper_mm + up_mm * sin(lean_rad),
        pull_ratio=_pull_ratio(hang, lean_rad),
    )


def _pull_ratio(hang: Hang, lean_rad: float) -> float:
    """tan θ."""
    over_mm = hang.centre_up_mm - hang.hanger_up_mm
    return (over_mm * tan(lean_rad) + hang.centre_out_mm) / hang.hanger_up_mm


def _open_mm(hang: Hang, sine: float, tangent: float) -> float:
    """By how much the link is too long for the figure at a lean, given by its sine and its tangent."""
    pull = ((hang.centre_up_mm - hang.hanger_up_mm) * tangent + hang.centre_out_mm) / hang.hanger_up_mm
    slant_mm = hang.reach_mm * pull / hypot(1, pull)
    return slant_mm - (hang.bumper_mm + hang.hanger_up_mm * sine - hang.hook_out_mm)


def _rest_deg(hang: Hang) -> float:
    if not hang.reach_mm:
        return _fixed_deg(hang)
    low_deg = _turning_deg(hang)
    high_deg = low_deg + _STEP_DEG
    for _ in range(_HALVINGS):
        middle_deg = (low_deg + high_deg) / 2
        lean_rad = radians(middle_deg)
        is_long = _open_mm(hang, sin(lean_rad), tan(lean_rad)) > 0
        low_deg, high_deg = (middle_deg, high_deg) if is_long else (low_deg, middle_deg)
    return (low_deg + high_deg) / 2


def _turning_deg(hang: Hang) -> float:
    """The last of the leans tried before the link turns from too long to too short: there the frame is at rest."""
    falls = hang.hanger_up_mm >= hang.centre_up_mm
    turning = _turning_where_it_falls(hang) if falls else _turning_anywhere(hang)
    if not 0 < turning < len(_LEANS):
        raise _tips()
    return _LEANS_DEG[turning - 1]


def _turning_where_it_falls(hang: Hang) -> int:
    """The first lean at which the link is too short: of a frame hung above its centre it gets shorter all the way."""
    return bisect_left(_LEANS, True, key=lambda lean: _open_mm(hang, *lean) <= 0)


def _turning_anywhere(hang: Hang) -> int:
    """The first lean at which the link has turned from too long to too short; one past the last where there is none."""
    opens = [_open_mm(hang, *lean) > 0 for lean in _LEANS]
    turns = (number for number, (was_long, is_long) in enumerate(pairwise(opens), start=1) if was_long and not is_long)
    return next(turns, len(_LEANS))


def _fixed_deg(hang: Hang) -> float:
    slant = (hang.hook_out_mm - hang.bumper_mm) / hang.hanger_up_mm
    if abs(slant) >= sin(radians(MOST_DEG)):
        raise _tips()
    return degrees(asin(slant))


def _tips() -> ImpossibleSize:
    return ImpossibleSize("Hung so low it tips over: place the hangers higher.", field="hangers_down_mm")
