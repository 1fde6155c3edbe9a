"""What is drawn on the leaves of templates: the template itself, how leaves are joined, bars, a map, and words.

Each leaf carries its name, a map, and bars of 100 mm and 4 in both ways inside what is kept.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from framecalc.drawing.templates.bars import clear_corner, draw_bars
from framecalc.drawing.templates.leaf import FAINT_MM, NOTE_MM, Leaf, PrinterUsed
from framecalc.drawing.templates.tiles import Paper, Tile, Tiling, tile_name, tiling_of
from framecalc.geometry.outline import Outline, Point, Segment, moved
from framecalc.plan.templates.templates import TemplateStamp
from framecalc.records import Record
from framecalc.templates.printer import TRUE, Correction
from framecalc.templates.template import Template, Word

CROSS_MM = 3.0
MAP_LEFT_MM, CELL_MM, MAP_ACROSS_MM, MAP_UP_MM = 12.0, 3.5, 84.0, 28.0
"""Where the map stands beside the bars, its cells, and the most that all of them take."""

UNCHECKED = "Unchecked: measure the bars. If one is off, print at 100%, actual size."


class LeafToDraw(Record):
    """One leaf that is to be drawn: what lies on it, and what it says of itself."""

    template: Template
    tiling: Tiling
    tile: Tile
    says: tuple[str, ...]
    correction: Correction

    @property
    def title(self) -> str:
        """What it is called among all."""
        return f"{self.template.title}, leaf {self.tile.name}"

    def draw_on(self, leaf: Leaf) -> None:
        """Draw what of the template lies in the room, how leaves are joined, bars and words."""
        with leaf.only_in_room():
            _draw(self.template, self.tiling, self.tile, leaf)
        _draw_joining(self.tiling, self.tile, leaf)
        corner = clear_corner(self.tiling.paper, _lines(self.template, self.tiling, self.tile))
        above_mm = draw_bars(leaf, corner, self.says)
        _draw_map(self.tiling, self.tile, leaf, (corner[0] + MAP_LEFT_MM, corner[1] + above_mm))


def leaves_of(
    stamped: Sequence[tuple[Template, TemplateStamp]], *, paper: Paper, printer: PrinterUsed | None = None
) -> Iterator[LeafToDraw]:
    """Lay templates out on leaves, one after the other.

    Args:
        printer: the printer, with what makes up for it; None where it has not been checked.
    Raises:
        ImpossibleSize: one would take more leaves than anybody puts together.
    """
    tilings = [tiling_of(one.across_mm, one.up_mm, paper=paper) for one, _ in stamped]
    correction = printer.correction if printer else TRUE
    for (template, stamp), tiling in zip(stamped, tilings, strict=True):
        says = (*_says(template, stamp), printer.says if printer else UNCHECKED)
        for tile in tiling.tiles:
            yield LeafToDraw(template=template, tiling=tiling, tile=tile, says=says, correction=correction)


def _lines(template: Template, tiling: Tiling, tile: Tile) -> list[tuple[Point, Point]]:
    """Where the lines and words of a template lie on a leaf, arcs as their chords."""
    outlines = (*template.outlines, *template.holes, *template.zones)
    ends = [(one.start, one.end) for outline in outlines for one in outline.segments]
    ends += [(mark.start, mark.end) for mark in template.marks]
    ends += [(word.at, (word.at[0] + word.across_mm, word.at[1])) for word in (*template.words, *template.notes)]
    return [(tiling.on_leaf(tile, start), tiling.on_leaf(tile, end)) for start, end in ends]


def _draw(template: Template, tiling: Tiling, tile: Tile, leaf: Leaf) -> None:
    """The template itself, moved to where it lies on the leaf."""
    for outline in (*template.holes, *template.outlines, *template.zones):
        leaf.outline(_moved(outline, tiling, tile))
    for mark in template.marks:
        leaf.line(tiling.on_leaf(tile, mark.start), tiling.on_leaf(tile, mark.end))
    for word in (*template.words, *template.notes):
        _write(word, tiling, tile, leaf)


def _moved(outline: Outline, tiling: Tiling, tile: Tile) -> tuple[Segment, ...]:
    return moved(outline.segments, by=tiling.on_leaf(tile, (0.0, 0.0)))


def _write(word: Word, tiling: Tiling, tile: Tile, leaf: Leaf) -> None:
    leaf.text(word.text, tiling.on_leaf(tile, word.at), size_mm=word.letter_mm)


def _draw_joining(tiling: Tiling, tile: Tile, leaf: Leaf) -> None:
    """Cut lines, and the crosses by which leaves are laid on each other."""
    paper, right, below = tiling.paper, tiling.cut_right_mm(tile), tiling.cut_below_mm(tile)
    if right is not None:
        leaf.line((right, paper.margin_mm), (right, paper.up_mm - paper.margin_mm), width_mm=FAINT_MM, dashed=True)
    if below is not None:
        leaf.line((paper.margin_mm, below), (paper.across_mm - paper.margin_mm, below), width_mm=FAINT_MM, dashed=True)
    for x, y in tiling.crosses(tile):
        leaf.line((x - CROSS_MM, y), (x + CROSS_MM, y))
        leaf.line((x, y - CROSS_MM), (x, y + CROSS_MM))


def _says(template: Template, stamp: TemplateStamp) -> tuple[str, ...]:
    return (
        f"{template.title}: {template.side.value}",
        f"{stamp.project}, {stamp.frame}, {stamp.revision}, {stamp.date}",
        template.purpose,
    )


def _draw_map(tiling: Tiling, tile: Tile, leaf: Leaf, corner: Point) -> None:
    """The name of the leaf and all leaves as they lie, this one filled, above and right of a corner."""
    last = tile_name(tiling.rows - 1, tiling.columns - 1)
    cell_mm = min(CELL_MM, MAP_UP_MM / tiling.rows, MAP_ACROSS_MM / tiling.columns)
    left, top = corner[0], corner[1] + cell_mm * tiling.rows
    says = "One leaf" if last == "A1" else f"Leaf {tile.name} of A1 to {last}"
    leaf.text(says, (left, top + 2), size_mm=NOTE_MM * 1.4)
    for row in range(tiling.rows):
        for column in range(tiling.columns):
            lower_left = (left + column * cell_mm, top - (row + 1) * cell_mm)
            upper_right = (lower_left[0] + cell_mm, lower_left[1] + cell_mm)
            if (row, column) == (tile.row, tile.column):
                leaf.fill(lower_left, upper_right)
            _cell(leaf, lower_left, upper_right)


def _cell(leaf: Leaf, lower_left: Point, upper_right: Point) -> None:
    (left, bottom), (right, top) = lower_left, upper_right
    corners = [(left, bottom), (right, bottom), (right, top), (left, top), (left, bottom)]
    for start, end in pairwise(corners):
        leaf.line(start, end, width_mm=FAINT_MM)
