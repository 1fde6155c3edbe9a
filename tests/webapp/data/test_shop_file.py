"""The shop profile on a bad day: everything goes on with the one before, and the damaged file is kept."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from webapp.data.errors import UnreadableFile
from webapp.data.shop import USUAL_SHOP
from webapp.data.store import Store

DAMAGE = [b"", b"{", b"[]", b"\xff", b'{"schema": 7}', b'{"schema": 1, "unit": "ell"}', b'{"called": "\\ud800"}']


@pytest.fixture
def store(data_dir: Path) -> Iterator[Store]:
    store = Store(data_dir)
    yield store
    store.close()


@pytest.fixture
def twice(store: Store) -> Store:
    """A store whose profile was saved twice."""
    for name in ("First", "Second"):
        store.shop.change(lambda _, name=name: USUAL_SHOP | {"called": name})
    return store


@pytest.mark.parametrize("content", DAMAGE)
def test_a_damaged_profile_is_named_and_the_one_before_stands_in_for_it(
    twice: Store, data_dir: Path, content: bytes
) -> None:
    (data_dir / "shop.json").write_bytes(content)
    assert twice.read_shop()["called"] == "First"
    assert "shop.json is damaged" in twice.shop.damage()
    twice.shop.damage().encode()


def test_a_damaged_profile_is_not_written_over(twice: Store, data_dir: Path) -> None:
    (data_dir / "shop.json").write_bytes(b"{")
    with pytest.raises(UnreadableFile, match=r"shop\.json is damaged"):
        twice.shop.change(lambda _: USUAL_SHOP)
    assert (data_dir / "shop.json").read_bytes() == b"{"


def test_a_damaged_profile_is_set_aside_and_kept(twice: Store, data_dir: Path) -> None:
    for number in (1, 2):
        (data_dir / "shop.json").write_bytes(b"{%d" % number)
        twice.shop.mend()
        assert (data_dir / f"shop-damaged-{number}.json").read_bytes() == b"{%d" % number
        assert (twice.shop.damage(), twice.read_shop()["called"]) == ("", "First")


def test_without_an_earlier_profile_the_usual_one_stands_in(store: Store, data_dir: Path) -> None:
    (data_dir / "shop.json").write_bytes(b"{")
    assert store.read_shop() == {}
    store.shop.mend()
    assert (store.shop.damage(), store.read_shop()) == ("", {})


def test_a_profile_that_can_be_read_is_left_as_it_is(twice: Store, data_dir: Path) -> None:
    twice.shop.mend()
    assert twice.read_shop()["called"] == "Second"
    assert not list(data_dir.glob("*damaged*"))
