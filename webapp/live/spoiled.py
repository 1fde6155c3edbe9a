"""A project whose newest revision is no project: its own pages say what is wrong, and lead on."""

from collections.abc import Iterator
from itertools import islice

from starlette.requests import Request
from starlette.responses import Response

from framecalc.errors import FrameCalcError
from framecalc.project import read_project
from framecalc.records import Record
from framecalc.words import Words
from webapp.data.revisions import Revision
from webapp.live.addresses import PROJECT, REVISIONS
from webapp.live.days import written_when
from webapp.live.desk import Desk, SpoiledProject
from webapp.live.render import render, wants_parts
from webapp.live.statuses import CANNOT_TAKE
from webapp.live.trouble import trouble
from webapp.live.typed.forms import all_sentences

MOST_TRIED = 200
"""So many revisions are looked through for one that can be gone on with; the list of revisions has the rest."""


class SpoiledShown(Record):
    """What the page shows; `good` is the newest revision that can be gone on with, 0 where there is none."""

    called: str
    sentence: str
    number: int
    good: int
    good_when: str
    project_at: str
    revisions_at: str
    words: Words = Words.US


def spoiled(request: Request, desk: Desk, error: SpoiledProject) -> Response:
    """Say what is wrong with the newest revision, and offer the last good one."""
    if wants_parts(request):
        return trouble(request, error.sentence, status=CANNOT_TAKE)
    head = desk.store.head(error.project_id)
    good = next(_usable(desk, error), None)
    shown = SpoiledShown(
        called=str(head.document.get("name", error.project_id)),
        sentence=all_sentences(error.reason),
        number=error.number,
        good=good.number if good else 0,
        good_when=written_when(good.saved.when) if good else "",
        project_at=PROJECT(project_id=error.project_id),
        revisions_at=REVISIONS(project_id=error.project_id),
        words=desk.shop().words,
    )
    return render(request, "trouble/spoiled", shown, status=CANNOT_TAKE)


def _usable(desk: Desk, error: SpoiledProject) -> Iterator[Revision]:
    """The revisions before the spoiled one that are projects, newest first."""
    for revision in islice(desk.store.revisions(error.project_id, before=error.number), MOST_TRIED):
        try:
            read_project(revision.document)
        except FrameCalcError:
            continue
        yield revision
