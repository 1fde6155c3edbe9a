"""The README's commands are the ones that work, and the ones that are tested."""

import re
import subprocess
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text("utf-8")
COMMANDS = re.findall(r"^```\n(.*?)^```$", README, re.DOTALL | re.MULTILINE)
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]


def the_command_ending_in(ending: str) -> str:
    (command,) = [command.strip() for command in COMMANDS if command.strip().endswith(ending)]
    return command


def test_the_job_comes_first_in_one_paragraph() -> None:
    title, paragraph, *_ = README.split("\n\n")
    assert title == "# Rabbetry"
    assert "artwork" in paragraph and "frame" in paragraph and not paragraph.startswith(("#", "-", "`"))


def test_the_continuous_test_runs_the_command_of_the_readme() -> None:
    shown = subprocess.run([ROOT / ".ci/run", "--show"], capture_output=True, text=True, check=True)
    assert shown.stdout.strip() == the_command_ending_in(".venv/bin/pytest -n auto --dist worksteal")


def test_the_continuous_test_reads_as_bash() -> None:
    subprocess.run(["bash", "-n", ROOT / ".ci/run"], check=True)


def test_the_start_command_is_the_one_that_needs_nothing_but_python() -> None:
    command = the_command_ending_in(".venv/bin/python -m webapp")
    assert command == "python3 -m venv .venv && .venv/bin/pip install -e . && .venv/bin/python -m webapp"


@pytest.mark.parametrize("ending", ["bin/python -m webapp", "bin/pytest -n auto --dist worksteal"])
def test_windows_has_the_same_steps(ending: str) -> None:
    steps = the_command_ending_in(ending).replace("python3", "py").replace("/bin/", "\\Scripts\\").split(" && ")
    assert the_command_ending_in(ending.replace("bin/", "\\Scripts\\")).split("; ") == steps


def test_the_extras_named_in_the_readme_exist() -> None:
    extras = set(re.findall(r"\[([a-z,]+)\]'", README)[0].split(","))
    assert extras == set(PROJECT["optional-dependencies"])


def test_the_python_named_in_the_readme_is_the_one_required() -> None:
    assert f"Python {PROJECT['requires-python'].removeprefix('>=')} or newer" in README


def test_the_changes_begin_with_the_present_version() -> None:
    changes = README.split("## Changes\n")[1]
    assert changes.strip().startswith(f"- **{PROJECT['version']}**")


def test_files_named_in_the_readme_exist() -> None:
    for name in ("LICENSE", "static/htmx", "static/htmx/LICENSE", "static/fonts/OFL.txt"):
        assert (ROOT / name).exists()
    assert "The Rabbetry authors" in (ROOT / "LICENSE").read_text("utf-8")


def test_the_readme_is_short_and_its_pictures_are_there() -> None:
    assert len(README.split()) < 1300
    shown = re.findall(r"!\[[^\]]+\]\(([^)]+)\)", README)
    assert len(shown) == 3
    assert all((ROOT / name).read_text("utf-8").startswith("<svg") for name in shown)
