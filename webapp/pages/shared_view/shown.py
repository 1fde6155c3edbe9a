"""What a client's page shows, as strings, from the issued record alone: no plan, no project."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from framecalc.client.difference import ClientFact
from framecalc.words import Words, say
from webapp.issue.issued import Approval, Issued, IssuedFrame, Share
from webapp.live.days import day
from webapp.live.render import drawing

NO_BREAK = "\u00a0"


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameView:
    """One frame as shown."""

    name: str
    facts: tuple[tuple[str, str], ...]
    svg: Markup
    corner: Markup
    wall: Markup
    wall_says: str
    price: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ClientShown:
    """What a client's page shows of an issued record; before the answer most of it is blank.

    `since` lists the changes since the approval; `refused` says why an answer is refused, `name` and `note` are as
    typed. `back` is the link back from a preview, `styles` are the stylesheets of a file.
    """

    issued: Issued
    made: str
    frames: tuple[FrameView, ...]
    approval: Approval | None = None
    approved_on: str = ""
    since: tuple[str, ...] = ()
    expires: str = ""
    code: str = ""
    secret: str = ""
    refused: str = ""
    name: str = ""
    note: str = ""
    back: str = ""
    styles: str = ""

    @property
    def words(self) -> Words:
        """The trade words of the shop at the time of issue."""
        return self.issued.words


def client_shown(share: Share, *, since: Sequence[str] = ()) -> ClientShown:
    """What the page of a link shows.

    Args:
        since: the changes since, shown only for an approved link.
    """
    return replace(
        issued_shown(share.issued),
        approval=share.approval,
        approved_on=day(share.approval.when) if share.approval else "",
        since=tuple(say(change, share.issued.words) for change in since),
        expires=day(share.expires),
        code=share.signs,
    )


def issued_shown(issued: Issued) -> ClientShown:
    """What the page shows of an issued record before the answer."""
    return ClientShown(issued=issued, made=day(issued.made), frames=tuple(_frame(frame) for frame in issued.frames))


def _frame(frame: IssuedFrame) -> FrameView:
    return FrameView(
        name=frame.told.frame,
        facts=tuple((fact.label, _kept_together(fact)) for fact in frame.told.facts),
        svg=drawing(frame.drawing),
        corner=drawing(frame.corner),
        wall=drawing(frame.wall),
        wall_says=frame.wall_says,
        price=frame.price,
    )


def _kept_together(fact: ClientFact) -> str:
    """A size may break between across and up, but not inside a number or before its unit."""
    return fact.text.replace(" ", NO_BREAK).replace(f"{NO_BREAK}×", " ×") if fact.lengths else fact.text
