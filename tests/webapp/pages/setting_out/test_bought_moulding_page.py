"""A bought moulding without scripts: chosen, measured, confirmed, timbered, priced."""

from typing import Any

import httpx
import pytest
from pages import Browser

MEASURED = ("face_width", "thickness", "rabbet_width", "rabbet_depth")


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture
def address(browser: Browser) -> str:
    address = browser.setting_out(browser.new())
    for do in ("section", "mat", "package", "fit", "saw"):
        browser.type(address, {}, do=f"confirm-group:{do}")
    assert browser.get(address).by_id("verdict").text.startswith("Ready to cut")
    browser.type(address, {"section.source": "bought", "section.moulding.name": "Ogee 40"})
    return address


def assumed(browser: Browser, address: str) -> set[str]:
    paths: list[str] = browser.document(address.split("/")[2])["assumed"]
    return {path.rpartition(".")[2] for path in paths if ".section." in path}


def project_at(address: str) -> str:
    return "/".join(address.split("/")[:3])


def test_the_light_asks_for_what_is_measured_on_the_stick(browser: Browser, address: str) -> None:
    assert assumed(browser, address) == set(MEASURED)
    assert browser.get(address).by_id("verdict").text.startswith("Confirm first")
    browser.type(address, {}, do="confirm-group:section")
    assert browser.get(address).by_id("verdict").text.startswith("Ready to cut")


def test_what_is_typed_with_the_choice_counts_as_measured(browser: Browser) -> None:
    address = browser.setting_out(browser.new())
    browser.type(address, {"section.source": "bought", "section.face_width": "41", "section.thickness": "19"})
    assert assumed(browser, address) & set(MEASURED) == {"rabbet_width", "rabbet_depth"}


def test_no_milling_is_advised_and_the_tape_changes_no_moulding(browser: Browser, address: str) -> None:
    page = browser.get(address)
    assert "nothing is milled" in page.text and "Mill the" not in page.text
    before = browser.document(address.split("/")[2])["frames"][0]["section"]
    answer = browser.type(address, {}, do="fit-to-tape")
    assert "keeps its sizes" in answer.text
    assert browser.document(address.split("/")[2])["frames"][0]["section"] == before


def test_the_timber_page_plans_its_sticks_without_rough_sizes(browser: Browser, address: str) -> None:
    browser.type(address, {"section.moulding.stick_length": "3000", "section.moulding.repeat": "40"})
    text = browser.get(f"{project_at(address)}/timber").text
    assert "Ogee 40: members" in text
    assert "Rough sizes" not in text and "Start each side at the same place of the pattern" in text


def test_sides_cut_to_size_are_an_order_and_no_plan(browser: Browser, address: str) -> None:
    browser.type(address, {"section.moulding.sale": "cut to size by the side", "section.moulding.price": "7.50"})
    text = browser.get(f"{project_at(address)}/timber").text
    assert "order Ogee 40 cut to size, long point to long point 2 × 455 mm, 2 × 565 mm" in text.replace("\xa0", " ")
    costs = browser.get(f"{project_at(address)}/costs").by_id("mouldings").text
    assert "Ogee 40: $30.00" in costs and "4 pcs × $7.50" in costs


def test_a_side_longer_than_its_stick_is_said_on_the_costs_page(browser: Browser, address: str) -> None:
    browser.type(address, {"section.moulding.stick_length": "500", "section.moulding.price": "7.50"})
    assert "does not fit into a stick of 500 mm" in browser.get(f"{project_at(address)}/costs").by_id("mouldings").text


def test_a_price_that_is_none_is_refused_in_place(browser: Browser, address: str) -> None:
    answer = browser.type(address, {"section.moulding.price": "cheap"})
    assert answer.status_code == 422


def test_an_inch_shop_starts_with_feet(browser: Browser) -> None:
    def sale(**new: Any) -> str:
        address = browser.setting_out(browser.new(**new))
        found: str = browser.document(address.split("/")[2])["frames"][0]["section"]["moulding"]["sale"]
        return found

    assert sale() == "sticks by the metre"
    assert sale(unit="in", across="11", up="14", face_width="1 1/2") == "sticks by the foot"
