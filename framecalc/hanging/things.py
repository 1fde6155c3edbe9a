"""What else is on a wall or before it, and what follows for the frames: doors, switches, a bed, a sofa, a radiator.

A thing is the upright rectangle that it takes of the wall as seen from the front.
"""

from collections.abc import Callable, Iterator, Sequence
from enum import StrEnum

from framecalc.findings import Finding, Severity
from framecalc.hanging.groups import OnWall, meet
from framecalc.records import Record
from framecalc.words import worded

CABLE_MM = 150.0
"""Cables run straight up, down and sideways from a switch or a socket, about so far to either side. Source: common
practice, no source."""


class ThingKind(StrEnum):
    """What stands or is on a wall."""

    DOOR = "door"
    WINDOW = "window"
    SWITCH = "switch"
    SOCKET = "socket"
    ALARM = "alarm"
    RADIATOR = "radiator"
    BED = "bed"
    SEAT = "seat"
    SIDEBOARD = "sideboard"
    OTHER = "other"


USUAL_SIZES: dict[ThingKind, tuple[dict[str, str], dict[str, str]]] = {
    ThingKind.DOOR: (
        {"low": "0 mm", "across": "900 mm", "up": "2050 mm"},
        {"low": "0 in", "across": "36 in", "up": "82 in"},
    ),
    ThingKind.WINDOW: (
        {"low": "900 mm", "across": "1200 mm", "up": "1200 mm"},
        {"low": "36 in", "across": "48 in", "up": "48 in"},
    ),
    ThingKind.SWITCH: (
        {"low": "1050 mm", "across": "80 mm", "up": "80 mm"},
        {"low": "44 in", "across": "3 in", "up": "4 1/2 in"},
    ),
    ThingKind.SOCKET: (
        {"low": "300 mm", "across": "80 mm", "up": "80 mm"},
        {"low": "12 in", "across": "3 in", "up": "4 1/2 in"},
    ),
    ThingKind.ALARM: (
        {"low": "2200 mm", "across": "120 mm", "up": "120 mm"},
        {"low": "86 in", "across": "5 in", "up": "5 in"},
    ),
    ThingKind.RADIATOR: (
        {"low": "100 mm", "across": "1000 mm", "up": "600 mm"},
        {"low": "4 in", "across": "40 in", "up": "24 in"},
    ),
    ThingKind.BED: (
        {"low": "0 mm", "across": "1600 mm", "up": "1000 mm"},
        {"low": "0 in", "across": "60 in", "up": "40 in"},
    ),
    ThingKind.SEAT: (
        {"low": "0 mm", "across": "2000 mm", "up": "850 mm"},
        {"low": "0 in", "across": "80 in", "up": "34 in"},
    ),
    ThingKind.SIDEBOARD: (
        {"low": "0 mm", "across": "1600 mm", "up": "800 mm"},
        {"low": "0 in", "across": "64 in", "up": "32 in"},
    ),
    ThingKind.OTHER: (
        {"low": "0 mm", "across": "600 mm", "up": "600 mm"},
        {"low": "0 in", "across": "24 in", "up": "24 in"},
    ),
}
"""Usual sizes in either unit, to be measured. Common practice, no source."""


class Thing(Record):
    """One of them in its place."""

    kind: ThingKind
    name: str
    place: OnWall


OVER_HEADS = frozenset({ThingKind.BED, ThingKind.SEAT})
ELECTRIC = frozenset({ThingKind.SWITCH, ThingKind.SOCKET, ThingKind.ALARM})


def thing_findings(hung: Sequence[tuple[str, OnWall]], things: Sequence[Thing]) -> Iterator[Finding]:
    """Report frames that hang over something, or where a cable may run; of one thing all of them at once.

    Args:
        hung: the frames, each with its name and its place.
        things: on the wall.
    Source: common practice, no source.

    >>> frame = OnWall(key="a", across_mm=500, up_mm=400, x_mm=1000, y_mm=1600)
    >>> under = OnWall(key="b", across_mm=1600, up_mm=900, x_mm=900, y_mm=450)
    >>> bed = Thing(kind=ThingKind.BED, name="bed", place=under)
    >>> [one.code for one in thing_findings([("print", frame)], [bed])]
    ['wall.over_heads']
    """
    for thing in things:
        for says in (_covers, _over_heads, _cables, _warm):
            names = [name for name, at in hung if _trouble(at, thing) is says]
            if names:
                yield says(", ".join(names), thing)


def _trouble(at: OnWall, thing: Thing) -> Callable[[str, Thing], Finding] | None:
    """What is to be said of a frame and a thing."""
    if meet(at, thing.place):
        return _covers
    if thing.kind in OVER_HEADS and _is_over(at, thing.place):
        return _over_heads
    if thing.kind in ELECTRIC and _in_line(at, thing.place):
        return _cables
    return _warm if thing.kind is ThingKind.RADIATOR and _is_over(at, thing.place) else None


def _is_over(at: OnWall, place: OnWall) -> bool:
    return at.low_mm >= place.high_mm and min(at.right_mm, place.right_mm) > max(at.left_mm, place.left_mm)


def _in_line(at: OnWall, place: OnWall) -> bool:
    """Whether a frame lies in the strip straight up, down or sideways from a thing."""
    up = at.left_mm < place.x_mm + CABLE_MM and at.right_mm > place.x_mm - CABLE_MM
    level = at.low_mm < place.y_mm + CABLE_MM and at.high_mm > place.y_mm - CABLE_MM
    return up or level


def _covers(name: str, thing: Thing) -> Finding:
    severity = Severity.STOP if thing.kind is ThingKind.ALARM else Severity.WARN
    says = "In the place of the {thing}: {name}. Move one of them."
    return _found("wall.covers", severity, says, "It must stay in reach and in sight.", name, thing)


def _over_heads(name: str, thing: Thing) -> Finding:
    says = "Over the {thing}: {name}. Screw to a stud or masonry, with plates that lock, without glass."
    return _found("wall.over_heads", Severity.WARN, says, "What falls there falls on a person.", name, thing)


def _cables(name: str, thing: Thing) -> Finding:
    says = "A cable may run straight from the {thing} behind {name}: find it before drilling."
    return _found("wall.cables", Severity.NOTE, says, "A screw into a live cable can kill.", name, thing)


def _warm(name: str, thing: Thing) -> Finding:
    says, why = "Over the {thing}: {name}. Hang elsewhere.", "Warm dry air shrinks wood and dries glue."
    return _found("wall.warm", Severity.WARN, says, why, name, thing)


def _found(code: str, severity: Severity, sentence: str, why: str, name: str, thing: Thing) -> Finding:
    return Finding(
        code=code,
        severity=severity,
        sentence=worded(sentence, name=name, thing=thing.name),
        why=why,
        source="usual practice",
        argument="wall.things",
    )
