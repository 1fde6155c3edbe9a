"""The lists of a cutting plan, in the order of the work: buy, the machines, test, cut, dry fit, off-cuts."""

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from itertools import groupby
from math import hypot

from framecalc.corners.angles import flat_on_the_table, write_angle
from framecalc.money import tag_text
from framecalc.plan.price.price import currency_of
from framecalc.plan.timber.as_cut import (
    TOO_SHORT,
    PieceKey,
    cut_again,
    cut_elsewhere,
    group_as_cut,
    plan_as_cut,
    too_short,
)
from framecalc.plan.timber.begun import name_of_cut
from framecalc.plan.timber.cut_fits import CutFit, misfits
from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.machine_work import in_order
from framecalc.plan.timber.profiles import states_a_section
from framecalc.plan.timber.wood_use import left_of
from framecalc.project import Project
from framecalc.records import cached_property
from framecalc.sizes.chain import Sizes
from framecalc.sizes.shape import RECTANGLE_SIDES, Shape
from framecalc.timber.labels import label_of
from framecalc.timber.lists import OffCut, shopping_list
from framecalc.timber.sticks.answer import CutStick, StickPlan
from framecalc.timber.sticks.problem import Piece, PieceName, Purpose, name_of
from framecalc.timber.stops import Stop, hints_at_the_saw
from framecalc.units import format_length
from framecalc.words import Wording, joined, say, worded
from webapp.live.lists import JobList
from webapp.pages.timber.machine_lists import MachineLister

_BOTH_SIDES = ("Set one stop to the left of the blade and one to the right: the saw is swung over for the other end.",)
_TESTS = "Cut these before any good wood, and close a corner dry: a saw that is out shows it here."
_GLUE_ON = "Cut these square, a little over, and glue them behind the face before the saw."
_FIT = "Close all four corners dry on a flat bench. Equal diagonals make a square frame. Glue only what closes."
_TRIMMED = ": trimmed to {now}"
_FITS = {
    CutFit.TRIM: ": trim to {now}",
    CutFit.SHORT: ": too short, now {now}",
    CutFit.SECTION: ": of another section",
    CutFit.SIDES: ": mitred otherwise",
    CutFit.UNWANTED: ": not needed now",
}
_FIT_ROUND = "Close all corners dry on a flat bench, and glue only what closes."
"""What stands over a list. Source: common practice, no source."""


class Lister(MachineLister, dict=True):
    """Writes the lists of one plan in the unit of its project; `elsewhere` are sides that are cut from other wood."""

    elsewhere: frozenset[PieceKey] = frozenset()

    def all(self) -> tuple[JobList, ...]:
        """Every list that has lines, in the order of the work; pieces that are turned over are milled when cut."""
        long = (self.mill(),) if self.group.is_milled_long else ()
        cut = (self._pieces(),) if self.group.is_strip else (*self._at_stops(), self._pieces(), self._again())
        short = () if self.group.is_milled_long else (self.mill(),)
        machines = (self.rough(), self.joint(), self.rip(), self.plane(), self.width())
        return tuple(
            one for one in (self._buy(), *machines, *long, *cut, *short, self._fit(), self._left()) if one.rows
        )

    def _at_stops(self) -> tuple[JobList, ...]:
        return self._tests(), self._stops()

    def _buy(self) -> JobList:
        """Stock to take from the rack, and to buy."""
        from_rack = [
            (stick.label, self.length(stick.stock.length_mm), "1", self._where(stick), self._worth(stick.stock.price))
            for stick in self.work.new.sticks
            if stick.stock.in_hand
        ]
        bought = [
            (line.name, self.length(line.length_mm), str(line.count), self._worth(line.each), self._worth(line.total))
            for line in shopping_list(self.plan)
        ]
        return self.made("buy", ("What", "Length", "Count", "Each", "Together"), [*from_rack, *bought])

    def _where(self, stick: CutStick) -> str:
        offer = self.group.offer_of(stick)
        return "rest, from the members above" if offer and offer.is_rest else "at hand"

    def _tests(self) -> JobList:
        """The pieces for test cuts, with their sticks."""
        cells = [
            (label_of(piece).text, self.group.long_point(piece.length_mm), stick.label, str(strip))
            for stick in self.plan.sticks
            for strip, piece in in_order(stick)
            if piece.purpose is Purpose.TEST and name_of(piece) not in self.work.cut_before
        ]
        notes = (_TESTS, self._mitre())
        return self.made("tests", ("Piece", "Long point", "Stick", "Strip"), cells, notes=notes)

    def _stops(self) -> JobList:
        """Every stop once, the longest first."""
        found = self.work.stops
        both = self.group.both_sides
        cells = [
            (self.group.long_point(stop.long_mm), self.group.short_point(stop), str(stop.count), *_sides(stop, both))
            for stop in found
        ]
        below = [joined("; ", gathered(stop.pieces)) for stop in found]
        tested = any(piece.purpose is Purpose.TEST for piece in self.group.problem.pieces)
        hints = hints_at_the_saw(milled=self.work.has_rabbet_at_saw, tested=tested or self.group.is_ledge)
        notes = [self._mitre(), *(_BOTH_SIDES if both else ()), *(f"{hint.says} {hint.why}" for hint in hints)]
        columns = ("Long point", "Short point", "Pieces", *(("Stop on the",) if both else ()))
        done = [all(name_of(piece) in self._ticked for piece in stop.pieces) for stop in found]
        return self.made("stops", columns, cells, below=("Which", below), notes=notes, done=done)

    @cached_property
    def _ticked(self) -> frozenset[PieceName]:
        """The pieces that are ticked off in the list of every piece: a stop is done when all its pieces are."""
        numbered = enumerate((piece for *_, piece in self.work.pieces), start=1)
        done = self.project.timber.done
        return frozenset(name_of(piece) for number, piece in numbered if self.work.key("pieces", number) in done)

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
        """Every piece in cutting order: sticks with test pieces come first."""
        cells = [
            (stick.label, str(strip), str(number), self._piece(piece), self.group.long_point(piece.length_mm))
            for stick, strip, number, piece in self.work.pieces
        ]
        notes = (_GLUE_ON,) if self.group.is_strip else ()
        columns = ("Stick", "Strip", "No.", "Piece", "Long point")
        done = [name_of(piece) in self.work.cut_before for *_, piece in self.work.pieces]
        return self.made("pieces", columns, cells, notes=notes, done=done)

    def _piece(self, piece: Piece) -> str:
        """What is chalked on a piece, whether it is cut from other wood, and how it fits if it does not as it is."""
        is_elsewhere = (piece.frame, piece.copy, piece.side) in self.elsewhere
        fits = self._misfits.get(name_of(piece), "") if name_of(piece) in self.work.cut_before else ""
        return joined("", [label_of(piece).text, *([": from other wood"] if is_elsewhere else []), fits])

    @cached_property
    def _misfits(self) -> dict[PieceName, Wording]:
        """What is to be done with pieces that are cut and do not fit as they are."""
        runs, written = self.group.runs, self.group.long_point
        trimmed = (one for one in self.project.timber.cut if one.trimmed)
        return {name_of_cut(one, runs): worded(_TRIMMED, now=written(one.length_now_mm)) for one in trimmed} | {
            name_of_cut(one.cut, runs): worded(_FITS[one.fit], now=written(one.needed_mm))
            for one in misfits(self.project, runs)
        }

    def _again(self) -> JobList:
        """The sides that are cut again, and what from."""
        cells = [
            (label_of(one.piece).text, self.group.long_point(one.piece.length_mm), str(one.says))
            for one in cut_again(self.group, self.project)
        ]
        return self.made("again", ("Piece", "Long point", "From"), cells)

    def _fit(self) -> JobList:
        """Every frame to be closed dry, before it is glued; ledges are fitted into theirs."""
        if self.group.is_ledge:
            return self.made("fit", (), [])
        if self.group.section.sides != len(RECTANGLE_SIDES) or self.group.section.slope_deg:
            cells = [(frame.frame.name, str(frame.frame.count)) for frame in self.group.frames]
            return self.made("fit", ("Frame", "Count"), cells, notes=(_FIT_ROUND,))
        rectangles = [
            (frame.frame.name, str(frame.frame.count), frame.size("outside"), self._diagonal(frame.sizes))
            for frame in self.group.frames
        ]
        return self.made("fit", ("Frame", "Count", "Outside", "Each diagonal"), rectangles, notes=(_FIT,))

    def _diagonal(self, sizes: Sizes) -> str:
        return self._near(hypot(sizes.outside_across_mm, sizes.outside_up_mm))

    def _left(self) -> JobList:
        """What happens to every off-cut."""
        cells = [
            (
                one.stick,
                _strips(one.strips) + ("" if one.rest_mm is None else ", not ripped"),
                self.length(one.start_mm),
                self.left_over(one.length_mm),
                self.length(self.group.section.width_mm) if one.rest_mm is None else self.left_over(one.rest_mm),
                one.fate.value,
                self._carried(one),
            )
            for one in left_of(self.group.still_here(self.plan), self.group)
        ]
        columns = ("Off-cut of", "Strip", "From", "Length", "Width", "Goes", "Milled")
        notes = [worded(TOO_SHORT, stick=one.label, short=self.length(one.by_mm)) for one in too_short(self.plan)]
        return self.made("left", columns, cells, notes=notes, tickable=False)

    def _worth(self, price: Decimal) -> str:
        """A price; blank where none is typed."""
        return self._tag(price) if price else ""

    def _tag(self, price: Decimal) -> str:
        return tag_text(price, currency=currency_of(self.project))

    def _carried(self, left: OffCut) -> str:
        """The rabbet and profile that an off-cut has already."""
        if left.rest_mm is not None:
            return "nothing yet"
        stick = next(stick for stick in self.plan.sticks if stick.label == left.stick)
        pieces = (placed.piece for strip in stick.strips if strip.number in left.strips for placed in strip.pieces)
        profile = self.group.profile_of(pieces) or "nothing yet"
        return say(profile, self.project.shop.words) if states_a_section(profile) else profile

    def _near(self, length_mm: float) -> str:
        return format_length(length_mm, step=self.project.shop.step(self.project.unit)).full


def lister_of(group: TimberGroup, plan: StickPlan, project: Project) -> Lister:
    """The lists of a plan, by what came out where something was measured."""
    cut = plan_as_cut(plan, group=group, project=project)
    elsewhere = cut_elsewhere(plan, group=group, project=project)
    return Lister(project=project, group=group_as_cut(group), plan=cut, elsewhere=elsewhere)


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
