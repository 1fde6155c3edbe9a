"""Hangers by their generic kind: where they go on the back, what each has to hold, how long their screws may be.

A rating is what the packet of a hanger says, typed by the user; it is held against the load times a *factor*. That is
arithmetic with the user's number, never an approval.
"""

from collections.abc import Iterator, Sequence
from enum import StrEnum
from itertools import pairwise

from framecalc.corners.joints.clash import Prism, stand_within
from framecalc.errors import ImpossibleSize
from framecalc.findings import Finding, Severity, Way
from framecalc.geometry.outline import Point
from framecalc.limits import require_positive
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM
from framecalc.words import worded

_TOLERANCE_RATIO = 1e-9
"""A load over a rating by less is as strong as it."""


class Hanger(StrEnum):
    """What a frame hangs by."""

    RINGS = "rings"
    WIRE = "wire"
    TOOTHED = "toothed"
    CLEAT = "cleat"
    PLATES = "plates"


ON_TOP = frozenset({Hanger.TOOTHED, Hanger.CLEAT, Hanger.PLATES})
"""What is fixed to the top side; rings are fixed to the sides that stand."""

HIGH_RATIO, LOW_RATIO = 1 / 4, 1 / 3
"""Hangers go a quarter to a third of the height down. Source: common practice, no source."""

USUAL_FACTOR = 4
"""A hanger is rated for so many times its load, 3 to 4. Source: common practice, no source."""

TOOTHED_KG = 4.5
"""A toothed hanger that is nailed holds up to 5 to 10 lb: the lower figure. Source: common practice, no source."""

PLATES_IN_RATIO = 1 / 6
"""Two plates stand so far in from the ends of the top side. Source: common practice, no source."""

ONE_HOOK_MM, ONE_HOOK_KG = 400.0, 10.0
"""Wider or heavier than this, two hooks keep a frame level and halve the load. Source: common practice, no source."""

BUILDING_KG = 20.0
"""From here on (45 lb) a stud, masonry or a cleat carries it. Source: common practice, no source."""


class PlacedHangers(Record):
    """Hangers in their places, from the middle of the frame; `drop_mm` is from its top edge to what rests on a hook.

    `hooks_mm` is where the hooks are across, from the middle of the frame.
    """

    kind: Hanger
    places: tuple[Point, ...]
    hooks_mm: tuple[float, ...]
    down_mm: float
    drop_mm: float


def crossings_mm(corners: Sequence[Point], *, up_mm: float) -> tuple[float, float]:
    """Where a level line meets an outline: its leftmost and its rightmost place.

    Args:
        corners: of a convex outline.
        up_mm: the height of the line.
    Raises:
        ImpossibleSize: the line passes it by.
    Source: plane geometry.

    >>> crossings_mm([(-5, -5), (-5, 5), (5, 5), (5, -5)], up_mm=2)
    (-5.0, 5.0)
    """
    met = [
        x + (u - x) * (up_mm - y) / (v - y)
        for (x, y), (u, v) in pairwise((*corners, corners[0]))
        if min(y, v) - TOLERANCE_MM <= up_mm <= max(y, v) + TOLERANCE_MM and abs(v - y) > TOLERANCE_MM
    ]
    if not met or max(met) - min(met) < TOLERANCE_MM:
        raise ImpossibleSize("No side is there to screw a hanger to.", field="hangers_down_mm")
    return min(met), max(met)


def usual_down_mm(kind: Hanger, *, up_mm: float) -> float:
    """How far down hangers usually go: a third of the height for a wire, which rises, a quarter for rings.

    Args:
        up_mm: the height of the frame [mm], > 0.
    Raises:
        OutOfRange: no height.
    Source: common practice, no source.

    >>> usual_down_mm(Hanger.RINGS, up_mm=400), usual_down_mm(Hanger.WIRE, up_mm=600)
    (100.0, 200.0)
    """
    require_positive(up_mm=up_mm)
    return up_mm * (LOW_RATIO if kind is Hanger.WIRE else HIGH_RATIO)


def place_findings(kind: Hanger, *, down_mm: float, up_mm: float, centre_down_mm: float) -> Iterator[Finding]:
    """Report hangers at or under the centre of gravity, or out of the usual place.

    Args:
        down_mm: of the hangers under the top edge [mm].
        up_mm: the height of the frame [mm].
        centre_down_mm: of the centre of gravity under the top edge [mm].
    Source: statics; the places are common practice, no source.

    >>> [one.code for one in place_findings(Hanger.RINGS, down_mm=260, up_mm=500, centre_down_mm=250)]
    ['hangers.low']
    """
    if kind in ON_TOP:
        return
    usual_mm = usual_down_mm(kind, up_mm=up_mm)
    lengths = {"down": down_mm, "high": up_mm * HIGH_RATIO, "low": up_mm * LOW_RATIO, "centre": centre_down_mm}
    way = Way(argument="hangers_down_mm", value_mm=usual_mm, says="place them higher")
    if down_mm >= centre_down_mm - TOLERANCE_MM:
        yield Finding(
            code="hangers.low",
            severity=Severity.WARN,
            sentence="The hangers are {down} down, the centre of gravity {centre}: the frame tips forward.",
            why="Hung below its centre of gravity a frame leans out and swings over when it is touched.",
            source="statics",
            argument="hangers_down_mm",
            lengths=lengths,
            ways=(way,),
        )
    elif not up_mm * HIGH_RATIO - 1 <= down_mm <= up_mm * LOW_RATIO + 1:
        yield Finding(
            code="hangers.place",
            severity=Severity.NOTE,
            sentence="The hangers are {down} down; {high} to {low} is usual.",
            why="Higher they lean less, lower they hide better.",
            source="usual practice",
            argument="hangers_down_mm",
            lengths=lengths,
        )


def strength_findings(
    kind: Hanger, *, load_kg: float, rating_kg: float | None, factor_ratio: float
) -> Iterator[Finding]:
    """Hold what one hanger carries, times the factor, against what its packet says.

    Args:
        load_kg: on the hanger that carries most [kg].
        rating_kg: as typed from its packet [kg]; None until somebody has.
        factor_ratio: how many times the load it is to be rated for, ≥ 1.
    Source: statics; the rating is the user's, the factor common practice, no source.

    >>> [one.code for one in strength_findings(Hanger.RINGS, load_kg=3, rating_kg=10, factor_ratio=4)]
    ['hangers.weak']
    """
    if rating_kg is not None and load_kg * factor_ratio > rating_kg * (1 + _TOLERANCE_RATIO):
        yield Finding(
            code="hangers.weak",
            severity=Severity.STOP if load_kg > rating_kg else Severity.WARN,
            sentence="The packet says less than this frame asks for: take stronger hangers, or more of them.",
            why="Knocks, slams and years ask for more than the weight at rest.",
            source="your rating and factor; the load by statics",
            argument="rating",
        )
    if kind is Hanger.TOOTHED and load_kg > TOOTHED_KG:
        yield Finding(
            code="hangers.toothed",
            severity=Severity.WARN,
            sentence="Too heavy for a toothed hanger that is nailed: use two rings on two hooks.",
            why="Its nails are short, and a tooth lets go sideways. Up to 4.5 kg (10 lb) is usual.",
            source="usual practice",
            argument="hung_by",
        )


def heavy_findings(kind: Hanger, *, hooks: int, mass_kg: float, across_mm: float) -> Iterator[Finding]:
    """Say when one hook is little, and when only the building itself carries a frame.

    Args:
        hooks: how many it hangs on.
        mass_kg: of the frame [kg].
        across_mm: its width [mm].
    Source: common practice, no source.

    >>> [one.code for one in heavy_findings(Hanger.WIRE, hooks=1, mass_kg=21, across_mm=700)]
    ['hangers.one_hook', 'hangers.building']
    """
    if hooks == 1 and kind is not Hanger.CLEAT and (mass_kg > ONE_HOOK_KG or across_mm > ONE_HOOK_MM):
        yield Finding(
            code="hangers.one_hook",
            severity=Severity.NOTE,
            sentence="Two hooks keep a frame of this size level and halve the load on each.",
            why="On one hook it turns a little with every slam of a door.",
            source="usual practice",
            argument="hooks",
        )
    if mass_kg > BUILDING_KG:
        yield Finding(
            code="hangers.building",
            severity=Severity.NOTE,
            sentence="Heavy: screw into a stud or masonry, or hang it on a cleat. A nail in plaster does not do.",
            why="Over 20 kg (45 lb) a fixing in the board alone pulls out in time.",
            source="usual practice",
            argument="hung_by",
        )


def clashing(others: Sequence[Prism], *, hanger: Sequence[Prism]) -> tuple[str, ...]:
    """What stands where a part of a hanger is to be, each once.

    Args:
        others: what is cut or driven into the side, or fixed to its back.
        hanger: the parts of the hanger, in the same coordinates.
    Source: plane geometry.

    >>> square = ((0, 0), (9, 0), (9, 9), (0, 9))
    >>> clip = Prism(name="clip", plan=square, low_mm=-1, high_mm=0)
    >>> ring = Prism(name="ring", plan=square, low_mm=-2, high_mm=0)
    >>> clashing([clip], hanger=[ring])
    ('clip',)
    """
    met = (other.name for other in others for part in hanger if stand_within(other, part, reach_mm=TOLERANCE_MM))
    return tuple(dict.fromkeys(met))


def clash_findings(names: Sequence[str]) -> tuple[Finding, ...]:
    """Report hangers that stand where something else is.

    Source: plane geometry.

    >>> [one.code for one in clash_findings(["a clip"])], clash_findings([])
    (['hangers.clash'], ())
    """
    if not names:
        return ()
    return (
        Finding(
            code="hangers.clash",
            severity=Severity.WARN,
            sentence=worded("Move the hangers: something else is in their place ({names}).", names=", ".join(names)),
            why="A screw that meets steel or a spline splits the wood or does not go in.",
            source="plane geometry",
            argument="hangers_down_mm",
        ),
    )
