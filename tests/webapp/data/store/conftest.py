"""A store in an empty folder, and one project in it."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from stored import CAFE, open_store

from webapp.data.store import Store


@pytest.fixture
def store(data_dir: Path) -> Iterator[Store]:
    store = open_store(data_dir)
    yield store
    store.close()


@pytest.fixture
def cafe(store: Store) -> str:
    return store.create(CAFE)
