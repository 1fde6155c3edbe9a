"""The built wheel holds everything: installed by itself and started from another folder, it serves its pages."""

import os
import re
import site
import subprocess
import sys
import sysconfig
import venv
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest
from real_browser import lacking

ROOT = Path(__file__).parents[2]
QUICK = os.environ | {"PIP_NO_COMPILE": "1", "PIP_DISABLE_PIP_VERSION_CHECK": "1"}
"""What is imported is compiled at its first import; what never is need not be."""
OFFLINE = ("Could not find a version", "No matching distribution", "NewConnectionError", "Temporary failure in name")


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the wheel as anybody would; the build fetches its own tool."""
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "pip", "wheel", str(ROOT), "--no-deps", "--wheel-dir", str(folder)]
    answer = subprocess.run(command, capture_output=True, text=True, env=QUICK)
    if answer.returncode and any(word in answer.stderr for word in OFFLINE):
        lacking("building a wheel fetches hatchling, and there is no network")
    assert answer.returncode == 0, answer.stderr
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def environment(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Install the wheel into an environment of its own, which borrows only the libraries of this one."""
    folder = tmp_path_factory.mktemp("fresh") / "venv"
    venv.create(folder, with_pip=False)
    python = folder / ("Scripts/python.exe" if sys.platform == "win32" else "bin/python")
    install = [sys.executable, "-m", "pip", "--python", str(python), "install", "--no-deps", "--no-index", str(wheel)]
    subprocess.run(install, capture_output=True, check=True, env=QUICK)
    library = sysconfig.get_path("purelib", vars={"base": str(folder), "platbase": str(folder)})
    Path(library, "borrowed.pth").write_text("\n".join(site.getsitepackages()) + "\n")
    return python


@pytest.fixture(scope="module")
def address(environment: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Start the installed console script from a folder that has nothing to do with the project."""
    folder = tmp_path_factory.mktemp("elsewhere")
    script = environment.with_name("rabbetry.exe" if sys.platform == "win32" else "rabbetry")
    command = [str(script), "--data", str(folder / "data"), "--port", "0"]
    with subprocess.Popen(command, cwd=folder, stdout=subprocess.PIPE, text=True) as process:
        try:
            assert process.stdout is not None
            found = re.search(r"http://127\.0\.0\.1:[0-9]+", process.stdout.readline())
            assert found, "the server did not start"
            yield found[0]
        finally:
            process.terminate()


def test_the_page_comes_with_its_styles_and_scripts(address: str) -> None:
    page = httpx.get(address, follow_redirects=True)
    assert page.status_code == 200
    parts = re.findall(r'(?:href|src)="(/static/[^"]+)"', page.text)
    assert any(part.endswith("/htmx-4.0.1.min.js") for part in parts)
    assert any(part.endswith(".css") for part in parts)
    for part in parts:
        answer = httpx.get(address + part)
        name = part.removeprefix("/static/").split("/", 1)[1]
        assert answer.status_code == 200 and answer.content == (ROOT / "static" / name).read_bytes()


def test_the_package_runs_from_the_wheel_and_not_from_the_checkout(environment: Path, tmp_path: Path) -> None:
    code = "import framecalc, webapp, webapp.server.folders as f; print(framecalc.__file__, webapp.__file__, f.STATIC)"
    answer = subprocess.run([environment, "-c", code], cwd=tmp_path, capture_output=True, text=True, check=True)
    for place in answer.stdout.split():
        assert Path(place).is_relative_to(environment.parents[1])
