"""A tray has no rabbet, no lip, no glazing, no clearance and no cover: no page of its job speaks of them."""

import json
import re
from collections.abc import Iterator
from typing import Any

import httpx
import pytest
from drawn_plans import demo
from grouped import each_group
from pages import Browser
from selectolax.lexbor import LexborHTMLParser, LexborNode

WORDS = re.compile(r"\b(rabbets?|rebates?|lips?|glaz\w+|clearances?|cover(?:s|ed|ing)?)\b", re.IGNORECASE)
SPOKEN_OF_ALL = (
    "Rabbet",  # the other choice of a section
    "Rebate",
    "The sticks have their rabbet or profile already",  # of every frame of the job
    "The sticks have their rebate or profile already",
    "The rabbet size, across the flats",  # a choice for a polygon
    "The rebate size, across the flats",
)
DUST_COVER = re.compile(r"^Dust cover\b")
HIDDEN = ".when-rabbet, .when-bought, script, style"
"""What the stylesheet hides for a tray of own stock."""

OF_A_FRAME = (
    "setting-out",
    *each_group("corners"),
    *each_group("package"),
    "look",
    *(f"drawings/{name}" for name in ("front", "section", "members")),
)
OF_A_JOB = ("timber", "sheets", "costs", "quote", "client", "revisions")


def canvas_in_a_tray() -> Any:
    """The canvas of the demos, in a tray; its layers for a rabbet are still in the file."""
    document = demo("maple-canvas")
    (frame,) = document["frames"]
    square = {"shape": "square", "size": "1/16 in"}
    frame["section"] |= {"kind": "tray", "face_width": "1/2 in", "thickness": "1 3/4 in"}
    frame["section"] |= {"sight_edge": square, "back_edge": square}
    glass = {"id": "gl", "name": "pane", "kind": "glazing", "thickness": "2 mm", "tolerance": "0 mm"}
    frame["package"]["layers"].insert(0, glass)
    return document


def relief_in_a_tray() -> Any:
    """The open tray of the demos alone."""
    document = demo("ash-relief")
    document["frames"] = [frame for frame in document["frames"] if frame["section"]["kind"] == "tray"]
    return document | {"note": ""}


def texts_of(page: LexborNode) -> Iterator[str]:
    for node in page.traverse(include_text=True):
        if node.is_text_node:
            yield " ".join((node.text_content or "").split())
        else:
            yield node.attributes.get("aria-label") or ""


@pytest.mark.parametrize("document", [canvas_in_a_tray(), relief_in_a_tray()], ids=["canvas", "relief"])
def test_no_page_of_a_tray_speaks_of_a_rabbet(client: httpx.Client, document: Any) -> None:
    browser = Browser(client)
    answer = browser.post("/projects/import", {"pasted": json.dumps(document)})
    project = answer.headers["location"]
    frame = browser.setting_out(project.rsplit("/", 1)[1]).removesuffix("/setting-out")
    said, count = [], 0
    for address in (*(f"{frame}/{page}" for page in OF_A_FRAME), *(f"{project}/{page}" for page in OF_A_JOB)):
        page = client.get(address)
        assert page.status_code == 200, address
        body = LexborHTMLParser(page.text).body
        assert body is not None
        for hidden in body.css(HIDDEN):
            hidden.decompose()
        texts = [text for text in texts_of(body) if text]
        count += len(texts)
        said += [
            (address.rsplit("/", 1)[1], text)
            for text in texts
            if WORDS.search(text) and text not in SPOKEN_OF_ALL and not DUST_COVER.match(text)
        ]
    assert count > 1000
    assert said == []


def test_the_layers_of_a_tray_are_laid_on_its_ledge_from_the_back(client: httpx.Client) -> None:
    browser = Browser(client)
    answer = browser.post("/projects/import", {"pasted": json.dumps(relief_in_a_tray())})
    setting_out = browser.setting_out(answer.headers["location"].rsplit("/", 1)[1])
    said = browser.get(setting_out.replace("setting-out", "package/layers")).by_id("says-layers").text
    assert "on the ledge, face up: birch ply carrier 9, carved relief 36" in said and "face down" not in said


def test_a_tray_speaks_of_its_wall_and_its_inside(client: httpx.Client) -> None:
    browser = Browser(client)
    answer = browser.post("/projects/import", {"pasted": json.dumps(relief_in_a_tray())})
    page = browser.get(browser.setting_out(answer.headers["location"].rsplit("/", 1)[1]))
    text = page.by_id("main").text
    for words in ("Wall, thickness", "Wall, height", "Inner edge", "Inside, across", "Gap on both sides, across"):
        assert words in text
    assert "below the top of the wall" in text.lower()
