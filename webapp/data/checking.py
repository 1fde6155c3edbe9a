"""Checks files without a server: what is wrong, on which line and at which field, and what would be right.

Nothing is written, and nothing is locked: a data folder may be in use.
"""

import json
import os
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from pathlib import Path
from types import MappingProxyType

from pydantic import BaseModel, ValidationError

from framecalc.errors import FrameCalcError
from framecalc.plan import Plan
from framecalc.project import ProjectErrors, on_lines, parse_project, sentences_of
from framecalc.project.document import Document
from framecalc.records import Record
from webapp.data.backup import BackupFile
from webapp.data.disk import TEMPORARY, read_bytes, read_json
from webapp.data.errors import StoreError
from webapp.data.photos import photo_id_of
from webapp.data.rack_file import RackFile
from webapp.data.revisions import History
from webapp.data.shop import ShopProfile, read_shop


class Fault(Record):
    """One thing that is wrong with a file. `field` is its path, empty where the whole file is at fault."""

    file: Path
    field: str
    sentence: str

    def __str__(self) -> str:
        return ": ".join(str(part) for part in (self.file, self.field, self.sentence) if str(part))


class Checked(Record):
    """How many files were read, and what is wrong with them."""

    files: int
    faults: tuple[Fault, ...]


Check = Callable[[Path], Iterator[Fault]]
"""Finds what is wrong with a file."""

NO_MORE: Mapping[str, Check] = MappingProxyType({})


def check_files(place: Path, *, more: Mapping[str, Check] = NO_MORE) -> Checked:
    """Check a project file, all project files of a folder, or a whole data folder.

    Args:
        place: a file, or a folder; of a folder with projects, shop and rack everything is checked.
        more: how other files of a data folder are checked, by a pattern of their names.
    Raises:
        UnreadableFile: it cannot be looked into.
        FileNotFoundError: there is nothing of this name.
    """
    if not place.is_dir():
        return Checked(files=1, faults=tuple(project_faults(place)))
    files = dict(_checks(place, {**_OF_DATA_FOLDER, **more}))
    faults = tuple(fault for file, check in files.items() for fault in _faults_if_there(file, check))
    return Checked(files=len(files), faults=faults)


def _faults_if_there(file: Path, check: Check) -> Iterator[Fault]:
    """What is wrong with a file; nothing where it was moved away meanwhile."""
    if file.is_symlink() and not os.path.exists(file):
        yield Fault(file=file, field="", sentence="leads nowhere: put the file back from a backup")
        return
    with suppress(FileNotFoundError):
        yield from check(file)


def _checks(folder: Path, checks: Mapping[str, Check]) -> Iterator[tuple[Path, Check]]:
    """Each file of a folder, with how it is checked; and each folder that keeps its files to itself."""
    if not os.path.lexists(folder / "projects"):
        checks = {"*.json": project_faults}
    for pattern, check in checks.items():
        yield from ((file, check) for file in _found(folder, pattern))
    yield from ((one, _shut_faults) for pattern in _FOLDERS for one in _found(folder, pattern) if _is_shut(one))


def _found(folder: Path, pattern: str) -> list[Path]:
    """The files of a pattern; a name without a star is found wherever it leads."""
    if "*" in pattern:
        return sorted(folder.glob(pattern))
    return [folder / pattern] if os.path.lexists(folder / pattern) else []


def _is_shut(path: Path) -> bool:
    """Whether it is no plain file, and cannot be looked into either."""
    return not os.path.isfile(path) and not (os.path.isdir(path) and os.access(path, os.R_OK | os.X_OK))


def _shut_faults(folder: Path) -> Iterator[Fault]:
    yield Fault(file=folder, field="", sentence="cannot be looked into: what is in it is not checked")


def project_faults(file: Path) -> Iterator[Fault]:
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
    yield from project_faults(file)


def json_faults(file: Path) -> Iterator[Fault]:
    """What keeps a file from being read at all."""
    try:
        read_json(file)
    except StoreError as error:
        yield Fault(file=file, field="", sentence=error.sentence)


def _photo_faults(file: Path) -> Iterator[Fault]:
    """Whether a photo is the one that its name says."""
    try:
        is_whole = photo_id_of(read_bytes(file)) == file.stem
    except StoreError as error:
        yield Fault(file=file, field="", sentence=error.sentence)
        return
    if not is_whole:
        yield Fault(file=file, field="", sentence="The photo is damaged: put it back from a backup, or add it again")


def _faults_by(check: Callable[[Document], object], model: type[BaseModel]) -> Check:
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


def _as(model: type[BaseModel]) -> Check:
    """Checks a file as a record of a kind."""

    def check(document: Document) -> None:
        try:
            model.model_validate(document)
        except ValidationError as error:
            raise ProjectErrors(sentences_of(error, document)) from error

    return _faults_by(check, model)


def _left_over(path: Path) -> Iterator[Fault]:
    yield Fault(file=path, field="", sentence="half written when the program stopped: the next start removes it")


_OF_DATA_FOLDER: dict[str, Check] = {
    "projects/*/r*.json": _revision_faults,
    "trash/*/r*.json": _revision_faults,
    "*/*/n*.json": json_faults,
    "*/*/photos/*.jpg": _photo_faults,
    "shop.json": _faults_by(read_shop, ShopProfile),
    "shop-before.json": _faults_by(read_shop, ShopProfile),
    "rack.json": _as(RackFile),
    "rack-before.json": _as(RackFile),
    "backup.json": _as(BackupFile),
    "cuts/*.json": json_faults,
    f"**/{TEMPORARY}*": _left_over,
}

_FOLDERS = ("projects", "projects/*", "trash", "trash/*", "*/*/photos", "shares", "cuts")
