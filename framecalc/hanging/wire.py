"""A wire over one hook or two: its angle when loaded, its pull, its length.

The *rings* lie at one height, the *span* apart. The *rise* is how far the wire stands over the line of the rings while
the frame hangs. Its *angle* is that of an outer leg to the level. A wire pulled almost straight pulls with several
times the weight. How much a wire stretches is left out: it makes the rise a little larger and the pull a little less.
"""

from math import atan2, cos, degrees, hypot, radians, sin, tan

from framecalc.errors import ImpossibleSize
from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.limits import require_not_negative, require_positive
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM

GOOD_DEG, LEAST_DEG = 30.0, 15.0
"""The angle that a wire should have, and the least that it may have. Source: common practice, no source."""

ANGLE_PLAY_DEG = 0.05
"""An angle short of a limit by no more is at it; pages say whole degrees."""

PER_END_MM = 100.0
"""What knot and wraps take at each ring (75 to 100 mm). Source: common practice, no source."""

HIDDEN_MM = 50.0
"""The top of a loaded wire stays so far under the top edge (2 in). Source: common practice, no source."""

CROOKED_MM = 3.0
"""The eye sees one edge so much higher than the other (1/8 in). Source: common practice, no source."""

HOOKS_OF_SPAN = 1 / 3
"""Two hooks stand apart by this part of the span. Source: common practice, no source."""


class LoadedWire(Record):
    """A wire while the frame hangs.

    `pull_n` is its tension, the same all along; `inward_n` draws the two rings toward each other. `hook_n` is the
    weight on one hook, `hook_inward_n` what draws two hooks toward each other. `between_mm` is its length from ring to
    ring.
    """

    span_mm: float
    rise_mm: float
    apart_mm: float
    angle_deg: float
    pull_n: float
    inward_n: float
    hook_n: float
    hook_inward_n: float
    between_mm: float

    @property
    def cut_mm(self) -> float:
        """How long to cut it."""
        return self.between_mm + 2 * PER_END_MM


def loaded_wire(*, weight_n: float, span_mm: float, rise_mm: float, apart_mm: float = 0.0) -> LoadedWire:
    """Load a wire over one hook in the middle, or over two hooks as far apart as is said.

    ``tan a = rise / ((span − apart)/2)``, ``pull = W / (2 sin a)``, ``inward = pull · cos a``; the wire between two
    hooks carries the same pull, so each of them is also pulled inward by ``pull · (1 − cos a)``.

    Args:
        weight_n: of the frame [N], > 0.
        span_mm: from ring to ring [mm], > 0.
        rise_mm: when loaded [mm], > 0.
        apart_mm: of two hooks [mm], less than the span; 0 for one hook.
    Raises:
        OutOfRange: a quantity is out of range.
        ImpossibleSize: the hooks stand as far apart as the rings.
    Source: parallelogram of forces.

    >>> wire = loaded_wire(weight_n=5 * 9.80665, span_mm=500, rise_mm=60)
    >>> round(wire.angle_deg, 3), round(wire.pull_n, 2), round(wire.between_mm, 2)
    (13.496, 105.05, 514.2)
    """
    require_positive(weight_n=weight_n, span_mm=span_mm, rise_mm=rise_mm)
    require_not_negative(apart_mm=apart_mm)
    if apart_mm > span_mm - TOLERANCE_MM:
        raise ImpossibleSize(
            "Two hooks stand between the rings: enter under {span}, not {apart}.",
            field="hooks_apart_mm",
            lengths={"span": span_mm, "apart": apart_mm},
        )
    leg_mm, angle_rad = (span_mm - apart_mm) / 2, atan2(rise_mm, (span_mm - apart_mm) / 2)
    pull_n = weight_n / (2 * sin(angle_rad))
    return LoadedWire(
        span_mm=span_mm,
        rise_mm=rise_mm,
        apart_mm=apart_mm,
        angle_deg=degrees(angle_rad),
        pull_n=pull_n,
        inward_n=pull_n * cos(angle_rad),
        hook_n=weight_n / 2 if apart_mm else weight_n,
        hook_inward_n=pull_n * (1 - cos(angle_rad)) if apart_mm else 0.0,
        between_mm=2 * hypot(leg_mm, rise_mm) + apart_mm,
    )


def rise_for_mm(*, span_mm: float, angle_deg: float, apart_mm: float = 0.0) -> float:
    """The rise that gives a wire an angle.

    Args:
        span_mm: from ring to ring [mm], > 0.
        angle_deg: of a leg to the level [degrees], > 0.
        apart_mm: of two hooks [mm], ≥ 0.
    Raises:
        OutOfRange: a quantity is out of range.
    Source: plane geometry.

    >>> round(rise_for_mm(span_mm=500, angle_deg=30), 2)
    144.34
    """
    require_positive(span_mm=span_mm, angle_deg=angle_deg)
    require_not_negative(apart_mm=apart_mm)
    return (span_mm - apart_mm) / 2 * tan(radians(angle_deg))


def wire_findings(wire: LoadedWire, *, down_mm: float) -> tuple[Finding, ...]:
    """Report a wire that is too flat, or that shows over the top edge.

    Args:
        down_mm: of the rings under the top edge [mm].
    Source: common practice, no source.

    >>> flat = loaded_wire(weight_n=50, span_mm=500, rise_mm=60)
    >>> [(one.code, one.severity.value) for one in wire_findings(flat, down_mm=200)]
    [('wire.flat', 'stop')]
    """
    found = [_flat(wire, down_mm)] if wire.angle_deg < GOOD_DEG - ANGLE_PLAY_DEG else []
    if wire.rise_mm > down_mm - HIDDEN_MM + TOLERANCE_MM:
        found.append(_shows(wire, down_mm))
    return tuple(found)


def crooked_findings(*, off_mm: float, below_mm: float, across_mm: float) -> tuple[Finding, ...]:
    """Report a frame that hangs crooked by the middle of its wire on one hook, as it balances beside its middle.

    ``tilt = atan(off / below)``: the centre of gravity comes under the hook.

    Args:
        off_mm: the centre of gravity, beside the middle [mm].
        below_mm: under the hook [mm]; one above it is said elsewhere.
        across_mm: the width of the frame [mm], > 0.
    Source: statics.

    >>> [one.code for one in crooked_findings(off_mm=10, below_mm=200, across_mm=500)]
    ['wire.crooked']
    """
    if below_mm <= 0 or abs(off_mm) / below_mm * across_mm < CROOKED_MM:
        return ()
    return (
        Finding(
            code="wire.crooked",
            severity=Severity.WARN,
            sentence="It balances {off} beside its middle: on one hook it tilts by "
            f"{degrees(atan2(abs(off_mm), below_mm)):.1f}°. Take two hooks, or two rings.",
            why="The centre of gravity comes to hang under the hook; pushed level, the wire slides back in time.",
            source="statics",
            argument="hooks",
            lengths={"off": abs(off_mm)},
        ),
    )


def _flat(wire: LoadedWire, down_mm: float) -> Finding:
    stop = wire.angle_deg < LEAST_DEG - ANGLE_PLAY_DEG
    good_mm = rise_for_mm(span_mm=wire.span_mm, angle_deg=GOOD_DEG, apart_mm=wire.apart_mm)
    way = Way(argument="rise_mm", value_mm=good_mm, says="let the wire rise", rounding=Rounding.UP)
    ways = (way,) if good_mm <= down_mm - HIDDEN_MM else ()
    return Finding(
        code="wire.flat",
        severity=Severity.STOP if stop else Severity.WARN,
        sentence=f"The wire stands at {wire.angle_deg:.0f}° when loaded: it pulls {wire.pull_n / _weight_n(wire):.1f}"
        f" times the weight. {f'Give it {GOOD_DEG:g}° or more.' if ways else _instead(wire)}",
        why=f"A flat wire pulls the rings out and bends the sides inward. Under {LEAST_DEG:g}° hang it from two hooks.",
        source="statics; the angles are usual practice",
        argument="rise_mm",
        ways=ways,
    )


def _instead(wire: LoadedWire) -> str:
    """What to do where the frame has no room for a steeper wire."""
    return "Set the hooks further apart, or take no wire." if wire.apart_mm else "Take two hooks, or no wire."


def _shows(wire: LoadedWire, down_mm: float) -> Finding:
    return Finding(
        code="wire.shows",
        severity=Severity.WARN,
        sentence="The wire comes to {under} under the top edge when loaded; {hidden} keeps wire and hook out of sight.",
        why="A hook that shows over the frame is the first thing that a client sees.",
        source="usual practice",
        argument="rise_mm",
        lengths={"under": down_mm - wire.rise_mm, "hidden": HIDDEN_MM},
    )


def _weight_n(wire: LoadedWire) -> float:
    return wire.hook_n * (2 if wire.apart_mm else 1)
