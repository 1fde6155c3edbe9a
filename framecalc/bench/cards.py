"""Cards for the bench: records of one machine each, made of what is planned; a page or a printer shows them.

A *setting* has one number that is read from two metres, its *facts* beside it, and the lines that are ticked off while
the machine stands so. Texts are ours, with the trade words still to be chosen and typed names kept as they are.
"""

from collections.abc import Iterable
from enum import StrEnum

from framecalc.bench.as_cut import Quantity
from framecalc.bench.sections import polygon_mm2
from framecalc.geometry.outline import Point
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM, Unit


class Machine(StrEnum):
    """A card by its name in addresses, in the order of the work."""

    CROSSCUT = "crosscut"
    FLATTEN = "joint"
    RIP = "rip"
    PLANE = "plane"
    WIDTH = "width"
    PROFILE = "profile"
    RABBET = "rabbet"
    MITRE = "mitre"
    DRY_FIT = "dry-fit"
    SLOTS = "slots"
    GLUE = "glue"
    SPLINES = "splines"
    ROUTER = "inside"


TITLES = {
    Machine.CROSSCUT: "Crosscut saw",
    Machine.FLATTEN: "Jointer",
    Machine.RIP: "Rip saw",
    Machine.PLANE: "Planer",
    Machine.WIDTH: "Finished width",
    Machine.PROFILE: "Profile",
    Machine.RABBET: "Rabbet",
    Machine.MITRE: "Mitre saw",
    Machine.DRY_FIT: "Dry fit",
    Machine.SLOTS: "Corner joint",
    Machine.GLUE: "Glue-up",
    Machine.SPLINES: "Splines and pins",
    Machine.ROUTER: "Rabbet, inside the frame",
}
"""What stands above each card."""


class Fact(Record):
    """One number or word beside the large one."""

    label: str
    text: str


class CardLine(Record):
    """One line to tick off: its key in the project file, what it is, and a word about it."""

    key: str
    text: str
    says: str = ""


class SectionState(Record):
    """The section of a member after a cut, as a polygon; `before` is what it was, `caption` says which cut."""

    caption: str
    before: tuple[Point, ...]
    after: tuple[Point, ...]

    @property
    def legend(self) -> str:
        """What its shades mean: what a cut takes off is grey, and a strip that is glued on takes nothing off.

        >>> board, whole = ((0, 12), (30, 12), (30, 20), (0, 20)), ((0, 0), (30, 0), (30, 20), (0, 20))
        >>> [SectionState(caption="", before=one, after=two).legend for one, two in ((whole, board), (board, whole))]
        ['Back below. Grey comes off.', 'Back below. The strip is glued on.']
        """
        before_mm2, after_mm2 = polygon_mm2(self.before), polygon_mm2(self.after)
        if abs(after_mm2 - before_mm2) <= TOLERANCE_MM:
            return "Back below."
        return "Back below. Grey comes off." if after_mm2 < before_mm2 else "Back below. The strip is glued on."


class StopState(Record):
    """A member at the stop of the mitre saw: the mitre, how far in its rabbet begins as a part of it, and the shim."""

    half_turn_deg: float
    rabbet_ratio: float = 0.0
    shim: bool = False


class Setting(Record):
    """One setting of a machine: what it is called, whom it serves, its large number, and all that goes with it."""

    title: str
    serves: str = ""
    label: str = ""
    big: str = ""
    facts: tuple[Fact, ...] = ()
    says: tuple[str, ...] = ()
    lines: tuple[CardLine, ...] = ()
    sections: tuple[SectionState, ...] = ()
    stop: StopState | None = None

    @property
    def number(self) -> str:
        """The large number without its unit."""
        return self.big.removesuffix(self.unit).rstrip()

    @property
    def unit(self) -> str:
        """The unit of the large number; blank where it is a count or a list."""
        last = self.big.rpartition(" ")[2]
        return last if last in set(Unit) and self.big.count(last) == 1 else ""


class Card(Record):
    """The card of one machine. `measured` are the quantities that are entered back from it.

    `says` stands on every setting, `feed` is the direction in which wood goes, and `cautions` are the machine's. `name`
    is what the shop's own machine is called; blank for the usual one.
    """

    machine: Machine
    settings: tuple[Setting, ...]
    says: tuple[str, ...] = ()
    feed: str = ""
    cautions: tuple[str, ...] = ()
    measured: tuple[Quantity, ...] = ()
    name: str = ""

    @property
    def title(self) -> str:
        """What stands above it."""
        return self.name or TITLES[self.machine]

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys of all its lines."""
        return tuple(line.key for setting in self.settings for line in setting.lines)


def done_of(card: Card, ticked: Iterable[str]) -> tuple[int, int]:
    """How many lines of a card are ticked off, and how many it has.

    Source: derived.

    >>> setting = Setting(title="Stop 1", lines=(CardLine(key="a-1", text="top"), CardLine(key="a-2", text="bottom")))
    >>> done_of(Card(machine=Machine.MITRE, settings=(setting,)), ["a-2", "b-1"])
    (1, 2)
    """
    known = set(ticked)
    return sum(key in known for key in card.keys), len(card.keys)
