"""What of the artwork is to be seen, drawn on the front: an outline, in the colour of trouble where it is covered."""

from framecalc.drawing.pen import Pen, run
from framecalc.drawing.setting_out.crooked import upright
from framecalc.drawing.sheet import View
from framecalc.drawing.style import Role
from framecalc.geometry.outline import Point
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure
from framecalc.records import Record


class ImageInView(Record):
    """The image of a sheet of another size: its corners, its size, and whether part of it is covered."""

    corners: tuple[Point, ...]
    across: Figure
    up: Figure
    is_covered: bool


def read_image(plan: FramePlan) -> ImageInView | None:
    """Read the image from a plan; a sheet without a mat lies in the middle of the frame."""
    settled = plan.settled
    seen = settled.seen
    if seen is None:
        return None
    right_mm = seen.left_mm + (seen.across_mm - settled.artwork_across_mm) / 2
    above_mm = seen.below_mm + (seen.up_mm - settled.artwork_up_mm) / 2
    return ImageInView(
        corners=tuple((x + right_mm, y + above_mm) for x, y in upright(seen.across_mm, seen.up_mm)),
        across=plan.figures["image_across"],
        up=plan.figures["image_up"],
        is_covered=bool(plan.package.image_findings),
    )


def draw_image(image: ImageInView | None, view: View, pen: Pen) -> None:
    """Draw the outline of what is to be seen of a sheet without a mat."""
    if image:
        role = Role.TROUBLE if image.is_covered else Role.EDGE
        pen.line(run([view.at(corner) for corner in image.corners], closed=True), role)
