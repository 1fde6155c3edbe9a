"""Where retainers stand along a side, how many, and how long their screws are.

Places are measured from the corner of the rabbet and lie on whole steps of the tape. A screw is one as sold, and a
short one: long enough to hold, no longer.
"""

from collections.abc import Iterable
from itertools import count, pairwise
from math import ceil

from framecalc.errors import ImpossibleSize
from framecalc.limits import require_not_negative, require_positive
from framecalc.package.retainers import Retainer
from framecalc.records import Record
from framecalc.units import MM_PER_INCH, TOLERANCE_MM, Unit

LIMITS_MM = {
    Retainer.POINTS: 100.0,
    Retainer.BUTTONS: 200.0,
    Retainer.SHIM: 200.0,
    Retainer.CLIPS: 250.0,
    Retainer.STRIP: 200.0,
}
"""How far apart retainers of a kind may be (4, 8, 10 in). Source: common practice, no source."""

FROM_CORNER_MM = 50.0
"""How far from the rabbet's corner the first retainer is, at most (2 in). Source: common practice, no source."""

STRETCHED_LIMIT_MM = 300.0
"""A stretcher is stiff: its retainers may stand so far apart (12 in). Source: common practice, no source."""

STRETCHED_LEAST, STRETCHED_MOST = 2, 4
"""A canvas has so many retainers a side. Source: common practice, no source."""

KEPT_UNDER_FACE_MM = 3.0
"""Wood that stays between the tip of a screw and the face. Source: common practice, no source."""

GOOD_BITE_MM = 9.0
"""A screw with so much in the wood holds; a longer one gains nothing (3/8 in). Source: common practice, no source."""

LEAST_BITE_MM = 6.0
"""What a screw must have in the wood to hold a retainer at all. Source: common practice, no source."""

STOCK_SCREWS_MM = {
    Unit.MM: (10.0, 12.0, 16.0, 20.0, 25.0, 30.0, 35.0, 40.0, 50.0),
    Unit.INCH: tuple(float(MM_PER_INCH * eighths / 8) for eighths in (3, 4, 5, 6, 8, 10, 12, 14, 16)),
}
"""Lengths of small wood screws as sold: 10 to 50 mm, 3/8 to 2 in. Source: common practice, no source."""


class RetainerSpacing(Record):
    """Where the retainers of one side stand, from the end of the side; `apart_mm` is the widest gap between two."""

    places_mm: tuple[float, ...]

    @property
    def count(self) -> int:
        """How many."""
        return len(self.places_mm)

    @property
    def apart_mm(self) -> float:
        """The widest gap between two."""
        return max((after - before for before, after in pairwise(self.places_mm)), default=0.0)


class Screw(Record):
    """A screw as sold that stays short of the face, what it has in the wood, and the longest that would."""

    length_mm: float
    bite_mm: float
    longest_mm: float


def space_retainers(
    side_mm: float, *, limit_mm: float, from_corner_mm: float = FROM_CORNER_MM, step_mm: float = 0.0
) -> RetainerSpacing:
    """Space retainers along one side of the rabbet, as evenly as the tape reads, none further apart than a limit.

    ``count = ⌈(side − 2·from corner) / limit⌉ + 1``, and one more where whole steps would break the limit; a side too
    short for two has one, in its middle.

    Args:
        side_mm: length of the side [mm], > 0.
        limit_mm: the most that two may be apart [mm], > 0.
        from_corner_mm: the first and the last from the corner [mm], ≥ 0.
        step_mm: of the tape [mm], ≥ 0; 0 rounds nothing.
    Raises:
        OutOfRange: length out of range.
    Source: derived; the limits are common practice, no source.

    >>> space_retainers(500, limit_mm=200).places_mm, space_retainers(433, limit_mm=200, step_mm=1.0).places_mm
    ((50.0, 250.0, 450.0), (50.0, 216.0, 383.0))
    """
    require_positive(side_mm=side_mm, limit_mm=limit_mm)
    require_not_negative(from_corner_mm=from_corner_mm, step_mm=step_mm)
    between_mm = side_mm - 2 * from_corner_mm
    if between_mm <= TOLERANCE_MM:
        return RetainerSpacing(places_mm=(_on_step_mm(side_mm / 2, step_mm),))
    fewest = ceil((between_mm - TOLERANCE_MM) / limit_mm)
    spaced = (_spaced(gaps, from_corner_mm, between_mm, step_mm) for gaps in count(fewest))
    return next(one for one in spaced if one.apart_mm <= max(limit_mm, step_mm) + TOLERANCE_MM)


def space_on_stretcher(
    side_mm: float, *, from_corner_mm: float = FROM_CORNER_MM, step_mm: float = 0.0
) -> RetainerSpacing:
    """Space the retainers of a canvas along one side: 2 to 4, by its length.

    Args:
        side_mm, from_corner_mm, step_mm: as in `space_retainers`.
    Raises:
        OutOfRange: length out of range.
    Source: common practice, no source.

    >>> [space_on_stretcher(side_mm).count for side_mm in (300, 600, 900, 1500)]
    [2, 3, 4, 4]
    """
    require_positive(side_mm=side_mm)
    require_not_negative(from_corner_mm=from_corner_mm, step_mm=step_mm)
    between_mm = side_mm - 2 * from_corner_mm
    if between_mm <= TOLERANCE_MM:
        return RetainerSpacing(places_mm=(_on_step_mm(side_mm / 2, step_mm),))
    wished = ceil((between_mm - TOLERANCE_MM) / STRETCHED_LIMIT_MM) + 1
    gaps = min(max(wished, STRETCHED_LEAST), STRETCHED_MOST) - 1
    return _spaced(gaps, from_corner_mm, between_mm, step_mm)


def choose_screw(
    *, wood_mm: float, through_mm: float, lengths_mm: Iterable[float], keep_mm: float = KEPT_UNDER_FACE_MM
) -> Screw:
    """Choose a screw that stays short of the face: the shortest that holds well, else the longest there is.

    ``longest = wood − kept + what it goes through``

    Args:
        wood_mm: thickness of the member at that place [mm], > 0.
        through_mm: the foot of the retainer, and a strip under it [mm], ≥ 0.
        lengths_mm: screws as sold [mm].
        keep_mm: wood that stays under the face [mm], ≥ 0.
    Raises:
        ImpossibleSize: no screw available is short enough and still bites.
    Source: derived; what stays and what bites are common practice, no source.

    >>> choose_screw(wood_mm=19, through_mm=1, lengths_mm=STOCK_SCREWS_MM[Unit.INCH]).length_mm
    12.7
    """
    require_positive(wood_mm=wood_mm)
    require_not_negative(through_mm=through_mm, keep_mm=keep_mm)
    longest_mm = wood_mm - keep_mm + through_mm
    short = [length_mm for length_mm in lengths_mm if length_mm <= longest_mm + TOLERANCE_MM]
    bites = [length_mm for length_mm in short if length_mm - through_mm >= LEAST_BITE_MM - TOLERANCE_MM]
    if not bites:
        raise ImpossibleSize(
            "A screw of {longest} cannot bite {bite}: use points or thicken.",
            field="thickness_mm",
            lengths={"longest": longest_mm, "bite": LEAST_BITE_MM},
        )
    good = [length_mm for length_mm in bites if length_mm - through_mm >= GOOD_BITE_MM - TOLERANCE_MM]
    length_mm = min(good) if good else max(bites)
    return Screw(length_mm=length_mm, bite_mm=length_mm - through_mm, longest_mm=longest_mm)


def _spaced(gaps: int, from_corner_mm: float, between_mm: float, step_mm: float) -> RetainerSpacing:
    places_mm = (from_corner_mm + number * between_mm / gaps for number in range(gaps + 1))
    return RetainerSpacing(places_mm=tuple(_on_step_mm(place_mm, step_mm) for place_mm in places_mm))


def _on_step_mm(place_mm: float, step_mm: float) -> float:
    return round(place_mm / step_mm) * step_mm if step_mm else place_mm
