"""Thinning removes what its rule says, and nothing that anybody may want to come back to."""

from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as some
from stored import CAFE, anything, home, prints, saved

from webapp.data.errors import NotWritten
from webapp.data.store import Store
from webapp.data.thinning import KEPT_DAYS, Used

START = datetime(2026, 1, 5, 9, tzinfo=UTC)


class Clock:
    """A clock that is set by hand."""

    now = START

    def __call__(self) -> datetime:
        return self.now


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def store(data_dir: Path, clock: Clock) -> Iterator[Store]:
    store = Store(data_dir, check=anything, check_shop=anything, clock=clock)
    yield store
    store.close()


@pytest.fixture
def worked(store: Store, clock: Clock) -> str:
    """Ten revisions on each of three days: 1 to 10, 11 to 20, 21 to 30; then 60 days on."""
    project_id = store.create(CAFE)
    for number in range(2, 31):
        clock.now = START + timedelta(days=(number - 1) // 10, minutes=number)
        saved(store, project_id, prints(number))
    clock.now = START + timedelta(days=60)
    return project_id


def numbers(store: Store, project_id: str) -> list[int]:
    return [revision.number for revision in store.revisions(project_id)][::-1]


def test_of_old_revisions_the_first_the_newest_and_the_last_of_each_day_stay(store: Store, worked: str) -> None:
    assert len(store.superfluous(worked, Used())) == 26
    assert store.thin(worked, Used()) == 26
    assert numbers(store, worked) == [1, 10, 20, 30]
    assert store.thin(worked, Used()) == 0


def test_nothing_of_the_last_thirty_days_goes(store: Store, worked: str, clock: Clock) -> None:
    clock.now = START + timedelta(days=KEPT_DAYS, minutes=5)
    assert store.superfluous(worked, Used()) == (2, 3), "4 is the last of its day that is old enough"


def test_what_was_named_shown_or_cut_stays(store: Store, worked: str) -> None:
    store.name_revision(worked, 4, "As quoted")
    cut_while_13_was_the_newest = START + timedelta(days=1, minutes=13, seconds=30)
    store.thin(worked, Used(numbers=frozenset({7}), moments=(cut_while_13_was_the_newest,)))
    assert numbers(store, worked) == [1, 4, 7, 10, 13, 20, 30]


def test_a_cut_from_before_every_revision_says_that_a_clock_was_wrong_and_nothing_goes(
    store: Store, worked: str
) -> None:
    """Fault: a computer that had lost its clock marked a plan as cut in 1970, and what was cut was removed."""
    assert store.thin(worked, Used(moments=(datetime(1970, 1, 1, tzinfo=UTC),))) == 0


def test_a_revision_dated_in_the_future_or_without_a_zone_stays(store: Store, worked: str, clock: Clock) -> None:
    now, clock.now = clock.now, START + timedelta(days=4000)
    saved(store, worked, prints(31))
    clock.now = now - timedelta(days=1)
    saved(store, worked, prints(32))
    clock.now = now
    path = store.folder(worked) / "r000005.json"
    path.write_text(path.read_text("utf-8").replace('Z",', '",', 1), "utf-8")
    assert store.head(worked).number == 32, "the number counts, not the day"
    store.thin(worked, Used())
    assert {5, 31, 32} <= set(numbers(store, worked))


def test_what_undo_and_redo_lead_to_stays(store: Store, worked: str, clock: Clock) -> None:
    for _ in range(3):
        store.undo(worked, base=store.head(worked).number, tab="t1")
    clock.now += timedelta(days=60)
    store.thin(worked, Used())
    assert store.head(worked).document == prints(27)
    for number in (28, 29, 30):
        assert store.redo(worked, base=store.head(worked).number, tab="t1").document == prints(number)


def test_undo_goes_on_through_what_is_left(store: Store, worked: str) -> None:
    store.thin(worked, Used())
    seen = [store.undo(worked, base=store.head(worked).number, tab="t1").document["prints"] for _ in range(3)]
    assert seen == [20, 10, CAFE["prints"]]
    seen = [store.redo(worked, base=store.head(worked).number, tab="t1").document["prints"] for _ in range(3)]
    assert seen == [10, 20, 30]


def test_what_cannot_be_read_or_dated_stays(store: Store, worked: str, data_dir: Path) -> None:
    folder = home(data_dir, worked)
    (folder / "r000003.json").write_text("")
    undated = folder / "r000005.json"
    undated.write_text(undated.read_text().replace('"when": "2026', '"when": "before 2026'))
    store.thin(worked, Used())
    assert (folder / "r000003.json").exists() and undated.exists()


def test_broken_off_and_begun_again_it_leaves_the_same(
    store: Store, worked: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    removed: list[str] = []

    def failing(remove: Callable[[Path], None]) -> Callable[[Path], None]:
        def remove_some(path: Path) -> None:
            if path.name.startswith("r") and len(removed) == 9:
                raise OSError(5, "Input/output error")
            removed.append(path.name)
            remove(path)

        return remove_some

    with monkeypatch.context() as patch:
        from webapp.data import disk

        patch.setattr(disk, "remove", failing(disk.remove))
        with pytest.raises(NotWritten):
            store.thin(worked, Used())
    assert len(numbers(store, worked)) == 21
    assert store.head(worked).document == prints(30)
    store.thin(worked, Used())
    assert numbers(store, worked) == [1, 10, 20, 30]


@given(gaps_h=some.lists(some.integers(0, 400), min_size=1, max_size=25), undone=some.sets(some.integers(2, 26)))
def test_every_day_keeps_its_last_state_and_undo_never_gets_lost(
    gaps_h: list[int], undone: set[int], tmp_path_factory: pytest.TempPathFactory
) -> None:
    clock = Clock()
    store = Store(tmp_path_factory.mktemp("thin"), check=anything, check_shop=anything, clock=clock)
    project_id = store.create(CAFE)
    for number, gap_h in enumerate(gaps_h, start=2):
        clock.now += timedelta(hours=gap_h)
        if number in undone and store.head(project_id).can_undo:
            store.undo(project_id, base=store.head(project_id).number, tab="t1")
        else:
            saved(store, project_id, prints(number + 1000))
    before = {one.number: one for one in store.revisions(project_id)}
    clock.now += timedelta(days=20)
    gone = set(store.superfluous(project_id, Used()))
    store.thin(project_id, Used())
    left = set(numbers(store, project_id))
    assert left == set(before) - gone and {1, max(before)} <= left
    last_of_day = {one.saved.when[:10]: one.number for one in sorted(before.values(), key=lambda one: one.number)}
    assert {clock_day: number for clock_day, number in last_of_day.items() if number not in left} == {}
    assert all(clock.now - datetime.fromisoformat(before[number].saved.when) > timedelta(days=30) for number in gone)
    assert all(before[number].saved.equals in left for number in left)
    while store.head(project_id).can_redo:
        store.redo(project_id, base=store.head(project_id).number, tab="t1")
    store.close()
