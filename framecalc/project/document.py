"""A project as plain JSON values, as it is typed, kept and sent: the one type of what has not been checked yet.

A *document* is an object of a JSON file, the whole one or a part of it. What stands in it is named by paths (`paths`).
"""

from collections.abc import Mapping, Sequence
from typing import TypeAlias

Json: TypeAlias = "bool | int | float | str | Sequence[Json] | Mapping[str, Json] | None"
"""Any value of a JSON file."""

Document: TypeAlias = dict[str, Json]
"""An object of a JSON file, by the names of its values."""

ReadDocument: TypeAlias = Mapping[str, Json]
"""A document that is only read."""
