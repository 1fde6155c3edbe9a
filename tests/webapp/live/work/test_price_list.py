"""The shop's price list: a price typed on one page is offered to it, and it offers its prices to every page."""

import json
from datetime import date
from pathlib import Path
from typing import Any

import httpx
import pytest
from pages import PARTS, Browser, read, sent_by

TODAY = date.today().isoformat()


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


def listed(data_dir: Path) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads((data_dir / "shop.json").read_text("utf-8"))["quote"]["items"]
    return found


def press(browser: Browser, address: str, do: str) -> httpx.Response:
    return browser.post(address, sent_by(browser.get(address)) | {"do": do})


def test_a_price_typed_on_one_page_is_kept_and_offered_on_the_next_job(browser: Browser, data_dir: Path) -> None:
    """Fault: a stick was priced on Timber, and again in the next job, and again on Costs."""
    first = f"/projects/{browser.new()}"
    browser.type(f"{first}/timber", {}, do="add-stock:stick")
    browser.type(f"{first}/timber", {"price": "12.5"})
    (stick,) = browser.document(first.split("/")[2])["timber"]["stock"]
    page = browser.get(f"{first}/timber")
    assert "$12.50, not in the price list yet" in page.by_id("offers").text
    assert press(browser, f"{first}/timber", f"keep-price:timber.stock.{stick['id']}").status_code == 303
    (entry,) = listed(data_dir)
    assert {name: entry[name] for name in ("name", "measure", "price", "priced_on", "group")} == {
        "name": "Stick", "measure": "whole stick", "price": "12.5", "priced_on": TODAY, "group": "wood",
    }  # fmt: skip
    assert "$12.50, from the price list" in browser.get(f"{first}/timber").by_id("offers").text

    second = f"/projects/{browser.new()}"
    browser.type(f"{second}/timber", {}, do="add-stock:stick")
    (stick,) = browser.document(second.split("/")[2])["timber"]["stock"]
    assert "no price here; $12.50 in the price list" in browser.get(f"{second}/timber").by_id("offers").text
    press(browser, f"{second}/timber", f"take-price:timber.stock.{stick['id']}")
    assert browser.document(second.split("/")[2])["timber"]["stock"][0]["price"] == "12.5"


def test_a_plan_reckons_blank_prices_as_the_list_does(browser: Browser, data_dir: Path) -> None:
    """Fault: the shopping list said $12.50 of a stick and $40 of a sheet, the plans of the same job “no price”."""
    first, second = (f"/projects/{browser.new()}" for _ in range(2))
    layer = browser.document(first.split("/")[2])["frames"][0]["package"]["layers"][0]["name"]
    for page, add, price in (("timber", "add-stock:stick", "12.5"), ("sheets", f"add-sheet:{layer}", "40")):
        press(browser, f"{first}/{page}", add)
        browser.type(f"{first}/{page}", {"price": price})
        (stock,) = browser.document(first.split("/")[2])[page]["stock"]
        press(browser, f"{first}/{page}", f"keep-price:{page}.stock.{stock['id']}")
        press(browser, f"{second}/{page}", add)
        assert browser.document(second.split("/")[2])[page]["stock"][0].get("price") is None
        press(browser, f"{second}/{page}", "work")
        assert browser.document(second.split("/")[2])[page]["stock"][0]["price"] == price
    browser.type(f"{second}/timber", {"price": "0"}, do="work")
    assert browser.document(second.split("/")[2])["timber"]["stock"][0]["price"] == "0", "it costs nothing more"


def test_a_later_change_of_the_list_is_offered_and_never_done_unasked(browser: Browser, data_dir: Path) -> None:
    project = f"/projects/{browser.new()}"
    browser.post("/shop", {"do": "add-price"})
    (entry,) = listed(data_dir)
    at = f"quote.items.{entry['id']}."
    typed = {f"{at}name": "Glass, Sheet", f"{at}measure": "whole sheet", f"{at}price": "40", f"{at}priced_on": TODAY}
    assert browser.post("/shop", typed | {"do": "save"}).status_code == 303
    (material,) = {
        layer["name"] for layer in browser.document(project.split("/")[2])["frames"][0]["package"]["layers"][:1]
    }
    press(browser, f"{project}/sheets", f"add-sheet:{material}")
    (sheet,) = browser.document(project.split("/")[2])["sheets"]["stock"]
    here = f"sheets.stock.{sheet['id']}"
    sent = sent_by(browser.get(f"{project}/sheets")) | {f"{here}.name": "glass, sheet", f"{here}.price": "35"}
    browser.post(f"{project}/sheets", sent | {"do": "save"})
    assert "$35 here; $40 in the price list" in browser.get(f"{project}/sheets").by_id("offers").text
    assert browser.document(project.split("/")[2])["sheets"]["stock"][0]["price"] == "35"
    press(browser, f"{project}/sheets", f"take-price:{here}")
    assert browser.document(project.split("/")[2])["sheets"]["stock"][0]["price"] == "40"


def test_the_costs_take_their_day_from_the_list_and_parts_are_those_of_the_page(browser: Browser) -> None:
    browser.post("/shop", {"do": "add-price"})
    page = browser.get("/shop")
    shop = sent_by(page, next(form for form in page.all("form") if form.attributes.get("action") == "/shop"))
    (at,) = {name.rpartition(".")[0] for name in shop if name.startswith("quote.items.")}
    typed = {f"{at}.name": "Hooks", f"{at}.measure": "each frame", f"{at}.price": "2", f"{at}.priced_on": "2026-03-01"}
    browser.post("/shop", shop | typed | {"do": "save"})
    project = f"/projects/{browser.new()}"
    page = browser.get(f"{project}/costs")
    assert "$2, from the price list, Mar 1, 2026" in page.by_id("offers").text
    parts = read(browser.post(f"{project}/costs/preview", sent_by(page), headers=PARTS).text)
    assert parts.by_id("offers").markup() == page.by_id("offers").markup()


def test_an_hourly_rate_is_typed_once(browser: Browser) -> None:
    """Fault: four kinds of work asked for the same price of an hour."""
    project = f"/projects/{browser.new()}"
    press(browser, f"{project}/costs", "add-missing")
    browser.type(f"{project}/costs", {"quote.terms.hour": "40"})
    text = browser.get(f"{project}/costs").by_id("items").text
    assert text.count("× $40.00") == 4


def test_a_button_does_nothing_once_the_list_says_something_else(browser: Browser, data_dir: Path) -> None:
    """Fault: “Take $5” took $6, and “Keep” wrote over a price that the person had not seen."""
    first, second = (f"/projects/{browser.new()}/timber" for _ in range(2))
    for address, price in ((first, "5"), (second, "9")):
        browser.type(address, {}, do="add-stock:stick")
        browser.type(address, {"price": price})
    (keep,) = browser.get(first).by_id("offers").all("button")
    press(browser, first, keep.attributes["value"])
    shown = browser.get(second)
    browser.type(first, {"price": "6"})
    _, keep = browser.get(first).by_id("offers").all("button")
    press(browser, first, keep.attributes["value"])
    for button in shown.by_id("offers").all("button"):
        answer = browser.post(second, sent_by(shown) | {"do": button.attributes["value"]})
        assert answer.status_code == 422 and "The price list was changed meanwhile" in answer.text
    assert browser.document(second.split("/")[2])["timber"]["stock"][0]["price"] == "9"
    assert [entry["price"] for entry in listed(data_dir)] == ["6"]
    take, _ = browser.get(second).by_id("offers").all("button")
    assert press(browser, second, take.attributes["value"]).status_code == 303
    assert browser.document(second.split("/")[2])["timber"]["stock"][0]["price"] == "6"


def bought(browser: Browser, **moulding: str) -> str:
    """A project whose frame is of a bought moulding; the address of its Setting-out."""
    address = browser.setting_out(browser.new())
    typed = {"name": "Ogee 40", "sale": "cut to size by the metre"} | moulding
    browser.type(
        address, {"section.source": "bought", **{f"section.moulding.{name}": text for name, text in typed.items()}}
    )
    return address


def project_at(address: str) -> str:
    return "/".join(address.split("/")[:3])


def test_a_bought_moulding_is_an_entry_of_the_list_sold_as_it_is_bought(browser: Browser, data_dir: Path) -> None:
    """Fault: the price of a moulding was typed anew in every frame of every job."""
    first = bought(browser, price="9.5", priced_on="2026-03-01")
    path = f"frames.{first.split('/')[4]}.section.moulding"
    assert "$9.50, not in the price list yet" in browser.get(first).by_id("offers").text
    assert press(browser, first, f"keep-price:{path}").status_code == 303
    (entry,) = listed(data_dir)
    assert {name: entry[name] for name in ("name", "measure", "price", "priced_on", "listed_as")} == {
        "name": "Ogee 40", "measure": "metre of stick", "price": "9.5", "priced_on": "2026-03-01",
        "listed_as": "cut to size by the metre",
    }  # fmt: skip

    blank = bought(browser)
    assert "counted as $9.50, from the price list, Mar 1, 2026" in browser.get(blank).by_id("offers").text
    costs = browser.get(f"{project_at(blank)}/costs")
    assert "× $9.50" in costs.by_id("mouldings").text and "From the price list." in costs.by_id("mouldings").text
    assert costs.by_id("items").all("li")[0].text == "Nothing yet."
    press(browser, blank, f"take-price:frames.{blank.split('/')[4]}.section.moulding")
    taken = browser.document(blank.split("/")[2])["frames"][0]["section"]["moulding"]
    assert (taken["price"], taken["priced_on"]) == ("9.5", "2026-03-01")

    in_sticks = bought(browser, sale="sticks by the metre")
    assert browser.get(in_sticks).by_id("offers").text == ""


def test_a_price_that_differs_from_the_list_is_said_beside_it(browser: Browser, data_dir: Path) -> None:
    """Fault: the costs showed $8 while the shop's list had $9.50, and nothing said so."""
    address = bought(browser, price="9.5", priced_on="2026-03-01")
    press(browser, address, f"keep-price:frames.{address.split('/')[4]}.section.moulding")
    browser.type(address, {"section.moulding.price": "8"})
    costs = browser.get(f"{project_at(address)}/costs")
    assert "$9.50 in the price list, Mar 1, 2026." in costs.by_id("mouldings").text
    assert "The price list has another price of “Ogee 40”." in costs.by_id("findings").text
    browser.type(address, {"section.moulding.price": "9.50"})
    costs = browser.get(f"{project_at(address)}/costs")
    assert "in the price list" not in costs.by_id("mouldings").text
    assert "The price list has another" not in costs.by_id("findings").text


def test_stock_of_the_list_is_no_cost_of_the_next_job_and_stays_when_costs_are_kept(
    browser: Browser, data_dir: Path
) -> None:
    """Fault: a stick kept in the list was an item of every new job; keeping a job's costs threw the stick away."""
    first = f"/projects/{browser.new()}"
    browser.type(f"{first}/timber", {}, do="add-stock:stick")
    browser.type(f"{first}/timber", {"price": "12.5"})
    (stick,) = browser.document(first.split("/")[2])["timber"]["stock"]
    press(browser, f"{first}/timber", f"keep-price:timber.stock.{stick['id']}")
    assert browser.get(f"{first}/costs").by_id("items").all("li")[0].text == "Nothing yet."
    press(browser, f"{first}/costs", "add-item")
    press(browser, f"{first}/costs", "keep-for-shop")
    assert [entry["name"] for entry in listed(data_dir)] == ["Stick", "Another item"]


def test_a_list_in_other_money_offers_nothing(browser: Browser, data_dir: Path) -> None:
    address = bought(browser, price="9.5")
    press(browser, address, f"keep-price:frames.{address.split('/')[4]}.section.moulding")
    blank = bought(browser)
    browser.post("/shop", {"mark": "€", "do": "save"})
    assert browser.get(blank).by_id("offers").text == ""
    assert "no price yet" in browser.get(f"{project_at(blank)}/costs").by_id("mouldings").text
    assert "counted as €9.50" in browser.get(bought(browser)).by_id("offers").text


def test_money_of_a_new_job_is_written_as_the_shop_writes_it_on_every_page(browser: Browser) -> None:
    """Fault: until a job had costs of its own, its timber was priced with the sign on the other side."""
    first = f"/projects/{browser.new()}"
    terms = {"quote.terms.mark": "kr", "quote.terms.mark_follows": "yes"}
    browser.type(f"{first}/costs", terms)
    press(browser, f"{first}/costs", "keep-for-shop")
    second = f"/projects/{browser.new()}"
    browser.type(f"{second}/timber", {}, do="add-stock:stick")
    browser.type(f"{second}/timber", {"price": "12.5"})
    assert "12.50 kr, not in the price list yet" in browser.get(f"{second}/timber").by_id("offers").text.replace(
        "\u00a0", " "
    )
