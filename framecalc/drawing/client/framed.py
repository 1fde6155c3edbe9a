"""The picture for a client: their artwork in the planned frame, on the colour of its wall, to scale.

Alone it stands with some wall round it. The *close-up* is the upper left corner, where two members meet and the light
comes from.
"""

from functools import lru_cache

from framecalc.drawing.client.inside import draw_inside
from framecalc.drawing.client.members import draw_members
from framecalc.drawing.client.seen import ClientFront
from framecalc.drawing.client.shadows import draw_on_wall_behind, reach_on_wall_mm
from framecalc.drawing.pen import Pen, rectangle
from framecalc.drawing.ring import ring
from framecalc.drawing.sheet import Area, View
from framecalc.drawing.style import Role
from framecalc.geometry.outline import Point

ACROSS_MM, HIGHEST_MM, LOWEST_MM = 100.0, 124.0, 48.0
"""The sheet of a picture: its width, and between which heights it follows the frame: what a telephone shows."""

CLOSE_UP_MM = (100.0, 130.0)
WALL_RATIO, BESIDE_RATIO, CORNER_AT = 0.085, 0.03, (15.0, 13.0)
"""How much wall is round a frame, to its longer side, alone and beside others; where the corner of a close-up lies."""

CLOSE_FACES, CLOSE_LEAST_MM = 3.0, 60.0
"""How much of a frame is in the close-up: so many widths of its face, and no less."""

MOST_KEPT = 12
"""Pictures of each kind that are kept: what a page shows is shown again, and then to the client."""


@lru_cache(maxsize=MOST_KEPT)
def draw_client(front: ClientFront, *, name: str, picture: str = "", beside: tuple[ClientFront, ...] = ()) -> str:
    """Draw a frame for its client, as SVG for a page.

    Args:
        name: distinguishes the drawings of one page.
        picture: the address of the straight picture, or the picture itself as a `data:` address; blank without one.
        beside: frames that it stands beside, to be drawn to one scale on sheets of one size.
    """
    ratio = BESIDE_RATIO if beside else WALL_RATIO
    extent, rooms = front.extent, [_room_mm(one, ratio=ratio) for one in (front, *beside)]
    across_mm, up_mm = (max(sizes) for sizes in zip(*rooms, strict=True))
    scale = min(ACROSS_MM / across_mm, HIGHEST_MM / up_mm)
    sheet = Area(left_mm=0, top_mm=0, right_mm=ACROSS_MM, bottom_mm=max(LOWEST_MM, up_mm * scale))
    middle_mm = sheet.bottom_mm / 2 - (extent.up_mm / 2 - extent.below_mm) * scale
    view = View(scale=scale, left_mm=ACROSS_MM / 2, base_mm=middle_mm + (extent.up_mm - 2 * extent.below_mm) * scale)
    return _drawn(front, view, sheet, name=name, title=front.title, picture=picture)


def _room_mm(front: ClientFront, *, ratio: float) -> tuple[float, float]:
    """The wall that is seen of a frame with some room round it."""
    extent = front.extent
    around_mm = max(
        max(extent.across_mm, extent.up_mm) * ratio + front.stands_out_mm * 0.8, reach_on_wall_mm(front.stands_out_mm)
    )
    return extent.across_mm + 2 * around_mm, extent.up_mm + 2 * around_mm


@lru_cache(maxsize=MOST_KEPT)
def draw_close_up(front: ClientFront, *, name: str, picture: str = "") -> str:
    """Draw the upper left corner of a frame close by, as SVG for a page."""
    across_mm, up_mm = CLOSE_UP_MM
    sheet = Area(left_mm=0, top_mm=0, right_mm=across_mm, bottom_mm=up_mm)
    seen_mm = max(CLOSE_LEAST_MM, CLOSE_FACES * front.face_mm)
    scale = (across_mm - CORNER_AT[0]) / seen_mm
    x, y = _upper_left(front)
    view = View(scale=scale, left_mm=CORNER_AT[0] - x * scale, base_mm=CORNER_AT[1] + y * scale)
    return _drawn(front, view, sheet, name=name, title=f"{front.title}: a corner close by", picture=picture)


def draw_framed(front: ClientFront, view: View, pen: Pen, picture: str, *, sheet: Area) -> None:
    """Draw the frame with its contents and its shadow, its middle at the origin of the view."""
    with pen.within(clip=pen.clip(_path_of(sheet))):
        draw_on_wall_behind(front.shape, front.outside_mm, view, pen, thick_mm=front.stands_out_mm)
    pen.area(ring(view, front.shape, front.outside_mm), Role.MEMBER, fill=front.wood.early)
    draw_inside(front, view, pen, picture)
    draw_members(front, view, pen, sheet=sheet)
    _draw_fall(front, view, pen)


def _drawn(front: ClientFront, view: View, sheet: Area, *, name: str, title: str, picture: str) -> str:
    pen = Pen(name=name, across_mm=sheet.across_mm, up_mm=sheet.up_mm, title=title, inline=True)
    pen.tint(_path_of(sheet), front.look.wall_colour)
    draw_framed(front, view, pen, picture, sheet=sheet)
    return pen.svg()


def _path_of(sheet: Area) -> str:
    return rectangle(sheet.left_mm, sheet.top_mm, sheet.right_mm, sheet.bottom_mm)


def _upper_left(front: ClientFront) -> Point:
    """The corner that lies farthest up and to the left."""
    return max(front.shape.corners(*front.outside_mm), key=lambda corner: (round(corner[1] - corner[0], 6), corner[1]))


def _draw_fall(front: ClientFront, view: View, pen: Pen) -> None:
    """The lamp is nearer to the upper left: over the members the light falls off."""
    extent = front.extent
    start = view.at((-extent.across_mm / 2, extent.up_mm - extent.below_mm))
    end = view.at((extent.across_mm * 0.3, -extent.below_mm))
    stops = ((0, "#fff6e4", 0.09), (0.42, "#fff6e4", 0.0), (0.5, "#000000", 0.0), (1, "#120a04", 0.15))
    path = ring(view, front.shape, front.outside_mm) + ring(view, front.shape, front.sight_mm)
    pen.tint(path, pen.fade(start, end, stops), even_odd=True)
