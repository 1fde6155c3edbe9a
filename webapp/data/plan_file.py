"""Files of worked-out answers: their keys stay the same, whatever the records call their fields.

A text that holds typed letters, the name of a board, is written as its runs: ours, typed, ours, in turn. So no name is
turned into other trade words once its plan was read, and no brace in it is a hole. Files from before have it plain.

A digest of all else tells whether a file is whole: what is shown of a plan trusts its numbers. Files from before have
none, and are refused only if they hold what no plan does.
"""

import json
from collections.abc import Iterable, Mapping
from hashlib import sha256
from math import isfinite
from typing import TypeVar

from framecalc.records import Record, parts_of, plain, read_record
from framecalc.words import Run, Wording

Answer = TypeVar("Answer", bound=Record)

_KEYS = {"proof_status": "standing", "shares": "worths", "share": "worth", "share_ratio": "worth_ratio"}
"""Fields of cutting plans and sheet layouts, and their keys in files."""

_FIELDS = {key: field for field, key in _KEYS.items()}

_RUNS = "ours, typed"
"""The key of the runs of a text."""

_DIGEST = "digest"
"""The key of the digest of all else."""


def file_text(answer: Record, *, indent: int | None = None) -> str:
    """Write an answer as JSON, with the keys of files."""
    written = _all_written(parts_of(answer))
    return json.dumps(written | {_DIGEST: _digest(written)}, ensure_ascii=False, indent=indent)


def read_answer(kind: type[Answer], text: str | bytes) -> Answer:
    """Read what `file_text` writes.

    Raises:
        ValueError: the text is not JSON, or not an answer of this kind, or was changed since it was written.
    """
    try:
        document = json.loads(text, parse_constant=_finite, parse_float=_finite)
        if isinstance(document, dict) and document.pop(_DIGEST, None) not in (None, _digest(document)):
            raise ValueError("changed since it was written")
        return read_record(_read(document), kind)
    except RecursionError as error:
        raise ValueError("nested too deep") from error


def _digest(document: object) -> str:
    return sha256(json.dumps(document, ensure_ascii=False).encode()).hexdigest()


def _finite(text: str) -> float:
    """A number of a file."""
    number = float(text)
    if not isfinite(number):
        raise ValueError(f"no number: {text}")
    return number


def _written(value: object) -> object:
    if isinstance(value, Record):
        return _all_written(parts_of(value))
    if isinstance(value, Mapping):
        return _all_written(value.items())
    if isinstance(value, tuple):
        return [_written(part) for part in value]
    if isinstance(value, Wording) and any(run.is_kept for run in value.runs):
        return {_RUNS: list(_in_turn(value.runs))}
    return plain(value)


def _all_written(parts: Iterable[tuple[str, object]]) -> dict[str, object]:
    return {_KEYS.get(name, name): _written(part) for name, part in parts}


def _in_turn(runs: Iterable[Run]) -> Iterable[str]:
    """The letters of runs; a blank one of ours stands before a first that was typed."""
    for place, run in enumerate(runs):
        yield from ("", run.letters) if run.is_kept and not place else (run.letters,)


def _read(value: object) -> object:
    if isinstance(value, dict):
        wording = _wording(value.get(_RUNS))
        return {_FIELDS.get(key, key): _read(part) for key, part in value.items()} if wording is None else wording
    return [_read(part) for part in value] if isinstance(value, list) else value


def _wording(runs: object) -> Wording | None:
    """The text of some runs; None where they are none."""
    if not isinstance(runs, list) or not all(isinstance(letters, str) for letters in runs):
        return None
    return Wording(Run(letters, is_kept=place % 2 == 1) for place, letters in enumerate(runs))
