"""All requests share the cached revisions of a desk, so no request may change them."""

from framecalc.project import project_document
from webapp.live.desk import Desk


def require_unchanged(desk: Desk) -> None:
    """Every document that the desk keeps and has handed out is still the one of its project, which is frozen."""
    for opened in (one for one in desk.kept.all() if "document" in vars(one)):
        assert opened.document == project_document(opened.project.model_copy(update={"saved": None}))
