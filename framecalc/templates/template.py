"""The record of a template: outlines, holes, marks and words, from the lower left corner of all of it, y up.

An *outline* is a part that stays; a *hole* is cut out of one and falls away, its way counter-clockwise too. A *mark* is
drawn or scored on the part and not cut through; a *zone* is a closed line that is only drawn on it. A *note* is written
on paper, and never engraved. The sides of a template are those of what is cut by it.
"""

from collections.abc import Iterable
from enum import StrEnum
from itertools import chain

from framecalc.errors import ImpossibleSize
from framecalc.geometry.outline import Bounds, Line, Outline, Point, area_mm2, bounds, moved
from framecalc.records import Record, replace
from framecalc.units import TOLERANCE_MM

LETTER_MM = 4.0
"""Type size of the words on a template (common practice, no source)."""

LETTER_ACROSS_RATIO = 0.6
"""A letter is taken to be so wide for its size: more than a usual one in the usual sans faces."""


class Side(StrEnum):
    """Which side of the part lies up while it is cut or marked."""

    FACE = "face up"
    BACK = "face down, seen from behind"
    EITHER = "either side up"


class TemplateStep(StrEnum):
    """The step of the work that a template serves."""

    MILL = "Milling"
    CUT = "Cutting"
    JOIN = "Joining"
    MAT = "Mats"
    SHEET = "Sheets"
    ARTWORK = "Artwork"
    HANG = "Hanging"


class CutFrom(StrEnum):
    """What a template is cut from on a machine, whose kerf goes by it."""

    GAUGES = "gauges"
    MATS = "mats"
    GLAZING = "glazing"
    BACKINGS = "backings"
    BACKS = "backs"
    COVERS = "dust covers"
    ARTWORK = "artwork"


class Word(Record):
    """Letters on a template; `at` is the left end of their base line."""

    text: str
    at: Point
    letter_mm: float = LETTER_MM

    @property
    def across_mm(self) -> float:
        """How wide it is taken to be."""
        return len(self.text) * self.letter_mm * LETTER_ACROSS_RATIO


class Template(Record):
    """One template. `name` goes into the names of its files; `title` and `purpose` are read by people.

    `no_laser` says why no laser can cut it.
    """

    name: str
    title: str
    purpose: str
    side: Side
    step: TemplateStep
    outlines: tuple[Outline, ...]
    holes: tuple[Outline, ...] = ()
    marks: tuple[Line, ...] = ()
    zones: tuple[Outline, ...] = ()
    words: tuple[Word, ...] = ()
    notes: tuple[Word, ...] = ()
    cut_from: CutFrom = CutFrom.GAUGES
    no_laser: str = ""

    def __post_init__(self) -> None:
        """Refuse what cannot be cut: a part without area, or a hole that is in no part.

        Raises:
            ImpossibleSize: so it is.
        """
        for outline in (*self.outlines, *self.holes):
            if area_mm2(outline) <= TOLERANCE_MM:
                raise ImpossibleSize(f"Part of no size in the template “{self.title}”.")
        if not all(any(_lies_in(hole, outline) for outline in self.outlines) for hole in self.holes):
            raise ImpossibleSize(f"An opening reaches the edge of its part: “{self.title}”.")

    @property
    def extent(self) -> Bounds:
        """The upright rectangle round all its parts."""
        return bounds(chain.from_iterable(outline.segments for outline in self.outlines))

    @property
    def across_mm(self) -> float:
        """How wide it is."""
        return self.extent.right_mm - self.extent.left_mm

    @property
    def up_mm(self) -> float:
        """How high it is."""
        return self.extent.top_mm - self.extent.bottom_mm


def at_origin(template: Template) -> Template:
    """Move a template so that its lower left corner is where lengths are counted from.

    Source: derived.
    """
    return moved_by(template, (0 - template.extent.left_mm, 0 - template.extent.bottom_mm))


def moved_by(template: Template, by: Point) -> Template:
    """Move a template.

    Source: derived.
    """
    return replace(
        template,
        outlines=_moved_outlines(template.outlines, by),
        holes=_moved_outlines(template.holes, by),
        zones=_moved_outlines(template.zones, by),
        marks=tuple(_moved_mark(mark, by) for mark in template.marks),
        words=_moved_words(template.words, by),
        notes=_moved_words(template.notes, by),
    )


def _moved_outlines(outlines: Iterable[Outline], by: Point) -> tuple[Outline, ...]:
    return tuple(Outline(segments=moved(one.segments, by=by)) for one in outlines)


def _moved_words(words: Iterable[Word], by: Point) -> tuple[Word, ...]:
    return tuple(replace(word, at=(word.at[0] + by[0], word.at[1] + by[1])) for word in words)


def _moved_mark(mark: Line, by: Point) -> Line:
    start, end = ((x + by[0], y + by[1]) for x, y in (mark.start, mark.end))
    return Line(start=start, end=end)


def _lies_in(hole: Outline, outline: Outline) -> bool:
    """Whether the rectangle round a hole lies in that round a part, and clear of its edge."""
    inner, outer = bounds(hole.segments), bounds(outline.segments)
    room_mm = (
        inner.left_mm - outer.left_mm,
        inner.bottom_mm - outer.bottom_mm,
        outer.right_mm - inner.right_mm,
        outer.top_mm - inner.top_mm,
    )
    return min(room_mm) > TOLERANCE_MM
