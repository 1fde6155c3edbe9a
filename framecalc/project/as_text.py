"""Values that a file holds as text: how each is read and written, stated once beside its type."""

from collections.abc import Callable
from dataclasses import dataclass

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue
from pydantic_core.core_schema import (
    CoreSchema,
    no_info_plain_validator_function,
    plain_serializer_function_ser_schema,
    str_schema,
)


@dataclass(frozen=True, slots=True)
class AsText:
    """A value that stands as text in the file: how it is read, how it is written, what the JSON Schema says of it.

    That is all there is to it: how pydantic would check a value of its type by itself is not worked out.
    """

    read: Callable[[object], object]
    write: Callable[..., str]
    says: str

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Read and write by the two functions alone."""
        written = plain_serializer_function_ser_schema(self.write, return_schema=str_schema())
        return no_info_plain_validator_function(self.read, serialization=written)

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        """A text, described in words."""
        return {"type": "string", "description": self.says}
