"""The package: the layers that sit in the rabbet, from the glazing to the back, and how thick they are together.

Each layer has a thickness as measured and a *tolerance*: how far the real sheet may be from it, either way. The
*worst* stack has every layer at its thickest; the *likely* one adds the tolerances as independent errors do, by the
root of the sum of their squares.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from math import hypot, isfinite

from framecalc.artwork import Kind
from framecalc.errors import ImpossibleSize
from framecalc.findings import Finding, Severity

BEHIND_GLAZING = (Kind.PAPER, Kind.PHOTOGRAPH, Kind.FRIABLE, Kind.TEXTILE)
"""Kinds that usually go behind glazing, and must not lie against it. Source: common practice, no source."""


class LayerKind(StrEnum):
    """What a layer is there for."""

    GLAZING = "glazing"
    MAT = "mat"
    SPACER = "spacer"
    ARTWORK = "artwork"
    BACKING = "backing"
    BACK = "back"


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One layer of the package."""

    name: str
    kind: LayerKind
    thickness_mm: float
    tolerance_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack:
    """The layers together: nominal, at their thinnest and thickest, and as they are likely to be."""

    layers: tuple[Layer, ...]
    nominal_mm: float
    least_mm: float
    worst_mm: float
    likely_least_mm: float
    likely_worst_mm: float


def stack_layers(layers: Iterable[Layer]) -> Stack:
    """Stack the layers.

    ``nominal = sum t``, ``worst = sum (t + e)``, ``likely worst = sum t + sqrt(sum e**2)``; no layers stack to nothing.

    Args:
        layers: from the glazing to the back; thickness [mm] > 0, tolerance [mm] >= 0 and less than the thickness.
    Raises:
        ImpossibleSize: a thickness or a tolerance is out of range.
    Source: derived; root sum square is the usual sum of independent tolerances, common practice, no source.

    >>> glass = Layer(name="glass", kind=LayerKind.GLAZING, thickness_mm=2.5, tolerance_mm=0.3)
    >>> board = Layer(name="foam board", kind=LayerKind.BACKING, thickness_mm=5, tolerance_mm=0.4)
    >>> stack = stack_layers((glass, board))
    >>> round(stack.nominal_mm, 3), round(stack.worst_mm, 3), round(stack.likely_worst_mm, 3)
    (7.5, 8.2, 8.0)
    """
    layers = tuple(layers)
    for layer in layers:
        _require_sheet(layer)
    nominal_mm = sum(layer.thickness_mm for layer in layers)
    tolerance_mm = sum(layer.tolerance_mm for layer in layers)
    likely_mm = hypot(*(layer.tolerance_mm for layer in layers))
    return Stack(
        layers=layers,
        nominal_mm=nominal_mm,
        least_mm=nominal_mm - tolerance_mm,
        worst_mm=nominal_mm + tolerance_mm,
        likely_least_mm=nominal_mm - likely_mm,
        likely_worst_mm=nominal_mm + likely_mm,
    )


def package_findings(stack: Stack, kind: Kind) -> tuple[Finding, ...]:
    """Say what is wrong with the layers, for this kind of artwork.

    Args:
        stack: the layers, from the glazing to the back.
        kind: what is framed.
    Source: common practice, no source.

    >>> [finding.code for finding in package_findings(stack_layers(()), Kind.PAPER)]
    ['package.empty']
    """
    kinds = tuple(layer.kind for layer in stack.layers)
    if not kinds:
        return (_EMPTY,)
    glazed = LayerKind.GLAZING in kinds
    checks = (
        (LayerKind.ARTWORK not in kinds, _NO_ARTWORK),
        (LayerKind.GLAZING in kinds[1:], _GLAZING_BEHIND),
        (kind is Kind.CANVAS and glazed, _GLAZED_CANVAS),
        (kind in BEHIND_GLAZING and not glazed, _NO_GLAZING),
        (kind in BEHIND_GLAZING and _touches_glazing(kinds), _TOUCHES_GLAZING),
    )
    return tuple(finding for found, finding in checks if found)


def _touches_glazing(kinds: tuple[LayerKind, ...]) -> bool:
    return (LayerKind.GLAZING, LayerKind.ARTWORK) in pairwise(kinds)


def _require_sheet(layer: Layer) -> None:
    if not (isfinite(layer.thickness_mm) and 0 <= layer.tolerance_mm < layer.thickness_mm):
        raise ImpossibleSize(
            "A layer cannot be {thick} ± {tolerance} thick: a thickness above its tolerance would do.",
            field="layer",
            lengths={"thick": layer.thickness_mm, "tolerance": layer.tolerance_mm},
        )


def _finding(code: str, severity: Severity, sentence: str, why: str) -> Finding:
    return Finding(
        code=f"package.{code}",
        severity=severity,
        sentence=sentence,
        why=why,
        source="common practice, no source",
        argument="layer",
    )


_EMPTY = _finding(
    "empty",
    Severity.STOP,
    "The package has no layer yet.",
    "Without the thickness of what goes into it, nobody knows whether the rabbet is deep enough.",
)
_NO_ARTWORK = _finding(
    "no-artwork",
    Severity.WARN,
    "No layer of the package is the artwork.",
    "The artwork takes its thickness from the rabbet too; leave it out only where it takes none.",
)
_GLAZING_BEHIND = _finding(
    "glazing-behind",
    Severity.WARN,
    "There is glazing behind another layer.",
    "Layers are listed from the glazing, which lies against the lip, to the back.",
)
_GLAZED_CANVAS = _finding(
    "glazed-canvas",
    Severity.WARN,
    "The canvas is behind glazing.",
    "Paint sticks to glazing that it touches, and a canvas moves; a painting is usually framed open, or well apart.",
)
_NO_GLAZING = _finding(
    "no-glazing",
    Severity.NOTE,
    "There is no glazing in front of the artwork.",
    "Paper, photographs and textiles take up dust, damp and touch; they usually go behind glazing.",
)
_TOUCHES_GLAZING = _finding(
    "touches-glazing",
    Severity.WARN,
    "The artwork lies against the glazing.",
    "Damp between the two makes it stick or mould, and loose pigment comes off; a mat or a spacer keeps them apart.",
)
