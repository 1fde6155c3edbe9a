"""Checks files without a server: what is wrong, on which line and at which field, and what would be right.

Nothing is written, and nothing is locked: a data folder may be in use.
"""

import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from pydantic import BaseModel, ValidationError

from framecalc.errors import FrameCalcError
from framecalc.plan import Plan
from framecalc.project import ProjectErrors, on_lines, parse_project, sentences_of
from framecalc.project.document import Document
from webapp.data.disk import TEMPORARY, read_bytes, read_json
from webapp.data.errors import StoreError
from webapp.data.rack_file import RackFile
from webapp.data.revisions import History
from webapp.data.shop import ShopProfile, read_shop

PROJECT_FILES = ("projects/*/r*.json", "trash/*/r*.json")
"""Where a data folder keeps the revisions of its projects."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing that is wrong with a file. `field` is its path, empty where the whole file is at fault."""

    file: Path
    field: str
    sentence: str

    def __str__(self) -> str:
        return ": ".join(str(part) for part in (self.file, self.field, self.sentence) if str(part))


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """How many files were read, and what is wrong with them."""

    files: int
    faults: tuple[Fault, ...]


def check_files(place: Path) -> Checked:
    """Check a project file, all project files of a folder, or a whole data folder.

    Args:
        place: a file, or a folder; of a folder with projects, shop and rack everything is checked.
    Raises:
        UnreadableFile: it cannot be looked into.
        FileNotFoundError: there is nothing of this name.
    """
    files = dict(_checks(place)) if place.is_dir() else {place: _project_faults}
    faults = tuple(fault for file, check in files.items() for fault in check(file))
    return Checked(files=len(files), faults=faults)


_Check = Callable[[Path], Iterator[Fault]]


def _checks(folder: Path) -> Iterator[tuple[Path, _Check]]:
    """Each file of a folder, with how it is checked."""
    if not (folder / "projects").is_dir():
        yield from ((file, _project_faults) for file in sorted(folder.glob("*.json")))
        return
    for pattern in PROJECT_FILES:
        yield from ((file, _revision_faults) for file in sorted(folder.glob(pattern)))
    for name, check in _SHOP_FILES.items():
        if (folder / name).exists():
            yield folder / name, check
    left = (path for path in sorted(folder.rglob(f"{TEMPORARY}*")))
    yield from ((path, _left_over) for path in left)


def _project_faults(file: Path) -> Iterator[Fault]:
    """What keeps a file from being read as a project, or a frame of it from being computed."""
    try:
        plan = Plan(parse_project(read_bytes(file)))
    except ProjectErrors as error:
        yield from (Fault(file=file, field=path, sentence=said) for path, said in error.sentences.items())
        return
    except (FrameCalcError, StoreError) as error:
        yield Fault(file=file, field=getattr(error, "field", ""), sentence=error.sentence)
        return
    for frame_id, frame in plan.frames.items():
        try:
            frame.compute_all()
        except FrameCalcError as error:
            yield Fault(file=file, field=error.field or f"frames.{frame_id}", sentence=error.sentence)


def _revision_faults(file: Path) -> Iterator[Fault]:
    """As for a project, and whether the file says how it was saved."""
    try:
        History(file.parent).read(int(file.stem[1:]))
    except StoreError as error:
        yield Fault(file=file, field="", sentence=error.sentence)
        return
    yield from _project_faults(file)


def _faults_by(check: Callable[[Document], object], model: type[BaseModel]) -> _Check:
    def faults(file: Path) -> Iterator[Fault]:
        try:
            sentences = _sentences(check, document=read_json(file))
        except (FrameCalcError, StoreError) as error:
            yield Fault(file=file, field=getattr(error, "field", ""), sentence=error.sentence)
            return
        text = read_bytes(file).decode(json.detect_encoding(read_bytes(file)))
        found = on_lines(text, sentences, schema=model.model_json_schema(by_alias=True))
        yield from (Fault(file=file, field=path, sentence=said) for path, said in found.items())

    return faults


def _sentences(check: Callable[[Document], object], *, document: Document) -> dict[str, str]:
    """What a check says of single values."""
    try:
        check(document)
    except ProjectErrors as error:
        return error.sentences
    return {}


def _check_rack(document: Document) -> None:
    try:
        RackFile.model_validate(document)
    except ValidationError as error:
        raise ProjectErrors(sentences_of(error, document)) from error


def _left_over(path: Path) -> Iterator[Fault]:
    yield Fault(file=path, field="", sentence="half written when the program stopped: the next start removes it")


_SHOP_FILES: dict[str, _Check] = {
    "shop.json": _faults_by(read_shop, ShopProfile),
    "rack.json": _faults_by(_check_rack, RackFile),
}
