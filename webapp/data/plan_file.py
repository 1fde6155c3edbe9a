"""Files of worked-out answers: their keys stay the same, whatever the records call their fields."""

import json
from collections.abc import Mapping
from typing import TypeVar

from framecalc.records import Record, plain, read_record

Answer = TypeVar("Answer", bound=Record)

_KEYS = {"proof_status": "standing", "shares": "worths", "share": "worth", "share_ratio": "worth_ratio"}
"""Fields of cutting plans and sheet layouts, and their keys in files."""

_FIELDS = {key: field for field, key in _KEYS.items()}


def file_text(answer: Record, *, indent: int | None = None) -> str:
    """Write an answer as JSON, with the keys of files."""
    return json.dumps(_renamed(plain(answer), _KEYS), ensure_ascii=False, indent=indent)


def read_answer(kind: type[Answer], text: str | bytes) -> Answer:
    """Read what `file_text` writes.

    Raises:
        ValueError: the text is not JSON, or not an answer of this kind.
    """
    return read_record(_renamed(json.loads(text), _FIELDS), kind)


def _renamed(value: object, names: Mapping[str, str]) -> object:
    if isinstance(value, dict):
        return {names.get(key, key): _renamed(part, names) for key, part in value.items()}
    return [_renamed(part, names) for part in value] if isinstance(value, list | tuple) else value
