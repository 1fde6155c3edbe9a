"""Pages for errors: what happened, whether the work is safe, where to go next."""

import re
from collections.abc import Mapping
from contextlib import suppress

from starlette.requests import Request
from starlette.responses import Response

from framecalc.errors import FrameCalcError
from framecalc.records import Record
from framecalc.words import Words
from webapp.data.errors import StoreError
from webapp.live.desk import desk
from webapp.live.render import render
from webapp.live.statuses import CANNOT_TAKE, CHANGED_ELSEWHERE, NOT_SAVED, NOT_THERE, UNREADABLE

SENTENCES = {
    400: "The form could not be read. Go back and send it once more.",
    NOT_THERE: "There is nothing at this address. It may have been deleted, or the address has a slip in it.",
    405: "This address takes no such request. Use the buttons of the page.",
    413: "Send at most 1000 kB at once. Nothing was changed.",
    500: "Something went wrong in the program. What was saved before is still there. Load the page anew.",
}
"""What each status means for the person at the bench."""

HEADINGS = {
    NOT_THERE: "Not here",
    CHANGED_ELSEWHERE: "Changed meanwhile",
    CANNOT_TAKE: "Not possible",
    UNREADABLE: "A damaged file",
    NOT_SAVED: "Not saved",
}


class TroubleShown(Record):
    """What an error page shows; `way_at` is where to go on, blank for a client."""

    heading: str
    sentence: str
    way_at: str = ""
    way_says: str = ""
    words: Words = Words.US


def sentence_for(status: int) -> str:
    """The usual sentence for an HTTP status."""
    return SENTENCES.get(status, SENTENCES[500] if status >= 500 else SENTENCES[400])


def way_on(path: str, *, has_project: bool) -> tuple[str, str]:
    """Where to go on from an address, and what stands there; a client is led nowhere.

    >>> way_on("/projects/k3fw07qz/bench/plane/1", has_project=True)
    ('/projects/k3fw07qz/bench', 'To the bench')
    >>> way_on("/projects/k3fw07qz/nothing", has_project=True)
    ('/projects/k3fw07qz', 'To the project')
    >>> way_on("/projects/k3fw07qz", has_project=False), way_on("/view/secret", has_project=False)
    (('/', 'To the projects'), ('', ''))
    """
    if path.startswith("/view/"):
        return "", ""
    within = _WITHIN_A_PROJECT.match(path)
    if not within or not has_project:
        return "/", "To the projects"
    return within[0], "To the bench" if within[2] else "To the project"


_WITHIN_A_PROJECT = re.compile(r"/projects/([0-9a-z]+)(/bench)?(?=/)")


def _has_project(request: Request) -> bool:
    """Whether the project that an address begins with is there and can be opened."""
    within = _WITHIN_A_PROJECT.match(request.url.path)
    with suppress(StoreError, FrameCalcError):
        return within is not None and desk(request).open(within[1]) is not None
    return False


def trouble(request: Request, sentence: str, *, status: int, headers: Mapping[str, str] | None = None) -> Response:
    """Answer with a page that says what is wrong; with a fragment if the browser wants parts."""
    way_at, way_says = way_on(request.url.path, has_project=_has_project(request))
    heading = HEADINGS.get(status, "That did not work")
    shown = TroubleShown(heading=heading, sentence=sentence, way_at=way_at, way_says=way_says)
    answer = render(request, "trouble/page", shown, parts="trouble/parts", status=status)
    answer.headers.update(headers or {})
    return answer
