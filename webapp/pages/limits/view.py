"""The limits of a project, as its fields state them, and those of the shop, each from the place that holds it."""

from collections.abc import Iterable
from itertools import groupby

from fastapi import APIRouter, Request, Response

from framecalc.project.reading import MOST_VALUES
from framecalc.project.stated import FieldLimit, field_limits
from framecalc.records import Record
from framecalc.words import Words
from webapp.data.backup import DAYS, MONTHS, WEEKS
from webapp.data.decoding import MOST_KEPT_PX, PIXEL_LIMIT
from webapp.data.names import LONGEST_NAME
from webapp.data.rack import KEPT_AWAY
from webapp.data.rack_file import MOST_STICKS
from webapp.data.thinning import KEPT_DAYS
from webapp.issue.approvals import LONGEST_NOTE
from webapp.live.desk import AtDesk
from webapp.live.render import render
from webapp.pages.limits import PAGE
from webapp.server.devices import CODE_LASTS, MOST_DEVICES, WRONG_TRIES
from webapp.server.guard import BODY_LIMIT_BYTES, PHOTO_LIMIT_BYTES, ZIP_LIMIT_BYTES
from webapp.settings import HEAD_S, QUIET_S, WHOLE_S

VIEW = router = APIRouter()

SHOP: tuple[tuple[str, str], ...] = (
    ("Sticks and boards on the rack", f"{MOST_STICKS}"),
    ("Removed from the rack, to be put back", f"{KEPT_AWAY}"),
    ("Paired devices", f"{MOST_DEVICES}"),
    ("A pairing code", f"{CODE_LASTS.seconds // 60} minutes, {WRONG_TRIES} wrong tries"),
    ("Name of a revision", f"{LONGEST_NAME} characters"),
    ("A client's note", f"{LONGEST_NOTE} characters"),
    ("Revisions are never thinned for", f"{KEPT_DAYS} days"),
    ("Backups kept", f"{DAYS} days, {WEEKS} weeks, {MONTHS} months"),
    ("A form, or a project file", f"{BODY_LIMIT_BYTES // 1000:,} kB, {MOST_VALUES:,} values"),
    ("A photo", f"{PHOTO_LIMIT_BYTES // 1_000_000} MB, {PIXEL_LIMIT // 1_000_000} megapixels"),
    ("A photo is kept at", f"{MOST_KEPT_PX // 1_000_000} megapixels"),
    ("A zip to import", f"{ZIP_LIMIT_BYTES // 1_000_000:,} MB"),
    ("A browser may be silent", f"{HEAD_S} s before a request, {QUIET_S} s within one"),
    ("A request and its answer", f"{WHOLE_S} s"),
)
"""What the shop has room for, each in words."""


class LimitsShown(Record):
    """What the page shows: the limits of each part of a project, and those of the shop."""

    parts: tuple[tuple[str, tuple[FieldLimit, ...]], ...]
    words: Words
    shop: tuple[tuple[str, str], ...] = SHOP


@router.get(PAGE.path)
def page(request: Request, desk: AtDesk) -> Response:
    """Show every limit."""
    return render(request, PAGE.template, LimitsShown(parts=tuple(_parts(field_limits())), words=desk.shop().words))


def _parts(limits: Iterable[FieldLimit]) -> Iterable[tuple[str, tuple[FieldLimit, ...]]]:
    for part, found in groupby(limits, key=lambda limit: limit.part):
        yield _spaced(part), tuple(found)


def _spaced(name: str) -> str:
    words = "".join(f" {letter.lower()}" if letter.isupper() else letter for letter in name).strip()
    return f"{words[:1].upper()}{words[1:]}"
