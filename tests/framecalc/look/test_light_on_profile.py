"""Light: facets lie on the section, their normals are square to it, and each gets the light that it must."""

from itertools import pairwise
from math import isclose

import pytest
from shapely import LineString, Point, Polygon

from framecalc.geometry.outline import flatten
from framecalc.look.finish import BARE, seen_finish
from framecalc.look.light import LIGHT, Facet, brightness_ratio, facets, falling_on, stops_across
from framecalc.section.profile import Edge, EdgeShape, FaceShape
from framecalc.section.rabbeted import Section, milled_section

INWARD = {"top": (0.0, -1.0), "right": (-1.0, 0.0), "bottom": (0.0, 1.0), "left": (1.0, 0.0)}
"""From the outer side of each member of a rectangle to the picture."""


def member(
    face: FaceShape = FaceShape.FLAT, sight: EdgeShape = EdgeShape.SQUARE, back: EdgeShape = EdgeShape.SQUARE
) -> Section:
    return milled_section(
        face_width_mm=30,
        thickness_mm=20,
        rabbet_width_mm=6,
        rabbet_depth_mm=12,
        sight_edge=Edge(shape=sight, size_mm=3),
        back_edge=Edge(shape=back, size_mm=3),
        face=face,
        face_drop_mm=2,
    )


@pytest.mark.parametrize("face", [FaceShape.FLAT, FaceShape.TOWARD, FaceShape.AWAY])
@pytest.mark.parametrize("sight", EdgeShape)
@pytest.mark.parametrize("back", EdgeShape)
def test_facets_cover_the_face_and_point_out_of_the_wood(face: FaceShape, sight: EdgeShape, back: EdgeShape) -> None:
    outline = member(face, sight, back).outline
    found = facets(outline, face_width_mm=30)
    ends = [end for facet in found for end in (facet.from_mm, facet.to_mm)]
    assert ends[0] == pytest.approx(0, abs=1e-6) and ends[-1] == pytest.approx(30, abs=1e-6)
    assert ends[1:-1:2] == pytest.approx(ends[2:-1:2], abs=1e-6)
    wood = Polygon(flatten(outline, tolerance_mm=0.001))
    for facet in found:
        (x, y), (across, out) = facet.middle, facet.normal
        assert wood.exterior.distance(Point(x, y)) < 0.02
        assert not wood.contains(Point(x + across * 0.05, y + out * 0.05))
        chord = LineString([(facet.from_mm, facet.from_up_mm), (facet.to_mm, facet.to_up_mm)])
        ahead = Point(x + across, y + out)
        assert chord.distance(ahead) == pytest.approx(1, abs=1e-6) or facet.to_mm - facet.from_mm < 2
        assert across**2 + out**2 == pytest.approx(1) and out > 0


def test_the_lamp_has_length_one() -> None:
    assert isclose(sum(part**2 for part in LIGHT), 1, abs_tol=0.01)


@pytest.mark.parametrize("inward", INWARD.values())
def test_a_level_surface_has_the_same_light_whatever_lies_round_it(inward: tuple[float, float]) -> None:
    assert brightness_ratio(inward, slope=(0, 1)) == pytest.approx(1)
    lamp = falling_on(inward)
    assert lamp.along_ratio**2 + lamp.inward_ratio**2 + lamp.out_ratio**2 == pytest.approx(1, abs=0.01)


def test_what_faces_the_lamp_is_brighter_and_what_turns_away_is_darker() -> None:
    light = {side: brightness_ratio(inward, slope=(0.6, 0.8)) for side, inward in INWARD.items()}
    assert light["bottom"] > light["right"] > 1 > light["left"] > light["top"]


def test_a_wall_beside_it_takes_light_from_a_face() -> None:
    low = Facet(from_mm=5, to_mm=30, from_up_mm=10, to_up_mm=10)
    wall = Facet(from_mm=0, to_mm=5, from_up_mm=24, to_up_mm=24)
    alone, beside = (stops_across(parts, lamp=falling_on((0, -1)), finish=BARE) for parts in ([low], [wall, low]))
    assert beside[-1].change_ratio < alone[-1].change_ratio - 0.1


def test_a_curve_is_lit_without_steps_and_an_edge_with_one() -> None:
    rounded = facets(member(sight=EdgeShape.ROUND).outline, face_width_mm=30)
    stops = stops_across(rounded, lamp=falling_on((0, -1)), finish=BARE)
    gaps = [after.at_mm - before.at_mm for before, after in pairwise(stops)]
    assert min(gaps) > 0
    chamfered = stops_across(
        facets(member(sight=EdgeShape.CHAMFER).outline, face_width_mm=30), lamp=falling_on((0, -1)), finish=BARE
    )
    at_edge = [stop for stop in chamfered if abs(stop.at_mm - 27) < 0.2]
    assert len(at_edge) == 2 and abs(at_edge[0].change_ratio - at_edge[1].change_ratio) > 0.1


def test_a_shiny_finish_shows_the_lamp_where_a_dull_one_does_not() -> None:
    toward = [Facet(from_mm=0, to_mm=30, from_up_mm=20, to_up_mm=12)]
    dull, shiny = (
        stops_across(toward, lamp=falling_on((0, 1)), finish=seen_finish(words))[0].change_ratio
        for words in ("soap", "gloss varnish")
    )
    assert shiny > dull
