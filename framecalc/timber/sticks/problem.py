"""The problem of a cutting plan: pieces to cut, sticks to cut them from, the saw, and the choice about grain.

A *piece* is measured along its long edge. A *stick* is a length of stock of the member's section; a *board* yields
several alike, its *strips*. A stick's *clear* stretches are what its trims and its defects leave. Pieces lie with their
long edges on one side, and between two of them goes one slanted saw cut, which takes k/cos(180°/n) of the stick; the
end cuts fall into the trims. *Turned* pieces lie head to tail, so that neighbours share one slant. A *bundle* is what
must come from one clear stretch, in this order: one piece, or a pair of mates, or a frame with its grain running round.
"""

import hashlib
import json
from collections.abc import Iterable, Iterator
from decimal import Decimal
from enum import StrEnum
from functools import lru_cache
from math import radians, tan

from framecalc.records import Record, parts_of
from framecalc.sizes.members import slant_kerf_mm
from framecalc.sizes.shape import RECTANGLE_SIDES, Shape

_HASHED_AS, _HASHED_WITH_TESTS_AS = "sticks 3", "sticks 4"
"""Part of every hash: raised when the same problem may get another answer, as those with test pieces did last."""


class Purpose(StrEnum):
    """What a piece is cut for."""

    MEMBER = "member"
    SPARE = "spare"
    TEST = "test piece"
    AGAIN = "cut again"
    SPOILED = "spoiled"


class Grain(StrEnum):
    """The pieces that must come from one stick, so that their grain matches."""

    FREE = "any piece from any stick"
    MATES = "opposite sides from one stick"
    ROUND = "the sides of a frame from one stick, in order round the frame"


class Stretch(Record):
    """Part of a stick, measured from its left end."""

    start_mm: float
    end_mm: float

    @property
    def length_mm(self) -> float:
        """From its start to its end."""
        return self.end_mm - self.start_mm


class Piece(Record):
    """One piece to cut: which frame, which copy of it, which side, and its long edge."""

    frame: str
    copy: int = 1
    side: str
    length_mm: float
    purpose: Purpose = Purpose.MEMBER

    @property
    def label(self) -> str:
        """What is chalked on the piece."""
        if self.purpose is Purpose.TEST:
            return f"{self.purpose} {self.copy}"
        return self.frame + self._behind_its_frame

    @property
    def letters(self) -> str:
        """The letters of the label, to tell labels apart."""
        return self.label if self.purpose is Purpose.TEST else f"{self.frame}{self._behind_its_frame}"

    @property
    def _behind_its_frame(self) -> str:
        extra = "" if self.purpose is Purpose.MEMBER else f" ({self.purpose})"
        side = f"side {self.side}" if self.side.isdigit() else self.side
        return f"/{self.copy} {side}{extra}"


PieceName = tuple[str, str, int, str]
"""What a piece is, whatever its length: its purpose, frame, copy and side."""


def name_of(piece: Piece) -> PieceName:
    """What a piece is, whatever its length.

    Source: derived.

    >>> name_of(Piece(frame="hall", side="top", length_mm=348))
    ('member', 'hall', 1, 'top')
    """
    return piece.purpose.value, piece.frame, piece.copy, piece.side


class Stock(Record):
    """Equal sticks, in hand or for sale. `count` None: as many as needed. `strips`: sticks that one of it yields.

    `id` distinguishes stock of the same name. `first` is the number on its first stick: above 1 where another plan uses
    the ones before. `trim_mm` is cut away at each end, the saw cut included. Defects run over the full width, through
    all strips.
    """

    name: str
    length_mm: float
    count: int | None = None
    price: Decimal = Decimal(0)
    in_hand: bool = False
    strips: int = 1
    trim_mm: float = 0.0
    defects: tuple[Stretch, ...] = ()
    id: str = ""
    first: int = 1

    @property
    def typed_id(self) -> str:
        """The id of the entry that was typed; what is allotted of it to one section has more behind a point."""
        return self.id.partition(".")[0]


class StickProblem(Record):
    """All that a cutting plan depends on; one section of one timber.

    `milled`: the stick already has its rabbet or profile. `corner` is where a frame's grain breaks, named by its two
    sides. `sides` is n; frames of several shapes go into one plan by the smallest n, whose cuts slant most, and
    `slope_deg` is the slope of the sides. Where a pattern *repeats*, each piece may start up to one repeat further on,
    where the pattern begins again.
    """

    pieces: tuple[Piece, ...]
    stock: tuple[Stock, ...]
    kerf_mm: float
    width_mm: float
    sides: int = 4
    slope_deg: float = 0.0
    grain: Grain = Grain.FREE
    corner: str = "bottom-left"
    turned: bool = False
    milled: bool = False
    shortest_useful_mm: float = 300.0
    repeat_mm: float = 0.0

    @property
    def cut_mm(self) -> float:
        """What one slanted saw cut takes along the stick, and what is left over before the pattern begins again."""
        return slant_kerf_mm(self.kerf_mm, sides=self.sides) + self.repeat_mm

    @property
    def slope_mm(self) -> float:
        """How far a mitred end runs along the stick, w·tan M: w itself at 45°."""
        shape = Shape(sides=self.sides, slope_deg=self.slope_deg)
        is_plain = shape.is_rectangle and not shape.slopes
        return self.width_mm if is_plain else self.width_mm * tan(radians(shape.mitre_deg))

    @property
    def nested_mm(self) -> float:
        """What each joint between two turned pieces saves along the stick; nothing where pieces are not turned."""
        return self.slope_mm if self.turned else 0.0


class Bundle(Record):
    """Pieces that come from one clear stretch, in this order."""

    pieces: tuple[Piece, ...]

    @property
    def length_mm(self) -> float:
        """The long edges together, without the saw cuts."""
        return sum(piece.length_mm for piece in self.pieces)


@lru_cache(maxsize=256)
def hash_of(problem: StickProblem) -> str:
    """Name a problem by its content: same content, same name, on any machine.

    A pattern that does not repeat and a slope of nothing are not written, so that plans made before these counted keep
    their names.

    Source: derived (SHA-256 of the problem written as JSON with sorted keys).

    >>> stick = Stock(name="ash", length_mm=2400)
    >>> def ask(long_edge_mm: float) -> StickProblem:
    ...     piece = Piece(frame="hall", side="top", length_mm=long_edge_mm)
    ...     return StickProblem(pieces=(piece,), stock=(stick,), kerf_mm=3, width_mm=30)
    >>> hash_of(ask(348)) == hash_of(ask(348.0)), hash_of(ask(348)) == hash_of(ask(349))
    (True, False)
    """
    asked = {name: _json(value, name=name) for name, value in parts_of(problem) if _is_written(name, value)}
    asked["pieces"] = f"[{', '.join(map(_json_of_piece, problem.pieces))}]"
    written = f"{{{', '.join(f'{json.dumps(name)}: {asked[name]}' for name in sorted(asked))}}}"
    has_tests = any(piece.purpose is Purpose.TEST for piece in problem.pieces)
    begin = _HASHED_WITH_TESTS_AS if has_tests else _HASHED_AS
    return hashlib.sha256(f"{begin} {written}".encode()).hexdigest()


def short_edge_mm(piece: Piece, *, slope_mm: float) -> float:
    """The sight edge of a piece: its long edge less the slope of both ends.

    ``short = long − 2 w tan(180°/n)``

    Source: derived.

    >>> short_edge_mm(Piece(frame="hall", side="top", length_mm=348), slope_mm=30)
    288
    """
    return piece.length_mm - 2 * slope_mm


def clear_stretches(stock: Stock, *, cut_mm: float = 0.0) -> tuple[Stretch, ...]:
    """Find what trims and defects leave of a stick.

    A defect narrower than a saw cut takes the whole cut, since the pieces on its two sides need one between them.

    Args:
        cut_mm: what one saw cut takes along the stick [mm], ≥ 0.
    Source: derived.

    >>> knot = Stretch(start_mm=1000, end_mm=1040)
    >>> clear = clear_stretches(Stock(name="ash", length_mm=2400, trim_mm=25, defects=(knot,)))
    >>> [(part.start_mm, part.end_mm) for part in clear]
    [(25, 1000), (1040, 2375)]
    """
    start_mm, last_mm = stock.trim_mm, stock.length_mm - stock.trim_mm
    found: list[Stretch] = []
    for defect in sorted(stock.defects, key=lambda defect: (defect.start_mm, defect.end_mm)):
        end_mm = min(defect.start_mm, last_mm)
        if end_mm > start_mm:
            found.append(Stretch(start_mm=start_mm, end_mm=end_mm))
            start_mm = end_mm + cut_mm
        start_mm = max(start_mm, defect.end_mm)
    if last_mm > start_mm:
        found.append(Stretch(start_mm=start_mm, end_mm=last_mm))
    return tuple(found)


def bundles_of(problem: StickProblem) -> tuple[Bundle, ...]:
    """Tie together what must come from one stretch; the rest, spares and test pieces too, stay single.

    Source: derived.
    """
    if problem.grain is Grain.FREE:
        return tuple(Bundle(pieces=(piece,)) for piece in problem.pieces)
    members = [piece for piece in problem.pieces if piece.purpose is Purpose.MEMBER]
    loose = [piece for piece in problem.pieces if piece.purpose is not Purpose.MEMBER]
    tied = (bundle for frame in _frames(members) for bundle in _tied(frame, problem))
    return (*tied, *(Bundle(pieces=(piece,)) for piece in loose))


def unlike_bundles(problem: StickProblem) -> tuple[Bundle, ...]:
    """The bundles, each length once where pieces stay single: a large job has many pieces, and few lengths.

    Source: derived.
    """
    if problem.grain is Grain.FREE:
        return tuple(Bundle(pieces=(piece,)) for piece in first_of_each_length(problem.pieces))
    return bundles_of(problem)


def first_of_each_length(pieces: Iterable[Piece]) -> tuple[Piece, ...]:
    """Leave out every piece that is as long as one before it.

    Source: derived.

    >>> pieces = [Piece(frame="hall", side=side, length_mm=348) for side in ("top", "bottom")]
    >>> [piece.side for piece in first_of_each_length(pieces)]
    ['top']
    """
    found: dict[float, Piece] = {}
    for piece in pieces:
        found.setdefault(piece.length_mm, piece)
    return tuple(found.values())


def place_round(side: str, *, sides: int) -> int:
    """Find where a side stands, clockwise from the top (or from side 1 of a polygon): 0 for the first.

    Returns −1 for a side of another name.

    Source: derived.

    >>> place_round("bottom", sides=4), place_round("8", sides=8), place_round("lid", sides=4)
    (2, 7, -1)
    """
    names = RECTANGLE_SIDES if sides == len(RECTANGLE_SIDES) else tuple(str(1 + n) for n in range(sides))
    return names.index(side) if side in names else -1


def first_after(corner: str, *, sides: int) -> int:
    """Find which side follows a corner, clockwise; −1 where the name joins no two neighbours.

    Source: derived.

    >>> first_after("bottom-left", sides=4), first_after("8-1", sides=8), first_after("top-bottom", sides=4)
    (3, 0, -1)
    """
    ends = [place_round(name, sides=sides) for name in corner.split("-")]
    if len(ends) != 2 or -1 in ends:
        return -1
    return next((after for before, after in (ends, ends[::-1]) if (before + 1) % sides == after), -1)


def _frames(members: list[Piece]) -> Iterator[list[Piece]]:
    by_frame: dict[tuple[str, int], list[Piece]] = {}
    for piece in members:
        by_frame.setdefault((piece.frame, piece.copy), []).append(piece)
    yield from by_frame.values()


def _tied(frame: list[Piece], problem: StickProblem) -> Iterator[Bundle]:
    """The bundles of one frame: all of it in order from the corner, or its pairs of mates."""
    sides = problem.sides
    first = first_after(problem.corner, sides=sides)
    in_order = sorted(frame, key=lambda piece: (place_round(piece.side, sides=sides) - first) % sides)
    if problem.grain is Grain.ROUND:
        yield Bundle(pieces=tuple(in_order))
        return
    pairs: dict[int, list[Piece]] = {}
    for piece in in_order:
        pairs.setdefault(place_round(piece.side, sides=sides) % (sides // 2), []).append(piece)
    yield from (Bundle(pieces=tuple(pair)) for pair in pairs.values())


@lru_cache(maxsize=8192)
def _json_of_piece(piece: Piece) -> str:
    """A piece as it is written; a job of many frames has a thousand of them, and hardly any changes."""
    return _json(piece)


def _json(value: object, *, name: str = "") -> str:
    return json.dumps(_plain(value, name=name), sort_keys=True, ensure_ascii=False)


def _is_written(name: str, value: object) -> bool:
    """Whether a part of a problem is written by its own value; pieces are written one by one."""
    return name != "pieces" and (bool(value) or name not in ("repeat_mm", "slope_deg"))


def _plain(value: object, *, name: str = "") -> object:
    """Write a record in JSON's own types, one way for each value: 348 mm is 348.0 mm, 2.50 is 2.5."""
    if isinstance(value, Record):
        return {key: _plain(part, name=key) for key, part in parts_of(value)}
    if isinstance(value, tuple):
        return [_plain(part, name=name) for part in value]
    if isinstance(value, Decimal):
        return f"{value.normalize():f}"
    return float(value) if name.endswith("_mm") and isinstance(value, int) else value
