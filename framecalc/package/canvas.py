"""A canvas on its stretcher: what the turned and folded cloth adds to the bars, what the keys need, how it is held.

*Bars* are measured outside, without cloth. At each corner the cloth is *folded*, and the fold lies either on the sides
or on the top and bottom; there it is three layers thick, elsewhere one. *Keys* are wedges that open the corners of a
stretcher; a strainer has none. In a tray the canvas is screwed on from behind, through the ledge into the bars.
"""

from enum import StrEnum

from framecalc.errors import ImpossibleSize
from framecalc.findings import Finding, Severity
from framecalc.limits import require_not_negative, require_positive
from framecalc.records import Record
from framecalc.units import MM_PER_INCH, TOLERANCE_MM

USUAL_CLOTH_MM = 0.7
"""Primed and painted canvas. Source: common practice, no source; measure it."""

FOLD_LAYERS = 3
"""Layers of cloth where a corner is folded: the turned edge, and the fold on it twice."""

KEY_ROOM_MM = float(MM_PER_INCH / 4)
"""What keys may open a stretcher by, both sides together (1/8 in a side). Source: common practice, no source."""

LEAST_BITE_MM, KEPT_MM = 8.0, 3.0
"""What a screw needs in a bar, and the wood that stays between its tip and the canvas. Common practice, no source."""


class Folds(StrEnum):
    """Where the folded corners lie."""

    SIDES = "on the sides"
    ENDS = "on the top and bottom"


class StretchedCanvas(Record):
    """A canvas on its stretcher: its size between the corners and over the folds, and the room that its keys need."""

    across_mm: float
    up_mm: float
    widest_across_mm: float
    widest_up_mm: float
    key_room_mm: float


class TrayScrew(Record):
    """The range of screw lengths that hold a canvas in a tray, through its ledge."""

    shortest_mm: float
    longest_mm: float


def stretch(
    *, bars_across_mm: float, bars_up_mm: float, cloth_mm: float = USUAL_CLOTH_MM, folds: Folds, has_keys: bool
) -> StretchedCanvas:
    """Size a canvas from its bars.

    ``across = bars + 2·cloth``, and where the folds lie ``bars + 2·3·cloth``.

    Args:
        bars_across_mm, bars_up_mm: the bars outside [mm], > 0.
        cloth_mm: thickness of the painted cloth [mm], ≥ 0.
        folds: where the corners are folded.
    Raises:
        OutOfRange: length out of range.
    Source: derived; three layers at a folded corner and the room for keys are common practice, no source.

    >>> canvas = stretch(bars_across_mm=400, bars_up_mm=500, cloth_mm=0.7, folds=Folds.SIDES, has_keys=True)
    >>> round(canvas.widest_across_mm, 1), round(canvas.widest_up_mm, 1), canvas.key_room_mm
    (404.2, 501.4, 6.35)
    """
    require_positive(bars_across_mm=bars_across_mm, bars_up_mm=bars_up_mm)
    require_not_negative(cloth_mm=cloth_mm)
    on_sides, on_ends = (FOLD_LAYERS, 1) if folds is Folds.SIDES else (1, FOLD_LAYERS)
    return StretchedCanvas(
        across_mm=bars_across_mm + 2 * cloth_mm,
        up_mm=bars_up_mm + 2 * cloth_mm,
        widest_across_mm=bars_across_mm + 2 * on_sides * cloth_mm,
        widest_up_mm=bars_up_mm + 2 * on_ends * cloth_mm,
        key_room_mm=KEY_ROOM_MM if has_keys else 0.0,
    )


def tray_screw(*, ledge_thickness_mm: float, bar_thickness_mm: float) -> TrayScrew:
    """Find how long a screw may be that holds a canvas in a tray.

    ``shortest = ledge + bite``, ``longest = ledge + bar − kept``

    Args:
        ledge_thickness_mm: [mm], > 0.
        bar_thickness_mm: depth of the bar over the ledge [mm], > 0.
    Raises:
        OutOfRange: length out of range.
        ImpossibleSize: the bar is too thin for a screw to bite and to stay short of the canvas.
    Source: derived; bite and what is kept are common practice, no source.

    >>> screw = tray_screw(ledge_thickness_mm=6, bar_thickness_mm=18)
    >>> screw.shortest_mm, screw.longest_mm
    (14.0, 21.0)
    """
    require_positive(tray_ledge_thickness_mm=ledge_thickness_mm, bar_thickness_mm=bar_thickness_mm)
    if bar_thickness_mm < LEAST_BITE_MM + KEPT_MM - TOLERANCE_MM:
        raise ImpossibleSize(
            "A bar {bar} thick takes no screw: use {least}, or brackets.",
            field="artwork_thickness_mm",
            lengths={"bar": bar_thickness_mm, "least": LEAST_BITE_MM + KEPT_MM},
        )
    return TrayScrew(
        shortest_mm=ledge_thickness_mm + LEAST_BITE_MM,
        longest_mm=ledge_thickness_mm + bar_thickness_mm - KEPT_MM,
    )


def canvas_findings(
    canvas: StretchedCanvas, *, rabbet_across_mm: float, rabbet_up_mm: float, is_tray: bool = False
) -> tuple[Finding, ...]:
    """Report where the folds do not enter, or the keys have no room.

    Args:
        rabbet_across_mm, rabbet_up_mm: rabbet wall to rabbet wall, or the inside of a tray [mm].
        is_tray: whether the opening is a tray, whose gap is the room.
    Source: derived; the room for keys is common practice, no source.

    >>> canvas = stretch(bars_across_mm=400, bars_up_mm=500, folds=Folds.SIDES, has_keys=True)
    >>> [finding.code for finding in canvas_findings(canvas, rabbet_across_mm=403, rabbet_up_mm=510)]
    ['canvas.folds-across']
    """
    found = []
    directions = (
        ("across", rabbet_across_mm, canvas.widest_across_mm, canvas.across_mm),
        ("up", rabbet_up_mm, canvas.widest_up_mm, canvas.up_mm),
    )
    for direction, rabbet_mm, widest_mm, size_mm in directions:
        argument = "tray_gap_mm" if is_tray else f"clearance_{direction}_mm"
        if rabbet_mm < widest_mm - TOLERANCE_MM:
            found.append(_folds_finding(direction, rabbet_mm, widest_mm, argument))
        elif rabbet_mm < size_mm + canvas.key_room_mm - TOLERANCE_MM:
            found.append(_keys_finding(direction, rabbet_mm, size_mm, canvas.key_room_mm, argument))
    return tuple(found)


def _folds_finding(direction: str, rabbet_mm: float, widest_mm: float, argument: str) -> Finding:
    return Finding(
        code=f"canvas.folds-{direction}",
        severity=Severity.STOP,
        sentence=f"Over its folded corners the canvas is {{widest}} {direction}, and the opening {{rabbet}}.",
        why="A canvas that is pressed in is dented along its edge.",
        source="derived",
        argument=argument,
        lengths={"widest": widest_mm, "rabbet": rabbet_mm},
    )


def _keys_finding(direction: str, rabbet_mm: float, size_mm: float, room_mm: float, argument: str) -> Finding:
    return Finding(
        code=f"canvas.keys-{direction}",
        severity=Severity.WARN,
        sentence=f"The canvas has {{play}} of play {direction}, and its keys need up to {{room}}.",
        why="A slack canvas is keyed out; without room the stretcher pushes the frame apart, or stays slack.",
        source="usual practice",
        argument=argument,
        lengths={"play": rabbet_mm - size_mm, "room": room_mm},
    )
