"""The lists of a cutting plan, by machine: buy, crosscut, rip, plane, cut, and off-cuts."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import groupby

from framecalc.corners.angles import flat_on_the_table, write_angle
from framecalc.findings import Finding, Rounding
from framecalc.money import tag_text
from framecalc.plan.price.price import currency_of
from framecalc.plan.timber.timber import TimberGroup
from framecalc.plan.timber.wood_use import left_of
from framecalc.project import Project
from framecalc.sizes.shape import RECTANGLE_SIDES, Shape
from framecalc.timber.labels import label_of
from framecalc.timber.lists import PlaningLine, planing_list, rip_list, rough_pieces, shopping_list
from framecalc.timber.sticks.answer import CutStick, StickPlan
from framecalc.timber.sticks.problem import Piece, Purpose
from framecalc.timber.stops import NARROW_MM, Stop, hints_at_the_saw, ripping_cautions, stop_list
from framecalc.units import describe_length, format_length
from framecalc.words import joined
from webapp.live.lists import JobList, ListRow

TITLES = {
    "buy": "To take and buy",
    "rough": "To crosscut first",
    "rip": "To rip",
    "plane": "To plane",
    "stops": "Stops, longest first",
    "pieces": "Every piece",
    "left": "What is left",
}
"""Every list by its name in addresses, in the order of the work."""


_CROSSCUT = (
    "These boards are bowed or twisted: cut them here, square, before the jointer; the parts lose less in flattening.",
)
_PLANING = (
    "Joint one face first. All strips go through one setting before it is changed, so that all come out alike.",
    "The first setting is for the thickest place. The machine's manual comes before this list.",
)
_BOTH_SIDES = ("Set one stop to the left of the blade and one to the right: the saw is swung over for the other end.",)
"""What stands over a list. Source: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lister:
    """Writes the lists of one plan in the unit of its project."""

    project: Project
    group: TimberGroup
    plan: StickPlan

    def all(self) -> tuple[JobList, ...]:
        """Every list that has lines, in the order of the work."""
        lists = (
            self._buy(),
            self._rough(),
            self._rip(),
            self._plane(),
            self._stops(),
            self._pieces(),
            self._left(),
        )
        return tuple(one for one in lists if one.rows)

    def _buy(self) -> JobList:
        """Stock to take from the rack, and to buy."""
        from_rack = [
            (stick.label, self._length(stick.stock.length_mm), "1", "at hand", self._worth(stick.stock.price))
            for stick in self.plan.sticks
            if stick.stock.in_hand
        ]
        bought = [
            (line.name, self._length(line.length_mm), str(line.count), self._tag(line.each), self._tag(line.total))
            for line in shopping_list(self.plan)
        ]
        return self._list("buy", ("What", "Length", "Count", "Each", "Together"), [*from_rack, *bought])

    def _rough(self) -> JobList:
        """Crosscuts of bowed boards, before milling."""
        cells = [
            (stick.label, ", ".join(self._length((cut.start_mm + cut.end_mm) / 2) for cut in offer.crosscuts))
            for stick in self.plan.sticks
            if (offer := self.group.offer_of(stick)) and offer.crosscuts
        ]
        trim = self._length(self.project.timber.part_trim.mm)
        notes = (*_CROSSCUT, f"On both sides of each cut {trim} are left over for snipe and squaring.")
        return self._list("rough", ("Board", "Cut at, from the left end"), cells, notes=notes)

    def _rip(self) -> JobList:
        """The settings of the fence, board by board."""
        offers = {key: offer for key, offer in self.group.offers.items() if offer.board}
        lines = rip_list(
            self.plan,
            boards={key: offer.board for key, offer in offers.items() if offer.board},
            parts={key: offer.parts for key, offer in offers.items()},
            strips_mm={key: offer.strip_mm for key, offer in offers.items()},
            kerf_mm=self.project.shop.kerf.mm,
        )
        cells = [
            (
                line.board + f", part {line.part}" if line.part else line.board,
                self._length(line.edge_mm),
                self._length(line.fence_mm),
                str(line.strips),
                self._length(line.rest_mm),
            )
            for line in lines
        ]
        narrowest_mm = min((line.fence_mm for line in lines), default=NARROW_MM)
        notes = [self._plain(caution) for caution in ripping_cautions(strip_mm=narrowest_mm)]
        return self._list("rip", ("Board", "Off the first edge", "Fence at", "Strips", "Rest"), cells, notes=notes)

    def _plane(self) -> JobList:
        """The settings of the planer; all strips of one setting go through together."""
        cells = [
            (self._length(line.setting_mm), self._length(line.takes_mm), str(len(line.pieces)), self._lengths(line))
            for planed_mm in sorted({offer.planed_mm for offer in self.group.offers.values() if offer.board})
            for line in self._planed_to(planed_mm)
        ]
        notes = (*_PLANING, *self._planed_together())
        return self._list("plane", ("Planer at", "Takes off", "Pieces", "Rough lengths"), cells, notes=notes)

    def _planed_together(self) -> Iterator[str]:
        """The other sections of the job planed to the same thickness."""
        others = [f"{self._length(one.width_mm)} × {self._length(one.thickness_mm)}" for one in self.group.planed_with]
        if others:
            yield (
                f"The boards for {' and '.join(others)} are planed to the same thickness: put them through with these"
                " before the last setting is changed."
            )

    def _planed_to(self, planed_mm: float) -> tuple[PlaningLine, ...]:
        offers = {key: offer for key, offer in self.group.offers.items() if offer.planed_mm == planed_mm}
        pieces = rough_pieces(
            self.plan,
            boards={key: offer.board for key, offer in offers.items() if offer.board},
            parts={key: offer.parts for key, offer in offers.items()},
        )
        return planing_list(pieces, finished_mm=planed_mm, pass_mm=self.project.timber.planer_pass.mm)

    def _lengths(self, line: PlaningLine) -> str:
        """The count of pieces of each rough length, the longest first."""
        counts = Counter(self._length(piece.length_mm) for piece in sorted(line.pieces, key=lambda one: -one.length_mm))
        return ", ".join(f"{count} × {length}" for length, count in counts.items())

    def _stops(self) -> JobList:
        """Every stop once, the longest first."""
        found = stop_list(self.plan, problem=self.group.problem, both_sides=self.group.both_sides)
        both = self.group.both_sides
        cells = [
            (self._up(stop.long_mm), self._near(stop.short_mm), str(stop.count), *_sides(stop, both)) for stop in found
        ]
        below = [joined("; ", gathered(stop.pieces)) for stop in found]
        hints = hints_at_the_saw(milled=self.group.problem.milled)
        notes = [self._mitre(), *(_BOTH_SIDES if both else ()), *(f"{hint.says} {hint.why}" for hint in hints)]
        columns = ("Long point", "Short point", "Pieces", *(("Stop on the",) if both else ()))
        return self._list("stops", columns, cells, below=("Which", below), notes=notes)

    def _mitre(self) -> str:
        """The angle of both ends."""
        section = self.group.section
        half_turn_deg = Shape(sides=section.sides).half_turn_deg
        if not section.slope_deg:
            return f"Both ends at {half_turn_deg:g}° from a square cut, sloping inward."
        saw = flat_on_the_table(half_turn_deg=half_turn_deg, slope_deg=section.slope_deg)
        return (
            f"Both ends at {write_angle(saw.mitre_deg)} from a square cut, sloping inward, the blade tilted"
            f" {write_angle(saw.tilt_deg)}: the sides slope {section.slope_deg:g}°."
        )

    def _pieces(self) -> JobList:
        """Every piece in cutting order."""
        cells = [
            (stick.label, str(strip), str(number), label_of(piece).text, self._up(piece.length_mm))
            for stick in self.plan.sticks
            for number, (strip, piece) in enumerate(_in_order(stick), start=1)
        ]
        return self._list("pieces", ("Stick", "Strip", "No.", "Piece", "Long point"), cells)

    def _left(self) -> JobList:
        """What happens to every off-cut."""
        cells = [
            (
                one.stick,
                _strips(one.strips) + ("" if one.rest_mm is None else ", not ripped"),
                self._length(one.start_mm),
                self._length(one.length_mm),
                self._length(self.group.section.width_mm if one.rest_mm is None else one.rest_mm),
                one.fate.value,
            )
            for one in left_of(self.plan, self.group)
        ]
        return self._list("left", ("Off-cut of", "Strip", "From", "Length", "Width", "Goes"), cells, tickable=False)

    def _list(
        self,
        name: str,
        columns: tuple[str, ...],
        cells: Sequence[tuple[str, ...]],
        *,
        below: tuple[str, Sequence[str]] = ("", ()),
        notes: Iterable[str] = (),
        tickable: bool = True,
    ) -> JobList:
        more = below[1] or [""] * len(cells)
        keys = (f"{self.plan.problem_hash[:10]}-{name}-{number}" for number in range(1, len(cells) + 1))
        rows = tuple(
            ListRow(key=key, cells=row, below=longer, is_done=key in self.project.timber.done)
            for key, row, longer in zip(keys, cells, more, strict=True)
        )
        return JobList(
            name=name,
            title=TITLES[name],
            columns=columns,
            rows=rows,
            below=below[0],
            notes=tuple(notes),
            tickable=tickable,
        )

    def _plain(self, finding: Finding) -> str:
        lengths = {name: self._length(length_mm) for name, length_mm in finding.lengths.items()}
        return (finding.sentence + " " + finding.why).format_map(lengths)

    def _worth(self, price: Decimal) -> str:
        """The value of stock on hand; blank if it is free."""
        return self._tag(price) if price else ""

    def _tag(self, price: Decimal) -> str:
        return tag_text(price, currency=currency_of(self.project))

    def _length(self, length_mm: float) -> str:
        return describe_length(length_mm, unit=self.project.unit)

    def _up(self, length_mm: float) -> str:
        """A long point, rounded up; down for a ledge, which goes in between; to the nearest step for a polygon."""
        is_polygon = self.group.section.sides != len(RECTANGLE_SIDES)
        rounding = Rounding.DOWN if self.group.is_ledge else Rounding.NEAREST if is_polygon else Rounding.UP
        return format_length(length_mm, step=self.project.shop.step(self.project.unit), rounding=rounding).full

    def _near(self, length_mm: float) -> str:
        return format_length(length_mm, step=self.project.shop.step(self.project.unit)).full


def _sides(stop: Stop, both: bool) -> tuple[str, ...]:
    """The side on which the stop is clamped, if both sides are used."""
    return (" and ".join(stop.sides),) if both else ()


def _strips(numbers: Sequence[int]) -> str:
    """The strips of a board that belong together, by number.

    >>> _strips((2,)), _strips((2, 3)), _strips((2, 3, 4))
    ('2', '2 and 3', '2 to 4')
    """
    apart = " and " if len(numbers) == 2 else " to "
    return str(numbers[0]) if len(numbers) == 1 else f"{numbers[0]}{apart}{numbers[-1]}"


def gathered(pieces: Iterable[Piece]) -> Iterator[str]:
    """Name pieces frame by frame, copies with the same sides together; the sides of a polygon are numbered.

    >>> sides = ((1, "top"), (1, "bottom"), (2, "top"), (2, "bottom"), (3, "top"))
    >>> list(gathered(Piece(frame="hall", copy=copy, side=side, length_mm=433) for copy, side in sides))
    ['hall/1 to 2 top, bottom', 'hall/3 top']
    >>> list(gathered(Piece(frame="bay", side=side, length_mm=200) for side in ("1", "2", "3")))
    ['bay/1 sides 1, 2, 3']
    """
    of_copy: dict[tuple[str, str, int], list[str]] = {}
    for piece in pieces:
        of_copy.setdefault((piece.frame, piece.purpose, piece.copy), []).append(piece.side)
    for (frame, purpose, sides), copies in groupby(of_copy, key=lambda key: (*key[:2], tuple(of_copy[key]))):
        numbers = [key[2] for key in copies]
        is_run = len(numbers) > 1 and numbers[-1] - numbers[0] + 1 == len(numbers)
        many = f"{numbers[0]} to {numbers[-1]}" if is_run else ", ".join(map(str, numbers))
        extra = "" if purpose == Purpose.MEMBER else f" ({purpose})"
        if purpose == Purpose.TEST:
            yield f"{purpose} {many}"
            continue
        yield frame + f"/{many} {_sides_named(sides)}{extra}"


def _sides_named(sides: Sequence[str]) -> str:
    what = ("side " if len(sides) == 1 else "sides ") if sides[0].isdigit() else ""
    return f"{what}{', '.join(sides)}"


def _in_order(stick: CutStick) -> Iterator[tuple[int, Piece]]:
    """The pieces of a stick in the numbering of its drawing, each with its strip."""
    for strip in stick.strips:
        for placed in strip.pieces:
            yield strip.number, placed.piece
