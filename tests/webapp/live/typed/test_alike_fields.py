"""Where a measure takes the place of another one, every page keeps its fields."""

from collections.abc import Iterator

import pytest

from framecalc.project import project_document, read_project, value_at, with_value
from framecalc.project.document import Document
from webapp.live.live_page import LivePage
from webapp.live.typed.field import FieldSet
from webapp.live.typed.forms import _keeps_fields
from webapp.pages.all_pages import PAGES
from webapp.pages.projects.demos import demo


@pytest.mark.parametrize("name", ["cafe-prints.demo", "ash-relief.demo"])
def test_no_page_gets_other_fields_by_a_measure(name: str) -> None:
    document = project_document(read_project(demo(name)))
    kept = 0
    for page in (one.view for one in PAGES):
        if not isinstance(page, LivePage):
            continue
        fields, changed = _fields(page, document), document
        for path in _plain_paths(document, fields):
            changed, kept = with_value(changed, path, "7.5 mm"), kept + 1
        assert _fields(page, changed) == fields, page.name
    assert kept > 100


def _fields(page: LivePage[object], document: Document) -> FieldSet:
    return page.fields(document, str(value_at(document, "frames")[0]["id"]))


def _plain_paths(document: Document, fields: FieldSet) -> Iterator[str]:
    for path, _ in fields.items():
        if isinstance(value_at(document, path), str) and _keeps_fields(document, path, "7.5 mm", fields):
            yield path
