"""Test cuts of a saw, typed on the corners page: what one tells, what several tell, and whose they are."""

from grouped import GroupedBrowser, said_in, says, whole
from pages import sent_by
from saw_cuts import add_cut


def test_a_test_cut_is_read_and_taken_away_again(browser: GroupedBrowser, address: str) -> None:
    add_cut(browser, address, outside="0.3")
    page = whole(browser, address)
    assert "further from a square cut" in says(page, "tests") and "One more cut" in says(page, "tests")
    (button,) = [b for b in page.all("button") if b.attributes.get("value", "").startswith("remove-test:")]
    browser.type(address, {}, do=button.attributes["value"])
    assert "one reading alone is not enough" in said_in(browser, address, "tests")


def test_what_one_reading_would_be_fooled_by_is_told_in_numbers(browser: GroupedBrowser, address: str) -> None:
    """All eight ends off alike: the last joint's wedge is m·tan 8δ, four times that of one joint for small errors."""
    add_cut(browser, address, outside="0.1")
    assert "far more than its gap of 0.4 mm" in said_in(browser, address, "tests")


def test_a_saw_within_what_is_allowed_is_left_alone(browser: GroupedBrowser, address: str) -> None:
    for outside in ("0.02", "0.03", "0.02"):
        add_cut(browser, address, outside=outside)
    said = said_in(browser, address, "tests")
    assert "Leave it" in said and "leave the saw as it is" in said
    assert "Turn the gauge" not in said and "Shim" not in said


def test_a_turned_fence_begins_a_new_setting_and_keeps_the_spread(browser: GroupedBrowser, address: str) -> None:
    for outside in ("0.3", "0.31", "0.3"):
        add_cut(browser, address, outside=outside)
    assert "Turn it" in said_in(browser, address, "tests")
    browser.type(address, {}, do="turned")
    page = whole(browser, address)
    assert "Cuts before the fence was turned" in says(page, "tests")
    assert not [name for name in sent_by(page) if ".tests." in name]
    add_cut(browser, address, outside="0")
    assert "from 4 cuts in all" in said_in(browser, address, "tests")


def test_a_saw_that_was_changed_is_counted_anew_in_the_whole_shop(browser: GroupedBrowser, address: str) -> None:
    for outside in ("0.3", "0.31", "0.3"):
        add_cut(browser, address, outside=outside)
    other = browser.setting_out(browser.new(name="Another")).replace("setting-out", "corners")
    browser.type(other, {"corner.since": "new fence"})
    add_cut(browser, other, outside="0.1")
    assert "in all" not in said_in(browser, other, "tests")
    browser.type(address, {"corner.since": "New fence"})
    page = whole(browser, address)
    assert "or the saw changed" in says(page, "tests") and "Turn it" not in says(page, "tests")
    assert not [name for name in sent_by(page) if ".tests." in name]
    add_cut(browser, address, outside="0.1")
    assert "from 2 cuts in all" in said_in(browser, address, "tests")


def test_one_saw_has_one_record_in_the_whole_shop(browser: GroupedBrowser, address: str) -> None:
    for outside in ("0.3", "0.31", "0.3"):
        add_cut(browser, address, outside=outside)
    other = browser.setting_out(browser.new(name="Another")).replace("setting-out", "corners")
    add_cut(browser, other, outside="0.1")
    assert "from 4 cuts in all" in said_in(browser, other, "tests")
    browser.type(other, {"corner.saw": "the small saw"})
    assert "in all" not in said_in(browser, other, "tests")


def test_a_cut_that_has_not_been_read_says_nothing(browser: GroupedBrowser, address: str) -> None:
    """Fault: a new cut stood at 0 and 0, as if it had been found tight."""
    browser.type(address, {}, do="add-test")
    page = whole(browser, address)
    assert "1 cut is not read yet" in says(page, "tests") and "Error of an end" not in says(page, "tests")
    gaps = [path for path in sent_by(page) if ".tests." in path and path.endswith("_gap")]
    assert [sent_by(page)[path] for path in gaps] == ["", ""]
    browser.type(address, {gaps[0]: "0"})
    assert "1 cut is not read yet" in said_in(browser, address, "tests")
    browser.type(address, dict.fromkeys(gaps, "0"))
    said = said_in(browser, address, "tests")
    assert "Error of an end" in said and "not read yet" not in said


def test_cuts_of_a_copy_a_file_or_a_demo_never_count(browser: GroupedBrowser, address: str) -> None:
    """Fault: a copied frame told the same cuts twice, and a demo's cuts were taken for those of the shop's saw."""
    for outside in ("0.3", "0.31", "0.3"):
        add_cut(browser, address, outside=outside)
    project_at, frame_at = address.split("/frames/")[0], address.rsplit("/", 1)[0]
    text = browser.client.get(f"{project_at}/project.json").text
    copies = [
        browser.post(f"{frame_at}/copy", sent_by(browser.get(f"{frame_at}/setting-out"))).headers["location"],
        browser.post(f"{project_at}/copy").headers["location"],
        browser.post("/projects/import", {"pasted": text}).headers["location"],
        browser.post("/projects/demos/cafe-prints.demo").headers["location"],
    ]
    assert "from 3 cuts in all" in said_in(browser, address, "tests")
    for copy in copies[:3]:
        place = copy if "/frames/" in copy else browser.setting_out(copy.partition("?")[0].rsplit("/", 1)[1])
        there = browser.client.get(place, follow_redirects=True).url.path.replace("setting-out", "corners")
        assert "3 cuts are from a copy" in said_in(browser, there, "tests")
        add_cut(browser, there, outside="0.3")
    assert "from 6 cuts in all" in said_in(browser, address, "tests")


def test_two_fences_are_told_apart_by_joints_of_two_kinds(browser: GroupedBrowser, address: str) -> None:
    browser.type(address, {"corner.cutting": "a sled with two fences"})
    add_cut(browser, address, outside="0.3")
    assert "one piece turned over" in said_in(browser, address, "tests")
    add_cut(browser, address, outside="0", ends="both ends from the left fence")
    assert "The left fence is off by 0.000°" in said_in(browser, address, "tests")
    assert "turn the right one" in said_in(browser, address, "tests")


def test_sides_are_foretold_by_the_test_cuts_until_they_are_measured(browser: GroupedBrowser, address: str) -> None:
    add_cut(browser, address, outside="0.3")
    assert "as this saw would cut them" in said_in(browser, address, "parts")
    browser.type(address, {"sides.top.start": "45"})
    assert "as this saw would cut them" not in said_in(browser, address, "parts")


def test_parts_in_hand_are_closed_and_the_end_to_shave_is_named(browser: GroupedBrowser, address: str) -> None:
    browser.type(address, {"sides.top.start": "46.8"})
    page = whole(browser, address)
    assert "+1.800°" in says(page, "parts")
    assert "Shave the top side at the top left corner" in says(page, "parts")
    assert "without friction" in says(page, "parts")
    assert "gaps shown ×" in says(page, "parts")
