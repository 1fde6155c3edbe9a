"""The store and several tabs: nobody is overwritten."""

from threading import Thread
from typing import Any

import pytest
from stored import CAFE, prints, saved

from webapp.data.revisions import Conflict, Revision
from webapp.data.store import Store

pytestmark = pytest.mark.usefixtures("slow_disk")


def test_a_change_is_made_from_the_newest_revision(store: Store, cafe: str) -> None:
    saved(store, cafe, prints(6), tab="bench")
    store.change(cafe, lambda head: head.document | {"name": f"{head.document['prints']} prints"}, tab="desk")
    assert store.head(cafe).document == CAFE | {"prints": 6, "name": "6 prints"}


def test_a_change_that_finds_a_conflict_writes_nothing(store: Store, cafe: str) -> None:
    def refuse(head: Revision) -> dict[str, Any]:
        raise Conflict(current=head, base=None)

    with pytest.raises(Conflict, match="revision 1 is the newest"):
        store.change(cafe, refuse, tab="bench")
    assert store.head(cafe).number == 1
    assert saved(store, cafe, prints(6)).number == 2, "nobody is kept out by it"


@pytest.mark.parametrize("step", ["undo", "redo", "restore"])
def test_a_step_from_an_old_page_is_refused_with_both_sides_of_the_matter(store: Store, cafe: str, step: str) -> None:
    saved(store, cafe, prints(6), tab="bench")
    number = (1,) if step == "restore" else ()
    with pytest.raises(Conflict, match="revision 2 is the newest") as refusal:
        getattr(store, step)(cafe, *number, base=1, tab="desk")
    assert refusal.value.current.document == prints(6)
    assert refusal.value.base is not None
    assert refusal.value.base.document == CAFE
    assert store.head(cafe).number == 2


def test_a_tab_does_not_conflict_with_itself(store: Store, cafe: str) -> None:
    saved(store, cafe, prints(6), tab="bench")
    assert store.undo(cafe, base=1, tab="bench").number == 3


def test_one_foreign_change_among_its_own_is_a_conflict(store: Store, cafe: str) -> None:
    saved(store, cafe, prints(6), tab="bench")
    saved(store, cafe, prints(7), tab="desk")
    with pytest.raises(Conflict):
        store.undo(cafe, base=1, tab="bench")


def test_pages_without_a_tab_id_are_strangers_to_each_other(store: Store, cafe: str) -> None:
    saved(store, cafe, prints(6), tab="")
    with pytest.raises(Conflict):
        store.undo(cafe, base=1, tab="")


@pytest.mark.parametrize("base", [0, -1, 2, 99])
def test_a_base_that_never_was_is_a_conflict(store: Store, cafe: str, base: int) -> None:
    for step in (store.undo, store.redo):
        with pytest.raises(Conflict) as refusal:
            step(cafe, base=base, tab="bench")
        assert refusal.value.base is None


def test_four_threads_lose_no_update(store: Store, cafe: str) -> None:
    def work(tab: str) -> None:
        for _ in range(20):
            store.change(cafe, lambda head: head.document | {tab: head.document.get(tab, 0) + 1}, tab=tab)

    threads = [Thread(target=work, args=(tab,)) for tab in "abcd"]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert store.head(cafe).document == CAFE | {"a": 20, "b": 20, "c": 20, "d": 20}
    assert store.head(cafe).number == 1 + 4 * 20
    assert not store._project_locks, "nothing is kept of a project that nobody is writing to"


def test_a_change_to_what_is_there_already_is_not_written_again(store: Store, cafe: str) -> None:
    saved(store, cafe, prints(6), tab="bench")
    assert saved(store, cafe, prints(6), tab="desk").number == 2


def test_two_names_given_at_once_are_a_conflict_and_anything_else_is_not(store: Store, cafe: str) -> None:
    saved(store, cafe, prints(6), tab="bench")
    assert store.rename(cafe, "Bar wall", base=1, tab="desk").document == prints(6) | {"name": "Bar wall"}
    assert store.rename(cafe, "Bar wall", base=1, tab="bench").number == 3
    with pytest.raises(Conflict):
        store.rename(cafe, "Inn", base=1, tab="bench")
