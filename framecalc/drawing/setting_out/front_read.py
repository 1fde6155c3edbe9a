"""What the front drawing reads from a plan."""

from framecalc.drawing.from_front import FrameFromFront
from framecalc.drawing.package.mat_from_front import windows_from_front
from framecalc.drawing.ring import Size
from framecalc.drawing.setting_out.crooked import is_crooked
from framecalc.drawing.setting_out.image import ImageInView, read_image
from framecalc.geometry.outline import Point
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure
from framecalc.records import Record, replace
from framecalc.units import Unit
from framecalc.words import Words


class Pair(Record):
    """A size as figures, across and up, and how far it reaches down from the middle of the frame."""

    across: Figure
    up: Figure
    below_mm: float


class Front(FrameFromFront):
    """All that the front drawing reads from a plan. Without `lanes` and `artwork` it is drawn without words."""

    artwork_mm: tuple[float, float]
    corners: tuple[Point, ...]
    ledge_mm: tuple[float, float] | None
    lanes: tuple[tuple[str, Pair], ...]
    artwork: Pair | None
    image: ImageInView | None
    unit: Unit
    words: Words
    title: str

    @property
    def is_crooked(self) -> bool:
        """Whether the artwork is shown as crooked as it is; a mat is cut square."""
        return not self.windows and is_crooked(self.corners)

    @property
    def rabbet_mm(self) -> Size:
        """The rabbet size."""
        return self.sizes.rabbet_across_mm, self.sizes.rabbet_up_mm

    @property
    def package_mm(self) -> Size:
        """The package."""
        return self.sizes.package_across_mm, self.sizes.package_up_mm


def read_front(plan: FramePlan) -> Front:
    """Read from a plan what the front shows."""
    names = ("artwork", "sight", "outside") if plan.is_tray else ("sight", "rabbet", "outside")
    words = ("artwork", "inside", "outside") if plan.is_tray else names
    return Front(
        sizes=plan.sizes,
        windows=windows_from_front(plan),
        fillet_mm=plan.package.fillet_mm,
        artwork_mm=(plan.settled.artwork_across_mm, plan.settled.artwork_up_mm),
        corners=plan.play.corners,
        ledge_mm=(plan.tray.opening_across_mm, plan.tray.opening_up_mm) if plan.tray else None,
        lanes=tuple((word, _pair(plan, name)) for word, name in zip(words, names, strict=True)),
        artwork=_pair(plan, "artwork"),
        image=read_image(plan),
        unit=plan.unit,
        words=plan.project.shop.words,
        title=_title(plan),
    )


def read_small_front(plan: FramePlan) -> Front:
    """Read from a plan what a front too small for words shows."""
    return replace(read_front(plan), lanes=(), artwork=None)


def _title(plan: FramePlan) -> str:
    across, up = plan.figures["outside_across"], plan.figures["outside_up"]
    return f"Front of {plan.frame.name}: {across.text} × {up.text} {plan.unit} outside"


def _pair(plan: FramePlan, name: str) -> Pair:
    """A size in figures; of a polygon that of the rectangle round it, whose middle is seldom that of the frame."""
    up_mm = plan.settled.artwork_up_mm if name == "artwork" else getattr(plan.sizes, f"{name}_up_mm")
    return Pair(across=plan.figures[f"{name}_across"], up=plan.figures[f"{name}_up"], below_mm=up_mm / 2)
