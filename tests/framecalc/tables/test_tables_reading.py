"""The tables that ship with the program say what their sources say, row by row."""

import tomllib
from math import floor
from pathlib import Path
from typing import Any

import pytest

from framecalc.tables.reading import glass_thicknesses, sheet_thicknesses, stock_sizes
from framecalc.units import Unit

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/tables.toml").read_text("utf-8"))
SIZES = {size.name: size for size in stock_sizes()}


@pytest.mark.parametrize("check", CHECKS["size"], ids=lambda check: check["source"])
def test_published_sizes(check: dict[str, Any]) -> None:
    found = [(SIZES[name].across_mm, SIZES[name].up_mm) for name in check["names"]]
    assert found == [tuple(pair) for pair in check["expect_mm"]]


@pytest.mark.parametrize("check", CHECKS["glass"], ids=lambda check: check["traditional_name"])
def test_published_glass(check: dict[str, Any]) -> None:
    (glass,) = (
        glass
        for glass in glass_thicknesses()
        if (glass.standard, glass.traditional_name) == (check["standard"], check["traditional_name"])
    )
    assert [glass.least_mm, glass.most_mm] == check["expect_mm"]


@pytest.mark.parametrize("series", ["A", "B"])
def test_each_iso_sheet_is_the_larger_one_halved_and_rounded_down(series: str) -> None:
    largest = max(int(name[1:]) for name, size in SIZES.items() if size.family == f"ISO 216 {series}")
    for number in range(largest):
        larger, smaller = SIZES[f"{series}{number}"], SIZES[f"{series}{number + 1}"]
        assert (smaller.across_mm, smaller.up_mm) == (floor(larger.up_mm / 2), larger.across_mm)


def test_the_area_of_a0_is_a_square_metre() -> None:
    assert SIZES["A0"].across_mm * SIZES["A0"].up_mm / 1e6 == pytest.approx(0.999949, abs=5e-7)


def test_names_are_unique_and_every_size_stands_upright_with_its_source() -> None:
    assert len(SIZES) == len(stock_sizes())
    for size in stock_sizes():
        assert 0 < size.across <= size.up
        assert size.status and size.standard
        assert size.unit in Unit


def test_an_inch_size_is_exact_in_inches() -> None:
    size = SIZES["8.5 x 11 in"]
    assert (float(size.across), float(size.up), size.unit) == (8.5, 11.0, Unit.INCH)


def test_every_typical_thickness_lies_in_its_band() -> None:
    assert sheet_thicknesses()
    assert all(sheet.low_mm <= sheet.typical_mm <= sheet.high_mm for sheet in sheet_thicknesses())
    assert all(sheet.status for sheet in sheet_thicknesses())


def test_every_nominal_glass_lies_in_its_band() -> None:
    assert all(glass.least_mm <= glass.nominal_mm <= glass.most_mm for glass in glass_thicknesses())
    assert all(glass.least_status and glass.most_status for glass in glass_thicknesses())


def test_a_table_is_read_once() -> None:
    assert stock_sizes() is stock_sizes()
