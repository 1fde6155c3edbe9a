"""The look page: colours, the photo with its marks by numbers and by taps, pictures set straight, hostile uploads."""

import io
import time
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import httpx
import pytest
from pages import PARTS, Browser, Element, read, sent_by
from PIL import Image
from shared import photo_bytes
from starlette.datastructures import UploadFile

from webapp.data.errors import UnusablePhoto
from webapp.data.photos import CleanPhoto
from webapp.pages.look import view
from webapp.server.guard import PHOTO_LIMIT_BYTES
from webapp.server.rates import RATES


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture
def project_id(browser: Browser) -> str:
    return browser.import_demo("cafe-prints.demo")


def frame_at(browser: Browser, project_id: str) -> str:
    return f"/projects/{project_id}/frames/{browser.document(project_id)['frames'][0]['id']}"


def look(browser: Browser, project_id: str) -> dict[str, Any]:
    found: dict[str, Any] = browser.document(project_id)["frames"][0]["look"]
    return found


def page_of(browser: Browser, project_id: str) -> Element:
    return browser.get(f"{frame_at(browser, project_id)}/look")


def send(
    browser: Browser, project_id: str, content: bytes, name: str = "p.jpg", kind: str = "image/jpeg"
) -> httpx.Response:
    return browser.post(f"{frame_at(browser, project_id)}/photo", files={"photo": (name, content, kind)})


def press(browser: Browser, project_id: str, do: str = "save", typed: dict[str, str] | None = None, **more: Any) -> Any:
    address = f"{frame_at(browser, project_id)}/look"
    sent, here = sent_by(browser.get(address)), f"frames.{browser.document(project_id)['frames'][0]['id']}."
    return browser.post(
        address, sent | {here + path: text for path, text in (typed or {}).items()} | {"do": do}, **more
    )


def test_colours_and_words_are_saved_and_drawn(browser: Browser, project_id: str) -> None:
    typed = {"species": "walnut", "look.mat_colour": "#112233", "look.mat_name": "slate", "look.finish": "oil"}
    assert press(browser, project_id, typed=typed).status_code == 303
    page = page_of(browser, project_id)
    paths = page.by_id("drawings").all("path")
    assert "#112233" in {path.attributes.get("fill") for path in paths}
    walnut, (wood, *_) = (
        "#6e4b34",
        [path.attributes["fill"] for path in paths if path.attributes.get("class") == "member"],
    )
    assert all(abs(int(wood[at : at + 2], 16) - int(walnut[at : at + 2], 16)) < 40 for at in (1, 3, 5))
    assert look(browser, project_id)["finish"] == "oil"


def test_on_a_wall_there_is_one_more_drawing_and_a_scale(browser: Browser, project_id: str) -> None:
    press(browser, project_id, typed={"look.on_wall": "yes", "look.eye_line": "1450"})
    drawings = page_of(browser, project_id).by_id("drawings")
    assert len(drawings.all("figure")) == 3
    assert "prints at scale 1:20" in drawings.text and "Eye line 1450 mm" in drawings.text


def test_typing_draws_and_writes_nothing_and_parts_are_the_pages(browser: Browser, project_id: str) -> None:
    send(browser, project_id, photo_bytes())
    before = browser.document(project_id)
    address = f"{frame_at(browser, project_id)}/look"
    here = address.split("/")[4]
    sent = sent_by(browser.get(address)) | {f"frames.{here}.look.photo.upper_left.across": "80"}
    parts = read(browser.post(f"{address}/preview", sent, headers=PARTS).text)
    assert "marks=80," in str(parts.by_id("drawings").all("image")[0].attributes)
    assert browser.document(project_id) == before
    parts = read(press(browser, project_id, typed={"look.photo.upper_left.across": "80"}, headers=PARTS).text)
    page = browser.get(address)
    for part in parts.all("hx-partial"):
        name = part.attributes["hx-target"].removeprefix("#")
        assert part.by_id(name).markup() == page.by_id(name).markup(), name


@pytest.mark.parametrize(
    ("path", "text", "says"),
    [
        ("look.mat_colour", "red", "Enter a colour"),
        ("look.mat_colour", "url(#x)", "Enter a colour"),
        ("look.wood_colour", "#12", "Enter a colour"),
        ("look.finish", "x" * 61, "Enter at most 60 characters"),
        ("look.eye_line", "tall", "Enter a length"),
        ("look.eye_line", "9000 mm", "Enter 1 mm to 5000 mm"),
    ],
)
def test_what_cannot_be_taken_is_kept_with_a_sentence(
    browser: Browser, project_id: str, path: str, text: str, says: str
) -> None:
    before = look(browser, project_id)
    answer = press(browser, project_id, typed={path: text})
    assert answer.status_code == 422 and says in answer.text
    assert look(browser, project_id) == before


# --- the photo


def test_a_photo_is_taken_in_marked_and_shown_in_the_frame(browser: Browser, project_id: str) -> None:
    answer = send(browser, project_id, photo_bytes())
    assert answer.status_code == 303 and answer.headers["location"].endswith("/look#photo")
    photo = look(browser, project_id)["photo"]
    assert (photo["across"], photo["up"], photo["upper_left"]) == (640, 480, {"across": 64, "down": 48})
    page = page_of(browser, project_id)
    picture, _in_corner = page.by_id("drawings").all("image")
    straight = browser.client.get(picture.attributes["xlink:href"])
    assert straight.headers["content-type"] == "image/jpeg"
    size = Image.open(io.BytesIO(straight.content)).size
    assert size[0] / size[1] == pytest.approx(1.4, rel=0.01)
    assert len(page.by_id("marks").all("circle")) == 4


def test_marks_that_nobody_has_placed_say_nothing_of_the_proportion(browser: Browser, project_id: str) -> None:
    send(browser, project_id, photo_bytes())
    for _ in range(4):
        page = page_of(browser, project_id)
        assert "Put the four marks on the corners" in page.by_id("implied").text
        assert "implies" not in page.by_id("implied").text
        assert not any(word in page.by_id("findings").text for word in ("wider for its height", "narrower"))
        press(browser, project_id, "turn-photo")
    press(browser, project_id, typed={"look.photo.lower_left.across": "60"})
    assert "The photo says" in page_of(browser, project_id).by_id("implied").text


def test_marks_are_moved_by_numbers_and_by_taps(browser: Browser, project_id: str) -> None:
    send(browser, project_id, photo_bytes())
    press(browser, project_id, typed={"look.photo.lower_left.across": "10", "look.photo.lower_left.down": "470"})
    assert look(browser, project_id)["photo"]["lower_left"] == {"across": 10, "down": 470}
    page = page_of(browser, project_id)
    base = sent_by(page)["base"]
    address = f"{frame_at(browser, project_id)}/photo/tap"
    answer = browser.post(address, {"corner": "upper_right", "tap.x": "310", "tap.y": "5", "base": base})
    assert answer.status_code == 303
    assert look(browser, project_id)["photo"]["upper_right"] == {"across": 620, "down": 10}


@pytest.mark.parametrize(
    "sent",
    [{}, {"corner": "middle", "tap.x": "1", "tap.y": "1"}, {"corner": "upper_left", "tap.x": "-1", "tap.y": "x"}],
)
def test_a_tap_that_says_nothing_moves_nothing(browser: Browser, project_id: str, sent: dict[str, str]) -> None:
    send(browser, project_id, photo_bytes())
    before = look(browser, project_id)
    browser.post(f"{frame_at(browser, project_id)}/photo/tap", sent | {"base": "2"})
    assert look(browser, project_id) == before


def test_the_picture_can_be_turned_and_taken_out(browser: Browser, project_id: str) -> None:
    send(browser, project_id, photo_bytes())
    before = look(browser, project_id)["photo"]
    press(browser, project_id, "turn-photo")
    after = look(browser, project_id)["photo"]
    assert after["upper_left"] == before["upper_right"] and after["lower_left"] == before["upper_left"]
    press(browser, project_id, "remove-photo")
    assert "photo" not in look(browser, project_id)
    assert not page_of(browser, project_id).by_id("drawings").all("image")


def test_marks_that_are_no_corners_are_said_and_nothing_is_shown_of_them(browser: Browser, project_id: str) -> None:
    send(browser, project_id, photo_bytes())
    press(browser, project_id, typed={"look.photo.lower_right.across": "70", "look.photo.lower_right.down": "50"})
    page = page_of(browser, project_id)
    assert "Mark the corners clockwise, from the upper left" in page.by_id("implied").text
    assert not page.by_id("drawings").all("image")


def test_a_proportion_that_is_not_the_tapes_is_said(browser: Browser, project_id: str) -> None:
    send(browser, project_id, photo_bytes())
    press(browser, project_id, typed={"look.photo.lower_left.across": "66"})
    assert (
        "wider for its height" in page_of(browser, project_id).by_id("findings").text
        or "narrower" in page_of(browser, project_id).by_id("findings").text
    )


def test_no_address_hands_out_the_original(browser: Browser, project_id: str, data_dir: Any) -> None:
    sent = photo_bytes() + b"SENT AS IT WAS"
    send(browser, project_id, sent)
    photo_id = look(browser, project_id)["photo"]["id"]
    assert any(path.read_bytes() == sent for path in data_dir.rglob("originals/*"))
    at = f"/projects/{project_id}/photos"
    for path in (f"{photo_id}.jpg", f"originals/{photo_id}.jpg", f"originals%2f{photo_id}.jpg", f"{photo_id}.original"):
        assert b"SENT AS IT WAS" not in browser.client.get(f"{at}/{path}").content, path


def test_a_copied_project_has_the_photo_and_a_deleted_one_shows_none(browser: Browser, project_id: str) -> None:
    send(browser, project_id, photo_bytes())
    photo_id = look(browser, project_id)["photo"]["id"]
    copy_id = browser.post(f"/projects/{project_id}/copy", {}).headers["location"].rsplit("/", 1)[1]
    assert browser.client.get(f"/projects/{copy_id}/photos/{photo_id}.jpg").status_code == 200
    browser.post(f"/projects/{project_id}/delete")
    assert browser.client.get(f"/projects/{project_id}/photos/{photo_id}.jpg").status_code == 404


def test_an_imported_project_without_its_photo_still_opens(browser: Browser, project_id: str) -> None:
    send(browser, project_id, photo_bytes())
    exported = browser.client.get(f"/projects/{project_id}/project.json").content
    answer = browser.post("/projects/import", files={"file": ("x.json", exported, "application/json")})
    other = answer.headers["location"].rsplit("/", 1)[1]
    page = page_of(browser, other)
    picture, _in_corner = page.by_id("drawings").all("image")
    assert browser.client.get(picture.attributes["xlink:href"]).status_code == 404


# --- hostile uploads


@pytest.mark.parametrize(
    "content",
    [b"", b"<svg xmlns='http://www.w3.org/2000/svg'><script>1</script></svg>", b"GIF89a", b"\xff\xd8\xff\xe0" * 50],
    ids=["nothing", "svg", "gif", "broken"],
)
def test_what_is_no_photo_is_refused_in_words_and_not_kept(
    browser: Browser, project_id: str, content: bytes, data_dir: Any
) -> None:
    answer = send(browser, project_id, content, name="../../evil.jpg")
    assert answer.status_code == 422
    assert "hoose a" in answer.text or "once more" in answer.text
    assert "photo" not in look(browser, project_id)
    assert not list(data_dir.rglob("*.jpg"))


def test_a_name_from_outside_names_no_file(browser: Browser, project_id: str, data_dir: Any) -> None:
    send(browser, project_id, photo_bytes(), name="../../../evil<script>.php", kind="text/html")
    photo_id = look(browser, project_id)["photo"]["id"]
    assert {path.name for path in data_dir.rglob("*.jpg")} == {f"{photo_id}.jpg"}
    assert not [path for path in data_dir.rglob("*") if "evil" in path.name]


def test_a_photo_may_be_larger_than_a_page_but_not_without_end(browser: Browser, project_id: str) -> None:
    noise = Image.effect_noise((1500, 1100), 90).convert("RGB")
    written = io.BytesIO()
    noise.save(written, "PNG")
    assert len(written.getvalue()) > 1_000_000
    assert send(browser, project_id, written.getvalue()).status_code == 303
    answer = send(browser, project_id, b"x" * (PHOTO_LIMIT_BYTES + 1))
    assert answer.status_code == 413


def test_sending_photos_without_end_is_slowed_down(browser: Browser, project_id: str) -> None:
    answers = [send(browser, project_id, b"x").status_code for _ in range(RATES["photo"].tries + 1)]
    assert answers[0] == 422 and answers[-1] == 429


@pytest.mark.parametrize(
    "query",
    [
        "",
        "marks=1,2,3&ratio=1.0",
        "marks=1,2,3,4,5,6,7,8,9&ratio=1.0",
        "marks=a,b,c,d,e,f,g,h&ratio=1.0",
        "marks=0,0,99,0,99,99,0,99&ratio=0.0",
        "marks=0,0,99,0,99,99,0,99&ratio=nan",
        "marks=0,0,99,0,99,99,0,99&ratio=999.9",
    ],
)
def test_a_straight_picture_of_nonsense_is_not_there(browser: Browser, project_id: str, query: str) -> None:
    send(browser, project_id, photo_bytes())
    photo_id = look(browser, project_id)["photo"]["id"]
    assert browser.client.get(f"/projects/{project_id}/photos/{photo_id}/straight.jpg?{query}").status_code == 404


def test_marks_out_of_turn_give_a_sentence_not_a_crash(browser: Browser, project_id: str) -> None:
    send(browser, project_id, photo_bytes())
    photo_id = look(browser, project_id)["photo"]["id"]
    address = f"/projects/{project_id}/photos/{photo_id}/straight.jpg?marks=0,0,0,0,0,0,0,0&ratio=1.0"
    answer = browser.client.get(address)
    assert answer.status_code == 422 and "Mark the corners clockwise" in answer.text


def test_the_colour_of_the_wall_is_taken_from_a_photo_of_it_that_is_not_kept(browser: Browser, project_id: str) -> None:
    written = io.BytesIO()
    image = Image.new("RGB", (400, 300), "#112233")
    image.paste("#c8b48c", (60, 40, 340, 260))
    image.save(written, "PNG")
    before, address = look(browser, project_id), f"{frame_at(browser, project_id)}/photo/wall"
    answer = browser.post(address, files={"photo": ("wall.png", written.getvalue(), "image/png")})
    assert answer.status_code == 303
    after = look(browser, project_id)
    assert after["wall_colour"] == "#c8b48c" and after.get("photo") == before.get("photo")
    for content in (b"", b"no photo"):
        assert browser.post(address, files={"photo": ("x.png", content, "image/png")}).status_code == 422


def test_photos_that_are_sent_at_once_lie_on_the_disk_until_their_turn(
    browser: Browser, project_id: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Fault: each was read into memory at once, 25 MB and more, and waited there."""
    read_now, waiting, most = UploadFile.read, [0], [0]

    async def counted(file: UploadFile, size: int = -1) -> bytes:
        waiting[0] += 1
        most[0] = max(most[0], waiting[0])
        return await read_now(file, size)

    def refused(sent: bytes) -> CleanPhoto:
        time.sleep(0.05)
        waiting[0] -= 1
        raise UnusablePhoto("no")

    monkeypatch.setattr(UploadFile, "read", counted)
    monkeypatch.setattr(view, "clean_photo", refused)
    with ThreadPoolExecutor() as threads:
        answers = [threads.submit(send, browser, project_id, photo_bytes()) for _ in range(4)]
    assert [answer.result().status_code for answer in answers] == [422] * 4 and most == [1]
