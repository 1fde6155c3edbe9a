"""A store on a disk, with a small project in it."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path
from typing import Any

from webapp.data.revisions import Revision
from webapp.data.store import Store

CAFE = {"schema": 1, "name": "Café wall", "unit": "mm", "prints": 5}


def anything(_: dict[str, Any]) -> None:
    """Accept every document: the store itself does not know the project model."""


def minutes() -> Callable[[], datetime]:
    """Make a clock that advances one minute each time it is read."""
    numbers = count()
    return lambda: datetime(2026, 3, 1, 9, tzinfo=UTC) + timedelta(minutes=next(numbers))


def open_store(folder: Path) -> Store:
    """A store that checks no document, with a clock of its own."""
    return Store(folder, check=anything, check_shop=anything, clock=minutes())


def saved(store: Store, project_id: str, document: dict[str, Any], *, tab: str = "t1") -> Revision:
    """Save a whole project, whatever stands at its head."""
    return store.change(project_id, lambda _: document, tab=tab)


def prints(number: int) -> dict[str, Any]:
    """The small project with a number of prints."""
    return CAFE | {"prints": number}


def home(data_dir: Path, project_id: str) -> Path:
    """The folder of a project."""
    return data_dir / "projects" / project_id
