"""A kerf by its strip, warnings of a bed, parts taken apart, and copies laid out on beds."""

from itertools import combinations

import pytest
from shapely import Polygon

from framecalc.errors import FrameCalcError, ImpossibleLayout, OutOfRange
from framecalc.geometry.outline import Line, Outline, bounds, flatten
from framecalc.plan.templates.nesting import nested
from framecalc.records import replace
from framecalc.templates.kerf_strip import KERFS_MM, PIECE_ACROSS_MM, PIECES, kerf_of_strip, kerf_strip
from framecalc.templates.parts import parts_of, turned
from framecalc.templates.shapes import box, disc
from framecalc.templates.template import Side, Template, TemplateStep, Word
from framecalc.templates.warnings import Bed, thinnest_web_mm, warnings_of


def template(*outlines: Outline, holes: tuple[Outline, ...] = (), words: tuple[Word, ...] = ()) -> Template:
    return Template(
        name="x",
        title="",
        purpose="",
        side=Side.FACE,
        step=TemplateStep.MAT,
        outlines=outlines,
        holes=holes,
        words=words,
    )


def flat(outline: Outline) -> Polygon:
    return Polygon(flatten(outline, tolerance_mm=0.01))


@pytest.mark.parametrize("kerf_mm", KERFS_MM)
def test_a_strip_cut_by_a_beam_tells_its_kerf_and_the_piece_is_snug_in_its_hole(kerf_mm: float) -> None:
    strip = kerf_strip()
    plate, *pieces = strip.outlines
    cut = [flat(piece).buffer(-kerf_mm / 2, join_style="mitre") for piece in pieces]
    together_mm = sum(piece.bounds[2] - piece.bounds[0] for piece in cut)
    assert len(pieces) == PIECES and kerf_of_strip(measured_mm=together_mm) == pytest.approx(kerf_mm)
    hole = flat(strip.holes[KERFS_MM.index(kerf_mm)]).buffer(kerf_mm / 2, join_style="mitre")
    assert hole.bounds[2] - hole.bounds[0] == pytest.approx(PIECE_ACROSS_MM - kerf_mm)
    assert all(flat(plate).contains(flat(one)) for one in strip.holes)


@pytest.mark.parametrize("measured_mm", [89.0, 100.2, 0.0, float("nan")])
def test_a_strip_that_is_no_strip_is_refused(measured_mm: float) -> None:
    with pytest.raises(OutOfRange, match="ten pieces"):
        kerf_of_strip(measured_mm=measured_mm)


def test_a_bed_is_known_where_both_its_sizes_are() -> None:
    beds = Bed(), Bed(across_mm=600), Bed(up_mm=400), Bed(across_mm=600, up_mm=400)
    assert [bed.is_known for bed in beds] == [False, False, False, True]


def test_a_web_is_measured_between_holes_and_to_the_edge() -> None:
    plate = template(box(0, 0, 60, 40), holes=(disc((15, 20), across_mm=20), disc((36.5, 20), across_mm=20)))
    assert thinnest_web_mm(plate) == pytest.approx(1.5, abs=0.05)
    assert [one.wording[:8] for one in warnings_of(plate, bed=Bed())] == ["Thin web"]
    assert warnings_of(plate, bed=Bed(web_mm=1.4)) == ()
    assert warnings_of(template(box(0, 0, 60, 40)), bed=Bed(across_mm=40, up_mm=60)) == ()
    assert [one.wording[:6] for one in warnings_of(template(box(0, 0, 60, 41)), bed=Bed(across_mm=40, up_mm=60))] == [
        "Larger"
    ]


def test_parts_keep_what_lies_in_them_and_a_turned_one_keeps_its_shape() -> None:
    two = template(
        box(0, 0, 30, 20), box(40, 0, 10, 5), holes=(box(4, 4, 6, 9),), words=(Word(text="b", at=(41.0, 1.0)),)
    )
    first, second = parts_of(two)
    assert (len(first.holes), len(first.words), len(second.holes), len(second.words)) == (1, 0, 0, 1)
    lying = turned(first)
    assert (lying.across_mm, lying.up_mm) == (20, 30)
    assert flat(lying.outlines[0]).contains(flat(lying.holes[0]))
    assert flat(lying.holes[0]).area == pytest.approx(54)


def test_marks_are_turned_with_their_part() -> None:
    """A mark from corner to corner still joins two corners."""
    part = replace(template(box(0, 0, 30, 20)), marks=(Line(start=(0, 0), end=(30, 20)),))
    lying = turned(part)
    corners = {(round(x, 9), round(y, 9)) for x, y in flat(lying.outlines[0]).exterior.coords}
    assert corners == {(0, 0), (20, 0), (20, 30), (0, 30)}
    (mark,) = lying.marks
    assert {mark.start, mark.end} == {(0, 30), (20, 0)} and {mark.start, mark.end} < corners


@pytest.mark.parametrize(("wide_mm", "is_said"), [(40, False), (41, True)])
def test_a_part_is_as_large_wherever_it_lies(wide_mm: float, is_said: bool) -> None:
    part = template(box(500, 300, wide_mm, 10))
    said = warnings_of(part, bed=Bed(across_mm=40, up_mm=40))
    assert [one.lengths for one in said] == ([(("across", 41), ("up", 10))] if is_said else [])


def test_copies_lie_apart_on_their_beds_and_none_is_lost() -> None:
    mat = template(box(0, 0, 200, 150), holes=(box(40, 40, 100, 60),))
    bed = Bed(across_mm=610, up_mm=410, gap_mm=4)
    beds = nested(mat, copies=10, bed=bed)
    assert sum(len(one.outlines) for one in beds) == sum(len(one.holes) for one in beds) == 10
    for one in beds:
        parts = [flat(part) for part in one.outlines]
        assert all(first.distance(second) >= 4 - 1e-6 for first, second in combinations(parts, 2))
        assert all(part.bounds[0] >= 0 and part.bounds[2] <= 610 and part.bounds[3] <= 410 for part in parts)
        assert all(any(part.contains(flat(hole)) for part in parts) for hole in one.holes)
    assert len(beds) == 2


@pytest.mark.parametrize(
    ("bed", "copies", "error"),
    [
        (Bed(), 1, OutOfRange),
        (Bed(across_mm=300, up_mm=300), 0, OutOfRange),
        (Bed(across_mm=100, up_mm=100), 1, ImpossibleLayout),
    ],
)
def test_a_bed_without_size_or_too_small_is_said(bed: Bed, copies: int, error: type[FrameCalcError]) -> None:
    with pytest.raises(error):
        nested(template(box(0, 0, 200, 150)), copies=copies, bed=bed)


def test_the_holes_of_the_kerf_strip_stand_in_the_middle_of_its_plate_each_with_its_number_under_it() -> None:
    strip = kerf_strip()
    plate = bounds(strip.outlines[0].segments)
    holes = [bounds(hole.segments) for hole in strip.holes]
    right_mm = plate.right_mm - holes[-1].right_mm
    assert holes[0].left_mm - plate.left_mm == pytest.approx(right_mm, abs=2 * max(KERFS_MM))
    for hole, kerf_mm, word in zip(holes, KERFS_MM, strip.words, strict=True):
        assert hole.right_mm - hole.left_mm == pytest.approx(PIECE_ACROSS_MM - 2 * kerf_mm)
        assert 0 < word.at[0] < hole.left_mm < word.at[0] + PIECE_ACROSS_MM and word.text == f"{kerf_mm:g} mm"
        assert word.at[1] + word.letter_mm < hole.bottom_mm < hole.top_mm < plate.top_mm
