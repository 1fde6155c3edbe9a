"""The corners page without scripts: what is typed is worked out, saved, or refused in its own place."""

import re

import httpx
import pytest
from grouped import GroupedBrowser, said_in, says, whole
from pages import PARTS, read, sent_by
from saw_cuts import add_cut

GROUPS = ("angles", "tolerance", "joint", "tests", "parts", "clamps", "seasons")


def test_every_group_explains_itself_before_anything_is_typed(browser: GroupedBrowser, address: str) -> None:
    page = whole(browser, address)
    said = {group: says(page, group) for group in GROUPS}
    assert "from a square cut" in said["angles"] and "45° or 135°" in said["angles"]
    assert "shim" in said["tolerance"].lower()
    assert "one reading alone is not enough" in said["tests"]
    assert "shows how the frame closes" in said["parts"] and "as planned" in said["clamps"]
    assert "Bare miter" in said["joint"] and "Name the wood" in said["seasons"]


def test_it_is_asked_first_how_the_ends_are_cut(browser: GroupedBrowser, address: str) -> None:
    fields = [name for name in sent_by(whole(browser, address)) if name.startswith("frames.")]
    assert fields[0].endswith("corner.cutting")


@pytest.mark.parametrize("group", GROUPS)
def test_fragments_are_the_same_in_the_page_and_by_themselves(
    browser: GroupedBrowser, address: str, group: str
) -> None:
    page = browser.get(f"{address}/{group}")
    parts = read(browser.post(f"{address}/{group}/preview", sent_by(page), headers=PARTS).text)
    for name in (f"says-{group}", f"more-{group}", "states", "verdict"):
        assert parts.by_id(name).markup() == page.by_id(name).markup()


def test_a_preview_writes_nothing(browser: GroupedBrowser, address: str) -> None:
    at = f"{address}/tolerance"
    sent = sent_by(browser.get(at))
    path = next(name for name in sent if name.endswith("corner.gap"))
    parts = read(browser.post(f"{at}/preview", sent | {path: "0.5"}, headers=PARTS).text)
    assert says(parts, "tolerance") != says(browser.get(at), "tolerance")


def test_without_friction_a_strap_presses_with_the_root_of_two(browser: GroupedBrowser, address: str) -> None:
    browser.type(address, {"clamps.strap_force": "300"})
    assert "pressed alike, with 424 N" in said_in(browser, address, "clamps")


def test_an_end_is_measured_by_feeler_against_a_true_block_too(browser: GroupedBrowser, address: str) -> None:
    """40 mm of face make a mitre of 56.57 mm: 0.5 mm at the tip are atan(0.5 / 56.57) = 0.506° too much."""
    browser.type(browser.setting_out(address.split("/")[2]), {"section.face_width": "40"})
    browser.type(address, {"sides.top.start_gap": "0.5"})
    assert "+0.506°" in said_in(browser, address, "parts")
    browser.type(address, {"sides.top.start_gap": "-0.5 mm"})
    assert "−0.506°" in said_in(browser, address, "parts")
    answer = browser.type(address, {"sides.top.start": "45.2"})
    assert "Enter the angle of an end or its gap, not both." in whole(browser, address).text, answer.status_code
    browser.type(address, {"sides.top.start": "", "sides.top.start_gap": "5"})
    assert "Measure again: this gap means 5.05" in whole(browser, address).text


def test_three_answers_stand_side_by_side_with_gap_step_and_square(browser: GroupedBrowser, address: str) -> None:
    """Fault: an end to shave was named for its gap, and neither the step nor the square that it cost."""
    browser.type(address, {"sides.top.start": "46.8"})
    (table,) = whole(browser, address).by_id("more-parts").all("div", **{"aria-label": "What can be done"})
    rows = [[cell.text for cell in (*row.all("th"), *row.all("td"))] for row in table.all("tr")]
    assert rows[0] == ["Answer", "Worst gap", "Step at the tips", "Out of square"]
    assert [row[0].partition(":")[0].partition(" by ")[0] for row in rows[1:]] == [
        "Clamp it as it is", "Cut again, true,", "Shave the top at the top left",
    ]  # fmt: skip
    assert "the top at the top left" in rows[2][0] and rows[2][1] == rows[2][2] == "0 mm"
    assert all(row[3].endswith("°") for row in rows[1:]) and rows[2][3] == "0°"
    assert rows[1][1] != "0 mm" and rows[1][3] != "0°"


def test_the_clamps_judge_six_measures(browser: GroupedBrowser, address: str) -> None:
    six = {
        "across_top": "440", "across_bottom": "440", "up_left": "340", "up_right": "340",
        "clamps.rising": "557", "clamps.falling": "555",
    }  # fmt: skip
    browser.type(address, six)
    said = said_in(browser, address, "clamps")
    assert "Out of square" in said and "squeeze along the rising diagonal" in said


def test_a_joint_that_is_too_large_is_refused_in_its_place(browser: GroupedBrowser, address: str) -> None:
    browser.type(address, {"joint.kind": "biscuit", "joint.size": "biscuit #20"})
    page = whole(browser, address)
    assert "refuses" in page.by_id("says-joint").attributes["class"]
    assert "enter " in says(page, "joint").lower() and "What fits at" in says(page, "joint")
    assert "miter is" in says(page, "tolerance")
    assert "Joint Cannot be made Stop" in whole(browser, f"{address}/joint").by_id("states").text


def test_a_plain_thickness_of_a_tenon_is_offered_and_any_other_is_typed(browser: GroupedBrowser, address: str) -> None:
    browser.type(address, {"joint.kind": "loose tenon", "tenon_length": "25"})
    ways = whole(browser, address).all('[aria-label="Plain tenon thicknesses"] button')
    assert [way.text for way in ways] == ["4 mm", "5 mm", "6 mm", "8 mm", "10 mm", "12 mm"]
    browser.type(address, {}, do=ways[1].attributes["value"])
    assert "Set-up card: tenon 5 × 25 mm" in says(whole(browser, address), "joint")
    browser.type(address, {"tenon_thickness": "5.5"})
    assert "Set-up card: tenon 5.5 × 25 mm" in says(whole(browser, address), "joint")


def test_a_joint_is_drawn_and_can_be_had_at_full_size(
    browser: GroupedBrowser, address: str, client: httpx.Client
) -> None:
    browser.type(address, {"joint.kind": "dowel", "joint.size": "dowel 6 x 30", "joint.wall": "1"})
    page = whole(browser, address)
    assert "Set-up card" in says(page, "joint") and "where the mouth may lie" in says(page, "joint")
    links = [link.attributes["href"] for link in page.by_id("more-joint").all("a")]
    assert links
    for link in links:
        answer = client.get(link)
        assert answer.status_code == 200 and "1:1" in answer.text


@pytest.mark.parametrize(("kind", "said"), [("half-lap", "between shoulders"), ("bridle", "carry the tenons")])
def test_members_that_lap_are_drawn_with_what_is_cut_back(
    browser: GroupedBrowser, address: str, client: httpx.Client, kind: str, said: str
) -> None:
    browser.type(address, {"joint.kind": kind})
    page = whole(browser, address)
    assert said in says(page, "joint") and "left and right" in says(page, "joint")
    links = [link.attributes["href"] for link in page.by_id("more-joint").all("a")]
    assert links and all(client.get(link).status_code == 200 for link in links)


def test_a_polygon_asks_for_no_top_right_bottom_and_left(browser: GroupedBrowser, address: str) -> None:
    add_cut(browser, address, outside="0.3")
    browser.type(address, {"sides.top.long": "350"})
    setting_out = address.replace("corners", "setting-out")
    browser.type(setting_out, {"shape.sides": "6", "shape.size": "300"})
    page = whole(browser, address)
    assert any(name.endswith("sides.top.long") for name in sent_by(page)), "what is typed can be emptied"
    browser.type(address, {"sides.top.long": ""})
    page = whole(browser, address)
    assert not [name for name in sent_by(page) if ".sides." in name or ".batch." in name or "clamps.rising" in name]
    assert "these are the sides as this saw would cut them" in says(page, "parts")
    assert "corner 6-1" in says(page, "parts")


@pytest.mark.parametrize(("sides", "across"), [("5", "the middle of the side across"), ("6", "the corner across")])
def test_a_polygon_in_its_clamps_is_told_its_own_check(
    browser: GroupedBrowser, address: str, sides: str, across: str
) -> None:
    browser.type(address.replace("corners", "setting-out"), {"shape.sides": sides, "shape.size": "300"})
    assert f"from each corner to {across}: all alike" in says(whole(browser, address), "clamps")


def test_no_choice_of_a_test_cut_speaks_of_a_square(browser: GroupedBrowser, address: str) -> None:
    """Fault: the joint of a hexagon was to be read "held to a square"; the value in the file stays as it was."""
    browser.type(address.replace("corners", "setting-out"), {"shape.sides": "6", "shape.size": "300"})
    browser.type(address, {}, do="add-test")
    page = whole(browser, address)
    (tried,) = [one for one in page.all("select") if one.attributes["name"].endswith(".tried")]
    assert "held to the frame's angle" in tried.text and "square" not in tried.text
    assert tried.all("option")[0].attributes["value"] == "one joint, held to a square"


def test_the_sides_of_a_polygon_are_measured_by_number(browser: GroupedBrowser, address: str) -> None:
    """Faults: a hexagon could not be told as cut, as four sides alone have names; its joint was tried by a square."""
    browser.type(address.replace("corners", "setting-out"), {"shape.sides": "6", "shape.size": "300"})
    said = says(whole(browser, address), "tests")
    assert "a bevel set to 120°" in said and "an error 6 times as plainly" in said and "hold it to a square" not in said
    browser.type(address, {}, do="add-sides")
    page = whole(browser, address)
    typed = [name for name in sent_by(page) if name.endswith(".long")]
    assert [name.split(".")[-2] for name in typed] == ["s1", "s2", "s3", "s4", "s5", "s6"]
    for side in ("s1", "s4"):
        browser.type(address, {f"{side}.start": "61.2"})
    said = says(whole(browser, address), "parts")
    assert "All 12 ends together are off by" in said and "1/6 of miter length times error" in said
    assert "Cut again, true, by a stop: side 1 at corner 6-1, side 4 at corner 3-4" in said
    assert "Shave side" in said
    browser.type(address, {"s1.start": "45"})
    assert "Enter 55° to 65° for an end that is right at 60°" in says(whole(browser, address), "parts")


def test_a_polygon_is_set_out_on_paper(browser: GroupedBrowser, address: str, client: httpx.Client) -> None:
    paper = address.replace("corners", "drawings/polygon.svg")
    assert client.get(paper).status_code == 422
    setting_out = address.replace("corners", "setting-out")
    assert browser.type(setting_out, {"shape.sides": "8", "shape.size": "400"}).status_code == 303
    links = [link.attributes["href"] for link in whole(browser, address).by_id("more-angles").all("a")]
    assert links and all("Setting out" in client.get(link).text for link in links)


def test_a_frame_without_a_joint_has_no_drawing_of_one(
    browser: GroupedBrowser, address: str, client: httpx.Client
) -> None:
    answer = client.get(address.replace("corners", "drawings/joint.svg"))
    assert answer.status_code == 422 and "Choose a joint to draw" in answer.text


def test_all_woods_are_compared_in_this_room(browser: GroupedBrowser, address: str) -> None:
    (link,) = whole(browser, address).by_id("more-seasons").all("a")
    browser.type(address.replace("corners", "setting-out"), {"species": "black cherry"})
    page = browser.get(link.attributes["href"])
    rows = [[cell.text for cell in (*row.all("th"), *row.all("td"))] for row in page.all("tr")][1:]
    assert len(rows) == 52
    (cherry,) = [row for row in rows if row[0] == "Cherry, black (Prunus serotina)"]
    assert cherry[3:] == ["0.248%", "0.126%", "7.1%", "3.7%", "560 kg/m³", "moves C, shrinks A, weighs FIA+5-3"]
    assert cherry[1] in said_in(browser, address, "seasons")


def test_undo_leads_back_to_the_group_of_the_corners(browser: GroupedBrowser, address: str) -> None:
    browser.type(address, {"corner.gap": "0.4"})
    page = browser.get(f"{address}/tolerance")
    (form,) = [form for form in page.all("form") if form.attributes.get("action", "").endswith("/undo")]
    sent = {field.attributes["name"]: field.attributes.get("value", "") for field in form.all("input")}
    answer = browser.post(form.attributes["action"], sent)
    assert answer.status_code == 303 and answer.headers["location"].endswith("/corners/tolerance")


@pytest.mark.parametrize(
    ("ending", "text", "sentence"),
    [
        ("sides.top.start", "120", "angle of an end of 20 to 95°"),
        ("sides.top.start", "a lot", "Enter a number"),
        ("corner.gap", "", "Enter a length"),
        ("seasons.winter_humidity", "120", "Enter a relative humidity of 1 to 99%"),
        ("sides.top.long", "1e3", "Enter the number written out"),
        ("corner.lean", "9" * 5000, "Enter a number"),
        ("joint.spline_count", "0", "Enter 1 or more"),
        ("corner.fence", "-450", "Enter 1 mm to 5000 mm"),
    ],
)
def test_nonsense_keeps_its_text_and_gets_a_sentence(
    browser: GroupedBrowser, address: str, ending: str, text: str, sentence: str
) -> None:
    answer = browser.type(address, {ending: text})
    page = read(answer.text)
    assert answer.status_code == 422
    (shown,) = [value for name, value in sent_by(page).items() if name.endswith(ending)]
    assert shown == text
    assert sentence in page.text
    assert "Gauge 45°" in page.by_id("states").text
    assert "from a square cut" in said_in(browser, address, "angles")


@pytest.mark.parametrize(
    ("typed", "group", "sentence"),
    [
        ({"sides.top.long": "100"}, "parts", "make no frame"),
        ({"sides.top.start": "55"}, "parts", "Enter 40° to 50°"),
        ({"batch.top": "0.1 0.2", "batch.right": "0"}, "parts", "Enter as many of each side"),
        ({"clamps.strap_force": "100", "clamps.eased_to": "300"}, "clamps", "Enter 0 N to 100 N"),
        ({"seasons.months": "40 50"}, "seasons", "twelve numbers"),
        ({"corner.gap": "90"}, "tolerance", "Enter a gap under 90 mm"),
    ],
)
def test_numbers_that_describe_nothing_are_refused_where_they_stand(
    browser: GroupedBrowser, address: str, typed: dict[str, str], group: str, sentence: str
) -> None:
    browser.type(address, typed)
    page = whole(browser, address)
    assert sentence in says(page, group)
    assert "refuses" in page.by_id(f"says-{group}").attributes["class"]


@pytest.mark.parametrize("text", ["0", "10", "45.1", "3000"])
def test_no_number_in_any_field_is_a_crash(browser: GroupedBrowser, address: str, text: str) -> None:
    """Fault: a slot that began just at the tip, 10 mm from it to its middle, crashed the page."""
    busy = {
        "joint.kind": "loose tenon", "tenon_thickness": "4", "tenon_length": "20", "also_spline": "yes",
        "also_pin": "yes", "also_wedge": "yes", "clamps.strap_force": "300", "sides.top.start": "45.2",
    }  # fmt: skip
    browser.type(address.replace("corners", "setting-out"), {"species": "white oak"})
    browser.type(address, busy)
    sent = sent_by(whole(browser, address))
    for name in sent:
        if name.startswith("frames."):
            answer = browser.post(f"{address}/preview", sent | {name: text}, headers=PARTS)
            assert answer.status_code in (200, 422), (name, answer.status_code)
            assert not re.search(r">nan|[0-9]e-[0-9]{2}", answer.text), name


def test_two_tabs_lose_nothing(browser: GroupedBrowser, address: str) -> None:
    here = sent_by(whole(browser, address))
    path = next(name for name in here if name.endswith("sides.top.start"))
    browser.type(address, {"corner.gap": "0.4", "sides.top.start": "45.2"})
    answer = browser.post(address, here | {path: "45.5", "do": "save"})
    page = read(answer.text)
    assert answer.status_code == 409 and "saved elsewhere" in page.by_id("notice").text
    assert browser.post(address, sent_by(page) | {"do": "save"}).status_code == 303
    saved = sent_by(whole(browser, address))
    assert saved[path] == "45.5" and saved[path.replace("sides.top.start", "gap")] == "0.4"


def test_the_strap_is_typed_once_for_all_frames(browser: GroupedBrowser, address: str) -> None:
    """Fault: pull, ratchet and friction of the one strap were asked in every frame."""
    browser.type(address, {"shop.strap.pull": "300"})
    browser.post(address.replace("corners", "copy"), sent_by(browser.get(address.replace("corners", "setting-out"))))
    frames = browser.document(address.split("/")[2])["frames"]
    assert len(frames) == 2
    for frame in frames:
        page = whole(browser, address.replace(frames[0]["id"], frame["id"]))
        assert "Without friction every" in says(page, "clamps")
