"""Fitting: putting the package into its frame, step by step, in the order in which it is done, with the usual cautions.

The frame lies on its face on a clean blanket; the layers go in from the lip to the back.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from framecalc.artwork.measuring import ArtworkKind
from framecalc.package.glazing import Glazing
from framecalc.package.layers import LayerKind
from framecalc.package.retainers import Retainer
from framecalc.words import worded

GLASS_CAUTION = (
    "Glass edges cut: gloves, and two hands for every light; break off and dub sharp edges, sweep up every splinter."
)
ACRYLIC_CAUTION = "Acrylic scratches and charges: peel its film last, blow it clean, never wipe it dry."
VAPOUR_CAUTION = (
    "A finish that still smells gives off vapour that fogs glazing and harms paper: let it cure as its maker says, "
    "often two to four weeks, before the package is closed in."
)
DRIVER_CAUTION = (
    "Points and screws spring: eyes covered, and a hand never behind the driver. Tools by their own manuals."
)
WEIGHT_CAUTION = "What hangs it must carry it: hardware rated for the weight, into what the wall is made of."


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedLayer:
    """A layer to lay in: what it is there for, and what it is called."""

    kind: LayerKind
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingStep:
    """One step of the fitting: what is done, in a word or two, and how."""

    does: str
    says: str


def fitting_steps(
    layers: Sequence[FittedLayer], *, kind: ArtworkKind, glazing: Glazing, retainer: Retainer | None, is_tray: bool
) -> tuple[FittingStep, ...]:
    """The steps from the empty frame to the wall, in their order.

    Args:
        layers: from the lip to the back.
        kind: what is framed.
        glazing: what stands in front of it.
        retainer: what holds the package; nothing in a tray.
    Source: common practice, no source.

    >>> steps = fitting_steps((FittedLayer(kind=LayerKind.GLAZING, name="glass"),), kind=ArtworkKind.PAPER,
    ...     glazing=Glazing.GLASS, retainer=Retainer.POINTS, is_tray=False)
    >>> [step.does for step in steps]
    ['Check', 'Line', 'Clean', 'Lay in glass', 'Turn and look', 'Hold', 'Bumpers', 'Last look']
    """
    return tuple(_steps(layers, kind, glazing, retainer, is_tray))


def fitting_cautions(*, glazing: Glazing) -> tuple[str, ...]:
    """What can hurt, the person or the artwork.

    Source: common practice, no source.

    >>> fitting_cautions(glazing=Glazing.NONE)[0].startswith("A finish that still smells")
    True
    """
    panes = {Glazing.GLASS: (GLASS_CAUTION,), Glazing.ACRYLIC: (ACRYLIC_CAUTION,)}.get(glazing, ())
    return (*panes, VAPOUR_CAUTION, DRIVER_CAUTION, WEIGHT_CAUTION)


def _steps(
    layers: Sequence[FittedLayer], kind: ArtworkKind, glazing: Glazing, retainer: Retainer | None, is_tray: bool
) -> Iterator[FittingStep]:
    yield FittingStep(
        does="Check", says="The finish has cured and smells of nothing; the rabbet is clean, the corners hold."
    )
    if is_tray:
        yield FittingStep(
            does="Lay on the ledge", says="Even gap all round, by cards of one thickness; the artwork face up."
        )
        yield FittingStep(
            does="Screw from behind", says="Through the ledge into the bars, short of its face; cards out again."
        )
        yield from _closing(layers)
        return
    yield FittingStep(does="Line", says="Tape or foil over the bare wood of the rabbet; felt under a painting.")
    if glazing is not Glazing.NONE:
        yield FittingStep(does="Clean", says="The glazing, both sides, to its edges; look at it against the light.")
    for layer in layers:
        if layer.kind.is_in_rabbet:
            yield FittingStep(does=worded("Lay in {name}", name=layer.name), says=_how(layer.kind, kind))
    yield FittingStep(
        does="Turn and look", says="Hold it all together and turn it over: no dust, hair or line of light?"
    )
    if retainer is not None:
        yield FittingStep(does="Hold", says=_HELD[retainer])
    yield from _closing(layers)


def _closing(layers: Sequence[FittedLayer]) -> Iterator[FittingStep]:
    if any(layer.kind is LayerKind.DUST_COVER for layer in layers):
        yield FittingStep(
            does="Dust cover",
            says="Tape or glue around the back, paper over it, trimmed just inside the edge; hangers come after it.",
        )
    yield FittingStep(does="Bumpers", says="One in each lower corner: air behind the frame, and it hangs straight.")
    yield FittingStep(
        does="Last look", says="Label on the back: who, what, when, which materials. Glazing once more from the front."
    )


def _how(layer: LayerKind, kind: ArtworkKind) -> str:
    if layer is LayerKind.ARTWORK:
        return _ARTWORK.get(kind, "Face down, centred; nothing presses on its face.")
    return _LAID_IN[layer]


_LAID_IN = {
    LayerKind.FILLET: "Against the lip, its mitres closed; pinned or glued to the lip, never to the artwork.",
    LayerKind.GLAZING: "Against what lies under the lip, without pressing it in; it must be loose.",
    LayerKind.MAT: "Face down, its window square to the sight edge.",
    LayerKind.SPACER: "Strips along the edge, out of sight under the lip, fixed to the glazing or the rabbet wall.",
    LayerKind.BACKING: "Its clean side to the artwork.",
    LayerKind.BACK: "Flat on the rest; nothing rattles, nothing is pressed.",
}
_ARTWORK = {
    ArtworkKind.PAPER: "Hinged at its top to the board behind it, free below; never glued or taped all round.",
    ArtworkKind.PHOTOGRAPH: "Hinged or in corners; its face touches nothing.",
    ArtworkKind.FRIABLE: "Level and without a jolt: loose pigment falls. Nothing touches its face.",
    ArtworkKind.TEXTILE: "Sewn to its support, not glued; threads clear of the glazing.",
    ArtworkKind.SOLID_PANEL: "Fixed on its middle line only: it must slide across its grain.",
}
_HELD = {
    Retainer.BUTTONS: "Turn buttons at the places below, each just snug; all screws in pilot holes.",
    Retainer.POINTS: "Points pushed into the rabbet wall at the places below, level with the back.",
    Retainer.SHIM: "The shim over the back, then turn buttons at the places below.",
    Retainer.CLIPS: "Offset clips at the places below; each presses by its own spring.",
    Retainer.STRIP: "The strip on the back of the frame, then turn buttons at the places below.",
}
