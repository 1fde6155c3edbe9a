"""Figures: every size of a frame that the product shows, written once.

Drawing, sizes table, card and `plan.json` all take a size from here, so they cannot print two different numbers. Each
figure has its direction: a size that must not be too small is rounded up, one that must not be too large, down.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from framecalc.findings import Rounding
from framecalc.sizes.shape import RECTANGLE_SIDES
from framecalc.units import Step, Unit, WrittenLength, format_length


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One size: its name in the code, its label for people, the exact length and the text for the tape."""

    name: str
    label: str
    exact_mm: float
    written: WrittenLength

    @property
    def text(self) -> str:
        """The text for the tape, without its unit (a drawing or a table says the unit once)."""
        return self.written.text

    @property
    def remainder(self) -> str:
        """The remainder that the tape leaves out, such as `"−0.1 mm"`, or nothing."""
        return self.written.remainder


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureKind:
    """The label and the rounding direction of one kind of figure; in a tray it may be called otherwise."""

    name: str
    label: str
    rounding: Rounding
    in_tray: str = ""


UP, DOWN, NEAREST = Rounding.UP, Rounding.DOWN, Rounding.NEAREST
KINDS = {
    kind.name: kind
    for kind in (
        FigureKind(name="outside_across", label="outside, across", rounding=UP),
        FigureKind(name="outside_up", label="outside, up", rounding=UP),
        FigureKind(name="sight_across", label="sight, across", rounding=NEAREST, in_tray="inside, across"),
        FigureKind(name="sight_up", label="sight, up", rounding=NEAREST, in_tray="inside, up"),
        FigureKind(name="in_view_across", label="in view inside the fillet, across", rounding=NEAREST),
        FigureKind(name="in_view_up", label="in view inside the fillet, up", rounding=NEAREST),
        FigureKind(name="rabbet_across", label="rabbet size, across", rounding=UP, in_tray="inside, across"),
        FigureKind(name="rabbet_up", label="rabbet size, up", rounding=UP, in_tray="inside, up"),
        FigureKind(name="package_across", label="package, across", rounding=DOWN),
        FigureKind(name="package_up", label="package, up", rounding=DOWN),
        FigureKind(name="artwork_across", label="artwork, across", rounding=NEAREST),
        FigureKind(name="artwork_up", label="artwork, up", rounding=NEAREST),
        FigureKind(name="outside_flats", label="outside, across the flats", rounding=UP),
        FigureKind(
            name="sight_flats", label="sight, across the flats", rounding=NEAREST, in_tray="inside, across the flats"
        ),
        FigureKind(
            name="rabbet_flats", label="rabbet size, across the flats", rounding=UP, in_tray="inside, across the flats"
        ),
        FigureKind(name="package_flats", label="package, across the flats", rounding=DOWN),
        FigureKind(name="artwork_flats", label="artwork, across the flats", rounding=NEAREST),
        FigureKind(name="window_flats", label="mat window, across the flats", rounding=NEAREST),
        FigureKind(name="outside_corners", label="outside, corner to corner", rounding=UP),
        FigureKind(name="package_corners", label="package, corner to corner", rounding=UP),
        FigureKind(name="member_long", label="member, long point to long point", rounding=UP),
        FigureKind(name="member_short", label="member, short point to short point", rounding=NEAREST),
        FigureKind(name="ledge_short", label="ledge, short point to short point", rounding=NEAREST),
        FigureKind(name="image_across", label="image, across", rounding=NEAREST),
        FigureKind(name="image_up", label="image, up", rounding=NEAREST),
        FigureKind(name="window_across", label="mat window, across", rounding=NEAREST),
        FigureKind(name="window_up", label="mat window, up", rounding=NEAREST),
        FigureKind(name="border_sides", label="mat border, sides", rounding=NEAREST),
        FigureKind(name="border_top", label="mat border, top", rounding=NEAREST),
        FigureKind(name="border_bottom", label="mat border, bottom", rounding=NEAREST),
        FigureKind(
            name="clearance_across", label="clearance, across", rounding=NEAREST, in_tray="gap on both sides, across"
        ),
        FigureKind(name="clearance_up", label="clearance, up", rounding=NEAREST, in_tray="gap on both sides, up"),
        FigureKind(name="cover_worst_across", label="covered strip at worst, across", rounding=DOWN),
        FigureKind(name="cover_worst_up", label="covered strip at worst, up", rounding=DOWN),
        FigureKind(name="cover_centred_across", label="covered strip when centred, across", rounding=DOWN),
        FigureKind(name="cover_centred_up", label="covered strip when centred, up", rounding=DOWN),
        FigureKind(name="play_across", label="play that remains, across", rounding=DOWN),
        FigureKind(name="play_up", label="play that remains, up", rounding=DOWN),
        FigureKind(name="face_width", label="face width", rounding=NEAREST, in_tray="wall, thickness"),
        FigureKind(name="thickness", label="thickness", rounding=NEAREST, in_tray="wall, height"),
        FigureKind(name="rabbet_width", label="rabbet width", rounding=NEAREST),
        FigureKind(name="rabbet_depth", label="rabbet depth", rounding=NEAREST),
        FigureKind(name="lip", label="lip", rounding=DOWN),
        FigureKind(name="least_lip", label="lip at its thinnest", rounding=DOWN),
        FigureKind(name="land", label="land", rounding=DOWN),
        FigureKind(name="stack", label="package, thickness", rounding=NEAREST),
        FigureKind(
            name="left_over",
            label="left over behind the package",
            rounding=DOWN,
            in_tray="artwork below the top of the wall",
        ),
        FigureKind(
            name="proud", label="package proud of the back", rounding=UP, in_tray="artwork above the top of the wall"
        ),
        FigureKind(name="tray_gap", label="gap around the artwork", rounding=NEAREST),
        FigureKind(name="ledge_width", label="ledge width", rounding=NEAREST),
        FigureKind(name="ledge_thickness", label="ledge thickness", rounding=NEAREST),
        FigureKind(name="ledge_across", label="opening in the ledge, across", rounding=NEAREST),
        FigureKind(name="ledge_up", label="opening in the ledge, up", rounding=NEAREST),
        FigureKind(name="mitre_length", label="mitre length", rounding=NEAREST),
        FigureKind(name="slant_kerf", label="kerf along the stick", rounding=UP),
        FigureKind(name="stick_needed", label="stick for one frame", rounding=UP),
        FigureKind(name="ledge_long_across", label="ledge strip, long point, across", rounding=DOWN),
        FigureKind(name="ledge_long_up", label="ledge strip, long point, up", rounding=DOWN),
        FigureKind(name="ledge_stick", label="stick for the ledge of one frame", rounding=UP),
    )
}
"""Every kind of figure; the direction follows from what a wrong one would cost (common practice, no source)."""


def write_figures(lengths: Iterable[tuple[str, float]], *, step: Step, is_tray: bool = False) -> dict[str, Figure]:
    """Write named lengths [mm] as figures, in the order given.

    Args:
        is_tray: whether they are called as those of a tray.
    Raises:
        KeyError: a name is no kind of figure.
    Source: derived.

    >>> write_figures([("rabbet_across", 333.2)], step=Step.SIXTEENTH)["rabbet_across"].written.full
    '13 1/8 in'
    """
    return {name: _figure(KINDS[name], exact_mm, step, is_tray=is_tray) for name, exact_mm in lengths}


def _figure(kind: FigureKind, exact_mm: float, step: Step, *, is_tray: bool) -> Figure:
    written = format_length(exact_mm, step=step, rounding=kind.rounding)
    label = (is_tray and kind.in_tray) or kind.label
    return Figure(name=kind.name, label=label, exact_mm=exact_mm, written=written)


def write_long_point(length_mm: float, *, sides: int, step: Step, is_ledge: bool = False) -> WrittenLength:
    """Write a long point for the tape, in the direction of its figure: of a side, of a polygon's member or of a ledge.

    Source: derived.

    >>> [write_long_point(363.2, sides=sides, step=Step.MILLIMETRE).text for sides in (4, 6)]
    ['364', '364']
    """
    name = "ledge_long_across" if is_ledge else "outside_across" if sides == len(RECTANGLE_SIDES) else "member_long"
    return format_length(length_mm, step=step, rounding=KINDS[name].rounding)


def named_figure(
    name: str, label: str, length_mm: float, *, step: Step, rounding: Rounding = Rounding.NEAREST
) -> Figure:
    """Write a length of which a frame may have several, such as a window or a distance.

    Source: derived.

    >>> named_figure("left", "from the left", 63.5, step=Step.SIXTEENTH).written.full
    '2 1/2 in'
    """
    written = format_length(length_mm, step=step, rounding=rounding)
    return Figure(name=name, label=label, exact_mm=length_mm, written=written)


def fine_figure(name: str, label: str, length_mm: float, *, unit: Unit) -> Figure:
    """Write a length finer than the tape reads: to the sixty-fourth of an inch, or the hundredth of a millimetre.

    It is for marks and settings that a rule or calipers make, and reads as `describe_length` does in a sentence.

    Source: derived.

    >>> fine_figure("near", "from the tip", 12.345, unit=Unit.MM).text
    '12.35'
    """
    step = Step.HUNDREDTH_MILLIMETRE if unit is Unit.MM else Step.SIXTY_FOURTH
    return Figure(name=name, label=label, exact_mm=length_mm, written=format_length(length_mm, step=step))
