"""The corners page: the units that are understood, and the seasons of a wood."""

import re

import pytest
from grouped import PAGES, GroupedBrowser, said_in, says, whole
from pages import read, sent_by


@pytest.mark.parametrize(
    ("ending", "text", "kept"),
    [
        ("winter_temperature", "68 F", "68 °F"),
        ("winter_temperature", "70 °F", "70 °F"),
        ("winter_temperature", "20 °C", "20"),
        ("outdoor_temperature", "-4F", "-4 °F"),
        ("strap_force", "45 lb", "45 lbf"),
        ("strap_force", "45 lbf", "45 lbf"),
    ],
)
def test_degrees_fahrenheit_and_pounds_are_understood_and_keep_their_unit(
    browser: GroupedBrowser, address: str, ending: str, text: str, kept: str
) -> None:
    browser.type(address, {ending: text})
    (shown,) = [value for name, value in sent_by(whole(browser, address)).items() if name.endswith(ending)]
    assert shown == kept


@pytest.mark.parametrize(("ending", "text"), [("sides.top.start", "45 F"), ("winter_humidity", "35 lb")])
def test_a_unit_that_is_none_of_the_field_is_refused(
    browser: GroupedBrowser, address: str, ending: str, text: str
) -> None:
    answer = browser.type(address, {ending: text})
    assert answer.status_code == 422 and "Enter a number" in answer.text


def test_an_inch_shop_begins_with_usual_sizes_in_inches(browser: GroupedBrowser) -> None:
    project = browser.new(unit="in", across="12", up="16", face_width="1 1/2")
    page = whole(browser, browser.setting_out(project).replace("setting-out", "corners"))
    sizes = {name.rsplit("corner.", 1)[1]: value for name, value in sent_by(page).items() if "corner." in name}
    assert (sizes["joint.wall"], sizes["fence"], sizes["clamps.front_gap"]) == ("1/8", "18", "0")
    assert not [name for name, value in sizes.items() if value.endswith("mm")]


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"winter_humidity": "80"}, "Enter up to 60%: the driest month cannot be above the dampest"),
        ({"summer_humidity": "20"}, "Enter 35% or more: the driest month cannot be above the dampest"),
        ({"winter_humidity": "70", "summer_humidity": "60"}, "Enter up to 60%: the driest month"),
    ],
)
def test_the_driest_air_is_never_damper_than_the_dampest(
    browser: GroupedBrowser, address: str, typed: dict[str, str], sentence: str
) -> None:
    refused = browser.type(address, {f"seasons.{name}": text for name, text in typed.items()})
    assert sentence in read(refused.text).by_id("main").text
    kept = seasons(browser, address)
    assert (kept["winter_humidity"], kept["summer_humidity"]) == ("35", "60")


def test_both_humidities_typed_at_once_are_taken_together(browser: GroupedBrowser, address: str) -> None:
    browser.type(address, {"seasons.winter_humidity": "70", "seasons.summer_humidity": "85"})
    kept = seasons(browser, address)
    assert (kept["winter_humidity"], kept["summer_humidity"]) == ("70", "85")


def seasons(browser: GroupedBrowser, address: str) -> dict[str, str]:
    found: dict[str, str] = browser.document(address.split("/")[2])["frames"][0]["corner"]["seasons"]
    return found


def test_the_wood_is_named_on_setting_out_and_read_here(browser: GroupedBrowser, address: str) -> None:
    """Fault: the Corners page asked for the wood anew, so that a named frame had none in its seasons."""
    assert "seasons.species" not in " ".join(sent_by(whole(browser, address)))
    assert "Name the wood on Setting-out" in said_in(browser, address, "seasons")
    set_out = address.replace("corners", "setting-out")
    browser.type(set_out, {"species": "ash"})
    assert "“ash” can be Ash, white or Ash, black" in said_in(browser, address, "seasons")
    browser.type(set_out, {"reckoned_as": "white_ash"})
    assert "Ash, white moves" in said_in(browser, address, "seasons")


def test_an_inch_job_asks_and_answers_in_fahrenheit_and_pounds(browser: GroupedBrowser) -> None:
    """Fault: an inch job was asked for °C and N, and told "300 N (67 lbf)" and kg/m³."""
    project = browser.new(unit="in", across="12", up="16", face_width="1 1/2")
    set_out = browser.setting_out(project)
    corners, package = (set_out.replace("setting-out", name) for name in ("corners", "package"))
    browser.type(set_out, {"species": "black cherry"})
    sent = sent_by(whole(browser, corners))
    (winter,) = [text for name, text in sent.items() if name.endswith("winter_temperature")]
    assert winter == "68"
    browser.type(corners, {"winter_temperature": "70", "shop.strap.pull": "60"})
    page = whole(browser, corners)
    assert browser.document(project)["frames"][0]["corner"]["seasons"]["winter_temperature"] == "70 °F"
    assert browser.document(project)["shop"]["strap"]["pull"] == "60 lbf"
    groups = {page: PAGES["corners"], whole(browser, package): ("layers", "gap", "growth", "held", "steps")}
    labels = [label.text for one in groups for label in one.all("label")]
    for text in (*labels, *(says(one, group) for one, names in groups.items() for group in names)):
        assert not re.search(r"\d (?:N|kg|g|MPa|kg/m³)\b|, °C|, N\b", text)
    assert "Driest month, °F" in page.by_id("main").text and "35.0 lb/ft³" in says(page, "seasons")
    assert re.search(r"\d lbf", says(page, "clamps")) and re.search(r"\d psi", says(page, "clamps"))
    browser.type(corners, {"winter_temperature": "20 °C", "clamps.eased_to": "90"})
    page = whole(browser, corners)
    assert "20 °C" in [text for name, text in sent_by(page).items() if name.endswith("winter_temperature")]
    assert "Enter 0 lbf to 60 lbf" in says(page, "clamps")


def test_a_metric_job_speaks_of_no_pounds(browser: GroupedBrowser, address: str) -> None:
    browser.type(address.replace("corners", "setting-out"), {"species": "black cherry"})
    browser.type(address, {"shop.strap.pull": "300"})
    page = whole(browser, address)
    text = says(page, "clamps") + says(page, "seasons")
    assert "N" in text and not re.search(r"lbf|psi|°F|\blb\b", text)
