"""The whole way of a client's link in a real browser, and everybody who tries another door."""

import io
import json
from collections.abc import Callable, Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from typing import Any
from urllib.parse import urlsplit

import pytest
from every_route import every_path, kept
from PIL import Image, ImageDraw
from serving import serving
from tablet import LANDSCAPE, PHONE, field, press, settled, take_demo

from framecalc.homography import square_onto, through

CORNERS = ((300, 200), (1300, 280), (1250, 950), (260, 1040))
NAMES = ("upper_left", "upper_right", "lower_right", "lower_left")


@pytest.fixture
def app(tmp_path: Path) -> Any:
    """A server for the network too; the browser finds every name in .test at this computer."""
    from webapp.app import create_app

    return create_app(data_dir=tmp_path / "data", names=frozenset({"shop.test"}))


@pytest.fixture
def address(app: Any) -> Iterator[str]:
    """Its address."""
    with serving(app) as found:
        yield found


def photo() -> bytes:
    """A picture of twelve bars, photographed at a slant."""
    image = Image.new("RGB", (1600, 1200), "#aa8899")
    draw, onto = ImageDraw.Draw(image), square_onto(CORNERS)
    draw.polygon([through(onto, corner) for corner in ((0, 0), (1, 0), (1, 1), (0, 1))], fill="white")
    for bar in range(12):
        left, right = bar / 12, bar / 12 + 0.05
        ends = ((left, 0.1), (right, 0.1), (right, 0.9), (left, 0.9))
        draw.polygon([through(onto, end) for end in ends], fill=("#2266aa", "#cc4433", "#339933")[bar % 3])
    written = io.BytesIO()
    image.save(written, "JPEG", quality=92)
    return written.getvalue()


def project_at(page: Any) -> str:
    """The address of the project of the page, from /projects on."""
    return "/".join(urlsplit(page.url).path.split("/")[:3])


def priced(page: Any) -> str:
    """Take a demo project and give it a price; returns where the project is."""
    take_demo(page, "cafe-prints.demo")
    here = project_at(page)
    page.goto(f"{here}/costs")
    press(page, page.get_by_role("button", name="Add an item"))
    field(page, "name").fill("Frame, all in")
    field(page, "price").fill("120")
    settled(page)
    page.locator("#price", has_text="$600.00").wait_for()
    field(page, "price").blur()
    settled(page)
    return here


def link_for(page: Any, here: str, name: str) -> str:
    page.goto(f"{here}/client")
    page.get_by_label("For", exact=True).fill(name)
    return made_link(page)


def made_link(page: Any) -> str:
    """Make a link with what the open client page says."""
    press(page, page.get_by_role("button", name="Make the link"))
    return str(page.locator("#link").input_value())


def test_from_the_link_to_the_yes_to_the_change_to_the_end(open_page: Callable[..., Any]) -> None:
    owner = open_page(LANDSCAPE)
    here = priced(owner)
    link = link_for(owner, here, "Ada")
    assert urlsplit(link).hostname == "shop.test"

    client = open_page(PHONE, scripts=False)
    client.goto(link)
    assert client.locator("h1").inner_text() == "Linocut, matted"
    assert "$600.00" in client.locator(".prices").inner_text()
    assert client.evaluate("document.documentElement.scrollWidth") <= PHONE[0]
    client.get_by_label("Your name").fill("Ada Client")
    client.get_by_label("Anything to add").fill("Lovely.")
    press(client, client.get_by_role("button", name="Approve"))
    assert "Ada Client" in client.locator("#approved").inner_text()

    owner.goto(f"{here}/client")
    assert "Ada Client" in owner.locator("#links").inner_text()
    owner.goto(here)
    field(owner, "package.mat.border").fill("70")
    field(owner, "package.mat.border").blur()
    settled(owner)

    client.reload()
    assert "Since then: outside width +12 mm; outside height +6 mm" in client.locator("#since").inner_text()
    assert "433 × 365 mm" in " ".join(client.locator("table").first.inner_text().split())
    owner.goto(f"{here}/client")
    assert "outside width +12 mm" in owner.locator("#links").inner_text()
    press(owner, owner.get_by_role("button", name="Revoke"))

    client.reload()
    assert client.locator("h1").inner_text() == "Nothing here"


def test_with_the_link_alone_no_other_page_opens(open_page: Callable[..., Any], address: str) -> None:
    owner = open_page(LANDSCAPE)
    here = priced(owner)
    link = urlsplit(link_for(owner, here, "Ada"))
    client = open_page(PHONE)
    client.goto(link.geturl())
    for path in ("/", here, f"{here}/costs", f"{here}/project.json", f"{here}/client", "/shop", "/devices"):
        answer = client.request.get(f"{address}{path}", headers={"Host": link.netloc})
        assert answer.status == 403, path
    client.goto(f"http://{link.netloc}/pair")
    assert client.get_by_role("heading", name="Pair this device").is_visible()


def test_a_tablet_is_paired_by_its_address_and_then_writes(open_page: Callable[..., Any], address: str) -> None:
    owner = open_page(LANDSCAPE)
    owner.goto("/devices")
    code = owner.locator("#code").inner_text()
    tablet = open_page(LANDSCAPE)
    port = urlsplit(address).port
    tablet.goto(f"http://shop.test:{port}/pair?code={code.replace(' ', '')}")
    tablet.get_by_label("What this device is called").fill("Bench tablet")
    press(tablet, tablet.get_by_role("button", name="Pair"))
    assert urlsplit(tablet.url).path == "/"
    card = tablet.locator("form[action='/projects/demos/maple-canvas.demo']")
    if not card.is_visible():
        tablet.get_by_text("Demo projects to learn from").tap()
    press(tablet, card.get_by_role("button"))
    field(tablet, "section.face_width").fill("3")
    field(tablet, "section.face_width").blur()
    settled(tablet)
    assert "Revision 2" in tablet.locator("#saved").inner_text()


class _OtherPage(BaseHTTPRequestHandler):
    target = ""

    def do_GET(self) -> None:
        form = f'<form method="post" action="{self.target}"><input name="name" value="Eve"><button>Go</button></form>'
        self.send_response(200)
        self.send_header("Content-Type", "text/html")
        self.end_headers()
        self.wfile.write(f"<!doctype html><title>Other</title>{form}".encode())

    def log_message(self, format: str, *args: Any) -> None:
        pass


@pytest.fixture
def other_port() -> Iterator[str]:
    """Another server on another port of the same computer."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), _OtherPage)
    thread = Thread(target=server.serve_forever)
    thread.start()
    yield f"127.0.0.1:{server.server_port}"
    server.shutdown()
    server.server_close()
    thread.join()


@pytest.mark.parametrize("name", ["127.0.0.1", "shop.test"])
def test_a_page_on_another_port_changes_nothing(
    open_page: Callable[..., Any], address: str, other_port: str, name: str
) -> None:
    owner = open_page(LANDSCAPE)
    here = priced(owner)
    link = link_for(owner, here, "Ada")
    for target in (f"{address}{here}/delete", f"{link}/approve", link.replace("shop.test", "127.0.0.1") + "/approve"):
        _OtherPage.target = target
        other = owner.context.new_page()
        other.goto(f"http://{other_port.replace('127.0.0.1', name)}/")
        with other.expect_navigation() as gone:
            other.get_by_role("button").click()
        assert gone.value.status == 403, target
        other.close()
    owner.goto(f"{here}/client")
    assert "Approved" not in owner.locator("#links").inner_text()


TRY_ALL = """async (addresses) => {
  const found = { read: [], written: [], shown: [] };
  const tried = (url, more) => fetch(url, { credentials: 'include', ...more }).then(a => a, () => null);
  for (const url of addresses) {
    if (await tried(url)) found.read.push(url);
    if (await tried(url, { method: 'PUT' }) || await tried(url, { method: 'DELETE' })) found.written.push(url);
    if (await tried(url, { method: 'POST', headers: { 'HX-Request': 'true' } })) found.written.push(url);
    await tried(url, { method: 'POST', mode: 'no-cors', body: new URLSearchParams({ name: 'Eve', do: 'save' }) });
    const image = new Image();
    image.src = url;
    if (await image.decode().then(() => true, () => false)) found.shown.push(url);
  }
  return found;
}"""


def test_a_page_on_another_port_reads_writes_and_shows_nothing_of_any_route(
    open_page: Callable[..., Any], app: Any, address: str, other_port: str, tmp_path: Path
) -> None:
    owner = open_page(LANDSCAPE)
    here, data = priced(owner), tmp_path / "data"
    secret = link_for(owner, here, "Ada").rsplit("/", 1)[1]
    owner.goto(here)
    frame_id = owner.url.split("/frames/")[1].split("/")[0]
    sent = {"name": "photo.jpg", "mimeType": "image/jpeg", "buffer": photo()}
    owner.goto(f"{here}/frames/{frame_id}/look")
    owner.locator("#file").set_input_files(sent)
    press(owner, owner.get_by_role("button", name="Take in the photo"))
    (photo_id,) = {path.stem for path in data.glob("projects/*/photos/*.jpg")}
    known = {"project_id": here.rsplit("/", 1)[1], "frame_id": frame_id, "photo_id": photo_id, "secret": secret}
    paths = every_path(app, known | {"number": "1", "name": "front", "path": "favicon.svg"})
    before = kept(data)
    # complaints of the other page are its own
    other = owner.context.browser.new_context(storage_state=owner.context.storage_state()).new_page()
    other.goto(f"http://{other_port}/")
    assert other.evaluate(TRY_ALL, [f"{address}{path}" for path in paths]) == {"read": [], "written": [], "shown": []}
    assert kept(data) == before and len(paths) > 40
    other.context.close()


# --- the file


def test_the_file_opens_without_a_network_and_without_scripts(
    open_page: Callable[..., Any], chromium: Any, tmp_path: Path
) -> None:
    owner = open_page(LANDSCAPE)
    here = priced(owner)
    link_for(owner, here, "Ada")
    with owner.expect_download() as waiting:
        owner.get_by_role("link", name="Download the file for Ada").click()
    path = tmp_path / waiting.value.suggested_filename
    waiting.value.save_as(path)
    context = chromium.new_context(offline=True, java_script_enabled=False, viewport={"width": 390, "height": 844})
    page, asked = context.new_page(), []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(path.as_uri())
    assert [url for url in asked if not url.startswith("data:")] == [path.as_uri()]
    assert page.locator("svg.drawing").first.is_visible() and "$600.00" in page.locator(".prices").inner_text()
    assert page.locator(".drawing .dimension").first.evaluate("mark => getComputedStyle(mark).stroke") != "none"
    context.close()


# --- the photo


def with_photo(page: Any) -> str:
    here = take_demo(page, "cafe-prints.demo").replace("setting-out", "look")
    page.goto(here)
    page.locator("#file").set_input_files({"name": "photo.jpg", "mimeType": "image/jpeg", "buffer": photo()})
    press(page, page.get_by_role("button", name="Take in the photo"))
    return here


def place(page: Any, name: str) -> tuple[int, int]:
    return tuple(int(field(page, f"photo.{name}.{axis}").input_value()) for axis in ("across", "down"))  # type: ignore[return-value]


def on_screen(page: Any, corner: tuple[float, float]) -> tuple[float, float]:
    box = page.locator("#marks").bounding_box()
    scale = box["width"] / 1600
    return box["x"] + corner[0] * scale, box["y"] + corner[1] * scale


def test_the_corners_are_put_by_taps_and_the_picture_is_straight(open_page: Callable[..., Any]) -> None:
    page = open_page(LANDSCAPE)
    with_photo(page)
    page.locator("#marks").scroll_into_view_if_needed()
    for name, corner in zip(NAMES, CORNERS, strict=True):
        page.locator(f"label:has([name=corner_now][value={name}])").tap()
        page.touchscreen.tap(*on_screen(page, corner))
        settled(page)
    reach = 1600 / page.locator("#marks").bounding_box()["width"]
    for name, corner in zip(NAMES, CORNERS, strict=True):
        assert place(page, name) == pytest.approx(corner, abs=reach + 1)
    assert page.request.get(page.locator("#drawings image").first.get_attribute("xlink:href")).status == 200
    page.reload()
    assert place(page, "upper_left") == pytest.approx(CORNERS[0], abs=reach + 1)


def test_marks_are_wide_enough_for_a_gloved_finger_and_open_over_the_corner(open_page: Callable[..., Any]) -> None:
    page = open_page(PHONE)
    with_photo(page)
    for across, up in (PHONE, LANDSCAPE):
        page.set_viewport_size({"width": across, "height": up})
        page.wait_for_timeout(200)
        for name in NAMES:
            mark = page.locator(f"[data-mark={name}]")
            box = mark.bounding_box()
            assert min(box["width"], box["height"]) >= 48 and max(box["width"], box["height"]) <= 60
            assert mark.evaluate("mark => getComputedStyle(mark).fill") == "none"


def test_a_mark_is_drawn_and_keeps_its_distance_from_the_finger(open_page: Callable[..., Any]) -> None:
    page = open_page(LANDSCAPE)
    with_photo(page)
    page.locator("#marks").scroll_into_view_if_needed()
    start = place(page, "lower_right")
    x, y = on_screen(page, start)
    page.mouse.move(x + 10, y + 6)
    page.mouse.down()
    page.mouse.move(x - 20, y - 14, steps=5)
    page.mouse.move(x - 40, y - 24, steps=5)
    page.mouse.up()
    settled(page)
    scale = 1600 / page.locator("#marks").bounding_box()["width"]
    assert place(page, "lower_right") == pytest.approx((start[0] - 50 * scale, start[1] - 30 * scale), abs=2)


def test_a_mark_is_moved_by_keys_and_saved(open_page: Callable[..., Any]) -> None:
    page = open_page(LANDSCAPE)
    with_photo(page)
    across, down = place(page, "upper_right")
    page.locator("[data-mark=upper_right]").focus()
    for key in ("ArrowLeft", "ArrowLeft", "ArrowDown", "Shift+ArrowLeft"):
        page.keyboard.press(key)
    page.wait_for_timeout(700)
    settled(page)
    assert place(page, "upper_right") == (across - 22, down + 1)
    page.reload()
    assert place(page, "upper_right") == (across - 22, down + 1)


def test_without_scripts_corners_are_put_by_numbers_and_by_taps(open_page: Callable[..., Any]) -> None:
    page = open_page(LANDSCAPE, scripts=False)
    with_photo(page)
    page.get_by_text("The marks in numbers").tap()
    field(page, "photo.upper_left.across").fill("300")
    press(page, page.get_by_role("button", name="Save and redraw"))
    assert place(page, "upper_left") == (300, 120)
    page.get_by_text("Without scripts: tap a corner").tap()
    page.locator("label:has([name=corner][value=lower_left])").tap()
    page.locator(".tapped").scroll_into_view_if_needed()
    box = page.locator(".tapped").bounding_box()
    assert box["width"] == 320
    with page.expect_navigation():
        page.touchscreen.tap(box["x"] + 52, box["y"] + 208)
    assert place(page, "lower_left") == pytest.approx((260, 1040), abs=5)


# --- paper


NOTE = "Ready in three weeks, if the oak comes in time. "


@pytest.mark.parametrize(("frames", "note", "shop_note"), [(1, 3, 3), (3, 41, 41), (12, 41, 3), (60, 3, 0)])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_quote_prints_on_one_page_and_nothing_is_cut_off(
    open_page: Callable[..., Any], frames: int, note: int, shop_note: int, paper: str
) -> None:
    pdfplumber = pytest.importorskip("pdfplumber")
    page = open_page(LANDSCAPE)
    document = page.request.get(f"{priced(page)}/project.json").json()
    document["frames"] = [
        {**document["frames"][0], "id": f"fr{number}", "name": f"Linocut number {number}"} for number in range(frames)
    ]
    document["assumed"] = []
    document["quote"]["note"] = NOTE * note + "The last word."
    page.goto("/shop")
    page.locator("[name=client_note]").fill(NOTE * shop_note + "The very end.")
    press(page, page.locator("#main button[value=save]").first)
    origin = {"Origin": "/".join(page.url.split("/")[:3])}
    answer = page.request.post("/projects/import", form={"pasted": json.dumps(document)}, headers=origin)
    page.goto(f"{project_at(type('At', (), {'url': answer.url}))}/quote")
    assert "fits on one sheet" in page.locator("nav").inner_text()
    with pdfplumber.open(io.BytesIO(page.pdf(format=paper, prefer_css_page_size=False))) as printed:
        assert len(printed.pages) == 1
        (sheet,) = printed.pages
        text = sheet.extract_text()
        letters = [letter for letter in sheet.chars if letter["text"].strip()]
    assert f"Linocut number {frames - 1}" in text and "Total" in text
    assert "The last word." in text and "The very end." in text
    assert min(letter["size"] for letter in letters) >= 5.5
    assert max(letter["bottom"] for letter in letters) < sheet.height - 20


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_clients_page_prints_the_wall_at_its_scale_and_no_form(open_page: Callable[..., Any], paper: str) -> None:
    """The artwork is 280 × 200 mm, so at 1:20 the picture on the wall is 14 × 10 mm; a point is 1/72 in."""
    pdfplumber = pytest.importorskip("pdfplumber")
    page = open_page(LANDSCAPE)
    look = with_photo(page)
    page.locator("label:has([name$='.look.on_wall'][value=yes])").tap()
    settled(page)
    here = look.split("/frames/")[0]
    page.goto(f"{here}/client")
    page.locator("label:has([name=price])").tap()
    page.goto(made_link(page))
    assert "prints at scale 1:20" in page.locator(".wall").inner_text()
    with pdfplumber.open(io.BytesIO(page.pdf(format=paper, prefer_css_page_size=False))) as printed:
        assert len(printed.pages) <= 2
        text = " ".join(sheet.extract_text() for sheet in printed.pages)
        images = [image for sheet in printed.pages for image in sheet.images]
    assert "Approve" not in text and "Your name" not in text and "Outside" in text
    smallest = min(images, key=lambda image: image["width"])
    found_mm = (smallest["width"] * 25.4 / 72, smallest["height"] * 25.4 / 72)
    assert found_mm == pytest.approx((14, 10), abs=0.1)
