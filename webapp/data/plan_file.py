"""Files of worked-out answers: their keys stay the same, whatever the records call their fields."""

import json
from collections.abc import Mapping
from typing import TypeVar

from pydantic import TypeAdapter

from framecalc.project.document import Json

Answer = TypeVar("Answer")

_KEYS = {"proof_status": "standing", "shares": "worths", "share": "worth", "share_ratio": "worth_ratio"}
"""Fields of cutting plans and sheet layouts, and their keys in files."""

_FIELDS = {key: field for field, key in _KEYS.items()}


def file_text(adapter: TypeAdapter[Answer], answer: Answer, *, indent: int | None = None) -> str:
    """Write an answer as JSON, with the keys of files."""
    plain = adapter.dump_python(answer, mode="json")
    return json.dumps(_renamed(plain, _KEYS), ensure_ascii=False, indent=indent)


def read_answer(adapter: TypeAdapter[Answer], text: str | bytes) -> Answer:
    """Read what `file_text` writes.

    Raises:
        ValueError: the text is not JSON, or not an answer of this type.
    """
    return adapter.validate_json(json.dumps(_renamed(json.loads(text), _FIELDS)))


def _renamed(value: Json, names: Mapping[str, str]) -> Json:
    if isinstance(value, dict):
        return {names.get(key, key): _renamed(part, names) for key, part in value.items()}
    return [_renamed(part, names) for part in value] if isinstance(value, list) else value
