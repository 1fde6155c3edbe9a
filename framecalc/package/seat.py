"""How the package sits in the rabbet: the depth left over behind it, and the strip that the lip covers.

*Left over* is rabbet depth − package: positive when the package is *recessed*, negative when it stands *proud* of the
back. The *covered strip* is what the lip laps over on one side: rabbet width less the looseness on that side, which is
all of the clearance at worst, and half of it when the package is centred.
"""

from framecalc.artwork.measuring import ArtworkKind
from framecalc.evidence import USUAL_PRACTICE
from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.package.layers import Stack
from framecalc.package.retainers import Retainer
from framecalc.records import Record
from framecalc.sizes.shape import RECTANGLE, Shape
from framecalc.units import TOLERANCE_MM

RETAINER_ROOM_MM = 3.0
"""Depth kept behind the package for points or brads, 1/8 in. Source: common practice, no source."""

DEEP_RECESS_MM = 12.0
"""Deeper than this, a package is out of reach of a point driver from the back. Source: common practice, no source."""

LEAST_COVER_MM = 1.5
"""Under 1/16 in of cover, light shows past the artwork's edge. Source: common practice, no source."""


class Seat(Record):
    """The package in the rabbet's depth; what is left over is positive when recessed, negative when proud."""

    rabbet_depth_mm: float
    nominal_mm: float
    least_mm: float
    worst_mm: float
    left_over_mm: float
    left_over_worst_mm: float
    left_over_best_mm: float


class Cover(Record):
    """The strip that the lip covers on one side, at worst and centred, and the share of the package that it hides."""

    rabbet_width_mm: float
    clearance_across_mm: float
    clearance_up_mm: float
    worst_across_mm: float
    worst_up_mm: float
    centred_across_mm: float
    centred_up_mm: float
    hidden_ratio: float
    shape: Shape = RECTANGLE


def seat(stack: Stack, *, rabbet_depth_mm: float) -> Seat:
    """Sit a package in a depth: the rabbet's, or what a tray's wall has above its ledge.

    `left over = depth - package`, at its nominal, thickest (worst) and thinnest (best).

    Args:
        rabbet_depth_mm: [mm], > 0.
    Source: derived.

    >>> from framecalc.package.layers import Layer, LayerKind, stack_layers
    >>> glass = Layer(name="glass", kind=LayerKind.GLAZING, thickness_mm=2.5, tolerance_mm=0.25)
    >>> seated = seat(stack_layers((glass,)), rabbet_depth_mm=6)
    >>> seated.left_over_mm, seated.left_over_worst_mm
    (3.5, 3.25)
    """
    return Seat(
        rabbet_depth_mm=rabbet_depth_mm,
        nominal_mm=stack.nominal_mm,
        least_mm=stack.least_mm,
        worst_mm=stack.worst_mm,
        left_over_mm=rabbet_depth_mm - stack.nominal_mm,
        left_over_worst_mm=rabbet_depth_mm - stack.worst_mm,
        left_over_best_mm=rabbet_depth_mm - stack.least_mm,
    )


def cover(
    *,
    rabbet_width_mm: float,
    clearance_across_mm: float,
    clearance_up_mm: float,
    package_across_mm: float,
    package_up_mm: float,
    taper_across_mm: float = 0.0,
    taper_up_mm: float = 0.0,
    shape: Shape = RECTANGLE,
) -> Cover:
    """Measure what the lip covers of the package.

    At worst the package lies against one rabbet wall, and it is its narrowest place that the other lip must reach:
    `worst = lap - clearance - taper`, with `lap = rabbet width * cos S`. Centred, `lap - clearance/2`. The share hidden
    is `1 - area seen / package area`, centred.

    Args:
        rabbet_width_mm: [mm], > 0.
        clearance_across_mm, clearance_up_mm: total looseness [mm]; negative where the package does not fit.
        package_across_mm, package_up_mm: the package at its largest [mm], > 0.
        taper_across_mm, taper_up_mm: largest size less narrowest [mm], >= 0; nothing where the package is cut square.
        shape: the frame's; S is the slope of its sides.
    Source: derived; the terms are common practice, no source.

    >>> strip = cover(rabbet_width_mm=6, clearance_across_mm=3, clearance_up_mm=2, package_across_mm=297,
    ...     package_up_mm=420)
    >>> strip.worst_across_mm, strip.centred_across_mm, strip.worst_up_mm, strip.centred_up_mm
    (3.0, 4.5, 4.0, 5.0)
    """
    lap_mm = rabbet_width_mm * shape.flat_ratio
    centred_across_mm, centred_up_mm = lap_mm - clearance_across_mm / 2, lap_mm - clearance_up_mm / 2
    seen_ratio = _seen_ratio(package_across_mm, centred_across_mm) * _seen_ratio(package_up_mm, centred_up_mm)
    return Cover(
        rabbet_width_mm=rabbet_width_mm,
        clearance_across_mm=clearance_across_mm,
        clearance_up_mm=clearance_up_mm,
        worst_across_mm=lap_mm - clearance_across_mm - taper_across_mm,
        worst_up_mm=lap_mm - clearance_up_mm - taper_up_mm,
        centred_across_mm=centred_across_mm,
        centred_up_mm=centred_up_mm,
        hidden_ratio=1 - seen_ratio,
        shape=shape,
    )


def rabbet_findings(
    seat: Seat, cover: Cover | None, *, kind: ArtworkKind, held_by: Retainer | None
) -> tuple[Finding, ...]:
    """What will go wrong between package and rabbet: proud, no room for points, lying deep, a line of light.

    Args:
        cover: nothing for a tray, where nothing laps over the artwork.
        kind: what is framed; a canvas usually stands proud, and is never held by points.
        held_by: what holds the package; nothing where that cannot be said.
    Source: common practice, no source.

    >>> from framecalc.package.layers import Layer, LayerKind, stack_layers
    >>> panel = Layer(name="panel", kind=LayerKind.ARTWORK, thickness_mm=20, tolerance_mm=0)
    >>> seated = seat(stack_layers((panel,)), rabbet_depth_mm=12)
    >>> [finding.code for finding in rabbet_findings(seated, None, kind=ArtworkKind.PANEL, held_by=None)]
    ['tray.artwork-proud']
    """
    found = [_depth_finding(seat, kind, held_by) if cover else _proud_of_tray(seat)]
    if cover:
        found += [_light_finding(cover, direction) for direction in ("across", "up")]
    return tuple(finding for finding in found if finding)


def _seen_ratio(package_mm: float, covered_mm: float) -> float:
    """The share of a length that stays in view between two covered strips; a lip that misses it hides nothing."""
    return (package_mm - 2 * max(covered_mm, 0.0)) / package_mm


def _depth_finding(seat: Seat, kind: ArtworkKind, held_by: Retainer | None) -> Finding | None:
    if seat.left_over_mm < -TOLERANCE_MM:
        return _proud_finding(seat, kind, held_by)
    if kind is ArtworkKind.CANVAS and held_by is not Retainer.POINTS:
        return None
    if seat.left_over_worst_mm < -TOLERANCE_MM:
        return _maybe_proud_finding(seat)
    if seat.left_over_worst_mm < RETAINER_ROOM_MM - TOLERANCE_MM:
        return _no_room_finding(seat)
    return _deep_finding(seat) if seat.left_over_mm > DEEP_RECESS_MM + TOLERANCE_MM else None


def _way_to_room_for_points(seat: Seat, says: str) -> tuple[Way, ...]:
    room_mm = seat.worst_mm + RETAINER_ROOM_MM
    return (Way(argument="rabbet_depth_mm", value_mm=room_mm, says=says, rounding=Rounding.UP),)


def _proud_finding(seat: Seat, kind: ArtworkKind, held_by: Retainer | None) -> Finding:
    held = f" It is held by {held_by.value}." if held_by else ""
    return Finding(
        code="rabbet.proud",
        severity=Severity.NOTE if kind is ArtworkKind.CANVAS else Severity.WARN,
        sentence=f"The package stands {{proud}} proud of the back.{held}",
        why="The frame stands off the wall by that much, unless the rabbet is cut deeper.",
        source=USUAL_PRACTICE,
        argument="rabbet_depth_mm",
        lengths={"proud": -seat.left_over_mm},
        ways=_way_to_room_for_points(seat, "cut the rabbet deeper"),
    )


def _maybe_proud_finding(seat: Seat) -> Finding:
    return Finding(
        code="rabbet.may-be-proud",
        severity=Severity.WARN,
        sentence="With every layer at its thickest the package stands {proud} proud of the back.",
        why="Sheets differ from their names: measure each layer before the rabbet is cut.",
        source=USUAL_PRACTICE,
        argument="rabbet_depth_mm",
        lengths={"proud": -seat.left_over_worst_mm},
        ways=_way_to_room_for_points(seat, "cut the rabbet deeper"),
    )


def _no_room_finding(seat: Seat) -> Finding:
    return Finding(
        code="rabbet.no-room-for-points",
        severity=Severity.NOTE,
        sentence="At worst {left} is left behind the package; points and brads need {limit}.",
        why="A point driven close to the back splits the land; offset clips need no room.",
        source=USUAL_PRACTICE,
        argument="rabbet_depth_mm",
        lengths={"left": seat.left_over_worst_mm, "limit": RETAINER_ROOM_MM},
        ways=_way_to_room_for_points(seat, "cut the rabbet deeper"),
    )


def _deep_finding(seat: Seat) -> Finding:
    return Finding(
        code="rabbet.deep",
        severity=Severity.NOTE,
        sentence="The package lies {left} below the back; over {limit} is out of reach of a point driver.",
        why="The deeper the rabbet, the thinner the lip.",
        source=USUAL_PRACTICE,
        argument="rabbet_depth_mm",
        lengths={"left": seat.left_over_mm, "limit": DEEP_RECESS_MM},
        ways=_way_to_room_for_points(seat, "cut the rabbet shallower"),
    )


def _proud_of_tray(seat: Seat) -> Finding | None:
    if seat.left_over_worst_mm >= -TOLERANCE_MM:
        return None
    certain = seat.left_over_mm < -TOLERANCE_MM
    when = "The artwork stands" if certain else "With every layer at its thickest the artwork would stand"
    return Finding(
        code="tray.artwork-proud",
        severity=Severity.NOTE,
        sentence=f"{when} {{proud}} above the wall of the tray.",
        why="Its edges are seen and knocked; some are shown so on purpose.",
        source=USUAL_PRACTICE,
        argument="tray_height_mm",
        lengths={"proud": -(seat.left_over_mm if certain else seat.left_over_worst_mm)},
    )


def _light_finding(cover: Cover, direction: str) -> Finding | None:
    worst_mm = cover.worst_across_mm if direction == "across" else cover.worst_up_mm
    if worst_mm >= LEAST_COVER_MM - TOLERANCE_MM:
        return None
    if worst_mm <= TOLERANCE_MM:
        severity, sentence = Severity.STOP, "Pushed to one side, the package comes out from under the lip by {gap}"
    else:
        severity, sentence = Severity.WARN, "Pushed to one side, only {strip} of the package is covered on the other"
    return Finding(
        code=f"rabbet.light-{direction}",
        severity=severity,
        sentence=f"{sentence}, {direction}; {{limit}} is usual.",
        why="A line of light may show along its edge.",
        source=USUAL_PRACTICE,
        argument="rabbet_width_mm",
        lengths={"gap": -worst_mm, "strip": worst_mm, "limit": LEAST_COVER_MM},
        ways=_ways_to_cover(cover, direction, missing_mm=LEAST_COVER_MM - worst_mm),
    )


def _ways_to_cover(cover: Cover, direction: str, *, missing_mm: float) -> tuple[Way, ...]:
    clearance_mm = cover.clearance_across_mm if direction == "across" else cover.clearance_up_mm
    tighter = Way(
        argument=f"clearance_{direction}_mm",
        value_mm=clearance_mm - missing_mm,
        says="leave less clearance",
        rounding=Rounding.DOWN,
    )
    wider = _ways_to_lap(cover, missing_mm=missing_mm)
    return (*wider, tighter) if tighter.value_mm > TOLERANCE_MM else wider


def _ways_to_lap(cover: Cover, *, missing_mm: float) -> tuple[Way, ...]:
    """A wider rabbet, of which a slope shows only a part; none of a side on edge, whose rabbet laps over nothing."""
    if not cover.shape.flat_ratio:
        return ()
    value_mm = cover.rabbet_width_mm + missing_mm / cover.shape.flat_ratio
    says = "cut the rabbet wider"
    return (Way(argument="rabbet_width_mm", value_mm=value_mm, says=says, rounding=Rounding.UP),)
