"""The windows of a mat as seen from the front: the place of each, its picture, the reveal of a lower mat.

Places are measured from the middle of the mat, which is the middle of the frame.
"""

from collections.abc import Iterator

from framecalc.geometry.outline import Point
from framecalc.mats.windows import Window
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure, named_figure
from framecalc.records import Record
from framecalc.units import Step


class WindowFromFront(Record):
    """One window: its middle, its size, its picture and the image on that, the reveal of a lower mat, the bevel.

    The image is what of the picture is to be seen, where that is not all of it; its middle is that of the window.
    `number` counts the windows of a mat; `step` is that of the tape.
    """

    middle_mm: Point
    across_mm: float
    up_mm: float
    picture_mm: tuple[float, float]
    picture_middle_mm: Point
    image_mm: tuple[float, float] | None
    reveal_mm: float
    bevel_mm: float
    number: int
    step: Step

    @property
    def figures(self) -> tuple[Figure, Figure]:
        """The picture across and up, as the tape has it."""
        across_mm, up_mm = self.picture_mm
        return self._figure("across", across_mm), self._figure("up", up_mm)

    def _figure(self, way: str, length_mm: float) -> Figure:
        return named_figure(f"picture_{self.number}_{way}", f"picture {self.number} {way}", length_mm, step=self.step)

    @property
    def seen_mm(self) -> tuple[float, float]:
        """The part of the picture in view: all of it if it floats, else the window."""
        return min(self.across_mm, self.picture_mm[0]), min(self.up_mm, self.picture_mm[1])

    @property
    def floats(self) -> bool:
        """Whether the edges of the picture show."""
        return self.picture_mm[0] < self.across_mm and self.picture_mm[1] < self.up_mm


def windows_from_front(plan: FramePlan) -> tuple[WindowFromFront, ...]:
    """Read from a plan the windows of its mat, that of the artwork first; none without a mat."""
    return tuple(_windows(plan))


def _windows(plan: FramePlan) -> Iterator[WindowFromFront]:
    mats = plan.package.mats
    if mats is None:
        return
    across_mm, up_mm = mats.mat.across_mm, mats.mat.up_mm
    for number, (image, window) in enumerate(zip(mats.images, mats.windows.windows, strict=True), start=1):
        yield WindowFromFront(
            middle_mm=_middle(window, across_mm, up_mm),
            across_mm=window.across_mm,
            up_mm=window.up_mm,
            picture_mm=(image.across_mm, image.up_mm),
            picture_middle_mm=_middle(image.behind(window), across_mm, up_mm),
            image_mm=(image.seen.across_mm, image.seen.up_mm) if image.seen else None,
            reveal_mm=mats.reveal_mm,
            bevel_mm=mats.bevel.seen_mm,
            number=number,
            step=plan.step,
        )


def _middle(window: Window, across_mm: float, up_mm: float) -> Point:
    """The middle of a window or a sheet, from the middle of the mat."""
    return (
        window.left_mm + (window.across_mm - across_mm) / 2,
        window.bottom_mm + (window.up_mm - up_mm) / 2,
    )
