"""Fitting: putting the package into its frame, step by step, in the order in which it is done, with the usual cautions.

What lies behind glazing is built outside the frame, on a clean bench: the artwork hinged to the board behind it, the
mat hinged over both, the glazing on top. The frame is lowered over the package, and both are turned over. What has no
glazing goes in from behind, face down. A card speaks of its own frame alone.
"""

from collections.abc import Iterator, Sequence

from framecalc.artwork.measuring import ArtworkKind
from framecalc.package.glazing import Glazing
from framecalc.package.layers import LayerKind
from framecalc.package.retainers import Retainer
from framecalc.records import Record
from framecalc.words import capitalised, joined, typed, worded

GLASS_CAUTION = (
    "Glass edges cut: gloves, and two hands for every light; break off and dub sharp edges, sweep up every splinter."
)
ACRYLIC_CAUTION = "Acrylic scratches and charges: peel its film last, blow it clean, never wipe it dry."
VAPOUR_CAUTION = (
    "A finish that still smells gives off vapour that fogs glazing and harms paper: let it cure as its maker says, "
    "often two to four weeks, before the package is closed in."
)
CURE_CAUTION = "A finish that still smells sticks to what touches it: let it cure as its maker says."
POINTS_CAUTION = "Points spring: eyes covered, and a hand never behind the driver."
SCREWS_CAUTION = "Drill for every screw, with a stop on the bit, short of the face; the last turn by hand."
LIFT_CAUTION = "Two people lift it, carry it upright and hang it."
WEIGHT_CAUTION = "What hangs it must carry it: hardware rated for the weight, into what the wall is made of."


class FittedLayer(Record):
    """A layer to lay in: what it is there for, and what it is called."""

    kind: LayerKind
    name: str


class FittingStep(Record):
    """One step of the fitting: what is done, in a word or two, and how."""

    does: str
    says: str


def fitting_steps(
    layers: Sequence[FittedLayer],
    *,
    kind: ArtworkKind,
    glazing: Glazing,
    retainer: Retainer | None,
    is_tray: bool,
    stiffener: FittingStep | None = None,
    cover_size: str = "",
) -> tuple[FittingStep, ...]:
    """The steps from the empty frame to the wall, in their order.

    Args:
        layers: from the lip to the back.
        kind: what is framed.
        glazing: what stands in front of it.
        retainer: what holds the package; nothing in a tray.
        stiffener: how the bottom member is stiffened, if it is.
        cover_size: of the dust cover, trimmed, in words; blank where it is not known.
    Source: common practice, no source.

    >>> steps = fitting_steps((FittedLayer(kind=LayerKind.GLAZING, name="glass"),), kind=ArtworkKind.PAPER,
    ...     glazing=Glazing.GLASS, retainer=Retainer.POINTS, is_tray=False)
    >>> [step.does for step in steps][2:6]
    ['Clean glass', 'Build outside', 'Bring together', 'Look from the front']
    """
    into = _into_a_tray() if is_tray else _into_a_rabbet(layers, kind, glazing, retainer)
    stiffened = (stiffener,) if stiffener else ()
    return (_CHECK, *into, *_closing(layers, stiffened, cover_size))


def fitting_cautions(*, glazing: Glazing, retainer: Retainer | None, is_for_two: bool = False) -> tuple[str, ...]:
    """What can hurt, the person or the artwork.

    Args:
        glazing: what stands in front of the artwork.
        retainer: what holds the package; nothing in a tray, where it is screwed on.
        is_for_two: whether two people lift it.
    Source: common practice, no source.

    >>> fitting_cautions(glazing=Glazing.NONE, retainer=Retainer.POINTS)[1]
    'Points spring: eyes covered, and a hand never behind the driver.'
    """
    panes = {Glazing.GLASS: (GLASS_CAUTION,), Glazing.ACRYLIC: (ACRYLIC_CAUTION,)}.get(glazing, ())
    cure = CURE_CAUTION if glazing is Glazing.NONE else VAPOUR_CAUTION
    held = POINTS_CAUTION if retainer is Retainer.POINTS else SCREWS_CAUTION
    return (*panes, cure, held, *([LIFT_CAUTION] if is_for_two else []), WEIGHT_CAUTION)


def _into_a_tray() -> Iterator[FittingStep]:
    yield FittingStep(does="Lay on the ledge", says="Face up, an even gap all round, by cards of one thickness.")
    yield FittingStep(
        does="Screw from behind", says="Through the ledge into the artwork's back, short of its face; cards out again."
    )


def _into_a_rabbet(
    layers: Sequence[FittedLayer], kind: ArtworkKind, glazing: Glazing, retainer: Retainer | None
) -> Iterator[FittingStep]:
    yield _LINE_PAINTING if kind in _PAINTINGS and glazing is Glazing.NONE else _LINE
    for fillet in _of(layers, LayerKind.FILLET):
        yield FittingStep(does=worded("Lay in {name}", name=fillet.name), says=_FILLET)
    if glazing is Glazing.NONE:
        yield from _laid_in(layers, kind)
    else:
        yield from _built_outside(layers, kind, glazing)
    has_mat = any(layer.kind is LayerKind.MAT for layer in layers)
    yield FittingStep(
        does="Look from the front",
        says="No dust, hair or line of light; the mat's window square to the sight edge. If not, open it once more."
        if has_mat
        else "Even all round; no dust, hair or line of light. If not, open it once more.",
    )
    if retainer is not None:
        yield FittingStep(does="Hold", says=_HELD[retainer])


def _laid_in(layers: Sequence[FittedLayer], kind: ArtworkKind) -> Iterator[FittingStep]:
    """What has no glazing goes in from behind, layer by layer."""
    for layer in layers:
        if layer.kind.is_in_rabbet and layer.kind is not LayerKind.FILLET:
            says = _FACE_DOWN.get(kind, _FACE_DOWN_USUALLY) if layer.kind is LayerKind.ARTWORK else _LAID_IN[layer.kind]
            yield FittingStep(does=worded("Lay in {name}", name=layer.name), says=says)


def _built_outside(layers: Sequence[FittedLayer], kind: ArtworkKind, glazing: Glazing) -> Iterator[FittingStep]:
    """What lies behind glazing: cleaned, hinged, stacked on the bench, then frame and package brought together."""
    for pane in _of(layers, LayerKind.GLAZING):
        yield FittingStep(does=worded("Clean {name}", name=pane.name), says=_CLEAN[glazing])
    behind = _behind_artwork(layers)
    for artwork in _of(layers, LayerKind.ARTWORK):
        yield FittingStep(does=worded(_MOUNTS.get(kind, "Fix {name}"), name=artwork.name), says=_mounted(kind, behind))
    yield from _hinged_mats(layers, behind)
    for spacer in _of(layers, LayerKind.SPACER):
        yield FittingStep(
            does=worded("Fix {name}", name=spacer.name),
            says="Strips along the edge of the glazing, out of sight under the lip; nothing of them shows.",
        )
    yield FittingStep(does="Build outside", says=_stacked(layers))
    yield FittingStep(
        does="Bring together",
        says="Lower the frame over the package, hold both and turn them over; "
        "or lay the package into the frame from behind, in one piece.",
    )


def _hinged_mats(layers: Sequence[FittedLayer], behind: FittedLayer | None) -> Iterator[FittingStep]:
    mats = _of(layers, LayerKind.MAT)
    if not mats:
        return
    upper, *lower = mats
    for mat in lower:
        says = worded("To the back of {upper}, its reveal even all round.", upper=upper.name)
        yield FittingStep(does=worded("Fix {name}", name=mat.name), says=says)
    where = worded("Over the artwork, along its top edge to {name}", name=behind.name) if behind else "Over the artwork"
    yield FittingStep(does=worded("Hinge {name}", name=upper.name), says=where + ": its window square, no dust in it.")


def _mounted(kind: ArtworkKind, behind: FittedLayer | None) -> str:
    how = _MOUNTED.get(kind, "so that nothing presses on its face.")
    return worded("To {name}, ", name=behind.name) + how if behind else capitalised(how)


def _stacked(layers: Sequence[FittedLayer]) -> str:
    """The layers of the package from the back up, as they lie on the bench."""
    inside = [
        typed(layer.name)
        for layer in reversed(layers)
        if layer.kind.is_in_rabbet and layer.kind is not LayerKind.FILLET
    ]
    names = joined("; ", inside)
    return joined("", ["On a clean bench, face up, from the back: ", names, ". Edges flush, nothing pressed."])


def _behind_artwork(layers: Sequence[FittedLayer]) -> FittedLayer | None:
    """The board right behind the artwork."""
    kinds = [layer.kind for layer in layers]
    if LayerKind.ARTWORK not in kinds:
        return None
    after = layers[kinds.index(LayerKind.ARTWORK) + 1 :]
    return next((layer for layer in after if layer.kind in (LayerKind.BACKING, LayerKind.BACK)), None)


def _of(layers: Sequence[FittedLayer], kind: LayerKind) -> tuple[FittedLayer, ...]:
    return tuple(layer for layer in layers if layer.kind is kind)


def _closing(
    layers: Sequence[FittedLayer], stiffened: tuple[FittingStep, ...], cover_size: str
) -> Iterator[FittingStep]:
    if _of(layers, LayerKind.DUST_COVER):
        yield FittingStep(
            does="Cover",
            says="Tape or glue around the back, paper over it, trimmed"
            + (f" to {cover_size}," if cover_size else "")
            + " just inside the edge; hangers come after it.",
        )
    yield from stiffened
    yield FittingStep(does="Bumpers", says="One in each lower corner: air behind the frame, and it hangs straight.")
    yield FittingStep(does="Label", says="On the back: who, what, when, which materials.")


_CHECK = FittingStep(
    does="Check", says="The finish has cured and smells of nothing; the frame is clean, its corners hold."
)
_LINE = FittingStep(does="Line", says="Tape or foil over the bare wood of the rabbet.")
_LINE_PAINTING = FittingStep(does="Line", says="Felt along the lip, where the painting rests; no glue on its face.")
_FILLET = "Against the lip, its mitres closed; pinned or glued to the lip, never to the artwork."
_PAINTINGS = (ArtworkKind.CANVAS, ArtworkKind.PANEL, ArtworkKind.SOLID_PANEL)
_CLEAN = {
    Glazing.GLASS: "Both sides, to its edges; look at it against the light, and leave the inside alone after that.",
    Glazing.ACRYLIC: "Peel the film, blow off what clings, the inside last; a soft damp cloth, never a dry one.",
}
_LAID_IN = {
    LayerKind.GLAZING: "Against what lies under the lip, without pressing it in; it must be loose.",
    LayerKind.MAT: "Face down, its window square to the sight edge.",
    LayerKind.SPACER: "Strips along the edge, out of sight under the lip, fixed to the rabbet wall.",
    LayerKind.BACKING: "Its clean side to the artwork.",
    LayerKind.BACK: "Flat on the rest; nothing rattles, nothing is pressed.",
}
_FACE_DOWN_USUALLY = "Face down, centred; nothing presses on its face."
_FACE_DOWN = {
    ArtworkKind.CANVAS: "Face down, an even gap all round; keys in their slots and tied.",
    ArtworkKind.SOLID_PANEL: "Face down, fixed on its middle line only: it must slide across its grain.",
}
_MOUNTS = {
    ArtworkKind.PAPER: "Hinge {name}",
    ArtworkKind.PHOTOGRAPH: "Hinge {name}",
    ArtworkKind.FRIABLE: "Hinge {name}",
    ArtworkKind.TEXTILE: "Sew {name}",
}
_MOUNTED = {
    ArtworkKind.PAPER: "at its top, free below; never glued or taped all round.",
    ArtworkKind.PHOTOGRAPH: "at its top, or in corners; its face touches nothing.",
    ArtworkKind.FRIABLE: "at its top, level and without a jolt: loose pigment falls, and nothing touches its face.",
    ArtworkKind.TEXTILE: "on its support, not glued; threads clear of the glazing.",
    ArtworkKind.SOLID_PANEL: "on its middle line only: it must slide across its grain.",
    ArtworkKind.OBJECT: "so that it cannot shift, and comes off again.",
}
_HELD = {
    Retainer.BUTTONS: "Turn buttons at the places below, each just snug; all screws in pilot holes.",
    Retainer.POINTS: "Points pushed into the rabbet wall at the places below, level with the back.",
    Retainer.SHIM: "The shim over the back, then turn buttons at the places below.",
    Retainer.CLIPS: "Offset clips at the places below; each presses by its own spring.",
    Retainer.STRIP: "The strip on the back of the frame, then turn buttons at the places below.",
}
