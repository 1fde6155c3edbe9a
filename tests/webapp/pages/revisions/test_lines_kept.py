"""What the list says of a revision is told once of each file, and anew as soon as another file stands there."""

import json
from pathlib import Path
from typing import Any

from framecalc.words import Words
from webapp.data.finding import saved_in
from webapp.data.store import Store
from webapp.pages.revisions.shown import RevisionLine, revision_lines

DEMO = Path(__file__).parents[4] / "framecalc/demos/cafe-prints.demo.json"


def listed(store: Store, project_id: str) -> list[RevisionLine]:
    _, saved = saved_in(store.folder(project_id))
    return list(revision_lines(store, tuple(saved), words=Words.US))


def test_a_line_is_that_of_the_files_as_they_stand(tmp_path: Path) -> None:
    store = Store(tmp_path / "data")
    document: dict[str, Any] = json.loads(DEMO.read_text("utf-8"))
    project_id = store.create(document)
    store.change(project_id, lambda head: head.document | {"note": "for the hall"}, tab="a")
    first = listed(store, project_id)
    assert [len(line.changes) for line in first] == [1, 0] and listed(store, project_id) == first
    older = store.folder(project_id) / "r000001.json"
    older.write_text(json.dumps(json.loads(older.read_text("utf-8")) | {"note": "for the bar, once"}), "utf-8")
    assert "for the bar, once" in listed(store, project_id)[0].changes[0]
    store.close()
