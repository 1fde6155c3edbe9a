"""What the owner's client page shows: the form for a new link, the links with their answers; and a link as a file."""

import base64
import re
import secrets
from collections.abc import Iterator, Mapping
from functools import cache

from markupsafe import Markup

from framecalc.plan.choices import are_in
from framecalc.plan.client import tells_weight
from framecalc.project import Project
from framecalc.project.fields import printable
from framecalc.records import Record, replace
from webapp.issue.approvals import LONGEST_NAME
from webapp.issue.issued import Approval, ChangeAsked, NotReady, Share, Shelf, content_hash
from webapp.issue.issuing import ShareWish, since_issued
from webapp.live.days import day
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.of_project import OfProject
from webapp.live.render import ENVIRONMENT, drawing, names_of
from webapp.live.typed.answer import answer_to
from webapp.live.typed.field import no_fields_in
from webapp.live.typed.forms import Typed
from webapp.live.verdict import Verdict, verdict_of
from webapp.pages.shared_view.shown import client_shown
from webapp.server.folders import STATIC
from webapp.server.network import qr_svg

DAYS = {"0": "Without an end", "7": "A week", "30": "A month", "90": "Three months"}
USUAL_DAYS = "30"


class ShareView(Record):
    """One link in the list; its secret is not shown."""

    share_id: str
    for_whom: str
    made: str
    revision: int
    state: str
    is_open: bool
    shows: str
    approved: str
    note: str
    since: tuple[str, ...]
    code: str
    is_untouched: bool
    opened: str
    asked: tuple[ChangeAsked, ...]
    offers: tuple[str, ...]
    chosen: str
    to_take_over: bool


def wish_of(texts: Mapping[str, str]) -> ShareWish:
    """The wish for a link, read from the form; browsers do not send an unticked box.

    Raises:
        NotReady: the name is too long.
    """
    for_whom = printable(texts.get("for_whom", ""))
    if len(for_whom) > LONGEST_NAME:
        raise NotReady(f"Enter at most {LONGEST_NAME} characters for the client's name, not {len(for_whom)}.")
    return ShareWish(
        for_whom=for_whom,
        shows_price="price" in texts,
        shows_photo="photo" in texts,
        shows_weight="weight" in texts,
        offers_choices="choices" in texts,
    )


def days_of(form: Typed) -> int:
    """The number of days that a new link stays open."""
    return int(form.texts["days"]) if form.texts.get("days") in DAYS else int(USUAL_DAYS)


class WishTyped(Record):
    """What the form for a new link holds: the usual wish, or the one that was just refused."""

    for_whom: str = ""
    price: bool = True
    photo: bool = True
    weight: bool = False
    choices: bool = True
    days: str = USUAL_DAYS


def wish_typed(form: Typed) -> WishTyped:
    """What stood in the form, as it was sent."""
    return WishTyped(
        for_whom=form.texts.get("for_whom", ""),
        price="price" in form.texts,
        photo="photo" in form.texts,
        weight="weight" in form.texts,
        choices="choices" in form.texts,
        days=str(days_of(form)),
    )


class Answered(Record):
    """What the form for an answer by mail holds, and why it was refused."""

    signs: str = ""
    name: str = ""
    choice: str = ""
    refused: str = ""


class OtherWay(Record):
    """Another address that a new link may begin with, and whether this computer answers there."""

    link: str
    interface: str
    answers: bool


class NewLink(Record):
    """A link just made: whether the network reaches it, whether its address answers, what else it may begin with."""

    link: str
    share_id: str
    file_name: str
    reaches: bool = False
    answers: bool = False
    others: tuple[OtherWay, ...] = ()

    @property
    def qr(self) -> Markup:
        """The link as a QR code; none of one that would lead a telephone to itself."""
        return drawing(qr_svg(self.link)) if self.reaches else Markup()


class SharesShown(OfProject, Record):
    """What the client page shows: the links of a project, a new link once, or why none can be made."""

    project: Project
    verdict: Verdict
    shares: tuple[ShareView, ...]
    made: NewLink | None
    refused: str
    once: str
    days: Mapping[str, str]
    unreadable: tuple[str, ...]
    wish: WishTyped
    answered: Answered


def share_shown(
    desk: Desk,
    shelf: Shelf,
    opened: ProjectAtRevision,
    *,
    made: NewLink | None = None,
    refused: str = "",
    wish: WishTyped | None = None,
    answered: Answered | None = None,
) -> SharesShown:
    """What the client page shows.

    Args:
        made: a new link; it is shown only once.
        refused: why a link cannot be made.
        wish: what was asked for then, to be asked again.
        answered: an answer by mail that was refused.
    """
    return SharesShown(
        project=opened.project,
        verdict=verdict_of(replace(answer_to(opened, no_fields_in), beside=desk.beside)),
        shares=tuple(_shares(desk, shelf, opened.project_id)),
        made=made,
        refused=refused,
        once=secrets.token_urlsafe(12),
        days=DAYS,
        unreadable=tuple(path.name for path in shelf.unreadable(opened.project_id)),
        wish=wish or WishTyped(for_whom=opened.project.client),
        answered=answered or Answered(),
    )


def file_of(share: Share) -> str:
    """The whole page of a share as one file, which needs neither network nor scripts."""
    shown = replace(client_shown(share), styles=_styles())
    return ENVIRONMENT.get_template("shared_view/file.html").render(names_of(shown))


@cache
def _styles() -> Markup:
    """Our own stylesheets with the fonts in them, to be written into the file."""
    texts = ((STATIC / name).read_text("utf-8") for name in ("serif.css", "drawing.css", "pages/shared_view.css"))
    return Markup(_FONT_AT.sub(_font, "".join(texts)))


_FONT_AT = re.compile(r'url\("(fonts/[a-z-]+\.woff2)"\)')


def _font(found: re.Match[str]) -> str:
    content = base64.b64encode((STATIC / found[1]).read_bytes()).decode("ascii")
    return f"url(data:font/woff2;base64,{content})"


def _shares(desk: Desk, shelf: Shelf, project_id: str) -> Iterator[ShareView]:
    now, document = shelf.clock(), desk.open(project_id).document
    for share in shelf.of_project(project_id):
        is_open = share.is_open(now)
        yield ShareView(
            share_id=share.share_id,
            for_whom=share.issued.for_whom or "No name",
            made=day(share.issued.made),
            revision=share.issued.revision,
            state=_state(share, is_open=is_open),
            is_open=is_open,
            shows=_shows(share),
            approved=_approved(share.approval) if share.approval else "",
            note=share.approval.note if share.approval else "",
            since=since_issued(desk, share),
            code=share.signs,
            is_untouched=_is_untouched(share),
            opened=day(share.opened),
            asked=share.asked,
            offers=tuple(one.name for one in share.issued.choices),
            chosen=share.chosen.name if share.chosen else "",
            to_take_over=share.chosen is not None and not are_in(document, share.chosen.changes),
        )


def _approved(approval: Approval) -> str:
    return f"{approval.name}, {day(approval.when)}{', by mail' if approval.by_mail else ''}"


def _is_untouched(share: Share) -> bool:
    """Whether the record is unchanged since it was issued and since it was approved."""
    said_to = share.approval.content_hash if share.approval else share.content_hash
    return content_hash(share.issued) == share.content_hash == said_to


def _state(share: Share, *, is_open: bool) -> str:
    if share.revoked:
        return f"Revoked on {day(share.revoked)}"
    if not is_open:
        return f"Expired on {day(share.expires)}"
    return f"Open until {day(share.expires)}" if share.expires else "Open without an end"


def _shows(share: Share) -> str:
    price = "with the price" if share.shows_price else "without the price"
    weight = ", with the weight" if tells_weight(share.told) else ""
    return f"{price}, {'with' if share.shows_photo else 'without'} the picture{weight}"
