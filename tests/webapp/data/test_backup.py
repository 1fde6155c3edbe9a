"""Backups: one each day, thinned by a rule, on a folder that may be gone today."""

from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from zipfile import ZipFile

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.data.backup import Backups, UnusableBackupFolder, kept_days
from webapp.data.errors import NotWritten, StoreError
from webapp.data.store import Store
from webapp.pages.projects.demos import demo

START = datetime(2026, 3, 1, 12, tzinfo=UTC)


class Days:
    """A clock that stands at noon of a day."""

    def __init__(self) -> None:
        self.now = START

    def __call__(self) -> datetime:
        return self.now


@pytest.fixture
def days() -> Days:
    return Days()


@pytest.fixture
def data(tmp_path: Path) -> Path:
    store = Store(tmp_path / "data")
    store.create(demo("cafe-prints.demo"))
    store.close()
    return tmp_path / "data"


@pytest.fixture
def backups(data: Path, days: Days) -> Backups:
    return Backups(data, clock=days)


@pytest.fixture
def stick(tmp_path: Path) -> Path:
    (tmp_path / "stick").mkdir()
    return tmp_path / "stick"


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_without_a_folder_nothing_is_written_and_nothing_is_wrong(backups: Backups) -> None:
    backups.make_if_due()
    assert backups.state().last is None and not backups.state().problem


def test_a_backup_is_made_once_a_day(backups: Backups, stick: Path, days: Days) -> None:
    backups.choose(str(stick))
    backups.make_if_due()
    first = (stick / "rabbetry-2026-03-01.zip").stat().st_mtime_ns
    backups.make_if_due()
    assert (stick / "rabbetry-2026-03-01.zip").stat().st_mtime_ns == first
    days.now += timedelta(days=1)
    backups.make_if_due()
    assert names(stick) == ["rabbetry-2026-03-01.zip", "rabbetry-2026-03-02.zip"]
    assert backups.state().last == days.now
    with ZipFile(stick / "rabbetry-2026-03-02.zip") as whole:
        assert any(name.endswith("r000001.json") for name in whole.namelist())


def test_a_stick_that_is_gone_is_said_and_tried_again(backups: Backups, stick: Path, days: Days) -> None:
    backups.choose(str(stick))
    backups.make()
    away = stick.rename(stick.with_name("away"))
    days.now += timedelta(days=1)
    backups.make_if_due()
    state = backups.state()
    assert "is not there" in state.problem and state.last == START, "the last good one is still told"
    away.rename(stick)
    backups.make_if_due()
    assert not backups.state().problem and backups.state().last == days.now


def test_a_year_of_backups_is_thinned_and_other_files_stay(backups: Backups, stick: Path, days: Days) -> None:
    (stick / "holiday.zip").touch()
    (stick / "rabbetry-2020-13-99.zip").touch()
    made = [START.date() + timedelta(days=at) for at in range(400)]
    for day in made[:-1]:
        (stick / f"rabbetry-{day.isoformat()}.zip").touch()
    backups.choose(str(stick))
    days.now += timedelta(days=399)
    backups.make()
    kept = {f"rabbetry-{day.isoformat()}.zip" for day in kept_days(made)}
    assert set(names(stick)) == kept | {"holiday.zip", "rabbetry-2020-13-99.zip"}
    assert len(kept) <= 7 + 5 + 12


@given(st.sets(st.dates(date(2020, 1, 1), date(2027, 1, 1)), min_size=1))
def test_the_newest_is_kept_and_thinning_twice_is_thinning_once(made: set[date]) -> None:
    kept = kept_days(made)
    assert max(made) in kept <= made
    assert kept_days(kept) == kept
    assert set(sorted(made)[-7:]) <= kept


@given(st.integers(40, 1500))
def test_made_day_by_day_there_is_always_one_of_each_of_the_last_weeks_and_months(count: int) -> None:
    today = date(2026, 3, 1) + timedelta(days=count)
    there: frozenset[date] = frozenset()
    for at in range(count + 1):
        there = kept_days(there | {date(2026, 3, 1) + timedelta(days=at)})
    assert {today - timedelta(days=at) for at in range(7)} <= there
    assert all(any(0 <= (today - day).days - 7 * week < 14 for day in there) for week in range(4))


@pytest.mark.parametrize("typed", ["stick", "relative/folder", "/nowhere/at/all"])
def test_a_folder_that_is_none_is_refused_and_nothing_is_set(backups: Backups, typed: str) -> None:
    with pytest.raises(UnusableBackupFolder):
        backups.choose(typed)
    assert not backups.state().folder


def test_a_folder_among_the_projects_is_refused(backups: Backups, data: Path) -> None:
    with pytest.raises(UnusableBackupFolder, match="lies among the projects"):
        backups.choose(str(data / "projects"))


def test_a_backup_that_fails_leaves_no_half_file_and_the_good_one(
    backups: Backups, stick: Path, days: Days, monkeypatch: pytest.MonkeyPatch
) -> None:
    backups.choose(str(stick))
    backups.make()
    days.now += timedelta(days=1)

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("webapp.data.backup.pack", full)
    with pytest.raises(NotWritten, match="No space left"):
        backups.make()
    assert names(stick) == ["rabbetry-2026-03-01.zip"]
    assert "No space left" in backups.state().problem


def test_a_damaged_setting_says_so_and_can_be_chosen_anew(backups: Backups, data: Path, stick: Path) -> None:
    (data / "backup.json").write_text("{", "utf-8")
    assert "is damaged" in backups.state().problem
    backups.make_if_due()
    backups.choose(str(stick))
    assert not backups.state().problem


def test_a_backup_without_a_folder_is_refused(backups: Backups) -> None:
    with pytest.raises(StoreError, match="Choose a folder for backups"):
        backups.make()


@pytest.mark.parametrize("setting", ['"last": "x"', '"folder": "a\\u0000b"', '"last": "2026-01-01"'])
def test_no_setting_ends_the_daily_backups(backups: Backups, data: Path, setting: str) -> None:
    """Fault: a date that is none ended them for as long as the server ran."""
    (data / "backup.json").write_text(f'{{"schema": 1, {setting}}}', "utf-8")
    backups.make_if_due()
    last = backups.state().last
    assert last is None or last.tzinfo


def test_a_file_that_cannot_be_read_is_named_and_all_else_is_backed_up_once(
    backups: Backups, stick: Path, data: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Fault: one bad file, and no backup was made any more."""
    read_bytes, (good,) = Path.read_bytes, data.rglob("r000001.json")
    (good.parent / "n000001.json").write_text("{}", "utf-8")

    def refuse(path: Path) -> bytes:
        if path.name == "n000001.json":
            raise OSError(5, "Input/output error")
        return read_bytes(path)

    monkeypatch.setattr(Path, "read_bytes", refuse)
    backups.choose(str(stick))
    made = backups.make()
    assert "n000001.json" in backups.state().problem and backups.state().last == START
    assert ZipFile(made).namelist() == [good.relative_to(data).as_posix()]
    before = made.stat().st_mtime_ns
    backups.make_if_due()
    assert made.stat().st_mtime_ns == before, "what it lacks is no reason to make it again and again"


def test_what_a_crash_left_of_a_backup_is_removed_with_the_next_one(backups: Backups, stick: Path) -> None:
    (stick / ".tmp-0123456789abcdef").touch()
    (stick / ".tmp-notes").touch()
    backups.choose(str(stick))
    backups.make()
    assert names(stick) == [".tmp-notes", "rabbetry-2026-03-01.zip"]
