"""Files to download: drawings at the true size of their paper, and tables for a spreadsheet."""

from fastapi import Response

from framecalc.drawing.sheet import PAPERS
from webapp.data.errors import StoreError

FILE_POLICY = "default-src 'none'; style-src 'unsafe-inline'; sandbox"
"""A drawing opened by itself runs nothing, whatever it holds."""


class NoSuchDrawing(StoreError):
    """There is no drawing, or no paper, of this name."""


def paper_named(paper: str) -> str:
    """A paper by its name.

    Raises:
        NoSuchDrawing: there is none.
    """
    if paper not in PAPERS:
        raise NoSuchDrawing(f"there is no such paper: {', '.join(PAPERS)} would do")
    return paper


def drawing_file(svg: str, *, name: str) -> Response:
    """Answer with a drawing as a file of this name."""
    return _file(svg, f"{name}.svg", media_type="image/svg+xml", headers={"content-security-policy": FILE_POLICY})


def table_file(text: str, *, name: str) -> Response:
    """Answer with a table as a file of this name."""
    return _file(text, f"{name}.csv", media_type="text/csv; charset=utf-8", headers={})


def _file(text: str, name: str, *, media_type: str, headers: dict[str, str]) -> Response:
    as_file = {"content-disposition": f'attachment; filename="{name}"', "cache-control": "no-cache"}
    return Response(text, media_type=media_type, headers=headers | as_file)
