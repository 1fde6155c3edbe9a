"""The package: the layers in the rabbet, from the glazing to the back, and their thickness together.

Each layer has a measured thickness and a *tolerance*: how far the real sheet may be from it, either way, or only upward
where it may be *thinner* by another amount. The *worst* stack has every layer at its thickest; the *likely* one adds
the tolerances as independent errors do, by the root of the sum of their squares. A *fillet*, or a liner, lies under the
lip and shows inside the sight edge. A *dust cover* is glued over the back of the frame and takes nothing of the rabbet.
"""

from collections.abc import Iterable
from enum import StrEnum
from itertools import dropwhile
from math import hypot, isfinite

from framecalc.artwork.measuring import ArtworkKind
from framecalc.errors import ImpossibleSize
from framecalc.findings import Finding, Severity
from framecalc.records import Record

BEHIND_GLAZING = (ArtworkKind.PAPER, ArtworkKind.PHOTOGRAPH, ArtworkKind.FRIABLE, ArtworkKind.TEXTILE)
"""Kinds that usually go behind glazing, and must not lie against it. Source: common practice, no source."""


class LayerKind(StrEnum):
    """What a layer is there for."""

    FILLET = "fillet or liner"
    GLAZING = "glazing"
    MAT = "mat"
    SPACER = "spacer"
    ARTWORK = "artwork"
    BACKING = "backing"
    BACK = "back"
    DUST_COVER = "dust cover"

    @property
    def is_sheet(self) -> bool:
        """Whether a sheet layout cuts it: not strips, paper from a roll, or the artwork."""
        return self in (LayerKind.GLAZING, LayerKind.MAT, LayerKind.BACKING, LayerKind.BACK)

    @property
    def is_in_rabbet(self) -> bool:
        """Whether it takes up depth of the rabbet."""
        return self is not LayerKind.DUST_COVER


class Layer(Record):
    """One layer of the package. `thinner_mm` is how much thinner it may be, where that is not its tolerance."""

    name: str
    kind: LayerKind
    thickness_mm: float
    tolerance_mm: float
    thinner_mm: float | None = None

    @property
    def under_mm(self) -> float:
        """How much thinner it may be."""
        return self.tolerance_mm if self.thinner_mm is None else self.thinner_mm


class Stack(Record):
    """The layers together: nominal, at their thinnest and thickest, and as they are likely to be."""

    layers: tuple[Layer, ...]
    nominal_mm: float
    least_mm: float
    worst_mm: float
    likely_least_mm: float
    likely_worst_mm: float


def stack_layers(layers: Iterable[Layer]) -> Stack:
    """Stack the layers.

    ``nominal = sum t``, ``worst = sum (t + e)``, ``likely worst = sum t + sqrt(sum e**2)``; the least and the likely
    least take what each layer may be thinner by. No layers stack to nothing.

    Args:
        layers: from the lip to the back; thickness [mm] > 0, tolerances [mm] >= 0 and less than the thickness. Those
            that lie outside the rabbet are left out.
    Raises:
        ImpossibleSize: a thickness or a tolerance is out of range.
    Source: derived; root sum square is the usual sum of independent tolerances, common practice, no source.

    >>> glass = Layer(name="glass", kind=LayerKind.GLAZING, thickness_mm=2.5, tolerance_mm=0.3)
    >>> board = Layer(name="foam board", kind=LayerKind.BACKING, thickness_mm=5, tolerance_mm=0.4)
    >>> stack = stack_layers((glass, board))
    >>> round(stack.nominal_mm, 3), round(stack.worst_mm, 3), round(stack.likely_worst_mm, 3)
    (7.5, 8.2, 8.0)
    """
    layers = tuple(layer for layer in layers if layer.kind.is_in_rabbet)
    for layer in layers:
        _require_sheet(layer)
    nominal_mm = sum(layer.thickness_mm for layer in layers)
    over_mm, under_mm = [layer.tolerance_mm for layer in layers], [layer.under_mm for layer in layers]
    return Stack(
        layers=layers,
        nominal_mm=nominal_mm,
        least_mm=nominal_mm - sum(under_mm),
        worst_mm=nominal_mm + sum(over_mm),
        likely_least_mm=nominal_mm - hypot(*under_mm),
        likely_worst_mm=nominal_mm + hypot(*over_mm),
    )


def package_findings(stack: Stack, kind: ArtworkKind) -> tuple[Finding, ...]:
    """Report what is wrong with the layers, for this kind of artwork.

    Args:
        stack: the layers, from the glazing to the back.
        kind: what is framed.
    Source: common practice, no source.

    >>> [finding.code for finding in package_findings(stack_layers(()), ArtworkKind.PAPER)]
    ['package.empty']
    """
    kinds = tuple(layer.kind for layer in stack.layers)
    if not kinds:
        return (_EMPTY,)
    glazed = LayerKind.GLAZING in kinds
    checks = (
        (LayerKind.ARTWORK not in kinds, _NO_ARTWORK),
        (_glazing_is_behind(kinds), _GLAZING_BEHIND),
        (_fillet_is_behind(kinds), _FILLET_BEHIND),
        (kind is ArtworkKind.CANVAS and glazed, _GLAZED_CANVAS),
        (kind is ArtworkKind.CANVAS and LayerKind.MAT in kinds, _MATTED_CANVAS),
        (kind in BEHIND_GLAZING and not glazed, _NO_GLAZING),
    )
    return tuple(finding for found, finding in checks if found)


def _glazing_is_behind(kinds: tuple[LayerKind, ...]) -> bool:
    """Whether anything but a fillet lies between the lip and a glazing."""
    behind = list(dropwhile(lambda kind: kind is LayerKind.FILLET, kinds))
    return LayerKind.GLAZING in behind[1:]


def _fillet_is_behind(kinds: tuple[LayerKind, ...]) -> bool:
    """Whether anything but glazing lies between the lip and a fillet."""
    in_front = (LayerKind.FILLET, LayerKind.GLAZING)
    return LayerKind.FILLET in dropwhile(lambda kind: kind in in_front, kinds)


def _require_sheet(layer: Layer) -> None:
    for tolerance_mm in (layer.tolerance_mm, layer.under_mm):
        if not (isfinite(layer.thickness_mm) and 0 <= tolerance_mm < layer.thickness_mm):
            raise ImpossibleSize(
                "Enter a thickness above its tolerance, not {thick} ± {tolerance}.",
                field="layer",
                lengths={"thick": layer.thickness_mm, "tolerance": tolerance_mm},
            )


def _finding(code: str, severity: Severity, sentence: str, why: str, take_out: str = "") -> Finding:
    return Finding(
        code=f"package.{code}",
        severity=severity,
        sentence=sentence,
        why=why,
        source="usual practice",
        argument="layer",
        take_out=take_out,
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
_FILLET_BEHIND = _finding(
    "fillet-behind",
    Severity.WARN,
    "There is a fillet or a liner behind another layer.",
    "It lies under the lip, where only glazing may be in front of it; what lies along a window is part of the mat.",
)
_GLAZED_CANVAS = _finding(
    "glazed-canvas",
    Severity.WARN,
    "The canvas is behind glazing.",
    "Paint sticks to glazing that it touches, and a canvas moves; a painting is usually framed open, or well apart.",
    take_out=LayerKind.GLAZING,
)
_MATTED_CANVAS = _finding(
    "matted-canvas",
    Severity.WARN,
    "There is a mat before a canvas.",
    "A mat rubs on paint, and it counts in the size of the frame and in the depth of its rabbet.",
    take_out=LayerKind.MAT,
)
_NO_GLAZING = _finding(
    "no-glazing",
    Severity.NOTE,
    "No glazing in front of the artwork.",
    "Paper, photographs and textiles take up dust, damp and touch; they usually go behind glazing.",
)
