"""Every route of a server, with ids filled in, and the digest of its data folder: for walks that change nothing."""

import hashlib
import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from fastapi.routing import iter_route_contexts


def every_path(app: Any, known: Mapping[str, str]) -> list[str]:
    """The path of every route, future pages too; unknown parameters become x1."""
    templates = every_template(app)
    return sorted(re.sub(r"\{(\w+)(?::\w+)?\}", lambda hole: known.get(hole[1], "x1"), one) for one in templates)


def every_template(app: Any) -> set[str]:
    """The path of every route as it is stated: those of the application, and those of every page."""
    of_pages = [route for page in app.state.pages for route in page.view.routes]
    return {context.path for context in iter_route_contexts([*app.routes, *of_pages]) if context.path is not None}


def kept(data_dir: Path) -> dict[str, str]:
    """The digest of every file of a data folder."""
    files = [path for path in data_dir.rglob("*") if path.is_file() and path.name != ".lock"]
    return {str(path.relative_to(data_dir)): hashlib.sha256(path.read_bytes()).hexdigest() for path in files}
