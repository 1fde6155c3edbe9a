"""The drawings of the corners page: legible, and true where they say so."""

from typing import Any

import pytest
from svg_reading import Drawn
from test_legibility import require_legible

from framecalc.drawing.corner_page import draw_closing, draw_mitre_face, draw_polygon, draw_year
from framecalc.plan import Plan
from framecalc.plan.corner import CornerPlan
from framecalc.project import read_project
from framecalc.units import Unit


def corners(face_width: str = "30 mm", **corner: Any) -> CornerPlan:
    section = dict(
        face_width=face_width, thickness="20 mm", rabbet_width="6 mm", rabbet_depth="12 mm", face_drop="2 mm",
        sight_edge={"size": "2 mm"}, back_edge={"size": "2 mm"}, tray_gap="6 mm", ledge_width="20 mm",
        ledge_thickness="8 mm",
    )  # fmt: skip
    frame = {
        "id": "f1", "name": "One", "artwork": {"across": "300 mm", "up": "400 mm"}, "section": section,
        "package": {"clearance_across": "3 mm", "clearance_up": "3 mm"}, "corner": corner,
    }  # fmt: skip
    shop = {"blade": "saw", "kerf": "3 mm", "end_trim": "10 mm", "fence_length": "450 mm"}
    document = {"schema": 1, "name": "Test", "unit": "mm", "shop": shop, "frames": [frame]}
    return Plan(read_project(document)).frames["f1"].corners


@pytest.mark.parametrize("face_width", ["12 mm", "30 mm", "140 mm"])
@pytest.mark.parametrize("unit", list(Unit))
def test_the_mitre_face_is_legible(face_width: str, unit: Unit) -> None:
    plan = corners(face_width, joint={"kind": "spline", "spline_depth": "6 mm"})
    require_legible(Drawn(draw_mitre_face(plan, unit=unit)))


@pytest.mark.parametrize("angle", ["45.1", "46", "50"])
def test_the_closing_corners_are_legible_and_say_their_factor(angle: str) -> None:
    drawn = Drawn(draw_closing(corners(sides={"top": {"start": angle}})))
    require_legible(drawn)
    assert any("×20" in text.text for text in drawn.texts)


@pytest.mark.parametrize("sides", [3, 5, 8, 24])
def test_a_polygon_is_legible(sides: int) -> None:
    require_legible(Drawn(draw_polygon(corners(polygon=sides, polygon_flats="300 mm"), unit=Unit.MM)))


@pytest.mark.parametrize("moisture", ["5", "8", "14"])
def test_the_year_is_legible(moisture: str) -> None:
    require_legible(Drawn(draw_year(corners(seasons={"species": "white_oak", "moisture": moisture}))))
