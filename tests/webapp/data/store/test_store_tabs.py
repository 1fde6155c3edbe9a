"""The store and several tabs: nobody is overwritten."""

from threading import Thread

import pytest
from stored import CAFE, prints

from webapp.data.revisions import Conflict
from webapp.data.store import Store


def test_a_change_from_an_old_page_is_refused_with_both_sides_of_the_matter(store: Store, cafe: str) -> None:
    store.save(cafe, prints(6), base=1, tab="bench")
    with pytest.raises(Conflict, match="revision 2 is the newest") as refusal:
        store.save(cafe, prints(7), base=1, tab="desk")
    assert refusal.value.current.document == prints(6)
    assert refusal.value.base is not None
    assert refusal.value.base.document == CAFE
    assert store.head(cafe).number == 2


def test_a_tab_does_not_conflict_with_itself(store: Store, cafe: str) -> None:
    store.save(cafe, prints(6), base=1, tab="bench")
    assert store.save(cafe, prints(7), base=1, tab="bench").number == 3


def test_one_foreign_change_among_its_own_is_a_conflict(store: Store, cafe: str) -> None:
    store.save(cafe, prints(6), base=1, tab="bench")
    store.save(cafe, prints(7), base=2, tab="desk")
    with pytest.raises(Conflict):
        store.save(cafe, prints(8), base=1, tab="bench")


def test_pages_without_a_tab_id_are_strangers_to_each_other(store: Store, cafe: str) -> None:
    store.save(cafe, prints(6), base=1, tab="")
    with pytest.raises(Conflict):
        store.save(cafe, prints(7), base=1, tab="")


@pytest.mark.parametrize("base", [0, -1, 2, 99])
def test_a_base_that_never_was_is_a_conflict(store: Store, cafe: str, base: int) -> None:
    with pytest.raises(Conflict) as refusal:
        store.save(cafe, prints(6), base=base, tab="bench")
    assert refusal.value.base is None


@pytest.mark.parametrize("step", ["undo", "redo"])
def test_undo_and_redo_from_an_old_page_are_refused_too(store: Store, cafe: str, step: str) -> None:
    store.save(cafe, prints(6), base=1, tab="bench")
    with pytest.raises(Conflict):
        getattr(store, step)(cafe, base=1, tab="desk")


def test_four_threads_lose_no_update(store: Store, cafe: str) -> None:
    def count_one_more(tab: str) -> None:
        while True:
            head = store.head(cafe)
            changed = head.document | {tab: head.document.get(tab, 0) + 1}
            try:
                store.save(cafe, changed, base=head.number, tab=tab)
                return
            except Conflict:
                continue

    def work(tab: str) -> None:
        for _ in range(20):
            count_one_more(tab)

    threads = [Thread(target=work, args=(tab,)) for tab in "abcd"]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert store.head(cafe).document == CAFE | {"a": 20, "b": 20, "c": 20, "d": 20}
    assert store.head(cafe).number == 1 + 4 * 20


def test_two_tabs_that_make_the_same_change_do_not_conflict(store: Store, cafe: str) -> None:
    store.save(cafe, prints(6), base=1, tab="bench")
    assert store.save(cafe, prints(6), base=1, tab="desk").number == 2
