"""Records: what every small value of the house keeps, whatever makes it."""

import pickle
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from functools import cached_property

import pytest

from framecalc.records import Mutable, Record, field, plain, read_record, replace


class Rail(Record):
    long_mm: float
    name: str = "rail"


class Stile(Record):
    long_mm: float
    name: str = "rail"


class Halved(Record, dict=True):
    long_mm: float

    @cached_property
    def half_mm(self) -> float:
        return self.long_mm / 2


class Tally(Mutable):
    found: list[int] = field(default_factory=list)


@dataclass(frozen=True)
class Kept:
    long_mm: float


def test_a_record_never_changes() -> None:
    rail = Rail(long_mm=3)
    with pytest.raises(AttributeError):
        rail.long_mm = 4  # type: ignore[misc]
    assert replace(rail, long_mm=4) == Rail(long_mm=4) and rail.long_mm == 3
    assert replace(Kept(long_mm=3), long_mm=4) == Kept(long_mm=4)


def test_fields_are_named_and_known() -> None:
    with pytest.raises(TypeError):
        Rail(3)  # type: ignore[misc]
    with pytest.raises(TypeError):
        Rail(long_mm=3, wide_mm=4)  # type: ignore[call-arg]
    with pytest.raises(TypeError):
        replace(Rail(long_mm=3), wide_mm=4)  # type: ignore[call-arg]


def test_records_are_equal_in_their_class_only_and_may_be_keys() -> None:
    assert {Rail(long_mm=3): 1}[Rail(long_mm=3.0)] == 1
    assert Rail(long_mm=3) != Stile(long_mm=3)
    assert pickle.loads(pickle.dumps(Rail(long_mm=3))) == Rail(long_mm=3)


def test_what_is_worked_out_once_is_no_part_of_a_record() -> None:
    halved = Halved(long_mm=3)
    assert halved.half_mm == 1.5
    assert halved == Halved(long_mm=3) and hash(halved) == hash(Halved(long_mm=3))


def test_every_mutable_has_lists_of_its_own() -> None:
    first, second = Tally(), Tally()
    first.found.append(1)
    assert second.found == []


class Wood(StrEnum):
    OAK = "oak"


class Board(Record):
    wood: Wood
    price: Decimal
    share: Fraction
    rails: tuple[Rail, ...] = ()


BOARD = Board(wood=Wood.OAK, price=Decimal("12.50"), share=Fraction(1, 3), rails=(Rail(long_mm=3.5),))


def test_a_record_is_read_back_as_it_was_written() -> None:
    written = plain(BOARD)
    assert written == {"wood": "oak", "price": "12.50", "share": "1/3", "rails": ({"long_mm": 3.5, "name": "rail"},)}
    assert read_record(written, Board) == BOARD


@pytest.mark.parametrize(
    "wrong", [{"share": "1/0"}, {"share": "x"}, {"share": 3}, {"wood": "plastic"}, {"price": "dear"}, {"rails": 3}]
)
def test_what_is_no_such_record_is_refused(wrong: dict[str, object]) -> None:
    written = plain(BOARD)
    assert isinstance(written, dict)
    with pytest.raises(ValueError, match=r"."):
        read_record(written | wrong, Board)
