"""What a client is offered, as issued: every word, drawing and price that they see, and the ways to choose from."""

from collections.abc import Iterable
from dataclasses import dataclass

from framecalc.client.difference import ClientFacts
from framecalc.units import Step
from framecalc.words import Words


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceRow:
    """One line of the price: a label, an amount, whether it is the one to look at, or the one to pay first."""

    label: str
    text: str
    is_total: bool = False
    is_deposit: bool = False


def total_in(prices: Iterable[PriceRow]) -> str:
    """The total among the lines of a price; blank where there is none."""
    return next((row.text for row in prices if row.is_total), "")


def price_change(before: str, after: str) -> str:
    """What a client reads where the total is another one."""
    return f"price: {before} → {after}"


@dataclass(frozen=True, slots=True, kw_only=True)
class IssuedFrame:
    """One frame as shown: what is told of it, its drawing, its wall with what stands under that, its price in words.

    `sentence` says in words what it is made of. What was issued before there were corners has none, no colour of a wall
    and no sentence.
    """

    told: ClientFacts
    drawing: str
    wall: str = ""
    wall_says: str = ""
    price: str = ""
    corner: str = ""
    wall_colour: str = ""
    sentence: str = ""
    is_evening: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class IssuedChoice:
    """One of several ways that a client may choose from, drawn to one scale with the others, with its price.

    `changes` are what it makes of the job, by path; those of the job as it stands are none.
    """

    id: str
    name: str
    frames: tuple[IssuedFrame, ...]
    prices: tuple[PriceRow, ...] = ()
    is_estimate: bool = False
    changes: tuple[tuple[str, str], ...] = ()

    @property
    def told(self) -> tuple[ClientFacts, ...]:
        """What is told of each frame."""
        return tuple(frame.told for frame in self.frames)


@dataclass(frozen=True, slots=True, kw_only=True)
class Issued:
    """Everything that a client is shown.

    `contact` and `after_yes` are the shop's own words, `logo` its mark, `ready` is the day promised.
    """

    revision: int
    made: str
    for_whom: str
    shop: str
    shop_note: str
    note: str
    words: Words
    step: Step
    frames: tuple[IssuedFrame, ...]
    prices: tuple[PriceRow, ...] = ()
    is_estimate: bool = False
    contact: str = ""
    how_to_pay: str = ""
    after_yes: str = ""
    ready: str = ""
    choices: tuple[IssuedChoice, ...] = ()
    logo: str = ""

    @property
    def told(self) -> tuple[ClientFacts, ...]:
        """What is told of each frame."""
        return tuple(frame.told for frame in self.frames)

    @property
    def total(self) -> str:
        """The total as they read it; blank where they see no price."""
        return total_in(self.prices)

    def choice(self, choice_id: str) -> IssuedChoice | None:
        """One of the choices by its id."""
        return next((one for one in self.choices if one.id == choice_id), None)
