"""What a client's page shows, as strings: of an issued record alone, with no plan and no project at hand."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from framecalc.client.difference import Fact
from framecalc.words import say
from webapp.issue.issued import Issued, IssuedFrame, Share
from webapp.live.days import day
from webapp.live.render import drawing

NO_BREAK = "\u00a0"


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameView:
    """One frame as shown."""

    name: str
    facts: tuple[tuple[str, str], ...]
    svg: Markup
    wall: Markup
    wall_says: str
    price: str


def client_shown(share: Share, *, since: Sequence[str] = ()) -> dict[str, Any]:
    """What the page of a share shows.

    Args:
        since: what a client would see changed since, said only where the share was approved.
    """
    return issued_shown(share.issued) | {
        "approval": share.approval,
        "approved_on": day(share.approval.when) if share.approval else "",
        "since": tuple(say(change, share.issued.words) for change in since),
        "expires": day(share.expires),
        "code": share.content_hash[:12],
    }


def issued_shown(issued: Issued) -> dict[str, Any]:
    """What is shown of an issued record before anybody has answered."""
    return {
        "words": issued.words,
        "issued": issued,
        "made": day(issued.made),
        "frames": tuple(_frame(frame) for frame in issued.frames),
        "approval": None,
        "approved_on": "",
        "since": (),
        "expires": "",
        "code": "",
    }


def _frame(frame: IssuedFrame) -> FrameView:
    return FrameView(
        name=frame.told.frame,
        facts=tuple((fact.label, _kept_together(fact)) for fact in frame.told.facts),
        svg=drawing(frame.drawing),
        wall=drawing(frame.wall),
        wall_says=frame.wall_says,
        price=frame.price,
    )


def _kept_together(fact: Fact) -> str:
    """A size may break between across and up, but not inside a number or before its unit."""
    return fact.text.replace(" ", NO_BREAK).replace(f"{NO_BREAK}×", " ×") if fact.lengths else fact.text
