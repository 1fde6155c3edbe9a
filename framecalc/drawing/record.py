"""A drawing is one record: its reader, its title in words, its draw function, its panel and papers.

A drawing reads a small frozen record from the plan and draws from nothing else. A *reading* is a drawing with the
record that it has read: all that it shows, and so its key in the cache. An unchanged reading is not drawn again.
"""

from collections.abc import Callable, Hashable, Sequence
from functools import lru_cache
from typing import Generic, Protocol, TypeVar

from framecalc.drawing.pen import Pen
from framecalc.drawing.sheet import (
    Area,
    Sheet,
    TitleBlock,
    draw_border,
    draw_paper_bars,
    draw_scale_bar,
    draw_title_block,
    panel,
    ratio_text,
    scale_text,
)
from framecalc.plan import FramePlan
from framecalc.records import Record
from framecalc.units import Unit

ACROSS_MM = 80.0
"""How wide a panel usually is."""

KEPT, KEPT_PAPERS = 640, 64
"""How many panels are kept, some tens of frames with all of theirs, and how many papers."""


class DrawingRecord(Hashable, Protocol):
    """What a drawing reads from a plan."""

    @property
    def unit(self) -> Unit:
        """The unit of its scale bar."""


R = TypeVar("R", bound=DrawingRecord)


class PaperDrawing(Record):
    """A sheet of paper: the name of its file, and its label in the title block. Drawings with an equal one share it."""

    name: str
    label: str


class RecordRead(Hashable, Protocol):
    """A drawing with the record that it has read, of any type."""

    @property
    def name(self) -> str:
        """The drawing's own name in its page, from which its ids are made."""

    @property
    def unit(self) -> Unit:
        """The unit of its sizes."""

    @property
    def title(self) -> str:
        """The title, for a reader who cannot see it."""

    @property
    def panel(self) -> Sheet:
        """Its panel."""

    def draw(self, sheet: Sheet, pen: Pen, room: Area) -> float:
        """Draw it into a room of a sheet; returns its scale, or 0 for a drawing that is to no scale."""


class FrameDrawing(Protocol):
    """A drawing of a frame, with a record of any type."""

    @property
    def name(self) -> str:
        """Its name in addresses."""

    @property
    def label(self) -> str:
        """Its label on a page of its own."""

    @property
    def of_every_frame(self) -> bool:
        """Whether every frame has it."""

    @property
    def paper(self) -> PaperDrawing | None:
        """The sheet of paper that it goes on, if any."""

    def of(self, plan: FramePlan) -> RecordRead:
        """Read it from a plan."""


class Drawing(Record, Generic[R], eq=False):
    """One drawing of a frame.

    `draw` returns the scale, or 0 for a drawing to no scale. `up_mm` is the height of its panel, or a function of the
    record. `in_tray` is the drawing that replaces it for a tray.
    """

    name: str
    read: Callable[[FramePlan], R]
    title: Callable[[R], str]
    draw: Callable[[R, Sheet, Pen, Area], float]
    up_mm: float | Callable[[R], float]
    across_mm: float = ACROSS_MM
    label: str = ""
    of_every_frame: bool = False
    paper: PaperDrawing | None = None
    in_tray: FrameDrawing | None = None

    def of(self, plan: FramePlan) -> RecordRead:
        """Read it from a plan.

        Raises:
            FrameCalcError: what it shows cannot be computed, or the frame has no such thing.
            ValueError: it shows what has not been measured or chosen.
        """
        if self.in_tray and plan.is_tray:
            return self.in_tray.of(plan)
        return self.reading(self.read(plan))

    def reading(self, record: R) -> RecordRead:
        """The drawing with its record."""
        return _Reading(drawing=self, record=record)


class _Reading(Record, Generic[R]):
    """A drawing and its record."""

    drawing: Drawing[R]
    record: R

    @property
    def name(self) -> str:
        return self.drawing.name

    @property
    def unit(self) -> Unit:
        return self.record.unit

    @property
    def title(self) -> str:
        return self.drawing.title(self.record)

    @property
    def panel(self) -> Sheet:
        up_mm = self.drawing.up_mm
        return panel(self.drawing.across_mm, up_mm(self.record) if callable(up_mm) else up_mm)

    def draw(self, sheet: Sheet, pen: Pen, room: Area) -> float:
        return self.drawing.draw(self.record, sheet, pen, room)


@lru_cache(maxsize=KEPT)
def panel_svg(reading: RecordRead, *, beside: str = "") -> str:
    """Draw a panel, as SVG for a page; `beside` keeps its ids apart from those of the same drawing on the page."""
    sheet = reading.panel
    pen = Pen(
        name=f"{reading.name}{beside}", across_mm=sheet.across_mm, up_mm=sheet.up_mm, title=reading.title, inline=True
    )
    scale = reading.draw(sheet, pen, sheet.room)
    if scale:
        draw_scale_bar(pen, sheet, scale=scale, unit=reading.unit)
    return pen.svg()


@lru_cache(maxsize=KEPT_PAPERS)
def paper_svg(name: str, readings: tuple[RecordRead, ...], *, block: TitleBlock, sheet: Sheet) -> str:
    """Draw the drawings that share a sheet of paper, one or two of them, as an SVG file of true size."""
    title = "; ".join(reading.title for reading in readings)
    pen = Pen(name=name, across_mm=sheet.across_mm, up_mm=sheet.up_mm, title=title, inline=False)
    draw_border(pen, sheet)
    rooms = _rooms(sheet, len(readings))
    scales = [reading.draw(sheet, pen, room) for reading, room in zip(readings, rooms, strict=True)]
    draw_title_block(pen, sheet, block=block, scale=_scales_text(readings, scales, block.unit))
    draw_paper_bars(pen, sheet, scale=scales[0], unit=block.unit, of=readings[0].name if len(readings) > 1 else "")
    return pen.svg()


def _rooms(sheet: Sheet, parts: int) -> Sequence[Area]:
    """Share the room of a sheet among drawings: the second lies under the first, clear of the scale bars."""
    room = sheet.room
    if parts == 1:
        return (room,)
    cut_mm = 0.48 * room.up_mm
    aside_mm = 0.4 * room.across_mm
    return room.less(bottom_mm=room.up_mm - cut_mm), room.less(top_mm=cut_mm + 4, left_mm=aside_mm)


def _scales_text(readings: Sequence[RecordRead], scales: Sequence[float], unit: Unit) -> str:
    if len(readings) == 1:
        return scale_text(scales[0], unit)
    return ", ".join(f"{reading.name} {ratio_text(scale)}" for reading, scale in zip(readings, scales, strict=True))
