"""Records: small frozen values with named fields, made quickly.

They are structs of msgspec: a class of them is made some forty times as fast as a frozen dataclass, one of them eight
times, and they are hashed and compared faster; there are hundreds of classes, and a plan makes thousands of values.
Dataclasses are left where pydantic reads and writes them: what is typed, and what a client was shown.
"""

import dataclasses
from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import TYPE_CHECKING, ClassVar, TypeVar, dataclass_transform

from msgspec import Struct, StructMeta, ValidationError, convert, field, structs, to_builtins

__all__ = ["Mutable", "Record", "cached_property", "field", "parts_of", "plain", "read_record", "replace"]

if TYPE_CHECKING:
    from dataclasses import replace  # the type checker knows the fields of a dataclass, not those of a struct
    from functools import cached_property  # and this one by its name
else:

    def replace(record: object, **changes: object) -> object:
        """A record, or a dataclass, with some fields changed."""
        change = structs.replace if isinstance(record, Struct) else dataclasses.replace
        return change(record, **changes)

    class cached_property:
        """What is found when it is first asked for, and kept in its object; two threads that ask at once find it twice.

        That of Python 3.11 locks it for all objects of a class, so that one request waits for the topics of another.
        """

        def __init__(self, find: Callable[[object], object]) -> None:
            self._find, self.__doc__ = find, find.__doc__

        def __set_name__(self, owner: type, name: str) -> None:
            self._name = name

        def __get__(self, found_in: object, owner: type | None = None) -> object:
            """The value, which from now on is an attribute of its object."""
            if found_in is None:
                return self
            value = vars(found_in)[self._name] = self._find(found_in)
            return value


class RecordType(StructMeta):
    """The type of a class of records: frozen, with keyword-only fields, unless the class says otherwise.

    `dict=True` where it keeps cached properties, `eq=False` where each is equal to itself only.
    """

    def __new__(
        cls, name: str, bases: tuple[type, ...], body: dict[str, object], *, kw_only: bool = True, **more: bool
    ) -> "RecordType":
        """Make the class."""
        return super().__new__(cls, name, bases, body, kw_only=kw_only, **more)  # type: ignore[arg-type]


@dataclass_transform(frozen_default=True, kw_only_default=True, field_specifiers=(field,))
class Record(Struct, frozen=True, metaclass=RecordType):
    """A value with named fields that never changes, equal to any of its class with equal fields."""

    if TYPE_CHECKING:
        __dataclass_fields__: ClassVar[dict[str, dataclasses.Field[object]]]


@dataclass_transform(kw_only_default=True, field_specifiers=(field,))
class Mutable(Struct, metaclass=RecordType):
    """What a search keeps while it goes on: its fields change."""


R = TypeVar("R", bound=Record)


def parts_of(record: Record) -> Iterator[tuple[str, object]]:
    """The fields of a record and their values, in the order in which they are stated."""
    return ((name, getattr(record, name)) for name in record.__struct_fields__)


def plain(value: object) -> object:
    """A record, or what stands in one, as JSON can write it: by the names of its fields, exact numbers as text.

    A value of a kind that is not known here is written as its text.
    """
    return to_builtins(value, enc_hook=str)


def read_record(value: object, kind: type[R]) -> R:
    """The record that `plain` has written.

    Raises:
        ValueError: it is no record of this kind.
    """
    try:
        return convert(value, kind, dec_hook=_exact)
    except ValidationError as error:
        raise ValueError(str(error)) from error


def _exact(kind: type, value: object) -> Fraction:
    """A fraction, the one kind of value that msgspec does not know."""
    if kind is not Fraction or not isinstance(value, str):
        raise ValueError(f"no {kind.__name__}: {value!r}")
    try:
        return Fraction(value)
    except ZeroDivisionError as error:
        raise ValueError(f"no fraction: {value}") from error
