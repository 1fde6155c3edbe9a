"""The client's page: one frozen revision under a secret address, and the form to approve it.

Nothing imported here can write, except what the client answers; `tests/webapp/test_view.py` walks the imports.
"""

from collections.abc import Callable
from typing import Annotated

from fastapi import APIRouter, Depends, Form, Request, Response

from framecalc.records import Record, replace
from webapp.issue.approvals import AlreadyApproved, UnusableAnswer, approve, ask_for_change, note_opened
from webapp.issue.issued import NoSuchShare, Share, Shelf
from webapp.issue.newer import since_shown
from webapp.live.render import render, see_other
from webapp.live.statuses import CANNOT_TAKE, CHANGED_ELSEWHERE, NOT_THERE, TOO_MANY
from webapp.pages.shared_view import PAGE
from webapp.pages.shared_view.shown import ClientShown, client_shown
from webapp.server.door import Caller
from webapp.server.rates import Rates, TooOften

VIEW = router = APIRouter()
NOTHING_HERE = "There is nothing at this address, or no longer. Ask the shop for a new link."

POLICY = (
    "default-src 'none'; style-src 'self'; font-src 'self'; img-src 'self' data:; form-action 'self'; "
    "frame-ancestors 'none'; base-uri 'none'"
)
HEADERS = {"content-security-policy": POLICY, "cache-control": "no-store", "x-robots-tag": "noindex, nofollow"}
"""No script runs on a client's page, no browser keeps it, no search engine lists it."""


def shelf(request: Request) -> Shelf:
    """The links of this server, read only."""
    found: Shelf = request.app.state.shelf
    return found


OnShelf = Annotated[Shelf, Depends(shelf)]
Typed = Annotated[str, Form()]


@router.get(PAGE.path)
def page(request: Request, shelf: OnShelf, secret: str) -> Response:
    """Show a client their issued record."""
    try:
        share = shelf.open(secret)
        if request.state.caller is Caller.STRANGER and request.method == "GET":
            share = note_opened(shelf, secret)
        return _shown(request, _of(request, share, secret))
    except NoSuchShare:
        return _unknown_link(request)


@router.post(PAGE.path + "/approve")
def say_yes(
    request: Request, shelf: OnShelf, secret: str, name: Typed = "", note: Typed = "", choice: Typed = ""
) -> Response:
    """Record a client's approval; if it is refused, the typed values stay on the page."""

    def note_it() -> Share:
        return approve(shelf, secret, name=name, note=note, choice=choice)

    def typed(shown: ClientShown) -> ClientShown:
        return replace(shown, name=name, note=note, picked=choice)

    return _answer(request, shelf, secret, note_it, typed)


@router.post(PAGE.path + "/ask")
def ask(request: Request, shelf: OnShelf, secret: str, name: Typed = "", change: Typed = "") -> Response:
    """Record what a client would have otherwise; if it is refused, the typed values stay on the page."""

    def note_it() -> Share:
        return ask_for_change(shelf, secret, name=name, note=change)

    def typed(shown: ClientShown) -> ClientShown:
        return replace(shown, name=name, change=change, asks=True)

    return _answer(request, shelf, secret, note_it, typed, anchor="asked")


def _answer(
    request: Request,
    shelf: Shelf,
    secret: str,
    note: Callable[[], Share],
    typed: Callable[[ClientShown], ClientShown],
    *,
    anchor: str = "",
) -> Response:
    """Note an answer, and show the page once more."""
    try:
        share = shelf.open(secret)
        _rates(request).take("approve", _caller(request))
        note()
    except NoSuchShare:
        return _unknown_link(request)
    except (UnusableAnswer, TooOften) as error:
        status = TOO_MANY if isinstance(error, TooOften) else CANNOT_TAKE
        return _shown(request, replace(typed(_of(request, share, secret)), refused=error.sentence), status)
    except AlreadyApproved as error:
        shown = replace(_of(request, shelf.open(secret), secret), refused=error.sentence)
        return _shown(request, shown, CHANGED_ELSEWHERE)
    return see_other(PAGE.address(secret=secret), anchor=anchor)


def _of(request: Request, share: Share, secret: str) -> ClientShown:
    """What the page of a link shows before anything is typed into it."""
    since = since_shown(request.app.state.shelf, share) if share.approval else ()
    return replace(client_shown(share, since=since), secret=secret)


def _shown(request: Request, shown: ClientShown, status: int = 200) -> Response:
    return _answered(request, PAGE.template, shown, status)


class UnknownLink(Record, kw_only=False):
    """The page for an address that opens nothing."""

    says: str


def _unknown_link(request: Request) -> Response:
    """The same answer for every address that opens nothing; repeated guesses have to wait."""
    try:
        _rates(request).take("unknown link", _caller(request))
    except TooOften as error:
        answer = _answered(request, "shared_view/gone", UnknownLink(error.sentence), TOO_MANY)
        answer.headers["retry-after"] = str(error.wait_s)
        return answer
    return _answered(request, "shared_view/gone", UnknownLink(NOTHING_HERE), NOT_THERE)


def _answered(request: Request, template: str, shown: object, status: int) -> Response:
    answer = render(request, template, shown, status=status)
    answer.headers.update(HEADERS)
    return answer


def _rates(request: Request) -> Rates:
    found: Rates = request.app.state.rates
    return found


def _caller(request: Request) -> str:
    return request.client.host if request.client else ""
