"""The shop's printers and its laser: what is typed of them once, and what templates take from it.

They belong to the shop and not to a job: what was measured on a printer holds for every leaf from then on. One that was
not measured, or whose measures do not go together, is *unchecked*, and nothing is made up for.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from framecalc.drawing.templates.laser import Strokes
from framecalc.drawing.templates.leaf import PrinterUsed
from framecalc.drawing.templates.operations import MOST_KERF_MM, GroupNames
from framecalc.drawing.templates.tiles import OWN_PAPER, PAPER_WORDS, Paper, paper_called
from framecalc.errors import FrameCalcError, OutOfRange
from framecalc.project.fields import Id, Model, Name, Size, Slack
from framecalc.project.label import Label
from framecalc.project.price import ShortNote
from framecalc.templates.kerf_strip import kerf_of_strip
from framecalc.templates.printer import CHECK_MM, correction_of, require_near
from framecalc.templates.template import CutFrom
from framecalc.templates.warnings import Bed
from framecalc.units import Length, parse_length

DIAGONAL_MM = CHECK_MM * 2**0.5
MOST_PRINTERS, MOST_MATERIALS = 12, 12


def _side(length: Length) -> Length:
    require_near(CHECK_MM, across_mm=length.mm)
    return length


def _diagonal(length: Length) -> Length:
    require_near(DIAGONAL_MM, rising_mm=length.mm)
    return length


def _kerf(length: Length) -> Length:
    if length.mm > MOST_KERF_MM:
        raise OutOfRange(f"Enter a kerf up to {MOST_KERF_MM:g} mm")
    return length


SideOfSquare = Annotated[Size, AfterValidator(_side)]
Diagonal = Annotated[Size, AfterValidator(_diagonal)]
Kerf = Annotated[Slack, AfterValidator(_kerf)]


class Printer(Model):
    """One printer: the paper in it, what it leaves white, and the square of its leaf as measured."""

    id: Id
    name: Annotated[Name, Label("Printer")]
    paper: Annotated[
        Literal["a4", "a3", "letter", "legal", "tabloid", "own"],
        Label("Paper in it", choices=(*PAPER_WORDS.items(), (OWN_PAPER, "Own size"))),
    ] = "a4"
    paper_across: Annotated[Size | None, Label("Own size, across")] = None
    paper_up: Annotated[Size | None, Label("Own size, up")] = None
    margin: Annotated[Slack | None, Label("Margin", "What it leaves white on its worst side. Blank: 10 mm.")] = None
    overlap: Annotated[Slack | None, Label("Overlap of leaves", "6 to 40 mm. Blank: 12 mm.")] = None
    across: Annotated[SideOfSquare | None, Label("Square, across", f"{CHECK_MM:g} mm when true.")] = None
    up: Annotated[SideOfSquare | None, Label("Square, up", f"{CHECK_MM:g} mm when true.")] = None
    rising: Annotated[
        Diagonal | None, Label("Diagonal, rising", f"Lower left to upper right: {DIAGONAL_MM:.1f} mm.")
    ] = None
    falling: Annotated[
        Diagonal | None, Label("Diagonal, falling", f"Upper left to lower right: {DIAGONAL_MM:.1f} mm.")
    ] = None

    @property
    def used(self) -> PrinterUsed | None:
        """The printer with what makes up for it; None where it was not measured.

        Raises:
            ImpossibleSize: the measures do not go together.
        """
        across, up, rising, falling = self.across, self.up, self.rising, self.falling
        if across is None or up is None or rising is None or falling is None:
            return None
        correction = correction_of(across_mm=across.mm, up_mm=up.mm, rising_mm=rising.mm, falling_mm=falling.mm)
        return PrinterUsed(name=self.name, correction=correction)

    @property
    def says(self) -> str:
        """What its measures come to."""
        try:
            return self.used.says if self.used else "Unchecked: print the check, measure it, type all four."
        except FrameCalcError as error:
            return f"Unchecked: {error.sentence}"

    def on(self, paper: str = "") -> Paper:
        """A paper with what this printer leaves white; without a name the paper that is in it.

        Raises:
            FrameCalcError: it has no size, or leaves no room for the bars.
        """
        usual, across, up = paper_called(paper or self.paper), self.paper_across, self.paper_up
        is_own = (paper or self.paper) == OWN_PAPER
        if is_own and not (across and up):
            raise OutOfRange("Enter the size of the paper.", field="paper_across")
        return Paper(
            name=usual.name,
            across_mm=across.mm if is_own and across else usual.across_mm,
            up_mm=up.mm if is_own and up else usual.up_mm,
            margin_mm=self.margin.mm if self.margin else usual.margin_mm,
            overlap_mm=self.overlap.mm if self.overlap else usual.overlap_mm,
        )

    def troubles(self) -> Iterator[tuple[str, str]]:
        """The fields whose values cannot be used together, each with a sentence."""
        try:
            self.on()
        except FrameCalcError as error:
            yield error.field.removesuffix("_mm"), error.sentence
        try:
            self.used  # noqa: B018
        except FrameCalcError as error:
            yield "falling", error.sentence


class LaserMaterial(Model):
    """A material that the laser cuts with a kerf of its own, and the templates that are cut from it."""

    id: Id
    name: Annotated[Name, Label("Material")]
    cuts: Annotated[CutFrom, Label("Used for", choices=tuple((one.value, one.capitalize()) for one in CutFrom))] = (
        CutFrom.GAUGES
    )
    kerf: Annotated[Kerf | None, Label("Its kerf", "Blank: from its strip, else the kerf above.")] = None
    strip: Annotated[Size | None, Label("Ten pieces of its strip", "Pushed together: 100 mm less ten kerfs.")] = None

    @property
    def kerf_mm(self) -> float | None:
        """What the beam takes away of it; None where nobody says.

        Raises:
            OutOfRange: the strip as measured is no strip.
        """
        return _kerf_said(self.kerf, self.strip)

    def troubles(self) -> Iterator[tuple[str, str]]:
        """The fields whose values cannot be used, each with a sentence."""
        yield from _strip_troubles(self.kerf, self.strip)


class Laser(Model):
    """The laser or router: the names and strokes it wants, its kerf, its bed, and the thinnest web that holds."""

    cut_name: Annotated[ShortNote, Label("Cut: group")] = "cut"
    cut_stroke: Annotated[ShortNote, Label("Cut: stroke", "A colour, such as red or #ff0000.")] = "black"
    score_name: Annotated[ShortNote, Label("Score: group")] = "score"
    score_stroke: Annotated[ShortNote, Label("Score: stroke")] = "black"
    engrave_name: Annotated[ShortNote, Label("Engrave: group")] = "engrave"
    engrave_stroke: Annotated[ShortNote, Label("Engrave: fill")] = "black"
    mark_name: Annotated[ShortNote, Label("Mark: group")] = "mark"
    mark_stroke: Annotated[ShortNote, Label("Mark: stroke")] = "black"
    stroke_width: Annotated[Slack, Label("Width of strokes", "0.001 to 2 mm, as the machine wants it.")] = parse_length(
        "0.1 mm"
    )
    kerf: Annotated[Kerf | None, Label("Kerf", "Blank: from the kerf strip, else none.")] = None
    strip: Annotated[
        Size | None,
        Label("Ten pieces of the kerf strip", "Pushed together. 100 mm less ten kerfs: measure to 0.05 mm."),
    ] = None
    materials: Annotated[tuple[LaserMaterial, ...], Field(max_length=MOST_MATERIALS)] = ()
    bed_across: Annotated[Size | None, Label("Bed, across", "Blank: not checked.")] = None
    bed_up: Annotated[Size | None, Label("Bed, up")] = None
    gap: Annotated[Slack, Label("Gap between parts on the bed")] = parse_length("3 mm")
    web: Annotated[Slack, Label("Thinnest web", "What stays between two cuts. 2 mm: usual practice.")] = parse_length(
        "2 mm"
    )

    @property
    def strokes(self) -> Strokes:
        """What files bear.

        Raises:
            OutOfRange: a name or a stroke that no file can bear; `field` names the operation.
        """
        names = GroupNames(cut=self.cut_name, score=self.score_name, engrave=self.engrave_name, mark=self.mark_name)
        return Strokes(
            cut=self.cut_stroke,
            score=self.score_stroke,
            engrave=self.engrave_stroke,
            mark=self.mark_stroke,
            width_mm=self.stroke_width.mm,
            names=names,
        )

    @property
    def kerf_mm(self) -> float:
        """What the beam takes away: as typed, or by the kerf strip; 0 where neither says.

        Raises:
            OutOfRange: the strip as measured is no strip.
        """
        return _kerf_said(self.kerf, self.strip) or 0.0

    @property
    def kerfs(self) -> Mapping[CutFrom, float]:
        """The kerfs of the materials that have one of their own; the first counts where two are used for the same.

        Raises:
            OutOfRange: a strip as measured is no strip.
        """
        said = ((one.cuts, one.kerf_mm) for one in reversed(self.materials))
        return {cuts: kerf_mm for cuts, kerf_mm in said if kerf_mm is not None}

    @property
    def bed(self) -> Bed:
        """What a part is held to; without a size it has no end."""
        sides = [side.mm if side else float("inf") for side in (self.bed_across, self.bed_up)]
        return Bed(across_mm=sides[0], up_mm=sides[1], gap_mm=self.gap.mm, web_mm=self.web.mm)

    def troubles(self) -> Iterator[tuple[str, str]]:
        """The fields whose values cannot be used together, each with a sentence."""
        try:
            self.strokes  # noqa: B018
        except FrameCalcError as error:
            yield error.field.replace("width_mm", "stroke_width"), error.sentence
        yield from _strip_troubles(self.kerf, self.strip)
        for material in self.materials:
            yield from ((f"materials.{material.id}.{name}", said) for name, said in material.troubles())


def _kerf_said(kerf: Length | None, strip: Length | None) -> float | None:
    """A kerf as typed, or by its strip."""
    if kerf is not None:
        return kerf.mm
    return kerf_of_strip(measured_mm=strip.mm) if strip else None


def _strip_troubles(kerf: Length | None, strip: Length | None) -> Iterator[tuple[str, str]]:
    try:
        _kerf_said(kerf, strip)
    except FrameCalcError as error:
        yield "strip", error.sentence


def machine_troubles(printers: Iterable[Printer], laser: Laser) -> dict[str, str]:
    """By path in the profile, a sentence for each value that cannot be used together with the others."""
    of_printers = {f"printers.{one.id}.{name}": said for one in printers for name, said in one.troubles()}
    return of_printers | {f"laser.{name}": said for name, said in laser.troubles()}
