"""How far shapes are apart, by Shapely."""

from shapely import Point, Polygon


def corner_to(shape: Polygon, corner: int, other: Polygon) -> float:
    return float(Point(shape.exterior.coords[corner]).distance(other))
