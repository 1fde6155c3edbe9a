"""Files to download: drawings at the true size of their paper, and tables for a spreadsheet.

A file is called by its job, its frame, what it shows and its paper: `hall-pictures-oak-front-a4.svg`.
"""

import re
from collections.abc import Iterable
from unicodedata import normalize

from fastapi import Response

from framecalc.drawing.sheet import PAPERS, usual_paper
from framecalc.project import Frame, Project
from framecalc.units import Unit
from webapp.data.errors import StoreError

FILE_POLICY = "default-src 'none'; style-src 'unsafe-inline'; sandbox"
"""A drawing opened by itself runs nothing, whatever it holds."""


LEVEL_PAPERS = (("a4", "A4"), ("a3", "A3"), ("letter", "Letter"), ("tabloid", "Tabloid"))
"""The papers that plans of cuts are drawn on, and their words."""

LONGEST_NAME = 40
"""How many letters of a name go into that of a file."""


class NoSuchDrawing(StoreError):
    """There is no drawing, or no paper, of this name."""


def paper_named(paper: str, *, unit: Unit) -> str:
    """A paper by its name; without one that which goes with the unit of the job.

    Raises:
        NoSuchDrawing: there is none.
    """
    paper = paper or usual_paper(unit)
    if paper not in PAPERS:
        raise NoSuchDrawing(f"Choose a paper: {', '.join(PAPERS)}")
    return paper


def papers_first(papers: Iterable[tuple[str, str]], *, unit: Unit) -> tuple[tuple[str, str], ...]:
    """Papers with their words, that which goes with the unit of the job before all others."""
    usual = usual_paper(unit)
    return tuple(sorted(papers, key=lambda paper: not paper[0].startswith(usual)))


def job_file(project: Project, *what: str) -> str:
    """What a file of the whole job is called, without its ending."""
    return "-".join(filter(None, map(plain_name, (project.name, *what))))


def frame_file(project: Project, frame: Frame, *what: str) -> str:
    """What a file of one frame is called, without its ending.

    Frames of one name are told apart by their ids; a frame that is called as its job is says so once.
    """
    name = plain_name(frame.name)
    alike = sum(plain_name(other.name) == name for other in project.frames)
    called = name if name != plain_name(project.name) else ""
    return job_file(project, called, *([frame.id] if alike > 1 or not name else []), *what)


def plain_name(text: str) -> str:
    """A name in small plain letters, digits and hyphens, as every disk and every header takes it.

    >>> plain_name("Café, wall 2"), plain_name("../x"), plain_name("絵")
    ('cafe-wall-2', 'x', '')
    """
    plain = normalize("NFKD", text).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain)[:LONGEST_NAME].strip("-")


def drawing_file(svg: str, *, name: str) -> Response:
    """Answer with a drawing as a file of this name."""
    return _file(svg, f"{name}.svg", media_type="image/svg+xml", headers={"content-security-policy": FILE_POLICY})


def calendar_answer(text: bytes, *, name: str) -> Response:
    """Answer with a calendar as a file of this name."""
    return _file(text, f"{name}.ics", media_type="text/calendar; charset=utf-8", headers={})


def table_file(text: str, *, name: str) -> Response:
    """Answer with a table as a file of this name."""
    return _file(text, f"{name}.csv", media_type="text/csv; charset=utf-8", headers={})


def machine_file(content: str | bytes, *, name: str, media_type: str) -> Response:
    """Answer with a file for a machine, a printer or another program; the name has its ending."""
    return _file(content, name, media_type=media_type, headers={"content-security-policy": FILE_POLICY})


def as_file(name: str) -> dict[str, str]:
    """The headers by which a browser keeps an answer as a file of this name."""
    return {"content-disposition": f'attachment; filename="{name}"', "cache-control": "no-cache"}


def _file(content: str | bytes, name: str, *, media_type: str, headers: dict[str, str]) -> Response:
    return Response(content, media_type=media_type, headers=headers | as_file(name))
