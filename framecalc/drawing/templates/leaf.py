"""One leaf of paper: it places millimetres from its lower left corner, through the correction for a printer.

What is drawn on a leaf is the same in a PDF and on a page of a browser; each has a kind of leaf of its own.
"""

from abc import ABC, abstractmethod
from collections.abc import Iterable
from contextlib import AbstractContextManager
from math import atan, degrees

from framecalc.drawing.templates.tiles import Paper
from framecalc.geometry.outline import Arc, Point, Segment
from framecalc.records import Record
from framecalc.templates.printer import Correction

LINE_MM, FAINT_MM = 0.2, 0.1
DASH_MM, DASH_GAP_MM = 3.0, 2.0
NOTE_MM = 3.0
"""Type size of what a leaf says of itself."""


class PrinterUsed(Record):
    """A printer that has been checked: its name, and what makes up for it."""

    name: str
    correction: Correction

    @property
    def says(self) -> str:
        """What a leaf says of it."""
        across_pct, up_pct = (100 * ratio for ratio in (self.correction.across_ratio, self.correction.up_ratio))
        lean_deg = degrees(atan(self.correction.lean_ratio))
        by = f"across {across_pct:.2f}%, up {up_pct:.2f}%, skew {lean_deg:.2f}°".replace("-", "−")
        return f"True on {self.name} only: corrected by {by}."


class Leaf(ABC):
    """One leaf that is being drawn."""

    def __init__(self, paper: Paper, correction: Correction) -> None:
        self._paper, self._correction = paper, correction
        self._about = (paper.across_mm / 2, paper.up_mm / 2)

    @abstractmethod
    def line(self, start: Point, end: Point, *, width_mm: float = LINE_MM, dashed: bool = False) -> None:
        """Draw a straight line."""

    @abstractmethod
    def arc(self, arc: Arc) -> None:
        """Draw an arc, which a correction may bend out of round."""

    @abstractmethod
    def text(self, text: str, at: Point, *, size_mm: float = NOTE_MM) -> None:
        """Write letters."""

    @abstractmethod
    def fill(self, lower_left: Point, upper_right: Point) -> None:
        """Fill an upright rectangle."""

    @abstractmethod
    def only_in_room(self) -> AbstractContextManager[None]:
        """Draw nothing on the margins, wherever the printer puts them."""

    def outline(self, segments: Iterable[Segment]) -> None:
        """Draw an outline."""
        for segment in segments:
            if isinstance(segment, Arc):
                self.arc(segment)
            else:
                self.line(segment.start, segment.end)

    def _at(self, point: Point) -> Point:
        """A place on the leaf, corrected, from its upper left corner."""
        x, y = self._correction.at(point, about=self._about)
        return x, self._paper.up_mm - y

    def _room(self) -> tuple[Point, Point]:
        """The upright rectangle round the corrected room: its upper left and its lower right corner."""
        paper = self._paper
        low, right, top = paper.margin_mm, paper.across_mm - paper.margin_mm, paper.up_mm - paper.margin_mm
        corners = [self._at(point) for point in ((low, low), (low, top), (right, top), (right, low))]
        across, up = [x for x, _ in corners], [y for _, y in corners]
        return (min(across), min(up)), (max(across), max(up))
