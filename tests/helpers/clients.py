"""Steps to a client's link: a priced project, a photo at a slant, the link."""

import io
from typing import Any
from urllib.parse import urlsplit

from PIL import Image, ImageDraw
from tablet import field, imported, press, settled

from framecalc.geometry.perspective import square_onto, through

CORNERS = ((300, 200), (1300, 280), (1250, 950), (260, 1040))
NAMES = ("upper_left", "upper_right", "lower_right", "lower_left")


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
    """The path of the page's project."""
    return "/".join(urlsplit(page.url).path.split("/")[:3])


def priced(page: Any) -> str:
    """Take a demo project with a price; returns where the project is."""
    item = {"id": "all", "name": "Frame, all in", "group": "work", "measure": "each frame", "price": "120"}
    return imported(page, "cafe-prints.demo", quote={"items": [item]}).split("/frames/")[0]


def priced_by_hand(page: Any) -> str:
    """The same, the price given on the page."""
    here = imported(page, "cafe-prints.demo").split("/frames/")[0]
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
    """Make a link with the values on the open client page."""
    press(page, page.get_by_role("button", name="Make the link"))
    return str(page.locator("#link").input_value())


def without_strokes(page: Any) -> None:
    """Hide the strokes of the pictures, tens of thousands: what prints is read for its letters and photos alone."""
    page.evaluate(
        "document.querySelectorAll('svg path:not(clipPath > path)').forEach(one => one.style.visibility = 'hidden')"
    )


def with_photo(page: Any) -> str:
    here = imported(page, "cafe-prints.demo").replace("setting-out", "look")
    page.goto(here)
    page.locator("#file").set_input_files({"name": "photo.jpg", "mimeType": "image/jpeg", "buffer": photo()})
    press(page, page.get_by_role("button", name="Add the photo"))
    return here
