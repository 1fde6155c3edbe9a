"""The demo projects: each reader gets its own."""

import re
from collections.abc import Iterator
from typing import Any

import pytest

from webapp.data.errors import NoSuchProject
from webapp.pages.projects.demos import demo, demos


def test_a_change_to_one_copy_is_in_no_other() -> None:
    name = next(iter(demos()))
    demo(name)["frames"].clear()
    demos()[name]["frames"].clear()
    assert demo(name)["frames"] and demos()[name]["frames"]


def test_an_inch_demo_holds_no_millimetres_but_the_shop_s_metric_step() -> None:
    inch = [document for document in demos().values() if document["unit"] == "in"]
    metric = [text for document in inch for text in texts_in(document) if re.fullmatch(r"[\d.]+ mm", text)]
    assert metric == [document["shop"]["mm_step"] for document in inch]


def texts_in(value: Any) -> Iterator[str]:
    """Every text of a document."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, (dict, list)):
        for part in value.values() if isinstance(value, dict) else value:
            yield from texts_in(part)


def test_an_unknown_one_is_refused() -> None:
    with pytest.raises(NoSuchProject):
        demo("../shop")
