"""Sizes from a photograph: added, marked by numbers and taps, found along edges, put into the fields, checked."""

import io
from typing import Any

import httpx
import pdfplumber
import pytest
from camera import ACROSS_PX, photo_of, plain_scene
from pages import PARTS, Browser, Element, read, sent_by

SCENE = plain_scene()
WIDE_PX = 1600
PHOTO = photo_of(SCENE, across_px=WIDE_PX)
CORNERS = ("upper_left", "upper_right", "lower_right", "lower_left")
MARKS = [f"{of}.{corner}" for of in ("sheet", "artwork") for corner in CORNERS]
PLACES = SCENE.pixels * WIDE_PX / ACROSS_PX


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture
def frame_at(browser: Browser) -> str:
    """A job of 300 × 400 mm, of which the photo says 400 × 300 mm."""
    project_id = browser.new()
    return browser.setting_out(project_id).removesuffix("/setting-out")


def sizing_at(frame_at: str) -> str:
    return f"{frame_at}/sizes-from-a-photograph"


def frame(browser: Browser, frame_at: str) -> dict[str, Any]:
    found: dict[str, Any] = browser.document(frame_at.split("/")[2])["frames"][0]
    return found


def add(browser: Browser, frame_at: str, content: bytes = PHOTO) -> httpx.Response:
    return browser.post(f"{frame_at}/photo/sheet", files={"photo": ("p.jpg", content, "image/jpeg")})


def press(browser: Browser, frame_at: str, do: str = "save", typed: dict[str, str] | None = None, **more: Any) -> Any:
    sent, here = sent_by(browser.get(sizing_at(frame_at))), f"frames.{frame_at.split('/')[-1]}.sizing."
    typed = {here + path: text for path, text in (typed or {}).items()}
    return browser.post(sizing_at(frame_at), sent | typed | {"do": do}, **more)


def marked(browser: Browser, frame_at: str, *, off: float = 2.0) -> None:
    """The photo with all eight marks, each a little beside its corner."""
    add(browser, frame_at)
    places = {
        f"{name}.{axis}": f"{PLACES[number, way] + off:.1f}"
        for number, name in enumerate(MARKS)
        for way, axis in enumerate(("across", "down"))
    }
    assert press(browser, frame_at, typed=places).status_code == 303


def table(page: Element) -> list[list[str]]:
    return [[cell.text for cell in row._all("th, td")] for row in page.by_id("by-photo").all("tr")[1:]]


def test_from_an_empty_page_to_sizes_in_the_fields(browser: Browser, frame_at: str) -> None:
    page = browser.get(f"{frame_at}/setting-out")
    assert sizing_at(frame_at) in [link.attributes.get("href") for link in page.all("a")]
    assert "mail the photo" in browser.get(sizing_at(frame_at)).by_id("photo").text
    marked(browser, frame_at)
    sizing = frame(browser, frame_at)["sizing"]
    assert (sizing["across"], sizing["up"], sizing["lens"]) == (WIDE_PX, 1200, 28)
    assert press(browser, frame_at, "find-corners").status_code == 303
    page = browser.get(sizing_at(frame_at))
    said = page.by_id("by-photo").text
    assert "All 8 marks are on their edges." in said and "Square as far as the photo shows" in said
    for row, true_mm in zip(table(page), SCENE.truths.values(), strict=True):
        assert float(row[1].split(" mm")[0]) == pytest.approx(true_mm, rel=0.005)
    assert press(browser, frame_at, "take-sizes:across_top,up_left").status_code == 303
    artwork = frame(browser, frame_at)["artwork"]
    assert float(artwork["across"].removesuffix(" mm")) == pytest.approx(400, abs=2)
    assert artwork["diagonal_rising"] and artwork["up_right"]
    assumed = browser.document(frame_at.split("/")[2])["assumed"]
    assert sum(".artwork." in path for path in assumed) == 6
    slot = browser.get(f"{frame_at}/setting-out").by_id(f"slot-frames-{frame_at.split('/')[-1]}-artwork-across")
    assert slot.text.startswith("≈") and "By photo ± " in slot.text and "Tap when measured" in slot.text


def test_a_tape_that_says_otherwise_is_a_finding_that_the_light_counts(browser: Browser, frame_at: str) -> None:
    marked(browser, frame_at, off=0)
    press(browser, frame_at, "take-sizes:across_top,up_left")
    setting_out = f"{frame_at}/setting-out"
    browser.type(setting_out, {"artwork.across": "401"})
    page = browser.get(setting_out)
    assert "by the photo" not in page.by_id("findings").text and "warning" not in page.by_id("verdict").text
    browser.type(setting_out, {"artwork.across": "420"})
    page = browser.get(setting_out)
    assert "Across: 420 mm typed" in page.by_id("findings").text and "by the photo" in page.by_id("findings").text
    assert "contradict" not in page.by_id("findings").text, "a tape and a photo are no six readings of one tape"
    slot = page.by_id(f"slot-frames-{frame_at.split('/')[-1]}-artwork-across")
    assert "By photo" not in slot.text and "420 mm typed" in slot.text
    page = browser.get(sizing_at(frame_at))
    assert "1 warning" in page.by_id("verdict").text
    assert [row[2] for row in table(page)][:2] == ["420 mm Measure again", "400 mm"]


def test_a_taped_size_is_replaced_only_after_the_page_has_shown_both(browser: Browser, frame_at: str) -> None:
    """Fault: one press wrote the photo's sizes over what a tape had said."""
    marked(browser, frame_at, off=0)
    asked = browser.get(sizing_at(frame_at)).by_id("taped")
    assert "Across 300 mm (photo: 400 mm)" in asked.text and "Up 400 mm (photo: 300 mm)" in asked.text
    press(browser, frame_at, "take-sizes")
    artwork = frame(browser, frame_at)["artwork"]
    assert (artwork["across"], artwork["up"]) == ("300 mm", "400 mm") and artwork["diagonal_rising"]
    assert sum(".artwork." in path for path in browser.document(frame_at.split("/")[2])["assumed"]) == 4
    press(browser, frame_at, asked.all("button")[0].attributes["value"])
    assert frame(browser, frame_at)["artwork"]["across"] == "400 mm"
    page = browser.get(sizing_at(frame_at))
    assert "Typed, so it stays" not in page.text and "Put these sizes into the fields" in page.by_id("by-photo").text
    revisions = browser.get(f"{frame_at.rsplit('/', 2)[0]}/revisions")
    assert "300 mm" in revisions.by_id("main").text, "the tape's size stays on record"


def test_without_scripts_two_taps_put_a_mark_to_half_a_pixel(browser: Browser, frame_at: str) -> None:
    add(browser, frame_at)
    page = browser.get(sizing_at(frame_at))
    sent = sent_by(page, page.by_id("tap-it").all("form")[0])
    assert sent["corner"] == "sheet.upper_left"
    x, y = PLACES[0]
    whole = {"tap.x": str(round(x * 320 / WIDE_PX)), "tap.y": str(round(y * 320 / WIDE_PX))}
    answer = browser.post(f"{frame_at}/photo/sheet/tap", sent | whole)
    close = browser.get(answer.headers["location"])
    picture = close.all("input", type="image")[0]
    assert browser.client.get(picture.attributes["src"]).headers["content-type"] == "image/jpeg"
    form = close.all("form")[-1]
    across, down = (int(number) for number in sent_by(close, form)["at"].split(","))
    tap = {"tap.x": str(round((x - across) * 2 + 160)), "tap.y": str(round((y - down) * 2 + 160))}
    answer = browser.post(form.attributes["action"], sent_by(close, form) | tap)
    assert answer.headers["location"].endswith("#tap-it")
    mark = frame(browser, frame_at)["sizing"]["sheet"]["upper_left"]
    assert (float(mark["across"]), float(mark["down"])) == pytest.approx((x, y), abs=0.51)
    page = browser.get(sizing_at(frame_at))
    assert sent_by(page, page.by_id("tap-it").all("form")[0])["corner"] == "sheet.upper_right"
    assert "7 marks to put" in page.by_id("by-photo").text


def test_the_same_photo_is_shown_in_the_frame_by_one_press(browser: Browser, frame_at: str) -> None:
    marked(browser, frame_at, off=0)
    assert press(browser, frame_at, "show-in-frame").status_code == 303
    sizing, photo = frame(browser, frame_at)["sizing"], frame(browser, frame_at)["look"]["photo"]
    assert (photo["id"], photo["lower_left"]["across"]) == (sizing["id"], round(PLACES[7, 0]))
    assert browser.get(f"{frame_at}/look").by_id("drawings").all("image")
    assert "Shown in the frame" in browser.get(sizing_at(frame_at)).by_id("by-photo").text


def test_a_mark_moved_from_its_edge_counts_as_by_hand_again(browser: Browser, frame_at: str) -> None:
    marked(browser, frame_at)
    press(browser, frame_at, "find-corners")
    press(browser, frame_at, typed={"sheet.upper_left.across": "700"})
    assert "7 of 8 marks are on their edges" in browser.get(sizing_at(frame_at)).by_id("by-photo").text


def test_typing_writes_nothing_and_parts_are_the_pages(browser: Browser, frame_at: str) -> None:
    marked(browser, frame_at, off=0)
    before = frame(browser, frame_at)
    sent, here = sent_by(browser.get(sizing_at(frame_at))), f"frames.{frame_at.split('/')[-1]}.sizing."
    typed = {f"{here}short": "210", f"{here}long": "297"}
    parts = read(browser.post(f"{sizing_at(frame_at)}/preview", sent | typed, headers=PARTS).text)
    before_mm, after_mm = (
        float(table(one)[0][1].split("± ")[1].removesuffix(" mm")) for one in (browser.get(sizing_at(frame_at)), parts)
    )
    assert after_mm < before_mm and frame(browser, frame_at) == before
    parts = read(browser.post(sizing_at(frame_at), sent | typed | {"do": "save"}, headers=PARTS).text)
    page = browser.get(sizing_at(frame_at))
    for part in parts.all("hx-partial"):
        name = part.attributes["hx-target"].removeprefix("#")
        assert part.by_id(name).markup() == page.by_id(name).markup(), name


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"sheet.upper_left.across": "4001"}, "Enter a number of pixels of 0 to 4000"),
        ({"sheet.upper_left.across": "left"}, "Enter a number"),
        ({"short": "0.2 mm"}, "Enter 1 mm to 5000 mm"),
        ({"away": "tall"}, "Enter a length"),
    ],
)
def test_what_cannot_be_taken_is_kept_with_a_sentence(
    browser: Browser, frame_at: str, typed: dict[str, str], says: str
) -> None:
    marked(browser, frame_at)
    answer = press(browser, frame_at, typed=typed)
    assert answer.status_code == 422 and says in answer.text


def test_marks_that_tell_nothing_are_refused_and_the_frame_is_planned_as_before(
    browser: Browser, frame_at: str
) -> None:
    marked(browser, frame_at)
    x, y = (f"{number:.1f}" for number in PLACES[2])
    press(browser, frame_at, typed={"sheet.upper_left.across": x, "sheet.upper_left.down": y})
    assert "Mark the sheet's corners clockwise" in browser.get(sizing_at(frame_at)).by_id("by-photo").text
    assert press(browser, frame_at, "take-sizes").status_code == 422
    assert "by the photo" not in browser.get(f"{frame_at}/setting-out").by_id("findings").text
    press(browser, frame_at, "remove-sizing")
    assert frame(browser, frame_at).get("sizing") is None


def test_odd_addresses_and_taps_are_answered_and_write_nothing(browser: Browser, frame_at: str) -> None:
    at, project_at = sizing_at(frame_at), frame_at.rsplit("/", 2)[0]
    assert press(browser, frame_at, "take-sizes").status_code == 422
    assert press(browser, frame_at, "find-corners").status_code == 422
    assert press(browser, frame_at, "show-in-frame").status_code == 422
    add(browser, frame_at)
    photo_id, before = frame(browser, frame_at)["sizing"]["id"], frame(browser, frame_at)
    for address in (f"{at}/close/nose?at=1,1", f"{at}/close/sheet.upper_left?at=x", f"{at}/sheet.pdf?paper=a9"):
        assert browser.client.get(address).status_code == 404
    assert browser.client.get(f"{project_at}/photos/{photo_id}/part.jpg?at=9999,9999").status_code == 200
    assert browser.client.get(f"{project_at}/photos/{photo_id}/part.jpg").status_code == 404
    for sent in ({}, {"corner": "nose", "tap.x": "3", "tap.y": "3"}, {"corner": "sheet.upper_left", "tap.x": "-3"}):
        assert browser.post(f"{frame_at}/photo/sheet/tap", sent).status_code == 303
    assert browser.post(f"{at}/close/sheet.upper_left", {"at": "x", "tap.x": "1", "tap.y": "1"}).status_code == 303
    assert add(browser, frame_at, b"no picture").status_code == 422
    assert frame(browser, frame_at) == before


@pytest.mark.parametrize(("paper", "across_mm"), [("a4", 210), ("letter", 215.9)])
def test_the_printed_sheet_has_a_frame_of_its_size_in_the_middle(
    browser: Browser, frame_at: str, paper: str, across_mm: float
) -> None:
    answer = browser.client.get(f"{sizing_at(frame_at)}/sheet.pdf?paper={paper}")
    with pdfplumber.open(io.BytesIO(answer.content)) as document:
        (page,) = document.pages
        mm = 25.4 / 72
        left, right = min(bar["x0"] for bar in page.rects) * mm, max(bar["x1"] for bar in page.rects) * mm
        low, top = min(bar["y0"] for bar in page.rects) * mm, max(bar["y1"] for bar in page.rects) * mm
        words = page.extract_text()
    assert (right - left, top - low) == pytest.approx((180, 250), abs=0.01)
    assert (left + right) / 2 == pytest.approx(across_mm / 2, abs=0.01)
    assert "180 × 250 mm" in words and "100%" in words and "bank card" in words


def test_a_frame_of_six_sides_is_measured_with_a_tape(browser: Browser, frame_at: str) -> None:
    marked(browser, frame_at)
    browser.type(f"{frame_at}/setting-out", {"shape.sides": "6", "shape.size": "300"})
    assert "four sides" in browser.get(sizing_at(frame_at)).by_id("main").text
