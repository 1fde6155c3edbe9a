"""Pages for errors: what happened, whether the work is safe, where to go next."""

from collections.abc import Mapping
from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response

from framecalc.words import Words
from webapp.live.render import render

SENTENCES = {
    400: "The form could not be read. Go back and send it once more.",
    404: "There is nothing at this address. It may have been deleted, or the address has a slip in it.",
    405: "This address takes no such request. Use the buttons of the page.",
    413: "Send at most 1000 kB at once. Nothing was changed.",
    500: "Something went wrong in the program. What was saved before is still there. Load the page anew.",
}
"""What each status means for the person at the bench."""

HEADINGS = {404: "Not here", 409: "Changed meanwhile", 422: "Not possible", 424: "A damaged file", 507: "Not saved"}


@dataclass(frozen=True, slots=True, kw_only=True)
class TroubleShown:
    """What an error page shows."""

    heading: str
    sentence: str
    words: Words = Words.US


def sentence_for(status: int) -> str:
    """The usual sentence for an HTTP status."""
    return SENTENCES.get(status, SENTENCES[500] if status >= 500 else SENTENCES[400])


def trouble(request: Request, sentence: str, *, status: int, headers: Mapping[str, str] | None = None) -> Response:
    """Answer with a page that says what is wrong; with a fragment if the browser wants parts."""
    shown = TroubleShown(heading=HEADINGS.get(status, "That did not work"), sentence=sentence)
    answer = render(request, "trouble/page", shown, parts="trouble/parts", status=status)
    answer.headers.update(headers or {})
    return answer
