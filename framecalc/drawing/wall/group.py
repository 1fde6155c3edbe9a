"""The wall to scale with its frames, their nails, and what else is on it or before it."""

from collections.abc import Iterator

from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.pen import Pen, circle, rectangle, run
from framecalc.drawing.record import panel_svg, paper_svg
from framecalc.drawing.ring import Size, ring
from framecalc.drawing.sheet import PAPERS, Area, Sheet, TitleBlock, View, fit_scale, panel
from framecalc.drawing.style import CAPITAL_RATIO, LETTER_MM, Role
from framecalc.drawing.wall.furniture import draw_furniture
from framecalc.geometry.outline import Point
from framecalc.hanging.groups import OnWall
from framecalc.hanging.things import Thing, ThingKind
from framecalc.plan import Plan
from framecalc.plan.hanging.wall import WallPlan
from framecalc.project import Project
from framecalc.records import Record
from framecalc.sizes.shape import Shape
from framecalc.units import Unit, describe_length

ACROSS_MM, TALLEST_MM = 106.0, 100.0
OVER_MM, LEAST_UP_MM = 250.0, 2000.0
"""Without a height of its own the wall is drawn so far over the highest frame, and so high at the least."""

NAIL_MM = 0.7


class PieceOnWall(Record):
    """One frame as it hangs: its number in the table, its name, its shape, the middle of the frame, its nails."""

    number: int
    name: str
    shape: Shape
    outside_mm: Size
    inside_mm: Size
    middle_mm: Point
    at: OnWall
    nails_mm: tuple[Point, ...]


class WallView(Record):
    """What the drawing reads from a plan."""

    across_mm: float
    up_mm: float
    line_mm: float
    level_mm: float
    pieces: tuple[PieceOnWall, ...]
    things: tuple[Thing, ...]
    unit: Unit


class WallDrawing(Record):
    """The drawing with what it has read."""

    view: WallView
    name: str = "wall"

    @property
    def unit(self) -> Unit:
        """The unit of its sizes."""
        return self.view.unit

    @property
    def title(self) -> str:
        """The title, for a reader who cannot see it."""
        names = ", ".join(piece.name for piece in self.view.pieces[:6])
        line = describe_length(self.view.line_mm, unit=self.unit)
        return f"Wall with {len(self.view.pieces)} frames on a line {line} over the floor: {names}"

    @property
    def panel(self) -> Sheet:
        """Its panel, as high as the wall needs."""
        sheet = panel(ACROSS_MM, TALLEST_MM)
        scale = _largest(self.view, sheet.room)
        return panel(ACROSS_MM, min(TALLEST_MM, self.view.up_mm * scale + 9))

    def draw(self, sheet: Sheet, pen: Pen, room: Area) -> float:
        """Draw it into a room of a sheet; returns its scale."""
        scale = fit_scale(_largest(self.view, room), sheet=sheet, unit=self.unit)
        left_mm = room.left_mm + (room.across_mm - self.view.across_mm * scale) / 2
        top_mm = room.top_mm + (room.up_mm - self.view.up_mm * scale) / 2 if sheet.is_paper else room.top_mm
        view = View(scale=scale, left_mm=left_mm, base_mm=top_mm + self.view.up_mm * scale)
        self.draw_in(view, pen)
        return scale

    def draw_in(self, view: View, pen: Pen) -> None:
        """Draw it where a view puts it; what hangs or stands in front hides the lines behind."""
        _draw_wall(self.view, view, pen)
        for thing in self.view.things:
            pen.lay_lines()
            _draw_thing(thing, self.view, view, pen)
        pen.lay_lines()
        for piece in self.view.pieces:
            _draw_piece(piece, view, pen)


def wall_drawing(plan: Plan) -> WallDrawing:
    """Read the wall of a job.

    Raises:
        FrameCalcError: it cannot be worked out.
    """
    wall = plan.wall
    highest_mm = max(one.high_mm for one in (*wall.placed, *(thing.place for thing in wall.things)))
    return WallDrawing(
        view=WallView(
            across_mm=wall.across_mm,
            up_mm=wall.up_mm or max(highest_mm + OVER_MM, LEAST_UP_MM),
            line_mm=wall.line_mm,
            level_mm=wall.level_mm,
            pieces=tuple(_pieces(wall, plan.project)),
            things=wall.things,
            unit=plan.project.unit,
        )
    )


def draw_wall(drawing: WallDrawing) -> str:
    """Draw it as SVG for a page."""
    return panel_svg(drawing)


def picture_px(drawing: WallDrawing, *, across_px: int) -> int:
    """How high the bare picture is where it is so wide, in the pixels of a page."""
    return round(drawing.view.up_mm * across_px / drawing.view.across_mm)


def draw_wall_picture(drawing: WallDrawing) -> str:
    """Draw the bare wall from edge to edge, as a picture to tap on."""
    view, scale = drawing.view, ACROSS_MM / drawing.view.across_mm
    across_mm, up_mm = ACROSS_MM, view.up_mm * scale
    pen = Pen(name="wall-picture", across_mm=across_mm, up_mm=up_mm, title=drawing.title, inline=False)
    drawing.draw_in(View(scale=scale, left_mm=0.0, base_mm=up_mm), pen)
    return pen.svg()


def draw_wall_paper(drawing: WallDrawing, paper: str, *, block: TitleBlock) -> str:
    """Draw it on a sheet of paper, at a scale that it prints."""
    return paper_svg(f"wall-{paper}", (drawing,), block=block, sheet=PAPERS[paper])


def _pieces(wall: WallPlan, project: Project) -> list[PieceOnWall]:
    found = []
    for number, (piece, at) in enumerate(zip(wall.pieces, wall.placed, strict=True), start=1):
        sizes, hangers = piece.plan.sizes, piece.plan.hangers
        mirrored = project.wall.from_right
        nails = [nail for nail in wall.nails if nail.key == piece.key]
        across = [wall.across_mm - nail.across_mm if mirrored else nail.across_mm for nail in nails]
        found.append(
            PieceOnWall(
                number=number,
                name=piece.name,
                shape=piece.plan.shape,
                outside_mm=(sizes.outside_across_mm, sizes.outside_up_mm),
                inside_mm=(sizes.sight_across_mm, sizes.sight_up_mm),
                middle_mm=(at.x_mm, at.high_mm - hangers.top_mm),
                at=at,
                nails_mm=tuple((x, nail.height_mm) for x, nail in zip(across, nails, strict=True)),
            )
        )
    return found


def _largest(wall: WallView, room: Area) -> float:
    return min(room.across_mm / wall.across_mm, room.up_mm / wall.up_mm)


def _draw_wall(wall: WallView, view: View, pen: Pen) -> None:
    left, right, floor = view.x(0), view.x(wall.across_mm), view.y(0)
    pen.area(rectangle(left, view.y(wall.up_mm), right, floor), Role.THIN, fill="#f4f0e6")
    pen.line(rectangle(left, view.y(wall.up_mm), right, floor), Role.EDGE)
    pen.line(run([(left, floor), (right, floor)]), Role.OUTLINE)
    for up_mm in dict.fromkeys((wall.line_mm, wall.level_mm)):
        for start_mm, end_mm in _between(wall, up_mm):
            pen.line(run([view.at((start_mm, up_mm)), view.at((end_mm, up_mm))]), Role.HIDDEN)


def _between(wall: WallView, up_mm: float) -> Iterator[Point]:
    """The stretches of a level line that no frame and no thing lies in."""
    places = (*(piece.at for piece in wall.pieces), *(thing.place for thing in wall.things))
    start_mm = 0.0
    for at in sorted((one for one in places if one.low_mm < up_mm < one.high_mm), key=lambda one: one.left_mm):
        if at.left_mm > start_mm:
            yield start_mm, min(at.left_mm, wall.across_mm)
        start_mm = max(start_mm, at.right_mm)
    if start_mm < wall.across_mm:
        yield start_mm, wall.across_mm


def _draw_thing(thing: Thing, wall: WallView, view: View, pen: Pen) -> None:
    draw_furniture(thing.kind, thing.place, view, pen)
    is_covered = any(_covers_middle(piece.at, thing.place) for piece in wall.pieces)
    if thing.kind is ThingKind.OTHER and not is_covered:
        _write(thing.name, thing.place, view, pen)


def _covers_middle(piece: OnWall, place: OnWall) -> bool:
    return piece.left_mm < place.x_mm < piece.right_mm and piece.low_mm < place.y_mm < piece.high_mm


def _draw_piece(piece: PieceOnWall, view: View, pen: Pen) -> None:
    outer = ring(view, piece.shape, piece.outside_mm, piece.middle_mm)
    pen.area(outer, Role.WOOD)
    pen.area(ring(view, piece.shape, piece.inside_mm, piece.middle_mm), Role.PICTURE)
    pen.line(outer, Role.OUTLINE)
    for nail in piece.nails_mm:
        pen.line(circle(view.at(nail), NAIL_MM), Role.BAR)
    _write(str(piece.number), piece.at, view, pen, role=Role.STRONG)


def _write(text: str, place: OnWall, view: View, pen: Pen, *, role: Role = Role.FAINT) -> None:
    """Words in the middle of a place, if it has room for them."""
    has_room = text_across_mm(text) + 1 <= place.across_mm * view.scale and place.up_mm * view.scale > LETTER_MM
    if has_room:
        at = (view.x(place.x_mm), view.y(place.y_mm) + LETTER_MM * CAPITAL_RATIO / 2)
        pen.text(text, at, anchor="middle", role=role)
