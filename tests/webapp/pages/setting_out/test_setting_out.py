"""The setting-out page without scripts: what is typed is planned, saved, shown, or refused in place."""

import httpx
import pytest
from grouped import whole
from pages import PARTS, Browser, Element, read, sent_by

from webapp.pages.setting_out.cards import CARDS


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture
def address(browser: Browser) -> str:
    return browser.setting_out(browser.new())


def project_id_of(address: str) -> str:
    return address.split("/")[2]


def slot_text(page: Element, address: str, ending: str) -> str:
    return page.by_id(f"slot-frames-{address.split('/')[4]}-{ending.replace('.', '-')}").text


def shown_text(page: Element, ending: str) -> str:
    (text,) = [text for name, text in sent_by(page).items() if name.endswith(f".{ending}")]
    return text


def test_the_page_opens_with_sizes_drawings_and_fields(browser: Browser, address: str) -> None:
    page = browser.get(address)
    assert "455 × 565" in page.by_id("sizes").text
    for name in ("front", "section", "members", "corner"):
        assert page.by_id(f"drawing-{name}").all("svg")
    assert shown_text(page, "artwork.across") == "300"


def test_three_numbers_leave_the_light_at_confirm_first(browser: Browser, address: str) -> None:
    verdict = browser.get(address).by_id("verdict").text
    assert verdict.startswith("Confirm first")
    assert "only assumed" in verdict


def test_the_light_says_ready_once_every_group_is_confirmed(browser: Browser, address: str) -> None:
    for do in ("section", "mat", "package", "fit", "saw"):
        assert browser.type(address, {}, do=f"confirm-group:{do}").status_code == 303
    assert browser.get(address).by_id("verdict").text.startswith("Ready to cut")


def test_a_good_form_is_saved_and_sends_on_to_the_page(browser: Browser, address: str) -> None:
    answer = browser.type(address, {"section.face_width": "30"})
    assert answer.status_code == 303
    page = browser.get(address)
    assert "465 × 575" in page.by_id("sizes").text
    assert "Revision 2" in page.by_id("saved").text


def test_a_bare_number_is_kept_with_the_unit_of_the_project(browser: Browser, address: str) -> None:
    browser.type(address, {"artwork.across": "310,5", "artwork.up": "12 1/2 in"})
    artwork = browser.document(project_id_of(address))["frames"][0]["artwork"]
    assert (artwork["across"], artwork["up"]) == ("310,5 mm", "12 1/2 in")


def test_the_echo_says_the_other_unit_once(browser: Browser, address: str) -> None:
    browser.type(address, {"artwork.across": "10 in"})
    page = browser.get(address)
    assert slot_text(page, address, "artwork.across") == "= 254 mm"
    assert slot_text(page, address, "artwork.up") == "≈ 15 3/4 in"


@pytest.mark.parametrize(
    "text", ["12 13", "", "1/0", "1e3", "nan", "inf", "1_0", "0", "-3", "9" * 10_000, "1\x002", "⅛⅛"]
)
def test_a_text_that_is_no_width_stays_in_its_field_with_a_sentence(browser: Browser, address: str, text: str) -> None:
    answer = browser.type(address, {"section.rabbet_width": text, "section.face_width": "31"})
    assert answer.status_code == 422
    page = read(answer.text)
    assert shown_text(page, "section.rabbet_width") == text.replace("\x00", " ")
    assert len(slot_text(page, address, "section.rabbet_width")) > 10
    assert page.by_id("verdict").text.startswith("Not yet")
    section = browser.document(project_id_of(address))["frames"][0]["section"]
    assert (section["rabbet_width"], section["face_width"]) == ("6 mm", "31 mm"), "the good field is saved all the same"


def test_a_size_out_of_range_is_refused_with_its_limits(browser: Browser, address: str) -> None:
    page = read(browser.type(address, {"section.thickness": "900"}).text)
    assert "Enter 0.1 mm to 300 mm" in slot_text(page, address, "section.thickness")


def test_an_impossible_size_is_saved_and_said_beside_its_field(browser: Browser, address: str) -> None:
    assert browser.type(address, {"section.rabbet_depth": "40"}).status_code == 303
    page = browser.get(address)
    assert page.by_id("verdict").text.startswith("Not yet")
    assert slot_text(page, address, "section.rabbet_depth")
    assert "as saved in revision 1" in page.by_id("kept").text
    assert page.by_id("drawing-section").all("svg"), "the last good drawing stays in view"


def test_a_blank_optional_field_leaves_the_file(browser: Browser, address: str) -> None:
    browser.type(address, {"artwork.across_bottom": "301"})
    assert browser.document(project_id_of(address))["frames"][0]["artwork"]["across_bottom"] == "301 mm"
    browser.type(address, {"artwork.across_bottom": ""})
    assert "across_bottom" not in browser.document(project_id_of(address))["frames"][0]["artwork"]


def test_typing_confirms_what_was_assumed(browser: Browser, address: str) -> None:
    path = f"frames.{address.split('/')[4]}.section.thickness"
    assert path in browser.document(project_id_of(address))["assumed"]
    browser.type(address, {"section.thickness": "21"})
    assert path not in browser.document(project_id_of(address))["assumed"]


@pytest.mark.parametrize("save", ["", "/preview"])
def test_the_answer_to_typing_knows_what_it_confirmed(browser: Browser, address: str, save: str) -> None:
    """Fault: the answer still said that the value just typed was only assumed, and so did the light."""
    page, before = browser.get(address), browser.get(address).by_id("verdict").text
    path = next(name for name in sent_by(page) if name.endswith("section.thickness"))
    sent = sent_by(page) | {path: "21", "do": "save"}
    parts = read(browser.post(address + save, sent, headers=PARTS).text)
    assert "Assumed" in slot_text(page, address, "section.thickness")
    assert "Assumed" not in slot_text(parts, address, "section.thickness")
    if not save:
        assert parts.by_id("verdict").markup() == browser.get(address).by_id("verdict").markup()
    assert parts.by_id("verdict").text != before


def test_a_button_confirms_one_value_and_leads_back_to_its_field(browser: Browser, address: str) -> None:
    path = f"frames.{address.split('/')[4]}.section.thickness"
    answer = browser.type(address, {}, do=f"confirm:{path}")
    assert answer.headers["location"] == f"{address}#field-{path.replace('.', '-')}"
    assert path not in browser.document(project_id_of(address))["assumed"]


def test_a_preview_writes_nothing(browser: Browser, address: str) -> None:
    sent = sent_by(browser.get(address))
    path = next(name for name in sent if name.endswith("section.face_width"))
    answer = browser.post(f"{address}/preview", sent | {path: "40"}, headers=PARTS)
    assert answer.status_code == 200
    assert "485 × 595" in read(answer.text).by_id("sizes").text
    assert "Revision 1" in browser.get(address).by_id("saved").text


def test_a_preview_never_renews_the_revision_that_a_page_starts_from(browser: Browser, address: str) -> None:
    sent = sent_by(browser.get(address))
    assert "saved" not in ids_in(browser.post(f"{address}/preview", sent, headers=PARTS).text)
    assert "saved" in ids_in(browser.post(address, sent | {"do": "save"}, headers=PARTS).text)


def ids_in(html: str) -> set[str]:
    return {element.attributes["id"] for element in read(html).walk() if "id" in element.attributes}


def test_a_preview_with_an_error_answers_with_slots_lines_and_verdict_alone(browser: Browser, address: str) -> None:
    sent = sent_by(browser.get(address))
    path = next(name for name in sent if name.endswith("section.face_width"))
    answer = browser.post(f"{address}/preview", sent | {path: "wide"}, headers=PARTS)
    assert answer.status_code == 422
    others = {name for name in ids_in(answer.text) if not name.startswith("slot-")}
    assert others == {"verdict", "kept", *(f"line-{name}" for name in CARDS)}


def test_every_part_is_the_same_markup_as_in_its_page(browser: Browser, address: str) -> None:
    page = browser.get(address)
    parts = read(browser.post(f"{address}/preview", sent_by(page), headers=PARTS).text)
    compared = 0
    for part in parts.all("hx-partial"):
        (fragment,) = [child for child in part.children if isinstance(child, Element)]
        assert part.attributes["hx-target"] == f"#{fragment.attributes['id']}"
        assert fragment.markup() == page.by_id(fragment.attributes["id"]).markup()
        compared += 1
    assert compared > 50


def test_a_preview_sends_what_the_page_does_not_show_yet(browser: Browser, address: str) -> None:
    sent = sent_by(browser.get(address))
    path = next(name for name in sent if name.endswith("section.thickness"))
    first = browser.post(f"{address}/preview", sent, headers=PARTS)
    held = sent | {"holds": first.headers["x-holds"]}
    assert browser.post(f"{address}/preview", held, headers=PARTS).status_code == 204
    assert browser.post(f"{address}/preview", held | {"note": "ash"}, headers=PARTS).status_code == 204
    thicker = browser.post(f"{address}/preview", held | {path: "21"}, headers=PARTS)
    assert "drawing-section" in ids_in(thicker.text) and "drawing-front" not in ids_in(thicker.text)
    assert len(thicker.text) < len(first.text) / 2


def test_no_part_holds_a_field_that_a_person_fills(browser: Browser, address: str) -> None:
    sent = sent_by(browser.get(address))
    parts = read(browser.post(address, sent | {"do": "save"}, headers=PARTS).text)
    fields = [one for tag in ("input", "select", "textarea") for one in parts.all(tag)]
    assert all(one.attributes.get("type") == "hidden" for one in fields)


def test_a_field_of_another_page_is_refused_and_the_rest_is_saved(browser: Browser, address: str) -> None:
    sent = sent_by(browser.get(address))
    path = next(name for name in sent if name.endswith("section.face_width"))
    answer = browser.post(address, sent | {path: "26", "frames.zz.section.colour": "blue"})
    assert answer.status_code == 422
    assert "not a field of this page" in read(answer.text).by_id("verdict").text
    assert browser.document(project_id_of(address))["frames"][0]["section"]["face_width"] == "26 mm"


def test_a_choice_that_is_none_is_refused_in_place(browser: Browser, address: str) -> None:
    answer = browser.type(address, {"section.face": "curly"})
    assert answer.status_code == 422
    assert "Choose one of the list" in slot_text(read(answer.text), address, "section.face")


def test_a_mat_comes_and_goes_by_a_button(browser: Browser, address: str) -> None:
    browser.type(address, {}, do="remove-mat")
    page = browser.get(address)
    assert not [name for name in sent_by(page) if ".mat." in name]
    browser.type(address, {}, do="add-mat")
    assert shown_text(browser.get(address), "package.mat.border") == "60"
    assert [path for path in browser.document(project_id_of(address))["assumed"] if path.endswith("mat.border")]


def test_without_a_mat_its_board_leaves_the_form_and_nothing_typed_is_lost(browser: Browser, address: str) -> None:
    browser.type(address, {"package.mat.border": "71", "section.thickness": "24"})
    before = browser.document(project_id_of(address))["frames"][0]["package"]
    browser.type(address, {}, do="remove-mat")
    page = browser.get(address)
    board = before["layers"][1]
    assert board["kind"] == "mat" and not [name for name in sent_by(page) if board["id"] in name]
    assert board["name"] in page.by_id("left-out").text
    browser.type(address, {"section.thickness": "25"})
    after = browser.document(project_id_of(address))["frames"][0]["package"]
    assert after == before | {"mat": before["mat"] | {"is_planned": False}}
    browser.type(address, {}, do="add-mat")
    assert browser.document(project_id_of(address))["frames"][0]["package"] == before


def test_layers_are_measured_here_and_named_and_ordered_on_the_package_page(browser: Browser, address: str) -> None:
    page = browser.get(address)
    of_layers = {name.rpartition(".")[2] for name in sent_by(page) if ".layers." in name}
    assert of_layers == {"thickness"}
    package = address.replace("setting-out", "package/layers")
    assert page.by_id("group-package").all("a", href=package)
    names = [layer["name"] for layer in browser.document(project_id_of(address))["frames"][0]["package"]["layers"]]
    assert all(name in page.by_id("group-package").text for name in names)
    of_layers = {name.rpartition(".")[2] for name in sent_by(browser.get(package)) if ".layers." in name}
    assert {"name", "kind", "tolerance", "thickness"} <= of_layers


def test_a_button_applies_to_what_is_typed(browser: Browser, address: str) -> None:
    browser.type(address, {"section.face_width": "33"}, do="remove-mat")
    frame = browser.document(project_id_of(address))["frames"][0]
    assert frame["section"]["face_width"] == "33 mm"
    assert not frame["package"]["mat"]["is_planned"]


def test_no_clearance_is_a_stop_with_a_way_out_that_can_be_undone(browser: Browser, address: str) -> None:
    browser.type(address, {"package.clearance_across": "0"})
    page = browser.get(address)
    assert page.by_id("verdict").text.startswith("Not yet")
    button = next(one for one in page.by_id("findings").all("button") if "no-clearance" in one.attributes["value"])
    assert browser.type(address, {}, do=button.attributes["value"]).status_code == 303
    assert not browser.get(address).by_id("verdict").text.startswith("Not yet")
    saved = browser.get(address).by_id("saved")
    browser.post(f"/projects/{project_id_of(address)}/undo", {"base": sent_by(browser.get(address))["base"]})
    assert "Revision 4" in browser.get(address).by_id("saved").text != saved.text
    assert browser.get(address).by_id("verdict").text.startswith("Not yet")


def test_a_way_out_that_no_longer_fits_is_said_so(browser: Browser, address: str) -> None:
    answer = browser.type(address, {}, do="fix:sizes.no-clearance:0")
    assert answer.status_code == 422
    assert "no longer fits" in read(answer.text).by_id("verdict").text


@pytest.mark.parametrize("do", ["", "explode", "fix", "fix:", "remove-layer:zz", "layer-up:", "unit:cubit", "confirm"])
def test_a_button_that_is_not_known_breaks_nothing(browser: Browser, address: str, do: str) -> None:
    before = browser.document(project_id_of(address))
    assert browser.type(address, {}, do=do).status_code in (303, 422)
    assert browser.document(project_id_of(address)) == before


def test_fit_to_the_tape_brings_every_size_to_whole_steps(browser: Browser, address: str) -> None:
    browser.type(address, {"artwork.across": "300.3", "section.face_width": "25.2"})
    browser.type(address, {}, do="fit-to-tape")
    table = browser.get(address).by_id("figures")
    rows = {row.all("th")[0].text: row.all("td") for row in table.all("tr") if row.all("td")}
    for name in ("Outside, across", "Sight, across", "Rabbet size, across", "Face width"):
        assert rows[name][1].text == "", f"{name} leaves {rows[name][1].text} out"


def test_changing_the_unit_changes_no_size(browser: Browser, address: str) -> None:
    browser.type(address, {"artwork.across": "305"}, do="unit:in")
    page = browser.get(address)
    assert shown_text(page, "artwork.across") == "305 mm"
    assert browser.document(project_id_of(address))["frames"][0]["artwork"]["across"] == "305 mm"


def test_wall_space_solves_the_mat_and_keeps_what_was_typed(browser: Browser, address: str) -> None:
    browser.type(address, {"start.given": "wall", "start.wall_across": "500", "start.wall_up": "600"})
    page = browser.get(address)
    assert "500 × 600" in page.by_id("sizes").text
    assert "Worked out" in slot_text(page, address, "package.mat.border")
    assert shown_text(page, "package.mat.border") == "60"


def test_wall_space_without_its_sizes_asks_for_them(browser: Browser, address: str) -> None:
    browser.type(address, {"start.given": "wall"})
    page = browser.get(address)
    assert "wall space" in page.by_id("verdict").text.lower()
    assert slot_text(page, address, "start.wall_across")


def test_a_tray_shows_its_own_sizes(browser: Browser, address: str) -> None:
    browser.type(address, {"section.kind": "tray"})
    assert "Inside" in browser.get(address).by_id("sizes").text


def test_british_words_are_used_where_the_shop_uses_them(browser: Browser) -> None:
    browser.post("/shop", {"words": "UK", "do": "save"})
    text = browser.get(browser.setting_out(browser.new())).by_id("main").text
    assert "Rebate depth" in text
    assert "abbet" not in text


def test_a_frame_that_is_not_there_is_a_page_in_plain_words(client: httpx.Client, address: str) -> None:
    answer = client.get(address.replace(address.split("/")[4], "nosuch"))
    assert answer.status_code == 404
    assert "No such frame" in answer.text


def test_a_change_of_the_shop_is_offered_and_taken_by_a_button(browser: Browser, address: str) -> None:
    browser.post("/shop", {"blade": "thin", "do": "save"})
    assert "2.4 mm" in browser.get(address).by_id("shop-changed").text
    assert browser.document(project_id_of(address))["shop"]["kerf"] == "3.2 mm", "never applied by itself"
    browser.type(address, {}, do="take-shop")
    assert browser.document(project_id_of(address))["shop"]["kerf"] == "2.4 mm"


def test_a_hexagon_is_stated_here_and_planned_on_every_page(
    browser: Browser, address: str, client: httpx.Client
) -> None:
    """Fault: sides and slope stood on the Corners page, and every other page planned a rectangle."""
    assert browser.type(address, {"shape.sides": "6"}).status_code == 303
    assert "Enter one measure" in slot_text(browser.get(address), address, "shape.size")
    typed = {"shape.sides": "6", "shape.size": "300", "section.face_width": "20", "section.rabbet_width": "6"}
    assert browser.type(address, typed).status_code == 303
    page = browser.get(address)
    assert "6 of" in page.by_id("sizes").text and shown_text(page, "shape.sides") == "6"
    sheets = browser.get(f"/projects/{project_id_of(address)}/sheets")
    assert "300 mm across the flats" in sheets.text and "Mark its corners" in sheets.text
    package = whole(browser, address.replace("setting-out", "package"))
    assert "Mat, cut to" in package.text and "300 mm across the flats" in package.text
    for drawing in ("front", "corner", "members", "section", "polygon"):
        assert client.get(f"{address.replace('setting-out', 'drawings')}/{drawing}.svg").status_code == 200


def test_sides_that_slope_keep_the_package_as_loose_as_typed(browser: Browser, address: str) -> None:
    assert browser.type(address, {"shape.slope": "20"}).status_code == 303
    text = browser.get(address).text
    assert "Laid flat, every end is right at 46.78°" in text and "Play: 3 mm across, 3 mm up" in text
    corners = whole(browser, address.replace("setting-out", "corners"))
    assert "a true end is 46.78°" in " ".join(corners.text.split())


@pytest.mark.parametrize(("ending", "text", "says"), [("sides", "2", "Enter 3 or more"), ("slope", "91", "90°")])
def test_a_shape_that_cannot_be_is_refused_beside_its_field(
    browser: Browser, address: str, ending: str, text: str, says: str
) -> None:
    answer = browser.type(address, {f"shape.{ending}": text})
    assert answer.status_code == 422 and says in slot_text(read(answer.text), address, f"shape.{ending}")
