"""What the drawing of a mat shows: the mat as it lies in front of the person who cuts it, and distances from its edges.

A distance is written once, however many windows share it.
"""

from collections.abc import Iterable

from framecalc.drawing.ring import Size
from framecalc.errors import ImpossibleSize
from framecalc.findings import Rounding
from framecalc.geometry.outline import Point
from framecalc.mats.windows import Window
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure, named_figure
from framecalc.plan.package.mats import CutMat, MatPlan
from framecalc.records import Record, replace
from framecalc.sizes.shape import Shape
from framecalc.units import Step, Unit, format_length
from framecalc.words import Words

MOST_LANES = 3
"""More different distances than this beside one edge are left to the table."""


class DrawnWindow(Record):
    """A window as it lies, and its size. In a polygon `window` is the upright rectangle round it."""

    window: Window
    size_mm: Size
    middle_mm: Point
    says: str


class Distances(Record):
    """The different distances from each edge, the smallest first."""

    left: tuple[Figure, ...]
    right: tuple[Figure, ...]
    top: tuple[Figure, ...]
    bottom: tuple[Figure, ...]

    @property
    def are_too_many(self) -> bool:
        """Whether there are too many to draw."""
        return not (self.left and self.right and self.top and self.bottom)


class MatDrawing(Record):
    """What the drawing reads from a plan. `behind` are the sheet and the image on it, where they are two sizes.

    The outside is the upright rectangle round the mat; `size_mm` of a polygon is its measure across the flats.
    """

    shape: Shape
    size_mm: Size
    middle_mm: Point
    windows: tuple[DrawnWindow, ...]
    behind: tuple[Window, ...]
    distances: Distances
    outside: tuple[Figure, Figure]
    bevel_mm: float
    from_behind: bool
    which: str
    name: str
    unit: Unit
    words: Words

    @property
    def side(self) -> str:
        """The words on the sheet: which mat it is, and the side it is cut from."""
        side = "from behind" if self.from_behind else "from in front"
        lies = ", face down" if self.from_behind else ", face up"
        return f"{self.which}, {side}" if self.which else side + lies


def read_lower_mat(plan: FramePlan) -> MatDrawing:
    """Read from a plan the mat that is next to the artwork, or the only one.

    Raises:
        ImpossibleSize: there is no mat.
    """
    return _read(plan, -1)


def read_upper_mat(plan: FramePlan) -> MatDrawing:
    """Read from a plan the mat that is in front of another.

    Raises:
        ImpossibleSize: there is no mat, or only one.
    """
    mats = plan.package.mats
    if mats and len(mats.cut) == 1:
        raise ImpossibleSize("Add a second mat first.", field="mat_reveal_mm")
    return _read(plan, 0)


def _read(plan: FramePlan, which: int) -> MatDrawing:
    mats = plan.package.mats
    if mats is None:
        raise ImpossibleSize("Add a mat first.", field="mat_border_mm")
    cut, step, shape = mats.cut[which], plan.step, plan.shape
    extent = shape.extent(cut.laid.across_mm, cut.laid.up_mm)
    middle_mm = (extent.across_mm / 2, extent.below_mm)
    return MatDrawing(
        shape=shape,
        size_mm=(cut.laid.across_mm, cut.laid.up_mm),
        middle_mm=middle_mm,
        windows=tuple(_window(window, shape, middle_mm, step) for window in cut.laid.windows),
        behind=_behind(mats),
        distances=_distances(cut, step, shape),
        outside=(
            named_figure("mat_across", "mat, across", extent.across_mm, step=step, rounding=Rounding.DOWN),
            named_figure("mat_up", "mat, up", extent.up_mm, step=step, rounding=Rounding.DOWN),
        ),
        bevel_mm=cut.bevel.seen_mm,
        from_behind=mats.from_behind,
        which=("upper" if which == 0 else "lower") if mats.upper else "",
        name=cut.name,
        unit=plan.unit,
        words=plan.project.shop.words,
    )


def _window(window: Window, shape: Shape, middle_mm: Point, step: Step) -> DrawnWindow:
    """A window in its place; that of a polygon is round the middle of its mat."""
    extent = shape.extent(window.across_mm, window.up_mm)
    if shape.is_rectangle:
        middle_mm = (window.left_mm + window.across_mm / 2, window.bottom_mm + window.up_mm / 2)
    box = Window(
        left_mm=middle_mm[0] - extent.across_mm / 2,
        bottom_mm=middle_mm[1] - extent.below_mm,
        across_mm=extent.across_mm,
        up_mm=extent.up_mm,
    )
    return DrawnWindow(
        window=window if shape.is_rectangle else box,
        size_mm=(window.across_mm, window.up_mm),
        middle_mm=middle_mm,
        says=_size(window, shape, step),
    )


def _size(window: Window, shape: Shape, step: Step) -> str:
    """The size of a window in words; of a polygon across its flats."""
    across, up = (format_length(length_mm, step=step).text for length_mm in (window.across_mm, window.up_mm))
    return f"{across} × {up}" if shape.is_rectangle else f"{across} across the flats"


def _behind(mats: MatPlan) -> tuple[Window, ...]:
    """The sheet of the artwork and the image on it, as they lie with the mat; none where they are of one size."""
    image = mats.images[0]
    if image.seen is None:
        return ()
    sheet, seen = mats.sheet, image.seen
    on_it = Window(
        left_mm=sheet.left_mm + seen.left_mm,
        bottom_mm=sheet.bottom_mm + seen.below_mm,
        across_mm=seen.across_mm,
        up_mm=seen.up_mm,
    )
    if not mats.from_behind:
        return sheet, on_it
    return tuple(replace(one, left_mm=mats.mat.across_mm - one.right_mm) for one in (sheet, on_it))


def _distances(cut: CutMat, step: Step, shape: Shape) -> Distances:
    """The distances from each edge; all edges of a polygon have the same, which stands at its level one."""
    settings = cut.settings
    if not shape.is_rectangle:
        edges = _different("from_edge", (one.bottom_mm for one in settings), step)
        return Distances(left=(), right=(), top=(), bottom=edges)
    return Distances(
        left=_different("from_left", (one.left_mm for one in settings), step),
        right=_different("from_right", (one.right_mm for one in settings), step),
        top=_different("from_top", (one.top_mm for one in settings), step),
        bottom=_different("from_bottom", (one.bottom_mm for one in settings), step),
    )


def _different(name: str, lengths_mm: Iterable[float], step: Step) -> tuple[Figure, ...]:
    """The different distances; none if there are too many to draw."""
    found = sorted({round(length_mm, 3): length_mm for length_mm in lengths_mm}.values())
    if len(found) > MOST_LANES:
        return ()
    return tuple(named_figure(name, name.replace("_", " the "), length_mm, step=step) for length_mm in found)
