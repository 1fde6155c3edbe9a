"""A demo project as it is taken: with its picture, its prices, its cutting plans and a client's link.

A file beside that of a demo says which pictures and prices go with it. They come in when it is taken, so that the file
itself stays a plain project, and prices are of the day.
"""

import json
from collections.abc import Iterable
from copy import deepcopy
from datetime import date
from functools import partial
from io import BytesIO
from pathlib import Path

from PIL import Image

import framecalc
from framecalc.plan.price.items import missing_items
from framecalc.project import items_at, part_of, project_document, read_project, text_at
from framecalc.project.document import Document
from framecalc.project.price import Quote
from framecalc.records import Record
from webapp.data.errors import NotWritten
from webapp.data.photos import CleanPhoto, put_beside
from webapp.issue.issued import Shelf
from webapp.issue.issuing import ShareWish, issue
from webapp.issue.shares import make_share
from webapp.jobs import sheet_search, timber_search
from webapp.live.desk import Desk, new_id
from webapp.pages.projects.demos import demo

_FOLDER = Path(framecalc.__file__).parent / "demos"
RIM_PX = 24
"""How much of the table each picture shows around the artwork; `tests/demo_pictures.py` draws them so."""

OPEN_DAYS = 30


class DemoExtras(Record):
    """What goes with a demo: whom it is for, pictures by frame, what things cost, and how much of them it takes."""

    client: str
    pictures: dict[str, str]
    on_wall: bool
    terms: Document
    prices: dict[str, str]
    amounts: dict[str, str]


def take(desk: Desk, shelf: Shelf, name: str) -> str:
    """Start a project from a demo, with all that goes with it or not at all; returns its id.

    Raises:
        NoSuchProject: there is no demo of this name.
        NotWritten: the disk refused.
    """
    document = demo(name)
    beside = DemoExtras(**json.loads((_FOLDER / f"{name.removesuffix('.demo')}.beside.json").read_text("utf-8")))
    photos = {frame_id: _photo(picture) for frame_id, picture in beside.pictures.items()}
    project_id = desk.store.create(_furnished(document, beside, photos), fill=partial(_hang, photos.values()))
    try:
        _plan_the_cuts(desk, project_id)
        _make_link(desk, shelf, project_id, for_whom=beside.client)
    except NotWritten:
        desk.store.withdraw(project_id)
        raise
    return project_id


def _hang(photos: Iterable[CleanPhoto], folder: Path) -> None:
    for photo in photos:
        put_beside(folder, photo)


def _photo(picture: str) -> CleanPhoto:
    content = (_FOLDER / "pictures" / f"{picture}.jpg").read_bytes()
    across, up = Image.open(BytesIO(content)).size
    return CleanPhoto(content=content, across=across, up=up, original=content, ending="jpg")


def _furnished(document: Document, beside: DemoExtras, photos: dict[str, CleanPhoto]) -> Document:
    """The demo with its client, its pictures and its prices, as a file is written."""
    document = deepcopy(document) | {"client": beside.client}
    for frame in items_at(document, "frames"):
        part_of(frame, "look").update(photo=_marked(photos[text_at(frame, "id")]), on_wall=beside.on_wall)
    items = missing_items(read_project(document), Quote(), new_id=new_id)
    priced = [_priced(item.model_dump(mode="json", exclude_none=True), beside) for item in items]
    return project_document(read_project(document | {"quote": {"terms": beside.terms, "items": priced}}))


def _priced(item: Document, beside: DemoExtras) -> Document:
    """An item with its price of today, or with the hours that it takes."""
    name = text_at(item, "name")
    if name in beside.prices:
        return item | {"price": beside.prices[name], "priced_on": date.today().isoformat()}
    return item | {"amount": beside.amounts[name]}


def _marked(photo: CleanPhoto) -> Document:
    """The photo with its marks on the corners of the artwork."""
    right, low = photo.across - RIM_PX, photo.up - RIM_PX
    corners = {
        "upper_left": (RIM_PX, RIM_PX),
        "upper_right": (right, RIM_PX),
        "lower_right": (right, low),
        "lower_left": (RIM_PX, low),
    }
    marks = {corner: {"across": x, "down": y} for corner, (x, y) in corners.items()}
    return {"id": photo.photo_id, "across": photo.across, "up": photo.up, **marks}


def _plan_the_cuts(desk: Desk, project_id: str) -> None:
    """Start the searches, which end while the job page is looked at."""
    plan = desk.open(project_id).plan
    timber_search.start_jobs(desk.jobs, plan, project=project_id)
    sheet_search.start_jobs(desk.jobs, plan, project=project_id)


def _make_link(desk: Desk, shelf: Shelf, project_id: str, *, for_whom: str) -> None:
    opened = desk.open(project_id)
    issued = issue(desk, opened, ShareWish(for_whom=for_whom), now=shelf.clock())
    make_share(
        shelf,
        project_id=project_id,
        inputs=opened.document,
        issued=issued,
        shows_price=True,
        shows_photo=True,
        days=OPEN_DAYS,
        once="",
    )
