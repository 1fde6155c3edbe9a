"""A revision is read and planned once, and never handed out for another one: not after a save, an undo, a deletion."""

import json
import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from keeping import require_unchanged

from framecalc.project import with_value
from webapp.data.errors import NoSuchProject
from webapp.data.rack import RackFolder
from webapp.data.store import Store
from webapp.jobs.running import Jobs
from webapp.live.desk import Desk, new_id

DEMO = Path(__file__).parents[3] / "framecalc/demos/cafe-prints.demo.json"


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    jobs, store = Jobs(tmp_path / "jobs"), Store(tmp_path / "data")
    desk = Desk(store=store, jobs=jobs, rack=RackFolder(tmp_path / "data", new_id=new_id))
    yield desk
    require_unchanged(desk)
    store.close()
    jobs.close()


@pytest.fixture
def project_id(desk: Desk) -> str:
    """A project of three frames."""
    document: dict[str, Any] = json.loads(DEMO.read_text("utf-8"))
    (frame,) = document["frames"]
    document["frames"] = [frame | {"id": f"f{number}", "name": f"Print {number}"} for number in (1, 2, 3)]
    return desk.store.create(document | {"assumed": []})


def file_of(desk: Desk, project_id: str, number: int) -> Path:
    return desk.store.folder(project_id) / f"r{number:06d}.json"


def saved(desk: Desk, project_id: str, path: str, text: str, *, tab: str = "a") -> None:
    """Save one changed field as a page does."""
    desk.change(project_id, lambda head: with_value(head.document, path, text), tab=tab)


def names(desk: Desk, project_id: str) -> list[str]:
    """The names of the frames, as read and as planned."""
    opened = desk.open(project_id)
    names = [frame.name for frame in opened.project.frames]
    assert [plan.frame.name for plan in opened.plan.frames.values()] == names
    assert [frame["name"] for frame in opened.document["frames"]] == names
    assert {plan.project.saved for plan in opened.plan.frames.values()} == {opened.revision.saved}
    return names


def test_a_revision_is_read_and_planned_once(desk: Desk, project_id: str) -> None:
    assert desk.open(project_id) is desk.open(project_id)
    assert desk.open(project_id) is desk.open_revision(project_id, 1)


def test_a_save_is_seen_at_once_and_plans_only_what_it_changes(desk: Desk, project_id: str) -> None:
    before = desk.open(project_id)
    before.plan.compute_all()
    saved(desk, project_id, "frames.f2.name", "Other")
    after = desk.open(project_id)
    assert names(desk, project_id) == ["Print 1", "Other", "Print 3"]
    assert after.project.frames[0] is before.project.frames[0]
    assert after.plan.frames["f1"].settled is before.plan.frames["f1"].settled
    assert "settled" not in vars(after.plan.frames["f2"])
    assert desk.open_revision(project_id, 1) is before


def test_a_save_that_changes_the_shop_plans_every_frame_anew(desk: Desk, project_id: str) -> None:
    desk.open(project_id).plan.compute_all()
    saved(desk, project_id, "shop.kerf", "5 mm")
    for plan in desk.open(project_id).plan.frames.values():
        assert plan.project.shop.kerf.text == "5 mm"
        assert "settled" not in vars(plan)


def test_a_revision_saved_after_another_is_what_its_file_says(desk: Desk, project_id: str) -> None:
    saved(desk, project_id, "frames.f2.section.face_width", "1 in")
    kept = desk.open(project_id)
    desk.kept.drop(project_id)
    anew = desk.open(project_id)
    assert anew is not kept
    assert (anew.project, anew.document, anew.plan.record()) == (kept.project, kept.document, kept.plan.record())


def test_two_tabs_see_what_either_saved(desk: Desk, project_id: str) -> None:
    saved(desk, project_id, "frames.f1.name", "Of a", tab="a")
    saved(desk, project_id, "frames.f2.name", "Of b", tab="b")
    saved(desk, project_id, "frames.f3.name", "Of a too", tab="a")
    assert names(desk, project_id) == ["Of a", "Of b", "Of a too"]


def test_undo_and_redo_are_seen_at_once(desk: Desk, project_id: str) -> None:
    saved(desk, project_id, "frames.f1.name", "Other")
    desk.open(project_id)
    desk.store.undo(project_id, base=2, tab="a")
    assert names(desk, project_id)[0] == "Print 1"
    desk.store.redo(project_id, base=3, tab="a")
    assert names(desk, project_id)[0] == "Other"


def test_an_older_revision_brought_back_is_seen_at_once(desk: Desk, project_id: str) -> None:
    saved(desk, project_id, "frames.f1.name", "Other")
    desk.open(project_id)
    desk.store.restore(project_id, 1, base=2, tab="a")
    assert names(desk, project_id)[0] == "Print 1"


def test_nothing_is_kept_of_a_deleted_project(desk: Desk, project_id: str) -> None:
    desk.open(project_id)
    desk.delete(project_id)
    assert desk.kept.all() == ()
    with pytest.raises(NoSuchProject):
        desk.open(project_id)
    desk.store.undelete(project_id)
    assert names(desk, project_id) == ["Print 1", "Print 2", "Print 3"]


def test_a_project_deleted_past_the_desk_is_not_handed_out(desk: Desk, project_id: str) -> None:
    desk.open(project_id)
    desk.store.delete(project_id)
    with pytest.raises(NoSuchProject):
        desk.open(project_id)


def test_a_file_that_another_one_takes_the_place_of_is_read_anew(desk: Desk, project_id: str, tmp_path: Path) -> None:
    desk.open(project_id)
    file = file_of(desk, project_id, 1)
    other = tmp_path / "other.json"
    other.write_text(file.read_text("utf-8").replace("Print 1", "Print 9"), "utf-8")
    os.utime(other, ns=(file.stat().st_atime_ns, file.stat().st_mtime_ns))
    other.replace(file)
    assert names(desk, project_id)[0] == "Print 9"


def test_a_damaged_newest_revision_is_passed_over_and_not_kept(desk: Desk, project_id: str) -> None:
    saved(desk, project_id, "frames.f1.name", "Other")
    desk.open(project_id)
    whole = file_of(desk, project_id, 2).read_bytes()
    file_of(desk, project_id, 2).write_bytes(whole[:100])
    assert names(desk, project_id)[0] == "Print 1"
    assert desk.open(project_id).revision.damaged == (2,)
    assert desk.open_revision(project_id, 1).revision.damaged == ()
    file_of(desk, project_id, 2).write_bytes(whole)
    assert names(desk, project_id)[0] == "Other"
