"""The DXF, read back: in millimetres, closed, with true arcs, and of the same geometry as the laser's file."""

import io

import ezdxf
import pytest
from drawn_plans import FRAMES, plan_of
from ezdxf.document import Drawing
from ezdxf.path import make_path
from shapely import Polygon

from framecalc.drawing.templates.dxf import template_dxf
from framecalc.drawing.templates.operations import machine_work
from framecalc.geometry.outline import Arc, flatten
from framecalc.plan.templates.templates import templates_of
from framecalc.templates.template import Template

TEMPLATES = {one.name: one for demo, frame in FRAMES for one in templates_of(plan_of(demo, frame)).templates}
"""One of each kind, from whichever demo has it."""
all_templates = pytest.mark.parametrize("template", TEMPLATES.values(), ids=TEMPLATES)


def read(template: Template, kerf_mm: float = 0.0) -> Drawing:
    return ezdxf.read(io.StringIO(template_dxf(template, kerf_mm=kerf_mm)))


@all_templates
def test_it_is_sound_and_in_millimetres(template: Template) -> None:
    document = read(template)
    assert document.units == ezdxf.units.MM
    assert document.header["$MEASUREMENT"] == 1
    assert document.audit().errors == []


@all_templates
@pytest.mark.parametrize("kerf_mm", [0.0, 0.2])
def test_every_cut_is_a_closed_line_of_the_same_geometry(template: Template, kerf_mm: float) -> None:
    cuts = list(read(template, kerf_mm).modelspace().query('LWPOLYLINE[layer=="cut"]'))
    wanted = machine_work(template, kerf_mm=kerf_mm).cuts
    for cut, outline in zip(cuts, wanted, strict=True):
        assert cut.closed
        points = [(point.x, point.y) for point in make_path(cut).flattening(0.0005)]
        assert Polygon(points).hausdorff_distance(Polygon(flatten(outline, tolerance_mm=0.0005))) < 0.002
        assert sum(bulge != 0 for *_, bulge in cut.get_points("xyb")) == sum(
            isinstance(one, Arc) for one in outline.segments
        )


@all_templates
def test_marks_and_words_have_layers_of_their_own(template: Template) -> None:
    space = read(template).modelspace()
    for line, mark in zip(space.query('LINE[layer=="score"]'), template.marks, strict=True):
        ends = (line.dxf.start.x, line.dxf.start.y, line.dxf.end.x, line.dxf.end.y)
        assert ends == pytest.approx((*mark.start, *mark.end))
    assert [text.dxf.text for text in space.query('TEXT[layer=="engrave"]')] == [word.text for word in template.words]
    assert {one.dxf.layer for one in space} <= {"cut", "score", "engrave", "mark"}
