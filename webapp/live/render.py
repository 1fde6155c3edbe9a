"""Render a template as an answer: a whole page, or only the parts that changed.

A live page `topic/page` has beside it `topic/parts`, which lists the page's own fragments as `<hx-partial>`s; both
take them from the same `_fragment.html`. The header `HX-Request-Type` says which the browser wants.
"""

import re
from collections.abc import Hashable, Iterable, Mapping, MutableMapping
from functools import cache, lru_cache, partial
from types import MappingProxyType

from jinja2 import Environment, FileSystemLoader, StrictUndefined, pass_context
from jinja2.runtime import Context
from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response, StreamingResponse

from framecalc.words import Words, localise
from webapp.live import addresses
from webapp.live.statuses import NOTHING_NEW, SEE_OTHER
from webapp.server.folders import TEMPLATES
from webapp.server.static_files import AT

NO_MORE: Mapping[str, str] = MappingProxyType({})
_HEADERS = {"vary": "HX-Request-Type", "cache-control": "no-cache"}


def html_id(path: str) -> str:
    """An HTML id for a path of a project: letters, digits, dashes and underscores only.

    >>> html_id("frames.k3f.section.face_width")
    'frames-k3f-section-face_width'
    """
    return path.replace(".", "-")


_WITHIN_A_LENGTH = re.compile(r"(?<=\d) (?=\d+/\d|in\b|mm\b|lb\b|kg\b|m³|×)|(?<=×) (?=\d)")


def unbroken(text: str) -> str:
    """Keep every length and weight in a text, and a count before it, on one line.

    >>> unbroken("20 × 12 5/8 in +0.2 mm, top").split(" ")
    ['20\\xa0×\\xa012\\xa05/8\\xa0in', '+0.2\\xa0mm,', 'top']
    """
    return _WITHIN_A_LENGTH.sub("\xa0", text)


@pass_context
def _trade(context: Context, text: str) -> str:
    """Put one of our own sentences into the trade words of the shop; typed names in it stay as typed."""
    return localise(text, context.get("words", Words.US))


@cache
def mark(state: str) -> Markup:
    """The mark of a state, on a line of its own."""
    return Markup(ENVIRONMENT.get_template("shell/state.html").render(state=state) + "\n")


@lru_cache(maxsize=2048)
def slot_markup(slot: Hashable) -> Markup:
    """The slot under a field; most slots of a page stay as they are while one field is typed."""
    return Markup(ENVIRONMENT.get_template("fields/_slot.html").render(slot=slot))


def slot_parts(slots: Iterable[Hashable]) -> Markup:
    """The slots under the fields of a page as parts of an answer, each on a line of its own."""
    return Markup("".join(map(_slot_part, slots)))


@lru_cache(maxsize=2048)
def _slot_part(slot: Hashable) -> str:
    return ENVIRONMENT.get_template("fields/slot_part.html").render(slot=slot) + "\n"


@lru_cache(maxsize=2048)
def line_of(template: str, row: Hashable, words: Words) -> Markup:
    """A line of a table, in the trade words of the shop; most lines stay as they are while one field is typed.

    Args:
        row: what it shows; its texts are ours, and no typed name is in them.
    """
    return Markup(ENVIRONMENT.get_template(template).render(row=row, words=words) + "\n")


class _Environment(Environment):
    """Jinja's, with the names that all templates know in one dict: a chain of two was walked at every include."""

    def make_globals(self, d: MutableMapping[str, object] | None) -> MutableMapping[str, object]:
        """The names that a template knows."""
        return {**self.globals, **(d or {})}


def _environment() -> Environment:
    environment = _Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    environment.filters["trade"] = _trade
    environment.filters["unbroken"] = unbroken
    environment.filters["html_id"] = html_id
    environment.globals |= {
        "static": AT,
        "to": addresses,
        "mark": mark,
        "slot_markup": slot_markup,
        "slot_parts": slot_parts,
        "line_of": line_of,
    }
    return environment


ENVIRONMENT = _environment()


def wants_parts(request: Request) -> bool:
    """Whether the browser asks for the parts that changed, not for a whole page."""
    return request.headers.get("HX-Request-Type") == "partial"


def render(request: Request, page: str, *shown: object, parts: str | None = None, status: int = 200) -> Response:
    """Answer with a page, or with parts of it where the browser asks for those.

    Args:
        request: says which of the two the browser wants.
        page: the template of the page, such as `setting_out/page`.
        shown: records to show; every public name of one is a variable of the template.
        parts: the template that lists the page's changing fragments as `<hx-partial>`s, if it has one.
        status: the HTTP status.
    """
    name = parts if parts and wants_parts(request) else page
    return answer_with(rendered(request, name, *shown), status=status)


def rendered(request: Request, template: str, *shown: object) -> str:
    """A template with what records show."""
    app = request.app.state
    names: dict[str, object] = {"pages": app.pages, "menu_of": partial(app.menu_of, request)}
    for record in shown:
        names |= names_of(record)
    return ENVIRONMENT.get_template(f"{template}.html").render(names)


def answer_with(text: str, *, status: int = 200, more: Mapping[str, str] = NO_MORE) -> Response:
    """An answer that is a page, or parts of one, with more headers than the usual ones."""
    return HTMLResponse(text, status_code=status, headers={**_HEADERS, **more})


def nothing_new() -> Response:
    """The answer to a page that shows everything already: it changes nothing."""
    return Response(status_code=NOTHING_NEW, headers=_HEADERS)


def render_long(page: str, *shown: object) -> Response:
    """Answer with a page that stands by itself and is long in the making: it is sent as far as it is made.

    No worker is held by all of it; an iterator that a record shows is asked for its next when that is to be sent.
    """
    names: dict[str, object] = {}
    for record in shown:
        names |= names_of(record)
    parts = ENVIRONMENT.get_template(f"{page}.html").generate(names)
    return StreamingResponse(parts, media_type="text/html", headers={"cache-control": "no-cache"})


def names_of(record: object) -> dict[str, object]:
    """Every public name of a record, with its value."""
    own = (name for name in getattr(record, "__dict__", {}) if not name.startswith("_"))
    return {name: getattr(record, name) for name in (*_names_of_all(type(record)), *own)}


def _names_of_all(kind: type) -> tuple[str, ...]:
    """The public names that all records of a kind have."""
    if kind not in _NAMES:
        _NAMES[kind] = tuple(name for name in dir(kind) if not name.startswith("_"))
    return _NAMES[kind]


_NAMES: dict[type, tuple[str, ...]] = {}


def see_other(address: str, *, anchor: str = "") -> Response:
    """Redirect the browser to a page after a write, or to a place on it."""
    return RedirectResponse(f"{address}#{anchor}" if anchor else address, status_code=SEE_OTHER)


def drawing(svg: str) -> Markup:
    """Mark a drawing of ours as markup: the only text that a page does not escape."""
    return Markup(svg)
