"""What a revision changed, in the words of the pages."""

from copy import deepcopy
from typing import Any

import pytest

from webapp.data.revisions import Document
from webapp.pages.projects.demos import demo
from webapp.pages.revisions.shown import changes_between


@pytest.fixture
def before() -> Document:
    return demo("cafe-prints.demo")


def changed(before: Document, path: str, value: Any) -> tuple[str, ...]:
    after = deepcopy(before)
    *way, last = path.split(".")
    place: Any = after
    for name in way:
        place = place[int(name) if isinstance(place, list) else name]
    place[last] = value
    return changes_between(before, after)


@pytest.mark.parametrize(
    ("path", "value", "said"),
    [
        ("frames.0.section.face_width", "30 mm", "Face width: 22 mm → 30 mm"),
        ("frames.0.corner.gap", "0.3 mm", "→ 0.3 mm"),
        ("timber.spares", 2, "→ 2"),
        ("frames.0.corner.tests", [], "one of the tests taken out"),
        ("timber.done", ["a", "b"], "done: 0 → 2"),
    ],
)
def test_a_change_is_called_what_its_page_calls_it(before: Document, path: str, value: Any, said: str) -> None:
    assert any(said in one for one in changed(before, path, value))
    assert not any("frames" in one or "corner gap" in one for one in changed(before, path, value))


def test_nothing_changed_says_nothing(before: Document) -> None:
    assert changes_between(before, deepcopy(before)) == ()
