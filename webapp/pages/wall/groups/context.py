"""What the groups of the wall page are worked out from, and how they write sizes, masses and findings."""

from collections.abc import Iterable

from markupsafe import Markup

from framecalc.drawing.registry import draw_panel
from framecalc.drawing.wall.group import draw_wall, wall_drawing
from framecalc.findings import Finding, Rounding
from framecalc.measures import Kind, measure_text
from framecalc.plan import FramePlan, Plan
from framecalc.plan.advice import Advice, advise
from framecalc.records import Record, cached_property
from framecalc.units import Unit, describe_length, format_length
from framecalc.weights import mass_text
from webapp.live.render import drawing


class WallContext(Record, dict=True):
    """The plan of the frame, and that of its job."""

    plan: FramePlan
    whole: Plan

    @property
    def unit(self) -> Unit:
        """The project's unit."""
        return self.plan.unit

    def say(self, length_mm: float) -> str:
        """A length as measured, in the project's unit."""
        return describe_length(length_mm, unit=self.unit)

    def tape(self, length_mm: float, *, rounding: Rounding = Rounding.NEAREST) -> str:
        """A length to set, rounded to the step of the tape."""
        return format_length(length_mm, step=self.plan.step, rounding=rounding).full

    def mass(self, mass_kg: float) -> str:
        """A mass in the project's unit."""
        return mass_text(mass_kg, unit=self.unit)

    def force(self, force_n: float) -> str:
        """A force in the project's unit."""
        return measure_text(force_n, kind=Kind.FORCE, unit=self.unit)

    def drawn(self, name: str) -> tuple[Markup, ...]:
        """A drawing of the frame by name."""
        return (drawing(draw_panel(name, self.plan)),)

    @cached_property
    def wall_drawn(self) -> tuple[Markup, ...]:
        """The wall of the job."""
        return (drawing(draw_wall(wall_drawing(self.whole))),)

    @property
    def is_on_cleat(self) -> bool:
        """Whether the frame hangs by a cleat: what goes on the wall is a strip."""
        return self.plan.hangers.cleat is not None

    @property
    def from_here(self) -> str:
        """What sizes across are measured from: a wall without a typed size is as wide as its group."""
        if not self.whole.wall.is_measured:
            return "edge of the group"
        return "corner"

    def advice(self, findings: Iterable[Finding]) -> tuple[Advice, ...]:
        """Findings about the frame in words, with their ways out."""
        return self.plan.advise(findings)

    def advice_of_job(self, findings: Iterable[Finding]) -> tuple[Advice, ...]:
        """Findings about the wall in words; their arguments are paths already."""
        words = self.plan.project.shop.words
        return advise(findings, step=self.plan.step, words=words, path_of=str, holds=lambda path, text: False)
