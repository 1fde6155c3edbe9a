"""What a label tells: how a frame is opened again, and how it is cared for."""

from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.package.glazing import Glazing
from framecalc.package.retainers import Retainer
from framecalc.units import TOLERANCE_MM

OPENED = {
    Retainer.BUTTONS: "turn the buttons aside",
    Retainer.POINTS: "pull the points with pliers",
    Retainer.SHIM: "unscrew the buttons, lift the shim",
    Retainer.CLIPS: "unscrew the clips",
    Retainer.STRIP: "unscrew the buttons",
}
"""What undoes each retainer. Source: common practice, no source."""

CARE = {
    Glazing.GLASS: "Damp cloth on the glass alone, no spray. No sun, no damp wall.",
    Glazing.ACRYLIC: "Soft cloth and water on the acrylic, never dry, no spray. No sun, no damp wall.",
    Glazing.NONE: "Soft dry brush only. No sun, no damp wall.",
}
"""The usual care. Source: common practice, no source."""


def opening_of(retainer: Retainer | None, *, has_cover: bool) -> str:
    """Say how the package comes out again.

    Args:
        retainer: what holds it; nothing in a tray, where it is screwed on.
        has_cover: whether a dust cover lies over the back.
    Source: common practice, no source.

    >>> opening_of(Retainer.POINTS, has_cover=True)
    'Cut the dust cover, pull the points with pliers.'
    """
    undo = OPENED[retainer] if retainer else "undo the screws behind"
    says = f"cut the dust cover, {undo}." if has_cover else f"{undo}."
    return says[:1].upper() + says[1:]


def label_findings(*, up_mm: float, needed_mm: float) -> tuple[Finding, ...]:
    """Report a label that is too low for its words.

    Args:
        up_mm: its height [mm].
        needed_mm: what its words take [mm].
    Source: plane geometry.

    >>> [one.code for one in label_findings(up_mm=40, needed_mm=52)], label_findings(up_mm=60, needed_mm=52)
    (['label.full'], ())
    """
    if needed_mm <= up_mm + TOLERANCE_MM:
        return ()
    return (
        Finding(
            code="label.full",
            severity=Severity.NOTE,
            sentence="The words need a label {needed} high; this one is {up}.",
            why="What does not fit is left out when it is printed.",
            source="plane geometry",
            argument="label_up_mm",
            lengths={"needed": needed_mm, "up": up_mm},
            ways=(Way(argument="label_up_mm", value_mm=needed_mm, says="make it higher", rounding=Rounding.UP),),
        ),
    )
