"""Projects that are shared with clients: a priced one with a photo, and its links."""

import io
from dataclasses import dataclass
from functools import cache
from typing import Any

import httpx
from PIL import Image

from webapp.data.photos import Photos, first_corners
from webapp.data.pictures import clean_photo
from webapp.issue.issued import Share
from webapp.issue.issuing import ShareWish, issue
from webapp.issue.shares import make_share
from webapp.pages.projects.demos import demo

SHOP = "shop.test"
"""What the shop computer is called in the network."""

SECRETS = ("private note", "overhead-secret", "Mrs Private", "rate 61.37")
"""Words that stand in the project and that no client may ever read."""


@cache
def photo_bytes() -> bytes:
    """A photo as a phone sends it, the same in all tests."""
    written = io.BytesIO()
    Image.effect_noise((640, 480), 60).convert("RGB").save(written, "JPEG")
    return written.getvalue()


@dataclass
class Job:
    """A project on the desk of a running server."""

    app: Any
    project_id: str

    @property
    def desk(self) -> Any:
        return self.app.state.desk

    def document(self) -> dict[str, Any]:
        document: dict[str, Any] = self.desk.store.head(self.project_id).document
        return document

    def save(self, document: dict[str, Any]) -> None:
        self.desk.store.change(self.project_id, lambda _: document, tab="")

    def share(self, *, days: int = 0, once: str = "", **wish: Any) -> tuple[str, Share]:
        """Make a link; returns its secret and the share."""
        opened = self.desk.open(self.project_id)
        wanted, shelf = ShareWish(**{"for_whom": "Ada"} | wish), self.app.state.shelf
        made = make_share(
            shelf,
            project_id=self.project_id,
            inputs=opened.document,
            issued=issue(self.desk, opened, wanted, now=shelf.clock()),
            shows_price=wanted.shows_price,
            shows_photo=wanted.shows_photo,
            days=days,
            once=once,
        )
        return made.secret, made.share


def priced(document: dict[str, Any]) -> dict[str, Any]:
    """A project with a quote whose every number a client must not see, except the price."""
    items = [
        {"id": "w1", "name": "wood, Mrs Private", "group": "wood", "measure": "each frame", "price": "12"},
        {"id": "h1", "name": "hours at rate 61.37", "group": "work", "measure": "hour, each frame", "price": "61.37"},
    ]
    terms = {"margin": "41.5", "overhead": "13.7", "tax": "8", "tax_name": "sales tax", "deposit": "50"}
    return document | {
        "name": "Mrs Private, overhead-secret",
        "note": "private note: difficult customer",
        "quote": {"terms": terms, "items": items, "note": "Ready in three weeks."},
    }


def start_job(app: Any, name: str = "cafe-prints.demo") -> Job:
    """A priced project with a photo."""
    document = priced(demo(name))
    project_id = app.state.desk.store.create(document)
    photo = clean_photo(photo_bytes())
    Photos(app.state.desk.store).keep(project_id, photo)
    job = Job(app, project_id)
    corners = first_corners(photo.across, photo.up)
    document["frames"][0]["look"]["photo"] = {"id": photo.photo_id, "across": photo.across, "up": photo.up, **corners}
    job.save(document)
    return job


def yes(far: httpx.Client, secret: str, name: str = "Ada Client", note: str = "") -> httpx.Response:
    """A client says yes, with a name and a note."""
    return far.post(f"/view/{secret}/approve", data={"name": name, "note": note})
