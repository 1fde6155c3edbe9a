"""Inches forgotten under millimetres: asked at the field, and put right with one press; never changed unasked."""

import json
from copy import deepcopy
from urllib.parse import urlsplit

import httpx
import pytest
from pages import Browser, Element, read, sent_by
from panel import PANEL_IN_INCHES

from framecalc.units import Unit, parse_length
from webapp.live.typed.inches import inches_instead

ARTWORK, LIP = "frames.f1.artwork.across", "frames.f1.section.rabbet_width"
STICK, BOARD, SHEET = "timber.stock.s1.length", "timber.stock.s1.width", "sheets.stock.h1.across"


@pytest.mark.parametrize(
    ("path", "text", "offered"),
    [
        (ARTWORK, "8", "8 in"),
        (ARTWORK, "8 1/2", "8 1/2 in"),
        (ARTWORK, "300", ""),
        (ARTWORK, "8 in", ""),
        (LIP, "1/4", "1/4 in"),
        (LIP, "6", ""),
        (STICK, "96", "96 in"),
        (STICK, "2400", ""),
        (BOARD, "6", "6 in"),
        (BOARD, "150", ""),
        (SHEET, "32", "32 in"),
        (SHEET, "800", ""),
    ],
)
def test_a_number_that_is_hardly_in_millimetres_is_offered_in_inches(path: str, text: str, offered: str) -> None:
    assert inches_instead(path, parse_length(text, bare=Unit.MM), unit=Unit.MM) == offered


def test_a_job_in_inches_is_asked_nothing() -> None:
    assert inches_instead(ARTWORK, parse_length("8", bare=Unit.INCH), unit=Unit.INCH) == ""


def offers(page: Element) -> list[str]:
    return [one.text for one in page.all("button") if one.attributes.get("class") == "offer"]


def test_one_press_makes_them_inches_without_scripts(client: httpx.Client) -> None:
    browser = Browser(client)
    address = browser.setting_out(browser.new())
    browser.type(address, {"artwork.across": "8", "artwork.up": "10 1/2"})
    page = browser.get(address)
    assert offers(page) == ["Inches? 8 in", "Inches? 10 1/2 in"]
    for path in ("across", "up"):
        sent = sent_by(browser.get(address))
        name = next(one for one in sent if one.endswith(f"artwork.{path}"))
        assert browser.post(address, sent | {"do": f"inches:{name}"}).status_code == 303
    artwork = browser.document(address.split("/")[2])["frames"][0]["artwork"]
    assert (artwork["across"], artwork["up"]) == ("8 in", "10 1/2 in")
    assert offers(browser.get(address)) == []


def test_a_stick_that_is_refused_for_its_length_is_asked_about_too(client: httpx.Client) -> None:
    browser = Browser(client)
    document = deepcopy(PANEL_IN_INCHES) | {"unit": "mm"}
    document["timber"] = {"stock": [{"id": "s1", "name": "Oak", "length": "2400 mm"}]}
    answer = browser.post("/projects/import", {"pasted": json.dumps(document)})
    project_id = urlsplit(answer.headers["location"]).path.rsplit("/", 1)[1]
    timber, path = f"/projects/{project_id}/timber", "timber.stock.s1.length"
    sent = sent_by(browser.get(timber)) | {path: "96"}
    refused = read(browser.post(timber, sent | {"do": "save"}).text)
    assert "Enter 100 mm to 20000 mm" in refused.text and offers(refused) == ["Inches? 96 in"]
    browser.post(timber, sent_by(refused) | {"do": f"inches:{path}"})
    assert browser.document(project_id)["timber"]["stock"][0]["length"] == "96 in"
