"""Labels for the backs of frames: how the words of one are laid out, and several of them on a leaf at true size."""

from collections.abc import Iterator, Sequence
from functools import partial
from itertools import chain

from framecalc.drawing.lettering import wrapped
from framecalc.drawing.templates.leaf import FAINT_MM, NOTE_MM, Leaf
from framecalc.drawing.templates.tiles import Paper
from framecalc.errors import ImpossibleSize
from framecalc.geometry.outline import Point
from framecalc.plan.hand_over.frame import LabelLine
from framecalc.records import Record, replace
from framecalc.templates.template import Word
from framecalc.units import TOLERANCE_MM

EDGE_MM, COLUMN_MM, GAP_MM = 4.0, 15.0, 1.6
TITLE_MM, TEXT_MM, NAME_MM, STEP_RATIO = 4.2, 2.8, 2.4, 1.36
MOST_LINES = 6
FOOT_MM, BAR_MM = 12.0, 100.0
"""What the bar and its words take at the foot of a leaf."""


class LaidLabel(Record):
    """One label: its size, its words from its lower left corner, and how high it would have to be to hold them."""

    across_mm: float
    up_mm: float
    words: tuple[Word, ...]
    needed_mm: float

    @property
    def is_full(self) -> bool:
        """Whether its words do not fit."""
        return self.needed_mm > self.up_mm


def lay_out_label(lines: Sequence[LabelLine], *, across_mm: float, up_mm: float) -> LaidLabel:
    """Lay out the words of a label: a title, then each line beside its name; what has no name stands by itself.

    Args:
        lines: the first is the title.
        across_mm, up_mm: of the label [mm].
    """
    words: list[Word] = []
    down_mm = EDGE_MM
    for number, line in enumerate(lines):
        down_mm += GAP_MM if number and not line.name else 0.0
        for word, taken_mm in _line(line, is_title=not number, room_mm=across_mm - 2 * EDGE_MM):
            words.append(replace(word, at=(word.at[0], up_mm - down_mm - word.letter_mm)))
            down_mm += taken_mm
        down_mm += 0.0 if number else GAP_MM
    return LaidLabel(across_mm=across_mm, up_mm=up_mm, words=tuple(words), needed_mm=down_mm + EDGE_MM)


def _line(line: LabelLine, *, is_title: bool, room_mm: float) -> Iterator[tuple[Word, float]]:
    """The words of a line, each with how far the next one stands under it."""
    size_mm, left_mm = (TITLE_MM if is_title else TEXT_MM), (COLUMN_MM if line.name else 0.0)
    if line.name:
        yield Word(text=line.name, at=(EDGE_MM, 0.0), letter_mm=NAME_MM), 0.0
    fit = partial(wrapped, to_mm=room_mm - left_mm, lines=MOST_LINES, size_mm=size_mm)
    for text in chain.from_iterable(fit(paragraph) for paragraph in str(line.says).splitlines()):
        yield Word(text=text, at=(EDGE_MM + left_mm, 0.0), letter_mm=size_mm), size_mm * STEP_RATIO


def labels_a_leaf(label: LaidLabel, paper: Paper) -> tuple[int, int]:
    """How many labels stand beside and over each other on a leaf, above the bar.

    Raises:
        ImpossibleSize: not even one.
    """
    columns = int((paper.room_across_mm + TOLERANCE_MM) // label.across_mm)
    rows = int((paper.room_up_mm - FOOT_MM + TOLERANCE_MM) // label.up_mm)
    if not columns * rows:
        raise ImpossibleSize("The label is larger than the paper: make it smaller.", field="label_across_mm")
    return columns, rows


def draw_labels(leaf: Leaf, labels: Sequence[LaidLabel], paper: Paper, *, says: str) -> None:
    """Draw labels of one size on a leaf from the upper left, and a bar to measure.

    Args:
        labels: as many as the leaf holds, or fewer.
        says: what the leaf says of its printer.
    """
    columns, _ = labels_a_leaf(labels[0], paper)
    for number, label in enumerate(labels):
        row, column = divmod(number, columns)
        left_mm = paper.margin_mm + column * label.across_mm
        low_mm = paper.up_mm - paper.margin_mm - (row + 1) * label.up_mm
        _draw_label(leaf, label, (left_mm, low_mm))
    low, left = paper.margin_mm + 2, paper.margin_mm
    leaf.line((left, low), (left + BAR_MM, low))
    for x in (left, left + BAR_MM):
        leaf.line((x, low - 1.5), (x, low + 1.5))
    leaf.text(f"{BAR_MM:g} mm. {says}", (left + 1, low + 2), size_mm=NOTE_MM)


def _draw_label(leaf: Leaf, label: LaidLabel, at: Point) -> None:
    (left, low), (right, high) = at, (at[0] + label.across_mm, at[1] + label.up_mm)
    corners = [(left, low), (right, low), (right, high), (left, high)]
    for start, end in zip(corners, (*corners[1:], corners[0]), strict=True):
        leaf.line(start, end, width_mm=FAINT_MM)
    for word in label.words:
        if word.at[1] >= 1:
            leaf.text(word.text, (left + word.at[0], low + word.at[1]), size_mm=word.letter_mm)
