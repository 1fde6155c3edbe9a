"""The demo projects: each reader gets its own."""

import pytest

from webapp.demos import demo, demos
from webapp.errors import NoSuchProject


def test_a_change_to_one_copy_is_in_no_other() -> None:
    name = next(iter(demos()))
    demo(name)["frames"].clear()
    demos()[name]["frames"].clear()
    assert demo(name)["frames"] and demos()[name]["frames"]


def test_an_unknown_one_is_refused() -> None:
    with pytest.raises(NoSuchProject):
        demo("../shop")
