"""What a client's page shows, as strings, from the issued record alone: no plan, no project."""

from collections.abc import Iterator, Sequence
from datetime import date

from markupsafe import Markup

from framecalc.client.difference import ClientFact
from framecalc.look.tones import is_dark
from framecalc.records import Record, replace
from framecalc.words import Words, day_said, say
from webapp.issue.issued import Approval, Share
from webapp.issue.offer import Issued, IssuedChoice, IssuedFrame, PriceRow
from webapp.live.days import day_in, minute_in
from webapp.live.render import drawing

NO_BREAK = "\u00a0"
PLAIN_WALL = "#d9d5cb"
"""The wall behind what was issued before walls had a colour."""

NUMBER_SIGNS = 4
"""So many of the signs under a page are the number of its offer."""

LONG_LEAF = 400
"""With more signs of notes and name than this the pictures on the printed leaf give way to them."""

COUNTS = ("", "", "Two", "Three", "Four", "Five", "Six")


class Picture(Record):
    """One picture of a frame: the anchor of its tab, what the tab says, what kind it is, a line under it."""

    anchor: str
    tab: str
    kind: str
    svg: Markup
    says: str = ""


class FrameView(Record):
    """One frame as shown, on the colour of its wall."""

    name: str
    sentence: str
    facts: tuple[tuple[str, str], ...]
    pictures: tuple[Picture, ...]
    wall: str
    on_dark: bool
    is_evening: bool
    price: str


class ChoiceView(Record):
    """One of the choices: its pictures side by side, what it is made of, its sizes, what it costs."""

    id: str
    name: str
    frames: tuple[FrameView, ...]
    total: str
    prices: tuple[PriceRow, ...]
    is_estimate: bool


class AskedView(Record):
    """A change that was asked for."""

    name: str
    on: str
    note: str


class ClientShown(Record):
    """What a client's page shows of an issued record; before the answer most of it is blank.

    `since` lists the changes since the approval; `refused` says why an answer is refused, `asks` whether it asked for
    a change, `name`, `note`, `change` and `picked` are as typed. `back` is the link back from a preview, `styles` are
    the stylesheets of a file.
    """

    issued: Issued
    made: str
    ready: str
    frames: tuple[FrameView, ...]
    choices: tuple[ChoiceView, ...]
    approval: Approval | None = None
    chosen: ChoiceView | None = None
    approved_on: str = ""
    asked: tuple[AskedView, ...] = ()
    since: tuple[str, ...] = ()
    expires: str = ""
    code: str = ""
    secret: str = ""
    refused: str = ""
    asks: bool = False
    name: str = ""
    note: str = ""
    change: str = ""
    picked: str = ""
    back: str = ""
    styles: str = ""

    @property
    def words(self) -> Words:
        """The trade words of the shop at the time of issue."""
        return self.issued.words

    @property
    def number(self) -> str:
        """The number of the offer; a preview has none."""
        return self.code[:NUMBER_SIGNS].upper()

    @property
    def title(self) -> str:
        """What is offered, in a line."""
        what = self.frames[0].name if len(self.frames) == 1 else f"{_counted(len(self.frames))} frames"
        return f"{what}, {_counted(len(self.choices)).lower()} ways" if self.choices and not self.chosen else what

    @property
    def seen(self) -> tuple[FrameView, ...]:
        """The frames that are shown large: those chosen, else those of the job; none while there is a choice."""
        return self.chosen.frames if self.chosen else () if self.choices else self.frames

    @property
    def layout(self) -> str:
        """The classes of the page: one frame or several, and a leaf that has much to say."""
        signs = len(self.issued.note) + len(self.issued.shop_note) + 3 * len(self.title)
        return ("single" if len(self.seen) == 1 else "several") + (" long-leaf" if signs > LONG_LEAF else "")

    @property
    def ground_of(self) -> FrameView:
        """The frame of which the wall is behind the head of the page."""
        return self.frames[0]

    @property
    def prices(self) -> tuple[PriceRow, ...]:
        """The lines of the price; while there is a choice, each has its own."""
        return self.chosen.prices if self.chosen else () if self.choices else self.issued.prices

    @property
    def total(self) -> str:
        """The price, said once."""
        return _total(self.prices)

    @property
    def deposit(self) -> str:
        """What is to be paid first."""
        return next((row.text for row in self.prices if row.is_deposit), "")

    @property
    def is_estimate(self) -> bool:
        """Whether the price may change when the wood is cut; while there is a choice, whether one of them may."""
        if self.choices and not self.chosen:
            return any(one.is_estimate for one in self.choices)
        return self.chosen.is_estimate if self.chosen else self.issued.is_estimate

    @property
    def has_tax(self) -> bool:
        """Whether the price says its tax."""
        return len([row for row in self.issued.prices if not row.is_total and not row.is_deposit]) > 1

    @property
    def initials(self) -> str:
        """Up to two letters for the mark of the shop."""
        words = [word for word in self.issued.shop.split() if word[:1].isalpha()]
        return "".join(word[0] for word in words)[:2].upper()


def client_shown(share: Share, *, since: Sequence[str] = ()) -> ClientShown:
    """What the page of a link shows.

    Args:
        since: the changes since, shown only for an approved link.
    """
    issued, words = share.issued, share.issued.words
    return replace(
        issued_shown(issued),
        approval=share.approval,
        chosen=_choice(share.chosen) if share.chosen else None,
        approved_on=minute_in(share.approval.when, words) if share.approval else "",
        asked=tuple(AskedView(name=one.name, on=day_in(one.when, words), note=one.note) for one in share.asked),
        since=tuple(say(change, words) for change in since),
        expires=day_in(share.expires, words),
        code=share.signs,
        picked=issued.choices[0].id if issued.choices else "",
    )


def issued_shown(issued: Issued) -> ClientShown:
    """What the page shows of an issued record before the answer."""
    return ClientShown(
        issued=issued,
        made=day_in(issued.made, issued.words),
        ready=day_said(date.fromisoformat(issued.ready), issued.words) if issued.ready else "",
        frames=tuple(_frame(frame, at=f"f{number}") for number, frame in enumerate(issued.frames, start=1)),
        choices=tuple(map(_choice, issued.choices)),
    )


def _choice(choice: IssuedChoice) -> ChoiceView:
    return ChoiceView(
        id=choice.id,
        name=choice.name,
        frames=tuple(_frame(one, at=f"{choice.id}-{number}") for number, one in enumerate(choice.frames, start=1)),
        total=_total(choice.prices),
        prices=choice.prices,
        is_estimate=choice.is_estimate,
    )


def _frame(frame: IssuedFrame, *, at: str) -> FrameView:
    wall = frame.wall_colour or PLAIN_WALL
    return FrameView(
        name=frame.told.frame,
        sentence=frame.sentence,
        facts=tuple((fact.label, _kept_together(fact)) for fact in frame.told.facts),
        pictures=tuple(_pictures(frame, at)),
        wall=wall,
        on_dark=is_dark(wall),
        is_evening=frame.is_evening,
        price=frame.price,
    )


def _pictures(frame: IssuedFrame, at: str) -> Iterator[Picture]:
    yield Picture(anchor=f"{at}-frame", tab="The frame", kind="picture", svg=drawing(frame.drawing))
    if frame.wall:
        svg = drawing(frame.wall)
        yield Picture(anchor=f"{at}-wall", tab="On the wall", kind="wall", svg=svg, says=frame.wall_says)
    if frame.corner:
        yield Picture(anchor=f"{at}-corner", tab="The corner", kind="corner", svg=drawing(frame.corner))


def _total(prices: Sequence[PriceRow]) -> str:
    return next((row.text for row in prices if row.is_total), "")


def _counted(count: int) -> str:
    return COUNTS[count] if count < len(COUNTS) else str(count)


def _kept_together(fact: ClientFact) -> str:
    """A size may break between across and up, but not inside a number or before its unit."""
    return fact.text.replace(" ", NO_BREAK).replace(f"{NO_BREAK}×", " ×") if fact.lengths else fact.text
