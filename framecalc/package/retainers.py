"""How a package is held from behind: turn buttons, points, a shim, offset clips, a build-up strip.

What is *left over* of the rabbet's depth behind the package decides. *Turn buttons* are flat and need a package flush
with the back; *points* are driven into the rabbet wall and need a recess; an *offset clip* steps down from a package
that stands proud, or turned over into a recess; a *build-up strip* on the back makes the rabbet deeper. A retainer's
*foot* is the part that is screwed to the land.

What is held decides too: a canvas is held by few retainers that are screwed on and come off again, never by points. A
clip is steel: it presses by bending some tenths of a millimetre, and bent further it loosens its screw.
"""

from collections.abc import Iterable
from enum import StrEnum

from framecalc.artwork.measuring import ArtworkKind
from framecalc.errors import ImpossibleSize
from framecalc.evidence import USUAL_PRACTICE
from framecalc.findings import Finding, Severity
from framecalc.limits import require_positive
from framecalc.records import Record
from framecalc.units import MM_PER_INCH, TOLERANCE_MM

FLUSH_MM = 0.5
"""A package no further from the back than this is flush: a button's spring takes it up. Common practice, no source."""

POINT_ROOM_MM = 3.0
"""Points need at least so much of the rabbet wall behind the package (1/8 in). Source: common practice, no source."""

STOCK_OFFSETS_MM = tuple(float(MM_PER_INCH * eighths / 8) for eighths in (1, 2, 4, 6, 8))
"""Steps of offset clips as sold: 1/8, 1/4, 1/2, 3/4, 1 in. Source: common practice, no source."""

MOST_SPRING_MM = 0.8
"""A clip of steel presses by bending so far at most (1/32 in); further it loosens its screw or splits the land.
Source: common practice, no source."""

PLATE_MM = 1.0
"""Thickness of a turn button's or a clip's foot, which its screw goes through. Common practice, no source."""


class Retainer(StrEnum):
    """What holds the package."""

    BUTTONS = "turn buttons"
    POINTS = "points"
    SHIM = "a shim, and turn buttons over it"
    CLIPS = "offset clips"
    STRIP = "a build-up strip, and turn buttons over it"

    @property
    def pieces(self) -> str:
        """What presses on the package, and is counted, where something lies under it.

        >>> Retainer.SHIM.pieces, Retainer.POINTS.pieces
        ('turn buttons', 'points')
        """
        return Retainer.BUTTONS.value if self in (Retainer.SHIM, Retainer.STRIP) else self.value


class Retention(Record):
    """What holds the package, and its size: the step of a clip, the thickness of a shim or of a strip; else 0."""

    retainer: Retainer
    size_mm: float
    left_over_mm: float
    why: str

    @property
    def spring_mm(self) -> float:
        """How far a clip is bent."""
        return _spring_mm(self.size_mm, self.left_over_mm) if self.retainer is Retainer.CLIPS else 0.0


def choose_retainer(
    *, left_over_mm: float, kind: ArtworkKind, offsets_mm: Iterable[float] = STOCK_OFFSETS_MM
) -> Retention:
    """Choose what holds a package, from what it is and what is left of the rabbet's depth behind it.

    Flush: turn buttons. Recessed: points where there is POINT_ROOM_MM or more, else a shim of the missing thickness; a
    canvas gets a clip that steps down to it, else a shim. Proud: a clip whose step presses. Where no clip presses by
    bending a little, a build-up strip as thick as the package is proud.

    Args:
        left_over_mm: rabbet depth less package [mm]; negative where the package stands proud.
        kind: what is framed.
        offsets_mm: steps of the clips available [mm], each > 0.
    Raises:
        OutOfRange: a step is not above zero.
    Source: common practice, no source.

    >>> choose_retainer(left_over_mm=-7, kind=ArtworkKind.PAPER).size_mm
    6.35
    >>> choose_retainer(left_over_mm=9, kind=ArtworkKind.CANVAS).retainer.value
    'a shim, and turn buttons over it'
    """
    for offset_mm in (offsets := tuple(offsets_mm)):
        require_positive(offset_mm=offset_mm)
    if abs(left_over_mm) <= FLUSH_MM + TOLERANCE_MM:
        return _retention(Retainer.BUTTONS, 0.0, left_over_mm, "The package is flush with the back.")
    if left_over_mm < -FLUSH_MM:
        return _hold_proud(left_over_mm, offsets)
    if kind is ArtworkKind.CANVAS:
        return _hold_canvas(left_over_mm, offsets)
    if left_over_mm >= POINT_ROOM_MM - TOLERANCE_MM:
        return _retention(Retainer.POINTS, 0.0, left_over_mm, "There is room in the rabbet wall behind the package.")
    why = "Too deep for buttons, too shallow for points: a shim brings the package flush."
    return _retention(Retainer.SHIM, left_over_mm, left_over_mm, why)


def hold_with(
    retainer: Retainer, *, left_over_mm: float, kind: ArtworkKind, offsets_mm: Iterable[float] = STOCK_OFFSETS_MM
) -> Retention:
    """Hold a package with the chosen retainer, if it can hold it at all.

    Args:
        retainer: the chosen one.
        left_over_mm, kind, offsets_mm: as in `choose_retainer`.
    Raises:
        ImpossibleSize: the package lies too deep for it, or stands too proud; the sentence says what to enter.
    Source: common practice, no source.

    >>> hold_with(Retainer.STRIP, left_over_mm=-7, kind=ArtworkKind.PAPER).size_mm
    7
    """
    chosen = choose_retainer(left_over_mm=left_over_mm, kind=kind, offsets_mm=offsets_mm)
    if retainer is chosen.retainer:
        return chosen
    if retainer is Retainer.POINTS and left_over_mm >= POINT_ROOM_MM - TOLERANCE_MM:
        return _retention(retainer, 0.0, left_over_mm, "There is room in the rabbet wall behind the package.")
    if retainer is Retainer.STRIP and left_over_mm < -TOLERANCE_MM:
        return _retention(retainer, -left_over_mm, left_over_mm, "A strip as thick as the package is proud.")
    if retainer is Retainer.SHIM and left_over_mm > FLUSH_MM:
        return _retention(retainer, left_over_mm, left_over_mm, "A shim brings the package flush with the back.")
    state = "lies {depth} below the back" if left_over_mm >= 0 else "stands {depth} proud of the back"
    raise ImpossibleSize(
        f"Not for {retainer.value}: the package {state}. Use {chosen.retainer.value}.",
        field="retainer",
        lengths={"depth": abs(left_over_mm)},
    )


def retainer_findings(
    retention: Retention,
    *,
    kind: ArtworkKind,
    least_left_over_mm: float,
    most_left_over_mm: float,
    land_mm: float,
    foot_mm: float,
) -> tuple[Finding, ...]:
    """Report where a retainer fails with the layers at their thickest or thinnest, or has no wood to rest on.

    Args:
        kind: what is framed.
        least_left_over_mm, most_left_over_mm: with the package at its thickest and at its thinnest [mm].
        land_mm: face width less rabbet width [mm].
        foot_mm: foot of the button or clip, from the rabbet wall outward [mm]; not asked for points.
    Source: derived; limits are common practice, no source.

    >>> held = choose_retainer(left_over_mm=-7, kind=ArtworkKind.PAPER)
    >>> [finding.code for finding in retainer_findings(held, kind=ArtworkKind.PAPER, least_left_over_mm=-7.1,
    ...     most_left_over_mm=-6, land_mm=8, foot_mm=12)]
    ['retainers.never-presses', 'retainers.foot-off-wood']
    """
    found = (
        _never_presses(retention, most_left_over_mm),
        _bends_too_far(retention, least_left_over_mm),
        _no_room_for_points(retention, least_left_over_mm),
        _points_in_a_stretcher(retention, kind),
        _no_foothold(retention, land_mm, foot_mm),
    )
    return tuple(finding for finding in found if finding)


def _retention(retainer: Retainer, size_mm: float, left_over_mm: float, why: str) -> Retention:
    return Retention(retainer=retainer, size_mm=size_mm, left_over_mm=left_over_mm, why=why)


def _hold_proud(left_over_mm: float, offsets_mm: tuple[float, ...]) -> Retention:
    if step_mm := _pressing_step_mm(left_over_mm, offsets_mm):
        return _retention(Retainer.CLIPS, step_mm, left_over_mm, "The clip presses by bending a little.")
    why = "No clip as sold presses here without bending far: a strip makes the rabbet deeper."
    return _retention(Retainer.STRIP, -left_over_mm, left_over_mm, why)


def _hold_canvas(left_over_mm: float, offsets_mm: tuple[float, ...]) -> Retention:
    """Hold a canvas that lies below the back."""
    if step_mm := _pressing_step_mm(left_over_mm, offsets_mm):
        why = "Turned over, the clip steps down to the stretcher and presses by bending a little."
        return _retention(Retainer.CLIPS, step_mm, left_over_mm, why)
    why = "A canvas is screwed, not held by points: a shim on the stretcher brings it flush with the back."
    return _retention(Retainer.SHIM, left_over_mm, left_over_mm, why)


def _pressing_step_mm(left_over_mm: float, offsets_mm: Iterable[float]) -> float:
    """The step of a clip that presses and bends no more than it may, the least bent first; 0 where there is none."""
    bent = ((_spring_mm(offset_mm, left_over_mm), offset_mm) for offset_mm in offsets_mm)
    presses = [pair for pair in bent if -TOLERANCE_MM <= pair[0] <= MOST_SPRING_MM + TOLERANCE_MM]
    return min(presses)[1] if presses else 0.0


def _spring_mm(step_mm: float, left_over_mm: float) -> float:
    """How far a clip bends: over a proud package up, its step being less; into a recess its step is more."""
    return step_mm - left_over_mm if left_over_mm > 0 else -left_over_mm - step_mm


def _never_presses(retention: Retention, most_left_over_mm: float) -> Finding | None:
    """With thin layers a package is less proud, or lies deeper."""
    is_clip = retention.retainer is Retainer.CLIPS
    gap_mm = most_left_over_mm - retention.left_over_mm - retention.spring_mm
    if not is_clip or gap_mm <= TOLERANCE_MM:
        return None
    return Finding(
        code="retainers.never-presses",
        severity=Severity.WARN,
        sentence="With thin layers clips that step {step} stay {gap} short of the package: pad them.",
        why="A clip that rests on nothing holds nothing; the package rattles.",
        source="derived",
        argument="layer",
        lengths={"step": retention.size_mm, "gap": gap_mm},
    )


def _bends_too_far(retention: Retention, least_left_over_mm: float) -> Finding | None:
    bend_mm = retention.spring_mm + retention.left_over_mm - least_left_over_mm
    if retention.retainer is not Retainer.CLIPS or bend_mm <= MOST_SPRING_MM + TOLERANCE_MM:
        return None
    return Finding(
        code="retainers.bends-too-far",
        severity=Severity.WARN,
        sentence="With thick layers each clip bends by {bend}; {most} is what steel takes. Measure the layers.",
        why="A clip bent further loosens its screw or splits the land.",
        source=USUAL_PRACTICE,
        argument="layer",
        lengths={"bend": bend_mm, "most": MOST_SPRING_MM},
    )


def _points_in_a_stretcher(retention: Retention, kind: ArtworkKind) -> Finding | None:
    if retention.retainer is not Retainer.POINTS or kind is not ArtworkKind.CANVAS:
        return None
    return Finding(
        code="retainers.points-on-canvas",
        severity=Severity.WARN,
        sentence="Points hold this canvas: clips or turn buttons, screwed to the frame, hold it better.",
        why="A stretcher moves with the air and works points loose; screws come off when it is keyed out.",
        source=USUAL_PRACTICE,
        argument="retainer",
    )


def _no_room_for_points(retention: Retention, least_left_over_mm: float) -> Finding | None:
    if retention.retainer is not Retainer.POINTS or least_left_over_mm >= POINT_ROOM_MM - TOLERANCE_MM:
        return None
    return Finding(
        code="retainers.no-room-for-points",
        severity=Severity.WARN,
        sentence="With thick layers only {left} is left for points: leave {room}.",
        why="A point driven close to the back splits the edge of the rabbet.",
        source=USUAL_PRACTICE,
        argument="rabbet_depth_mm",
        lengths={"left": max(0.0, least_left_over_mm), "room": POINT_ROOM_MM},
    )


def _no_foothold(retention: Retention, land_mm: float, foot_mm: float) -> Finding | None:
    if retention.retainer is Retainer.POINTS or foot_mm <= land_mm + TOLERANCE_MM:
        return None
    return Finding(
        code="retainers.foot-off-wood",
        severity=Severity.WARN,
        sentence="The retainer's foot of {foot} overhangs the land of {land}: use points.",
        why="A foot that sticks out past the frame shows from the side and catches on the wall.",
        source="plane geometry",
        argument="face_width_mm",
        lengths={"foot": foot_mm, "land": land_mm},
    )
