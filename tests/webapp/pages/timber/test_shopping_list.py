"""One shopping list for the whole job: stock of every kind with its price, the same on the page and as a file."""

import csv
import json
import time
from io import StringIO
from pathlib import Path

import httpx
import pytest
from pages import Browser, Element

from webapp.__main__ import main

HEADS = ["Kind", "What", "Size", "Quantity", "Each", "Together", "Price from"]


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture
def project(browser: Browser) -> str:
    """A job of two frames: walnut of boards, priced in the shop's list alone, and a bought moulding in chops."""
    project = browser.new(across="200", up="250", face_width="63")
    first = browser.document(project)["frames"][0]["id"]
    browser.type(browser.setting_out(project), {f"frames.{first}.species": "Walnut", "section.thickness": "20"})
    browser.post(f"/projects/{project}/frames", {"base": "1"})
    second = browser.document(project)["frames"][1]["id"]
    moulding = {"name": "Ogee 40", "sale": "cut to size by the side", "price": "7", "priced_on": "2026-11-02"}
    typed = {f"section.moulding.{name}": text for name, text in moulding.items()}
    browser.type(f"/projects/{project}/frames/{second}/setting-out", {"section.source": "bought", **typed})
    timber = f"/projects/{project}/timber"
    browser.type(timber, {}, do="add-stock:board")
    browser.type(timber, {"width": "180", "length": "2400", "thickness": "26", "price": "60"})
    (board,) = browser.document(project)["timber"]["stock"]
    browser.type(timber, {}, do=f"keep-price:timber.stock.{board['id']}")
    browser.type(timber, {"price": ""})
    return project


def worked_out(browser: Browser, project: str, of: str) -> None:
    browser.type(f"/projects/{project}/{of}", {}, do="work")
    for _ in range(400):
        if "Look again" not in browser.get(f"/projects/{project}/{of}").text:
            return
        time.sleep(0.05)
    raise AssertionError(of)


def table(browser: Browser, project: str) -> list[list[str]]:
    return list(csv.reader(StringIO(browser.client.get(f"/projects/{project}/timber/lists/shopping.csv").text)))


def lines(page: Element) -> list[list[str]]:
    """The lines of the page without their ticks."""
    rows = (row for body in page.all("tbody") for row in body.all("tr"))
    return [
        [cell.text.replace("\u00a0", " ") for cell in row.all("th") + row.all("td")
         if cell.attributes.get("class") != "of-tick"] for row in rows
    ]  # fmt: skip


def ticks(page: Element) -> list[Element]:
    return [one for one in page.all("button") if "/tick/" in one.attributes.get("formaction", "")]


def test_wood_moulding_and_hardware_stand_on_one_list_with_their_prices(browser: Browser, project: str) -> None:
    """Fault: each page had a list of its own, and the moulding and the retainers were on none."""
    worked_out(browser, project, "timber")
    heads, *rows = table(browser, project)
    assert heads == HEADS
    assert rows[0][:6] == ["Wood", "Board", "26 × 180 × 2400 mm", "1 board", "$60", "$60.00"]
    assert rows[0][6].startswith("Price list, ")
    assert rows[1] == ["Wood", "Ogee 40", "", "4 pcs", "$7", "$28.00", "This job, Nov 2, 2026"]
    kinds = {row[0]: row for row in rows}
    assert kinds["Glass, boards and sheets"][6] == "Not laid out: work out the layout on Sheets."
    assert kinds["Hardware"][6] == "No price yet."
    assert rows[-1][:2] == ["All of it", "Together"] and rows[-1][5] == "$88.00"
    page = browser.get(f"/projects/{project}/timber/lists/shopping")
    assert lines(page) == [row[1:] for row in rows]


def test_the_command_line_writes_the_same_list(browser: Browser, project: str, data_dir: Path, tmp_path: Path) -> None:
    browser.type(f"/projects/{project}/sheets", {}, do="add-sheet:glass")
    worked_out(browser, project, "timber")
    worked_out(browser, project, "sheets")
    file = tmp_path / "project.json"
    file.write_text(json.dumps(browser.document(project)), "utf-8")
    assert main(["--data", str(data_dir), "draw", str(file), "--out", str(tmp_path / "out")]) == 0
    (written,) = (tmp_path / "out").glob("*-timber-shopping.csv")
    assert list(csv.reader(StringIO(written.read_text("utf-8")))) == table(browser, project)


def test_a_tick_stays_while_its_line_is_the_same(browser: Browser, project: str) -> None:
    worked_out(browser, project, "timber")
    address = f"/projects/{project}/timber/lists/shopping"
    (tick, *_) = ticks(browser.get(address))
    browser.post(tick.attributes["formaction"], {"done": tick.attributes["value"]})
    first, *others = (one.attributes["aria-pressed"] for one in ticks(browser.get(address)))
    assert first == "true" and set(others) == {"false"}
