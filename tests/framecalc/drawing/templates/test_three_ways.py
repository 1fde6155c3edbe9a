"""One outline, three ways out: laser, DXF and paper show equal geometry, read back by foreign readers."""

import io
import xml.etree.ElementTree as ET

import ezdxf
import pdfplumber
import pytest
from ezdxf.path import make_path
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, unary_union
from svgelements import SVG, Close, Move, Path

from framecalc.drawing.templates.dxf import template_dxf
from framecalc.drawing.templates.laser import MARGIN_MM, laser_svg
from framecalc.drawing.templates.operations import machine_work
from framecalc.drawing.templates.pdf import template_pdf
from framecalc.drawing.templates.tiles import paper_called, tiling_of
from framecalc.geometry.offset import parallel
from framecalc.geometry.outline import Outline, area_mm2, flatten
from framecalc.plan.templates.templates import TemplateStamp
from framecalc.templates.shapes import box, disc
from framecalc.templates.template import Side, Template, TemplateStep, at_origin

STAMP = TemplateStamp(project="", frame="", revision="", date="")
PX_PER_MM, MM_PER_POINT = 96 / 25.4, 25.4 / 72
WHOLE_MM = 0.02


def rounded(across_mm: float, up_mm: float, radius_mm: float, hole_mm: float) -> Template:
    """A plate with round corners and a round hole in its middle."""
    plate = parallel(box(radius_mm, radius_mm, across_mm - 2 * radius_mm, up_mm - 2 * radius_mm), by_mm=radius_mm)
    return at_origin(
        Template(
            name="x",
            title="",
            purpose="",
            side=Side.EITHER,
            step=TemplateStep.MILL,
            outlines=(plate,),
            holes=(disc((across_mm / 2, up_mm / 2), across_mm=hole_mm),),
        )
    )


def in_svg(template: Template) -> list[Polygon]:
    svg = laser_svg(template, kerf_mm=0)
    up_mm = float(ET.fromstring(svg).attrib["height"].removesuffix("mm"))
    found = []
    for path in SVG.parse(io.StringIO(svg), ppi=96).select(lambda one: isinstance(one, Path)):
        segments = [one for one in path if not isinstance(one, Move | Close)]
        points = [one.point(step / 50) for one in segments for step in range(50)]
        found.append(Polygon([(p.x / PX_PER_MM - MARGIN_MM, up_mm - p.y / PX_PER_MM - MARGIN_MM) for p in points]))
    return found


def in_dxf(template: Template) -> list[Polygon]:
    space = ezdxf.read(io.StringIO(template_dxf(template, kerf_mm=0))).modelspace()
    return [
        Polygon([(p.x, p.y) for p in make_path(one).flattening(0.001)])
        for one in space.query('LWPOLYLINE[layer=="cut"]')
    ]


def in_pdf(template: Template, paper: str) -> list[LineString]:
    """Lines and curves of the one leaf, the curves by their four points."""
    page = pdfplumber.open(io.BytesIO(template_pdf(template, stamp=STAMP, paper=paper_called(paper)))).pages[0]
    tiling = tiling_of(template.across_mm, template.up_mm, paper=paper_called(paper))
    left, low = tiling.on_leaf(next(tiling.tiles), (0.0, 0.0))
    found = []
    for one in (*page.lines, *page.curves):
        start, *rest = [
            [(x * MM_PER_POINT - left, (float(page.height) - y) * MM_PER_POINT - low) for x, y in step[1:]]
            for step in one["path"]
        ]
        if len(rest[0]) == 1:
            found.append(LineString([start[0], rest[0][0]]))
        else:
            found.append(LineString([bezier((start[0], *rest[0]), step / 50) for step in range(51)]))
    return found


def bezier(points: tuple[tuple[float, float], ...], t: float) -> tuple[float, float]:
    weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3)
    return tuple(sum(w * p[axis] for w, p in zip(weights, points, strict=True)) for axis in (0, 1))  # type: ignore[return-value]


def flat(outline: Outline) -> Polygon:
    return Polygon(flatten(outline, tolerance_mm=0.001))


def is_same(one: Polygon, other: Polygon, tolerance_mm: float) -> bool:
    """Whether each edge lies along the other one."""
    edges = ((one.exterior, other.exterior), (other.exterior, one.exterior))
    return all(to.buffer(tolerance_mm).covers(edge) for edge, to in edges)


@settings(max_examples=12, deadline=None)
@given(
    across=st.floats(40, 180),
    up=st.floats(40, 160),
    radius=st.floats(0.5, 15),
    hole=st.floats(1, 20),
    paper=st.sampled_from(["a4", "letter"]),
)
def test_one_outline_gives_equal_geometry_in_all_three(
    across: float, up: float, radius: float, hole: float, paper: str
) -> None:
    template = rounded(across, up, radius, hole)
    outlines = [flat(one) for one in (*template.holes, *template.outlines)]
    for found in (in_svg(template), in_dxf(template)):
        for ring, outline in zip(found, outlines, strict=True):
            assert is_same(ring, outline, WHOLE_MM)
    drawn = unary_union(in_pdf(template, paper)).buffer(WHOLE_MM)
    assert all(outline.exterior.difference(drawn).length < 0.001 for outline in outlines)


@settings(max_examples=30, deadline=None)
@given(across=st.floats(40, 180), radius=st.floats(0.5, 15), hole=st.floats(2, 20), kerf=st.floats(0.02, 1))
def test_a_kerf_grows_the_part_and_shrinks_the_hole_as_a_buffer_does(
    across: float, radius: float, hole: float, kerf: float
) -> None:
    """By area and perimeter: `A ± P·k/2 + π k²/4`, for a part of round corners and for a round hole."""
    template = rounded(across, 60, radius, hole)
    cut_hole, cut_part = machine_work(template, kerf_mm=kerf).cuts
    for cut, outline, by_mm in ((cut_hole, template.holes[0], -kerf / 2), (cut_part, template.outlines[0], kerf / 2)):
        fine = Polygon(flatten(outline, tolerance_mm=0.0002))
        assert area_mm2(cut) == pytest.approx(fine.buffer(by_mm, quad_segs=128).area, rel=1e-3)
        assert is_same(flat(cut), fine.buffer(by_mm, quad_segs=128), 0.01)
