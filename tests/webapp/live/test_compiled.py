"""Compiled templates: kept from one start to the next, and never taken where anything has changed."""

import sys
from pathlib import Path
from typing import Any

import pytest
from jinja2 import DictLoader, Environment

from webapp.live.compiled import CompiledTemplates

SOURCE = "{% for name in names %}{{ name }}; {% endfor %}"


@pytest.fixture(autouse=True)
def may_write(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", False)


@pytest.fixture
def maker(tmp_path: Path) -> Path:
    maker = tmp_path / "maker.py"
    maker.write_text("how templates are read")
    return maker


class Counting(Environment):
    """An environment that counts what it compiles."""

    compiled = 0

    def _generate(self, *source: Any, **more: Any) -> str:
        self.compiled += 1
        return super()._generate(*source, **more)


def started(folder: Path, maker: Path, source: str = SOURCE) -> Counting:
    """An environment as after a start."""
    kept = CompiledTemplates(folder, made_by=maker)
    return Counting(loader=DictLoader({"list.html": source}), bytecode_cache=kept)


def shown(environment: Environment) -> str:
    return environment.get_template("list.html").render(names=("oak", "ash"))


def test_a_template_is_compiled_at_the_first_of_two_starts(tmp_path: Path, maker: Path) -> None:
    first, second = (started(tmp_path / "kept", maker) for _ in range(2))
    assert shown(first) == shown(second) == "oak; ash; "
    assert (first.compiled, second.compiled) == (1, 0)


def test_another_text_is_compiled_anew(tmp_path: Path, maker: Path) -> None:
    shown(started(tmp_path, maker))
    changed = started(tmp_path, maker, SOURCE.replace(";", ","))
    assert shown(changed) == "oak, ash, " and changed.compiled == 1


def test_another_way_to_read_templates_compiles_them_anew(tmp_path: Path, maker: Path) -> None:
    shown(started(tmp_path, maker))
    maker.write_text("read otherwise")
    changed = started(tmp_path, maker)
    assert shown(changed) == "oak; ash; " and changed.compiled == 1


@pytest.mark.parametrize("damaged", [b"", b"\0" * 4000, b"not what was written"])
def test_a_damaged_one_is_compiled_anew_and_mended(tmp_path: Path, maker: Path, damaged: bytes) -> None:
    folder = tmp_path / "kept"
    shown(started(folder, maker))
    (path,) = folder.iterdir()
    path.write_bytes(damaged)
    mending, after = started(folder, maker), started(folder, maker)
    assert shown(mending) == shown(after) == "oak; ash; "
    assert (mending.compiled, after.compiled) == (1, 0)


def test_one_that_was_cut_short_is_compiled_anew(tmp_path: Path, maker: Path) -> None:
    folder = tmp_path / "kept"
    shown(started(folder, maker))
    (path,) = folder.iterdir()
    path.write_bytes(path.read_bytes()[:-1])
    again = started(folder, maker)
    assert shown(again) == "oak; ash; " and again.compiled == 1


def test_a_folder_that_cannot_be_made_keeps_nobody_from_a_page(tmp_path: Path, maker: Path) -> None:
    (tmp_path / "kept").write_text("a file where the folder should be")
    assert shown(started(tmp_path / "kept", maker)) == "oak; ash; "


def test_nothing_is_written_where_python_writes_nothing(
    tmp_path: Path, maker: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    assert shown(started(tmp_path / "kept", maker)) == "oak; ash; "
    assert not (tmp_path / "kept").exists()
