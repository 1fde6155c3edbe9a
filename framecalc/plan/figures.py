"""Figures: every size of a frame that the product shows, written once.

Drawing, sizes table, card and `plan.json` all take a size from here, so they cannot print two different numbers. Each
figure has its direction: a size that must not be too small is rounded up, one that must not be too large, down. What
is in sight is what comes out if the outside is cut as written, so that the two differ by the face. What is measured
and not cut is *fine*: not rounded to the tape, so that it reads as it was typed and layers add up to their package.
"""

from collections.abc import Iterable
from functools import lru_cache

from framecalc.findings import Rounding
from framecalc.records import Record, replace
from framecalc.sizes.polygons import flats_of_side_mm
from framecalc.sizes.shape import RECTANGLE_SIDES
from framecalc.units import Step, Unit, WrittenLength, format_length, step_of_sentences


class Figure(Record):
    """One size: its name in the code, its label for people, the exact length and the text for the tape."""

    name: str
    label: str
    exact_mm: float
    written: WrittenLength
    rounding: Rounding = Rounding.NEAREST

    @property
    def text(self) -> str:
        """The text for the tape, without its unit (a drawing or a table says the unit once)."""
        return self.written.text

    @property
    def remainder(self) -> str:
        """The remainder that the tape leaves out, such as `"−0.1 mm"`, or nothing."""
        return self.written.remainder


class FigureKind(Record):
    """The label and the rounding direction of one kind of figure; in a tray it may be called otherwise.

    One that *follows* another is what comes out, to the nearest step, if that other is cut as it is written. What is
    called otherwise in a tray, such as its inside, follows nothing there. What a polygon is cut from is rounded
    otherwise than a rectangle of that size. The size of a package is one *of sheets* that are cut to it; where it has
    none, it is as large as it was measured.
    """

    name: str
    label: str
    rounding: Rounding
    in_tray: str = ""
    is_fine: bool = False
    follows: str = ""
    of_polygon: Rounding | None = None
    of_sheets: bool = False


UP, DOWN, NEAREST = Rounding.UP, Rounding.DOWN, Rounding.NEAREST
KINDS = {
    kind.name: kind
    for kind in (
        FigureKind(name="outside_across", label="outside, across", rounding=UP),
        FigureKind(name="outside_up", label="outside, up", rounding=UP),
        FigureKind(
            name="sight_across", label="sight, across", rounding=UP, in_tray="inside, across", follows="outside_across"
        ),
        FigureKind(name="sight_up", label="sight, up", rounding=UP, in_tray="inside, up", follows="outside_up"),
        FigureKind(
            name="in_view_across", label="in view inside the fillet, across", rounding=NEAREST, follows="sight_across"
        ),
        FigureKind(name="in_view_up", label="in view inside the fillet, up", rounding=NEAREST, follows="sight_up"),
        FigureKind(name="rabbet_across", label="rabbet size, across", rounding=UP, in_tray="inside, across"),
        FigureKind(name="rabbet_up", label="rabbet size, up", rounding=UP, in_tray="inside, up"),
        FigureKind(name="package_across", label="package, across", rounding=DOWN, of_polygon=UP, of_sheets=True),
        FigureKind(name="package_up", label="package, up", rounding=DOWN, of_polygon=UP, of_sheets=True),
        FigureKind(name="artwork_across", label="artwork, across", rounding=NEAREST, is_fine=True),
        FigureKind(name="artwork_up", label="artwork, up", rounding=NEAREST, is_fine=True),
        FigureKind(name="outside_flats", label="outside, across the flats", rounding=UP),
        FigureKind(
            name="sight_flats",
            label="sight, across the flats",
            rounding=UP,
            in_tray="inside, across the flats",
            follows="outside_flats",
        ),
        FigureKind(
            name="rabbet_flats", label="rabbet size, across the flats", rounding=UP, in_tray="inside, across the flats"
        ),
        FigureKind(name="package_flats", label="package, across the flats", rounding=DOWN, of_sheets=True),
        FigureKind(name="artwork_flats", label="artwork, across the flats", rounding=NEAREST, is_fine=True),
        FigureKind(name="window_flats", label="mat window, across the flats", rounding=NEAREST),
        FigureKind(name="outside_corners", label="outside, corner to corner", rounding=UP),
        FigureKind(name="package_corners", label="package, corner to corner", rounding=UP),
        FigureKind(name="member_long", label="member, long point to long point", rounding=UP),
        FigureKind(
            name="member_short", label="member, short point to short point", rounding=NEAREST, follows="member_long"
        ),
        FigureKind(
            name="ledge_short", label="ledge, short point to short point", rounding=NEAREST, follows="member_long"
        ),
        FigureKind(name="image_across", label="image, across", rounding=NEAREST, is_fine=True),
        FigureKind(name="image_up", label="image, up", rounding=NEAREST, is_fine=True),
        FigureKind(name="window_across", label="mat window, across", rounding=NEAREST),
        FigureKind(name="window_up", label="mat window, up", rounding=NEAREST),
        FigureKind(name="border_sides", label="mat border, sides", rounding=NEAREST),
        FigureKind(name="border_top", label="mat border, top", rounding=NEAREST),
        FigureKind(name="border_bottom", label="mat border, bottom", rounding=NEAREST),
        FigureKind(
            name="clearance_across", label="clearance, across", rounding=NEAREST, in_tray="gap on both sides, across"
        ),
        FigureKind(name="clearance_up", label="clearance, up", rounding=NEAREST, in_tray="gap on both sides, up"),
        FigureKind(name="cover_worst_across", label="cover at worst, across", rounding=DOWN),
        FigureKind(name="cover_worst_up", label="cover at worst, up", rounding=DOWN),
        FigureKind(name="cover_centred_across", label="cover when centred, across", rounding=DOWN),
        FigureKind(name="cover_centred_up", label="cover when centred, up", rounding=DOWN),
        FigureKind(name="play_across", label="play that remains, across", rounding=DOWN),
        FigureKind(name="play_up", label="play that remains, up", rounding=DOWN),
        FigureKind(name="face_width", label="face width", rounding=NEAREST, in_tray="wall, thickness"),
        FigureKind(name="thickness", label="thickness", rounding=NEAREST, in_tray="wall, height"),
        FigureKind(name="rabbet_width", label="rabbet width", rounding=NEAREST),
        FigureKind(name="rabbet_depth", label="rabbet depth", rounding=NEAREST),
        FigureKind(name="lip", label="lip", rounding=DOWN),
        FigureKind(name="least_lip", label="lip at its thinnest", rounding=DOWN),
        FigureKind(name="land", label="land", rounding=DOWN),
        FigureKind(name="stack", label="package, thickness", rounding=NEAREST, is_fine=True),
        FigureKind(
            name="left_over",
            label="room behind the package",
            rounding=NEAREST,
            in_tray="artwork below the top of the wall",
            is_fine=True,
        ),
        FigureKind(
            name="proud",
            label="package proud of the back",
            rounding=NEAREST,
            in_tray="artwork above the top of the wall",
            is_fine=True,
        ),
        FigureKind(name="tray_gap", label="gap around the artwork", rounding=NEAREST),
        FigureKind(name="ledge_width", label="ledge width", rounding=NEAREST),
        FigureKind(name="ledge_thickness", label="ledge thickness", rounding=NEAREST),
        FigureKind(
            name="ledge_across", label="opening in the ledge, across", rounding=NEAREST, follows="outside_across"
        ),
        FigureKind(name="ledge_up", label="opening in the ledge, up", rounding=NEAREST, follows="outside_up"),
        FigureKind(name="mitre_length", label="mitre length", rounding=NEAREST),
        FigureKind(name="slant_kerf", label="kerf along the stick", rounding=UP),
        FigureKind(name="stick_needed", label="stick for one frame", rounding=UP),
        FigureKind(name="ledge_long_across", label="ledge strip, long point, across", rounding=DOWN),
        FigureKind(name="ledge_long_up", label="ledge strip, long point, up", rounding=DOWN),
        FigureKind(name="ledge_stick", label="stick for the ledge of one frame", rounding=UP),
    )
}
"""Every kind of figure; the direction follows from what a wrong one would cost (common practice, no source)."""


_LONG_POINTS = ("member_long", "ledge_long_across", "ledge_long_up")
"""What the stop of a saw is set to for a polygon."""


def write_figures(
    lengths: Iterable[tuple[str, float]],
    *,
    step: Step,
    is_tray: bool = False,
    sides: int = len(RECTANGLE_SIDES),
    has_sheets: bool = True,
) -> dict[str, Figure]:
    """Write named lengths [mm] as figures, in the order given; what follows another comes after it.

    Args:
        is_tray: whether they are called as those of a tray.
        sides: the number of sides of the frame.
        has_sheets: whether any layer is cut to the size of the package.
    Raises:
        KeyError: a name is no kind of figure.
    Source: derived.

    >>> write_figures([("rabbet_across", 333.2)], step=Step.SIXTEENTH)["rabbet_across"].written.full
    '13 1/8 in'
    """
    figures: dict[str, Figure] = {}
    for name, exact_mm in lengths:
        kind = _kind_here(name, sides=sides, has_sheets=has_sheets)
        renamed = kind.in_tray if is_tray else ""
        followed = figures.get(kind.follows) if not renamed else None
        rounding = NEAREST if followed else kind.rounding
        figures[name] = Figure(
            name=name,
            label=renamed or kind.label,
            exact_mm=exact_mm,
            written=_written(exact_mm, _step_of(kind, step, sides=sides), rounding, followed=followed),
            rounding=rounding,
        )
    return figures


def _kind_here(name: str, *, sides: int, has_sheets: bool) -> FigureKind:
    """A kind as it is rounded in a frame of so many sides, with or without sheets."""
    kind = KINDS[name]
    if kind.of_sheets and not has_sheets:
        return replace(kind, is_fine=True, rounding=NEAREST)
    if kind.of_polygon and sides != len(RECTANGLE_SIDES):
        return replace(kind, rounding=kind.of_polygon)
    return kind


def _step_of(kind: FigureKind, step: Step, *, sides: int) -> Step:
    if kind.is_fine:
        return step_of_sentences(step.unit)
    is_of_member = kind.follows == "member_long" or kind.name in _LONG_POINTS
    return step_of_member(step, sides=sides) if is_of_member else step


def _written(exact_mm: float, step: Step, rounding: Rounding, *, followed: Figure | None) -> WrittenLength:
    longer_mm = -followed.written.remainder_mm if followed else 0.0
    written = format_length(exact_mm + longer_mm, step=step, rounding=rounding)
    return replace(written, remainder_mm=exact_mm - written.written_mm) if followed else written


@lru_cache(maxsize=64)
def step_of_member(step: Step, *, sides: int) -> Step:
    """The step that a polygon's member is cut to, so that the frame across its flats stays within one of the tape.

    ``flats = side / tan(180°/n)``: of 12 sides, each a sixteenth long, a frame comes out a quarter inch too large. No
    finer than a tape or a rule shows; a rectangle is cut to the step itself.

    Source: derived.

    >>> [step_of_member(Step.SIXTEENTH, sides=sides).value for sides in (3, 4, 6, 12)]
    ['1/16 in', '1/16 in', '1/32 in', '1/64 in']
    """
    finest = step
    while flats_of_side_mm(float(finest.size_mm), sides=sides) > float(step.size_mm) and finest.finer is not finest:
        finest = finest.finer
    return finest if sides != len(RECTANGLE_SIDES) else step


def write_long_point(length_mm: float, *, sides: int, step: Step, is_ledge: bool = False) -> WrittenLength:
    """Write a long point for the tape, in the direction of its figure: of a side, of a polygon's member or of a ledge.

    Source: derived.

    >>> [write_long_point(363.2, sides=sides, step=Step.MILLIMETRE).text for sides in (4, 6)]
    ['364', '363.5']
    """
    name = "ledge_long_across" if is_ledge else "outside_across" if sides == len(RECTANGLE_SIDES) else "member_long"
    return format_length(length_mm, step=step_of_member(step, sides=sides), rounding=KINDS[name].rounding)


def write_short_point(
    short_mm: float, *, long_mm: float, sides: int, step: Step, is_ledge: bool = False
) -> WrittenLength:
    """Write the short point of a side that is cut to its long point as written.

    Source: derived.

    >>> write_short_point(260.0, long_mm=363.2, sides=6, step=Step.MILLIMETRE).text
    '260.5'
    """
    long = write_long_point(long_mm, sides=sides, step=step, is_ledge=is_ledge)
    return format_length(short_mm - long.remainder_mm, step=step_of_member(step, sides=sides))


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
