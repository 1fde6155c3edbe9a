"""An image without a mat: what the lip and a fillet cover of it, against its polygon."""

import pytest
from hypothesis import given
from hypothesis import strategies as some
from shapely import box

from framecalc.findings import Finding
from framecalc.mats.openings import Opening
from framecalc.mats.seen import SeenImage
from framecalc.package.in_view import covered_image_findings
from framecalc.records import replace

SHEET_MM = (300.0, 400.0)


def found_in(
    seen: SeenImage, *, rabbet_width_mm: float, clearance_mm: tuple[float, float], fillet_mm: float = 0.0
) -> tuple[Finding, ...]:
    return covered_image_findings(
        seen,
        in_view(rabbet_width_mm, clearance_mm, fillet_mm),
        sheet_across_mm=SHEET_MM[0],
        sheet_up_mm=SHEET_MM[1],
        clearance_across_mm=clearance_mm[0],
        clearance_up_mm=clearance_mm[1],
        rabbet_width_mm=rabbet_width_mm,
        fillet_mm=fillet_mm,
    )


def in_view(rabbet_width_mm: float, clearance_mm: tuple[float, float], fillet_mm: float) -> Opening:
    across_mm, up_mm = (
        sheet + clearance - 2 * rabbet_width_mm - 2 * fillet_mm
        for sheet, clearance in zip(SHEET_MM, clearance_mm, strict=True)
    )
    return Opening(across_mm=across_mm, up_mm=up_mm)


images = some.builds(
    lambda across, up, right, above: SeenImage(
        across_mm=300 * across,
        up_mm=400 * up,
        left_mm=300 * (1 - across) * right,
        below_mm=400 * (1 - up) * above,
    ),
    some.floats(0.3, 1),
    some.floats(0.3, 1),
    some.floats(0, 1),
    some.floats(0, 1),
)
clearances = some.tuples(some.floats(0, 8), some.floats(0, 8))


@given(
    seen=images, rabbet_width_mm=some.floats(4, 20), clearance_mm=clearances, fillet_mm=some.sampled_from([0.0, 5.0])
)
def test_the_image_less_the_sight_opening_is_empty_exactly_where_nothing_is_found(
    seen: SeenImage, rabbet_width_mm: float, clearance_mm: tuple[float, float], fillet_mm: float
) -> None:
    left_mm, low_mm = seen.left_mm - 150, seen.below_mm - 200
    image = box(left_mm, low_mm, left_mm + seen.across_mm, low_mm + seen.up_mm)
    view = in_view(rabbet_width_mm, clearance_mm, fillet_mm)
    sight = box(-view.across_mm / 2, -view.up_mm / 2, view.across_mm / 2, view.up_mm / 2)
    covered = image.difference(sight.buffer(1e-6, join_style="mitre"))
    found = found_in(seen, rabbet_width_mm=rabbet_width_mm, clearance_mm=clearance_mm, fillet_mm=fillet_mm)
    assert bool(found) is not covered.is_empty
    deepest_mm = max((finding.lengths["covered"] for finding in found), default=0.0)
    wider = box(*sight.buffer(deepest_mm + 1e-6, join_style="mitre").bounds)
    assert image.difference(wider).is_empty


@given(seen=images, rabbet_width_mm=some.floats(4, 20), clearance_mm=clearances)
def test_each_way_out_uncovers_its_direction(
    seen: SeenImage, rabbet_width_mm: float, clearance_mm: tuple[float, float]
) -> None:
    for finding in found_in(seen, rabbet_width_mm=rabbet_width_mm, clearance_mm=clearance_mm):
        for way in finding.ways:
            across_mm, up_mm = clearance_mm
            if way.argument == "rabbet_width_mm":
                again = found_in(seen, rabbet_width_mm=way.value_mm, clearance_mm=clearance_mm)
            else:
                one = way.argument == "clearance_across_mm"
                larger = (way.value_mm, up_mm) if one else (across_mm, way.value_mm)
                again = found_in(seen, rabbet_width_mm=rabbet_width_mm, clearance_mm=larger)
            assert finding.code not in [other.code for other in again]


def test_a_fillet_is_narrowed_before_the_frame_is_changed() -> None:
    seen = SeenImage(across_mm=280, up_mm=380, left_mm=10, below_mm=10)
    across, up = found_in(seen, rabbet_width_mm=6, clearance_mm=(3, 3), fillet_mm=8)
    assert [way.argument for way in across.ways] == ["fillet_mm", "rabbet_width_mm", "clearance_across_mm"]
    assert across.ways[0].value_mm == pytest.approx(5.5) and "fillet" in up.sentence
    assert not found_in(
        replace(seen, left_mm=14, across_mm=272, below_mm=14, up_mm=372),
        rabbet_width_mm=6,
        clearance_mm=(3, 3),
        fillet_mm=8,
    )


@given(seen=images, clearance_mm=clearances)
def test_each_way_out_changes_no_more_than_it_must(seen: SeenImage, clearance_mm: tuple[float, float]) -> None:
    for finding in found_in(seen, rabbet_width_mm=12, clearance_mm=clearance_mm):
        for way in finding.ways:
            if way.argument == "rabbet_width_mm":
                nearly = found_in(seen, rabbet_width_mm=way.value_mm + 0.01, clearance_mm=clearance_mm)
            else:
                less_mm = way.value_mm - 0.01
                across = way.argument == "clearance_across_mm"
                smaller = (less_mm, clearance_mm[1]) if across else (clearance_mm[0], less_mm)
                nearly = found_in(seen, rabbet_width_mm=12, clearance_mm=smaller)
            assert finding.code in [other.code for other in nearly]


def test_neither_fillet_nor_rabbet_is_made_narrower_than_nothing() -> None:
    """An image as large as its sheet: a lip of 6 and a fillet of 8, less half a clearance of 2, cover 13."""
    seen = SeenImage(across_mm=300, up_mm=400, left_mm=0, below_mm=0)
    found = found_in(seen, rabbet_width_mm=6, clearance_mm=(2.0, 2.0), fillet_mm=8)
    assert [one.lengths["covered"] for one in found] == [13, 13]
    assert [(way.argument, way.value_mm) for way in found[0].ways] == [("clearance_across_mm", 28)]
