"""The laser's file: read by a foreign reader, measured in millimetres, and cut with a round beam."""

import io
import re
import xml.etree.ElementTree as ET
from itertools import combinations

import pytest
from drawn_plans import FRAMES, plan_of
from shapely import LinearRing, LineString, Polygon
from svgelements import SVG, Close, Group, Move, Path

from framecalc.drawing.templates.laser import MARGIN_MM, Strokes, laser_svg
from framecalc.drawing.templates.operations import MOST_KERF_MM
from framecalc.errors import ImpossibleSize, OutOfRange
from framecalc.geometry.outline import Outline, flatten
from framecalc.plan.templates.templates import templates_of
from framecalc.records import replace
from framecalc.templates.shapes import box, disc
from framecalc.templates.template import Side, Template, TemplateStep, Word

TEMPLATES = {  # panes as if they were of acrylic
    one.name: replace(one, no_laser="")
    for demo, frame in FRAMES
    for one in templates_of(plan_of(demo, frame)).templates
}
"""One of each kind, from whichever demo has it."""
KERFS_MM = [0.0, 0.18]
PX_PER_MM = 96 / 25.4
SVG_NAMES = "{http://www.w3.org/2000/svg}"

all_templates = pytest.mark.parametrize("template", TEMPLATES.values(), ids=TEMPLATES)


def read(svg: str) -> SVG:
    return SVG.parse(io.StringIO(svg), ppi=96)


def paths(svg: str, operation: str) -> list[Path]:
    """The paths of a group, as the foreign reader places them, in its own pixels."""
    return [
        path
        for group in read(svg).select(lambda one: isinstance(one, Group) and one.id == operation)
        for path in group.select(lambda one: isinstance(one, Path))
    ]


def rings(svg: str) -> list[Polygon]:
    """What is cut, in millimetres from the lower left corner of the template, flattened finely."""
    up_mm = float(ET.fromstring(svg).attrib["height"].removesuffix("mm"))
    found = []
    for path in paths(svg, "cut"):
        points = []
        for segment in path:
            if isinstance(segment, Move | Close):
                continue
            steps = 1 if type(segment).__name__ == "Line" else 200
            points += [segment.point(step / steps) for step in range(1, steps + 1)]
        found.append(Polygon([(p.x / PX_PER_MM - MARGIN_MM, up_mm - p.y / PX_PER_MM - MARGIN_MM) for p in points]))
    return found


def flat(outline: Outline) -> Polygon:
    return Polygon(flatten(outline, tolerance_mm=0.0005))


@all_templates
def test_its_size_is_stated_in_millimetres_and_it_has_one_unit_a_millimetre(template: Template) -> None:
    root = ET.fromstring(laser_svg(template, kerf_mm=0.2))
    width, height = (float(root.attrib[name].removesuffix("mm")) for name in ("width", "height"))
    assert root.attrib["version"] == "1.1"
    assert [float(part) for part in root.attrib["viewBox"].split()] == [0, 0, width, height]
    assert width == pytest.approx(template.across_mm + 2 * MARGIN_MM, abs=0.001)


@all_templates
def test_without_a_kerf_the_foreign_reader_finds_the_outlines_themselves(template: Template) -> None:
    found = rings(laser_svg(template, kerf_mm=0))
    for ring, outline in zip(found, (*template.holes, *template.outlines), strict=True):
        assert ring.hausdorff_distance(flat(outline)) < 0.005


@all_templates
@pytest.mark.parametrize("kerf_mm", KERFS_MM)
def test_every_path_is_closed_and_runs_one_way_and_no_two_lie_on_each_other(template: Template, kerf_mm: float) -> None:
    svg = laser_svg(template, kerf_mm=kerf_mm)
    found = paths(svg, "cut")
    assert found and all(isinstance(path[-1], Close) for path in found)
    ways = {LinearRing(ring.exterior.coords).is_ccw for ring in rings(svg)}
    assert ways == {True}
    drawn = [LineString(ring.exterior.coords) for ring in rings(svg)]
    assert all(ring.is_simple for ring in drawn)
    assert all(one.distance(other) > 0.5 for one, other in combinations(drawn, 2))


@all_templates
def test_holes_are_cut_before_the_part_that_they_are_in(template: Template) -> None:
    found = rings(laser_svg(template, kerf_mm=0.2))
    for later, earlier in combinations(reversed(found), 2):
        assert not earlier.contains(later)


@all_templates
def test_groups_are_named_and_come_in_the_order_of_work(template: Template) -> None:
    root = ET.fromstring(laser_svg(template, kerf_mm=0))
    names = [group.attrib["id"] for group in root.findall(f"{SVG_NAMES}g")]
    wanted = (
        ["engrave"] * bool(template.words)
        + ["mark"] * bool(template.zones)
        + ["score"] * bool(template.marks)
        + ["cut"]
    )
    assert names == wanted


@all_templates
def test_the_cut_only_file_has_nothing_but_cuts(template: Template) -> None:
    svg = laser_svg(template, kerf_mm=0.2, only_cuts=True)
    tags = {one.tag.removeprefix(SVG_NAMES) for one in ET.fromstring(svg).iter()}
    assert tags == {"svg", "title", "g", "path"}
    assert rings(svg) == rings(laser_svg(template, kerf_mm=0.2))


@all_templates
@pytest.mark.parametrize("kerf_mm", KERFS_MM[1:])
def test_cut_with_a_round_beam_part_and_hole_come_out_at_size(template: Template, kerf_mm: float) -> None:
    found = rings(laser_svg(template, kerf_mm=kerf_mm))
    holes, parts = found[: len(template.holes)], found[len(template.holes) :]
    for ring, outline in zip(parts, template.outlines, strict=True):
        left = ring.difference(ring.exterior.buffer(kerf_mm / 2, quad_segs=64))
        assert left.bounds == pytest.approx(flat(outline).bounds, abs=0.02)
        assert flat(outline).difference(left.buffer(0.02)).is_empty
    for ring, hole in zip(holes, template.holes, strict=True):
        opened = ring.union(ring.exterior.buffer(kerf_mm / 2, quad_segs=64))
        assert opened.bounds == pytest.approx(flat(hole).bounds, abs=0.02)
        assert opened.difference(flat(hole).buffer(0.02)).is_empty


def test_arcs_stay_arcs() -> None:
    block = TEMPLATES["reference-block"]
    svg = laser_svg(block, kerf_mm=0.2)
    hole = ET.fromstring(svg).findall(f"{SVG_NAMES}g[@id='cut']/{SVG_NAMES}path")[0].attrib["d"]
    assert re.findall("[A-Z]", hole) == ["M", "A", "A", "A", "A", "Z"]
    assert "A3.9,3.9" in hole


def test_strokes_are_as_they_are_typed() -> None:
    stick = TEMPLATES["story-stick"]
    svg = laser_svg(stick, kerf_mm=0, strokes=Strokes(cut="#ff0000", score="blue", engrave="#000", width_mm=0.01))
    groups = {group.attrib["id"]: group.attrib for group in ET.fromstring(svg).findall(f"{SVG_NAMES}g")}
    assert groups["cut"]["stroke"] == "#ff0000" and groups["cut"]["stroke-width"] == "0.01"
    assert groups["score"]["stroke"] == "blue"
    assert groups["engrave"]["fill"] == "#000"


def test_what_no_laser_cuts_has_no_file() -> None:
    with pytest.raises(ImpossibleSize, match="No laser cuts it"):
        laser_svg(replace(TEMPLATES["glazing"], no_laser="No laser cuts it."), kerf_mm=0)


@pytest.mark.parametrize("colour", ["", "red;", 'red" onload="x', "#12345", "rgb(1,2,3)", "RED"])
def test_a_stroke_that_is_no_colour_is_refused(colour: str) -> None:
    with pytest.raises(OutOfRange, match="Enter a colour") as refusal:
        Strokes(score=colour)
    assert refusal.value.field == "score_stroke"


def test_a_name_that_somebody_typed_stays_a_text() -> None:
    one = Template(
        name="x",
        title="<b>&\x00",
        purpose="",
        side=Side.EITHER,
        step=TemplateStep.MILL,
        outlines=(box(0, 0, 30, 20),),
        words=(Word(text="</text><script>", at=(2.0, 2.0)),),
    )
    root = ET.fromstring(laser_svg(one, kerf_mm=0).encode())
    assert root.findtext(f"{SVG_NAMES}title") == "<b>&\ufffd"
    assert root.findtext(f"{SVG_NAMES}g/{SVG_NAMES}text") == "</text><script>"


def test_a_kerf_wider_than_a_hole_or_than_any_beam_is_refused() -> None:
    one = Template(
        name="x",
        title="",
        purpose="",
        side=Side.EITHER,
        step=TemplateStep.MILL,
        outlines=(box(0, 0, 30, 20),),
        holes=(disc((9, 9), across_mm=0.3),),
    )
    assert laser_svg(one, kerf_mm=0.2)
    with pytest.raises(ImpossibleSize, match=r"Too narrow for a kerf of 0\.3 mm") as refusal:
        laser_svg(one, kerf_mm=0.3)
    assert refusal.value.field == "kerf_mm"
    for kerf_mm in (-0.1, MOST_KERF_MM + 0.1, float("nan")):
        with pytest.raises(OutOfRange):
            laser_svg(replace(one, holes=()), kerf_mm=kerf_mm)
