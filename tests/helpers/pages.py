"""Reading pages as a browser would: elements by id, what a form would send, and a client that sends it."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Any
from urllib.parse import urlsplit

import httpx

VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}
PARTS = {"HX-Request": "true", "HX-Request-Type": "partial"}


@dataclass
class Element:
    """One element of a page."""

    tag: str
    attributes: dict[str, str]
    children: list["Element | str"] = field(default_factory=list)

    def walk(self) -> Iterator["Element"]:
        yield self
        for child in self.children:
            if isinstance(child, Element):
                yield from child.walk()

    @property
    def text(self) -> str:
        parts = [child if isinstance(child, str) else child.text for child in self.children]
        return " ".join("".join(parts).split())

    def by_id(self, element_id: str) -> "Element":
        found = [element for element in self.walk() if element.attributes.get("id") == element_id]
        assert len(found) == 1, f"{len(found)} elements with the id {element_id}"
        return found[0]

    def all(self, tag: str, **wanted: str) -> list["Element"]:
        return [
            element
            for element in self.walk()
            if element.tag == tag and all(element.attributes.get(name) == value for name, value in wanted.items())
        ]

    def markup(self) -> tuple[Any, ...]:
        """The element as nested tuples, white space between elements left out, to be compared."""
        inner = [child.markup() if isinstance(child, Element) else child.strip() for child in self.children]
        return self.tag, tuple(sorted(self.attributes.items())), tuple(part for part in inner if part)


class _Builder(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.root = Element("page", {})
        self.open = [self.root]

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        element = Element(tag, {name: value or "" for name, value in attributes})
        self.open[-1].children.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_startendtag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        self.open[-1].children.append(Element(tag, {name: value or "" for name, value in attributes}))

    def handle_endtag(self, tag: str) -> None:
        while len(self.open) > 1 and self.open.pop().tag != tag:
            pass

    def handle_data(self, data: str) -> None:
        self.open[-1].children.append(data)


def read(html: str) -> Element:
    """Read a page, or a list of parts."""
    builder = _Builder()
    builder.feed(html)
    return builder.root


def sent_by(page: Element, form_id: str = "typed") -> dict[str, str]:
    """What a form would send without a button: its own fields, and those that name it in `form=`."""
    form = page.by_id(form_id)
    inside = {id(element) for element in form.walk()}
    sent: dict[str, str] = {}
    for element in page.walk():
        name = element.attributes.get("name")
        belongs = element.attributes.get("form", form_id if id(element) in inside else "") == form_id
        if name and belongs and element.tag in ("input", "select", "textarea"):
            value = _value(element)
            if value is not None:
                sent[name] = value
    return sent


def _value(element: Element) -> str | None:
    if element.tag == "textarea":
        return "".join(child for child in element.children if isinstance(child, str))
    if element.tag == "select":
        options = element.all("option")
        chosen = [option for option in options if "selected" in option.attributes] or options[:1]
        return chosen[0].attributes["value"] if chosen else None
    if element.attributes.get("type") == "radio" and "checked" not in element.attributes:
        return None
    return element.attributes.get("value", "")


class Bench:
    """A browser without scripts: opens pages, sends their forms, follows where it is sent."""

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

    def new(self, **typed: str) -> str:
        """Start a project and return its id."""
        sent = {"name": "", "unit": "mm", "kind": "paper", "across": "300", "up": "400", "face_width": "25"} | typed
        answer = self.post("/projects", sent)
        assert answer.status_code == 303, read(answer.text).by_id("main").text[:400]
        return answer.headers["location"].rsplit("/", 1)[1]

    def setting_out(self, project_id: str) -> str:
        """The address of the setting-out page of a project's first frame."""
        answer = self.client.get(f"/projects/{project_id}")
        return urlsplit(answer.headers["location"]).path

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
