"""How a package is held from behind: turn buttons, points, a shim, offset clips, a build-up strip; how many and where.

What is *left over* of the rabbet's depth behind the package decides. *Turn buttons* are flat and need a package flush
with the back; *points* are driven into the rabbet wall and need a recess; an *offset clip* steps down to a package that
stands proud; a *build-up strip* on the back makes the rabbet deeper. A retainer's *foot* is the part that is screwed to
the land.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from math import ceil

from framecalc.errors import ImpossibleSize
from framecalc.findings import Finding, Severity
from framecalc.limits import require_not_negative, require_positive
from framecalc.units import MM_PER_INCH, TOLERANCE_MM

FLUSH_MM = 0.5
"""A package no further from the back than this is flush: a button's spring takes it up. Common practice, no source."""

POINT_ROOM_MM = 3.0
"""Points need at least so much of the rabbet wall behind the package (1/8 in). Source: common practice, no source."""

STOCK_OFFSETS_MM = tuple(float(MM_PER_INCH * eighths / 8) for eighths in (1, 2, 4, 6, 8))
"""Steps of offset clips as sold: 1/8, 1/4, 1/2, 3/4, 1 in. Source: common practice, no source."""

MOST_SPRING_MM = 4.0
"""A clip that has to step down further than its own step bends; more than this it loosens or splits the land.
Source: common practice, no source."""

KEPT_UNDER_FACE_MM = 3.0
"""Wood that stays between the tip of a screw and the face. Source: common practice, no source."""

LEAST_BITE_MM = 6.0
"""What a screw must have in the wood to hold a retainer. Source: common practice, no source."""

STOCK_SCREWS_MM = tuple(float(MM_PER_INCH * eighths / 8) for eighths in (2, 3, 4, 5, 6, 8, 10, 12))
"""Usual lengths of small wood screws: 1/4 to 1 1/2 in. Source: common practice, no source."""

PLATE_MM = 1.0
"""Thickness of a turn button's or a clip's foot, which its screw goes through. Common practice, no source."""

_PRACTICE = "common practice, no source"


class Retainer(StrEnum):
    """What holds the package."""

    BUTTONS = "turn buttons"
    POINTS = "points"
    SHIM = "a shim, and turn buttons over it"
    CLIPS = "offset clips"
    STRIP = "a build-up strip, and turn buttons over it"


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Retention:
    """What holds the package, and its size: the step of a clip, the thickness of a shim or of a strip; else 0."""

    retainer: Retainer
    size_mm: float
    left_over_mm: float
    why: str

    @property
    def spring_mm(self) -> float:
        """How far a clip is bent."""
        return -self.left_over_mm - self.size_mm if self.retainer is Retainer.CLIPS else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Spacing:
    """Where the retainers of one side stand, from the end of the side, evenly between the first and the last."""

    places_mm: tuple[float, ...]
    apart_mm: float

    @property
    def count(self) -> int:
        """How many."""
        return len(self.places_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Screw:
    """The longest screw as sold that stays short of the face, and what it has in the wood."""

    length_mm: float
    bite_mm: float
    longest_mm: float


def choose_retainer(*, left_over_mm: float, offsets_mm: Iterable[float] = STOCK_OFFSETS_MM) -> Retention:
    """Choose what holds a package, from what is left of the rabbet's depth behind it.

    Flush: turn buttons. Recessed by POINT_ROOM_MM or more: points. In between: a shim of the missing thickness. Proud:
    the largest clip whose step is not more than the package is proud, since a larger one never presses; where there is
    none, or where it would have to bend too far, a build-up strip as thick as the package is proud.

    Args:
        left_over_mm: rabbet depth less package [mm]; negative where the package stands proud.
        offsets_mm: steps of the clips available [mm], each > 0.
    Raises:
        OutOfRange: a step is not above zero.
    Source: common practice, no source.

    >>> choose_retainer(left_over_mm=-7).size_mm, choose_retainer(left_over_mm=1.2).retainer.value
    (6.35, 'a shim, and turn buttons over it')
    """
    for offset_mm in (offsets := tuple(offsets_mm)):
        require_positive(offset_mm=offset_mm)
    if abs(left_over_mm) <= FLUSH_MM + TOLERANCE_MM:
        return _retention(Retainer.BUTTONS, 0.0, left_over_mm, "The package is flush with the back.")
    if left_over_mm >= POINT_ROOM_MM - TOLERANCE_MM:
        return _retention(Retainer.POINTS, 0.0, left_over_mm, "There is room in the rabbet wall behind the package.")
    if left_over_mm > 0:
        why = "Too deep for buttons, too shallow for points: a shim brings the package flush."
        return _retention(Retainer.SHIM, left_over_mm, left_over_mm, why)
    return _hold_proud(-left_over_mm, offsets)


def hold_with(retainer: Retainer, *, left_over_mm: float, offsets_mm: Iterable[float] = STOCK_OFFSETS_MM) -> Retention:
    """Hold a package with the chosen retainer, if it can hold it at all.

    Args:
        retainer: the chosen one.
        left_over_mm, offsets_mm: as in `choose_retainer`.
    Raises:
        ImpossibleSize: the package lies too deep for it, or stands too proud; the sentence says what to enter.
    Source: common practice, no source.

    >>> hold_with(Retainer.STRIP, left_over_mm=-7).size_mm
    7
    """
    chosen = choose_retainer(left_over_mm=left_over_mm, offsets_mm=offsets_mm)
    if retainer is chosen.retainer:
        return chosen
    if retainer is Retainer.STRIP and left_over_mm < -TOLERANCE_MM:
        return _retention(retainer, -left_over_mm, left_over_mm, "A strip as thick as the package is proud.")
    if retainer is Retainer.SHIM and left_over_mm > FLUSH_MM:
        return _retention(retainer, left_over_mm, left_over_mm, "A shim brings the package flush with the back.")
    state = "lies {depth} below the back" if left_over_mm >= 0 else "stands {depth} proud of the back"
    raise ImpossibleSize(
        f"This cannot be held by {retainer.value}: the package {state}. What would do: {chosen.retainer.value}.",
        field="retainer",
        lengths={"depth": abs(left_over_mm)},
    )


def space_retainers(side_mm: float, *, limit_mm: float, from_corner_mm: float = FROM_CORNER_MM) -> Spacing:
    """Space retainers evenly along one side of the rabbet, none further apart than a limit.

    ``count = ⌈(side − 2·from corner) / limit⌉ + 1``; a side too short for two has one, in its middle.

    Args:
        side_mm: length of the side [mm], > 0.
        limit_mm: the most that two may be apart [mm], > 0.
        from_corner_mm: the first and the last from the corner [mm], ≥ 0.
    Raises:
        OutOfRange: length out of range.
    Source: derived; the limits are common practice, no source.

    >>> space_retainers(500, limit_mm=200).places_mm
    (50.0, 250.0, 450.0)
    """
    require_positive(side_mm=side_mm, limit_mm=limit_mm)
    require_not_negative(from_corner_mm=from_corner_mm)
    between_mm = side_mm - 2 * from_corner_mm
    if between_mm <= TOLERANCE_MM:
        return Spacing(places_mm=(side_mm / 2,), apart_mm=0.0)
    steps = max(1, ceil((between_mm - TOLERANCE_MM) / limit_mm))
    apart_mm = between_mm / steps
    places_mm = tuple(from_corner_mm + number * apart_mm for number in range(steps + 1))
    return Spacing(places_mm=places_mm, apart_mm=apart_mm)


def choose_screw(
    *,
    wood_mm: float,
    through_mm: float,
    keep_mm: float = KEPT_UNDER_FACE_MM,
    lengths_mm: Iterable[float] = STOCK_SCREWS_MM,
) -> Screw:
    """Choose the longest screw that stays short of the face at its place of the section.

    ``longest = wood − kept + what it goes through``

    Args:
        wood_mm: thickness of the member at that place [mm], > 0.
        through_mm: the foot of the retainer, and a strip under it [mm], ≥ 0.
        keep_mm: wood that stays under the face [mm], ≥ 0.
        lengths_mm: screws available [mm].
    Raises:
        ImpossibleSize: no screw available is short enough and still bites.
    Source: derived; what stays and what bites are common practice, no source.

    >>> choose_screw(wood_mm=19, through_mm=1).length_mm
    15.875
    """
    require_positive(wood_mm=wood_mm)
    require_not_negative(through_mm=through_mm, keep_mm=keep_mm)
    longest_mm = wood_mm - keep_mm + through_mm
    bites = (length_mm for length_mm in lengths_mm if length_mm - through_mm >= LEAST_BITE_MM - TOLERANCE_MM)
    length_mm = max((length_mm for length_mm in bites if length_mm <= longest_mm + TOLERANCE_MM), default=0.0)
    if not length_mm:
        raise ImpossibleSize(
            "No screw holds here: it must be no longer than {longest}, and go {bite} into the wood. "
            "A thicker member, or points instead, would do.",
            field="thickness_mm",
            lengths={"longest": longest_mm, "bite": LEAST_BITE_MM},
        )
    return Screw(length_mm=length_mm, bite_mm=length_mm - through_mm, longest_mm=longest_mm)


def retainer_findings(
    retention: Retention, *, least_left_over_mm: float, most_left_over_mm: float, land_mm: float, foot_mm: float
) -> tuple[Finding, ...]:
    """Report where a retainer fails with the layers at their thickest or thinnest, or has no wood to rest on.

    Args:
        least_left_over_mm, most_left_over_mm: with the package at its thickest and at its thinnest [mm].
        land_mm: face width less rabbet width [mm].
        foot_mm: foot of the button or clip, from the rabbet wall outward [mm]; not asked for points.
    Source: derived; limits are common practice, no source.

    >>> held = choose_retainer(left_over_mm=-7)
    >>> [finding.code for finding in retainer_findings(held, least_left_over_mm=-7.5, most_left_over_mm=-6, land_mm=8,
    ...     foot_mm=12)]
    ['retainers.never-presses', 'retainers.foot-off-wood']
    """
    found = (
        _never_presses(retention, most_left_over_mm),
        _no_room_for_points(retention, least_left_over_mm),
        _no_foothold(retention, land_mm, foot_mm),
    )
    return tuple(finding for finding in found if finding)


def _retention(retainer: Retainer, size_mm: float, left_over_mm: float, why: str) -> Retention:
    return Retention(retainer=retainer, size_mm=size_mm, left_over_mm=left_over_mm, why=why)


def _hold_proud(proud_mm: float, offsets_mm: tuple[float, ...]) -> Retention:
    step_mm = max((offset_mm for offset_mm in offsets_mm if offset_mm <= proud_mm + TOLERANCE_MM), default=0.0)
    if not step_mm:
        why = "The package stands proud by less than the smallest clip steps down; a larger clip never presses."
        return _retention(Retainer.STRIP, proud_mm, -proud_mm, why)
    if proud_mm - step_mm > MOST_SPRING_MM + TOLERANCE_MM:
        why = "Even the largest clip that presses would have to bend too far."
        return _retention(Retainer.STRIP, proud_mm, -proud_mm, why)
    why = "The largest step that is not more than the package is proud: it presses by its spring."
    return _retention(Retainer.CLIPS, step_mm, -proud_mm, why)


def _never_presses(retention: Retention, most_left_over_mm: float) -> Finding | None:
    proud_mm = -most_left_over_mm
    if retention.retainer is not Retainer.CLIPS or proud_mm >= retention.size_mm - TOLERANCE_MM:
        return None
    return Finding(
        code="retainers.never-presses",
        severity=Severity.WARN,
        sentence="With thin layers the package is proud by {proud}, and clips that step down {step} do not reach it.",
        why="A clip with a larger step than the package is proud rests on nothing; the package rattles.",
        source="derived",
        argument="layer",
        lengths={"proud": max(0.0, proud_mm), "step": retention.size_mm},
    )


def _no_room_for_points(retention: Retention, least_left_over_mm: float) -> Finding | None:
    if retention.retainer is not Retainer.POINTS or least_left_over_mm >= POINT_ROOM_MM - TOLERANCE_MM:
        return None
    return Finding(
        code="retainers.no-room-for-points",
        severity=Severity.WARN,
        sentence="With thick layers only {left} is left for points, and {room} would do.",
        why="A point driven close to the back splits the edge of the rabbet.",
        source=_PRACTICE,
        argument="rabbet_depth_mm",
        lengths={"left": max(0.0, least_left_over_mm), "room": POINT_ROOM_MM},
    )


def _no_foothold(retention: Retention, land_mm: float, foot_mm: float) -> Finding | None:
    if retention.retainer is Retainer.POINTS or foot_mm <= land_mm + TOLERANCE_MM:
        return None
    return Finding(
        code="retainers.foot-off-wood",
        severity=Severity.WARN,
        sentence="The foot of the retainer is {foot} long, and the land it rests on only {land}: points would do.",
        why="A foot that sticks out past the frame shows from the side and catches on the wall.",
        source="plane geometry",
        argument="face_width_mm",
        lengths={"foot": foot_mm, "land": land_mm},
    )
