"""Read pages as a browser does: elements by id, what a form sends, and a browser without scripts that sends it."""

import json
import time
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import httpx
from selectolax.lexbor import LexborHTMLParser, LexborNode

from webapp.pages.projects.demos import demo

PARTS = {"HX-Request": "true", "HX-Request-Type": "partial"}


@dataclass(frozen=True)
class Element:
    """One element of a page."""

    node: LexborNode

    @property
    def tag(self) -> str:
        return str(self.node.tag)

    @cached_property
    def attributes(self) -> dict[str, str]:
        return {name: value or "" for name, value in self.node.attributes.items()}

    def walk(self) -> Iterator["Element"]:
        """The element and all within it; what is in a template too, which to a browser is no part of a page."""
        for node in self.node.traverse():
            if not node.is_comment_node:
                yield Element(node)
            if node.tag == "template":
                yield from read(node.inner_html or "").walk()

    @property
    def text(self) -> str:
        return " ".join(self.node.text().split())

    @property
    def children(self) -> list["Element | str"]:
        parts = self.node.iter(include_text=True)
        return [part.text() if part.is_text_node else Element(part) for part in parts if not part.is_comment_node]

    def by_id(self, element_id: str) -> "Element":
        found = self._all(f"[id={_quoted(element_id)}]")
        assert len(found) == 1, f"{len(found)} elements with the id {element_id}"
        return found[0]

    def all(self, tag: str, **wanted: str) -> list["Element"]:
        return self._all(tag + "".join(f"[{name}={_quoted(value)}]" for name, value in wanted.items()))

    def _all(self, selector: str) -> list["Element"]:
        return [Element(node) for node in self.node.css(selector)]

    def markup(self) -> tuple[Any, ...]:
        """The element as nested tuples, white space between elements left out, to be compared."""
        inner = [child.strip() if isinstance(child, str) else child.markup() for child in self.children]
        return self.tag, tuple(sorted(self.attributes.items())), tuple(part for part in inner if part)


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def read(html: str) -> Element:
    """Read a page, or a list of parts."""
    root = LexborHTMLParser(html).root
    assert root is not None
    return Element(root)


def sent_by(page: Element, form: str | Element = "typed") -> dict[str, str]:
    """What a form, here or of an id, would send without a button: its own fields, and those that name it."""
    form = page.by_id(form) if isinstance(form, str) else form
    inside, form_id = {element.node for element in form.walk()}, form.attributes.get("id")
    sent: dict[str, str] = {}
    for element in page._all("input[name]:not([type=image]), select[name], textarea[name]"):
        owner = element.attributes.get("form")
        belongs = element.node in inside if owner is None else owner == form_id
        value = _value(element) if belongs and element.attributes["name"] else None
        if value is not None:
            sent[element.attributes["name"]] = value
    return sent


def _value(element: Element) -> str | None:
    if element.tag == "textarea":
        return str(element.node.text())
    if element.tag == "select":
        options = element.all("option")
        chosen = [option for option in options if "selected" in option.attributes] or options[:1]
        return chosen[0].attributes.get("value", chosen[0].text) if chosen else None
    if element.attributes.get("type") == "radio" and "checked" not in element.attributes:
        return None
    return element.attributes.get("value", "")


class Browser:
    """A browser without scripts: it opens pages, sends their forms and follows redirects."""

    def __init__(self, client: httpx.Client) -> None:
        self.client = client
        self.origin = str(client.base_url).rstrip("/")

    def get(self, address: str) -> Element:
        answer = self.client.get(address, follow_redirects=True)
        assert answer.status_code == 200, (answer.status_code, answer.text[:300])
        return read(answer.text)

    def post(self, address: str, sent: dict[str, str] | None = None, **more: Any) -> httpx.Response:
        headers = {"Origin": self.origin} | more.pop("headers", {})
        return self.client.post(address, data=sent or {}, headers=headers, **more)

    def import_demo(self, name: str) -> str:
        """Start a project from the plain file of a demo and return its id."""
        answer = self.post("/projects/import", files={"pasted": (None, json.dumps(demo(name)))})
        return str(answer.headers["location"].rsplit("/", 1)[1])

    def new(self, **typed: str) -> str:
        """Start a project and return its id."""
        sent = {"name": "", "unit": "mm", "kind": "paper", "across": "300", "up": "400", "face_width": "25"} | typed
        answer = self.post("/projects", sent)
        assert answer.status_code == 303, read(answer.text).by_id("main").text[:400]
        return answer.headers["location"].rsplit("/", 1)[1]

    def setting_out(self, project_id: str) -> str:
        """The address of the setting-out page of a project's first frame."""
        return f"/projects/{project_id}/frames/{self.document(project_id)['frames'][0]['id']}/setting-out"

    def document(self, project_id: str) -> dict[str, Any]:
        """The project file as exported."""
        answer: dict[str, Any] = self.client.get(f"/projects/{project_id}/project.json").json()
        return answer

    def type(self, address: str, typed: dict[str, str], do: str = "save", **more: Any) -> httpx.Response:
        """Open the setting-out page, type into fields named by the ends of their paths, press a button."""
        sent = sent_by(self.get(address))
        for ending, text in typed.items():
            (path,) = [name for name in sent if name == ending or name.endswith(f".{ending}")]
            sent[path] = text
        return self.post(address, sent | {"do": do}, **more)


def planned_job(browser: Browser, **typed: str) -> str:
    """A job with a board and its cutting plan; its address."""
    at = f"/projects/{browser.new(**typed)}"
    browser.type(f"{at}/timber", {}, do="add-stock:board")
    browser.type(f"{at}/timber", {}, do="work")
    for _ in range(200):
        if "Worked out." in browser.get(f"{at}/timber").by_id("plans").text:
            return at
        time.sleep(0.05)
    raise AssertionError("no cutting plan")


def cut_again(browser: Browser, at: str, *, wood: str = "") -> None:
    """Press the first way that cuts a side again from this wood."""
    page = browser.get(f"{at}/bench/rescue?side=top&trouble=split+end&by=20")
    form = next(
        one for one in page.all("form") if "again from" in (says := sent_by(page, one).get("says", "")) and wood in says
    )
    number = next(one for one in form.all("button")).attributes["value"]
    for _ in range(2):
        browser.post(f"{at}/bench/rescue", sent_by(page, form) | {"way": number})
