"""The store: every revision is a file that stays, of a project that is listed, copied, deleted and brought back."""

from pathlib import Path
from typing import Any

import pytest
from stored import CAFE, home, prints, saved

from framecalc.errors import FrameCalcError, UnreadableProject
from webapp.data.errors import NoSuchProject, UnreadableFile
from webapp.data.store import Store


def test_a_revision_is_a_file_that_a_person_can_read(store: Store, data_dir: Path) -> None:
    cafe = store.create({"schema": 1, "name": "Café wall"}, tab="t1")
    text = (home(data_dir, cafe) / "r000001.json").read_text("utf-8")
    assert text == (
        '{\n  "schema": 1,\n  "name": "Café wall",\n  "saved": {\n    "revision": 1,\n'
        '    "when": "2026-03-01T09:00:00.000Z",\n    "tab": "t1",\n    "step": "new",\n    "equals": 1,\n'
        '    "redo": []\n  }\n}\n'
    )


def test_how_it_was_saved_is_no_part_of_the_project(store: Store, cafe: str) -> None:
    imported = store.create(store.head(cafe).document | {"saved": {"revision": 99}}, step="import")
    head = store.head(imported)
    assert head.document == CAFE
    assert (head.number, head.saved.step) == (1, "import")


def test_older_revisions_stay_as_they_were(store: Store, cafe: str) -> None:
    saved(store, cafe, prints(6))
    saved(store, cafe, prints(7))
    assert [revision.document["prints"] for revision in store.revisions(cafe)] == [7, 6, 5]
    assert store.revision(cafe, 2).document == prints(6)


def test_saving_what_is_there_already_writes_nothing(store: Store, cafe: str) -> None:
    assert saved(store, cafe, dict(CAFE)).number == 1
    assert len(list(store.revisions(cafe))) == 1


def test_one_and_true_are_different_in_a_file(store: Store) -> None:
    project_id = store.create({"name": "x", "turned": 1})
    assert saved(store, project_id, {"name": "x", "turned": True}).number == 2


def test_what_is_no_project_is_refused_before_the_disk_is_touched(data_dir: Path) -> None:
    store = Store(data_dir)
    with pytest.raises(FrameCalcError):
        store.create({"name": "no schema"})
    store.close()
    assert list((data_dir / "projects").iterdir()) == []


def test_a_change_that_is_no_project_is_refused_and_the_file_untouched(store: Store, cafe: str) -> None:
    def refuse(_: dict[str, Any]) -> None:
        raise UnreadableProject("“prints” is not known here", field="prints")

    store._check = refuse
    with pytest.raises(UnreadableProject, match="not known here"):
        saved(store, cafe, prints(6))
    assert store.head(cafe).document == CAFE


def test_the_project_changed_last_comes_first(store: Store) -> None:
    first, second = store.create(CAFE | {"name": "first"}), store.create(CAFE | {"name": "second"})
    assert [summary.name for summary in store.list()] == ["second", "first"]
    store.rename(first, "first again", base=1, tab="t1")
    assert [summary.project_id for summary in store.list()] == [first, second]
    assert store.list()[0].name == "first again"


def test_a_copy_starts_anew_with_what_is_there_now(store: Store, cafe: str) -> None:
    saved(store, cafe, prints(6))
    copy = store.head(store.copy(cafe, name="Bar wall"))
    assert copy.document == prints(6) | {"name": "Bar wall"}
    assert (copy.number, copy.saved.step, copy.can_undo) == (1, "copy", False)


def test_what_a_project_was_copied_from_is_what_its_first_file_says_now(store: Store, data_dir: Path) -> None:
    copy = store.create(CAFE, step="copy", origin="Bar wall, revision 2")
    first = home(data_dir, copy) / "r000001.json"
    assert store.origin(copy) == "Bar wall, revision 2" == store.origin(copy)
    first.write_text(first.read_text("utf-8").replace("Bar wall", "A café wall"), "utf-8")
    assert store.origin(copy) == "A café wall, revision 2"
    first.unlink()
    assert store.origin(copy) == ""


def test_a_deleted_project_comes_back_with_all_its_revisions(store: Store, cafe: str) -> None:
    saved(store, cafe, prints(6))
    store.delete(cafe)
    assert store.list() == ()
    assert [summary.project_id for summary in store.trashed()] == [cafe]
    with pytest.raises(NoSuchProject):
        saved(store, cafe, prints(7))
    store.undelete(cafe)
    assert store.trashed() == ()
    assert len(list(store.revisions(cafe))) == 2


def test_the_shop_profile_is_empty_until_it_is_saved(store: Store) -> None:
    assert store.read_shop() == {}
    store.shop.change(lambda _: {"unit": "in", "kerf": "1/8 in"})
    assert store.read_shop() == {"unit": "in", "kerf": "1/8 in"}


def test_a_damaged_shop_profile_is_named_and_not_taken_for_an_empty_one(store: Store, data_dir: Path) -> None:
    (data_dir / "shop.json").write_text("{")
    assert "shop.json is damaged" in store.shop.damage()
    with pytest.raises(UnreadableFile, match=r"shop\.json is damaged"):
        store.shop.change(lambda _: {})
