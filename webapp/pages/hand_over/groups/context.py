"""What the groups are worked out from, and how they write sizes and masses."""

from collections.abc import Iterable

from framecalc.findings import Finding, Rounding
from framecalc.plan import FramePlan, Plan
from framecalc.plan.advice import Advice
from framecalc.project.hand_over import HandOver
from framecalc.records import Record
from framecalc.units import Unit, describe_length, format_length
from framecalc.weights import mass_text


class HandOverContext(Record):
    """The plan of the frame and that of its job, the name of the shop, the photo of the piece."""

    plan: FramePlan
    whole: Plan
    shop: str = ""
    photo: str = ""

    @property
    def typed(self) -> HandOver:
        """What was typed about handing over."""
        return self.plan.frame.hand_over

    @property
    def unit(self) -> Unit:
        """The project's unit."""
        return self.plan.unit

    def say(self, length_mm: float) -> str:
        """A length as measured, in the project's unit."""
        return describe_length(length_mm, unit=self.unit)

    def sizes(self, *sizes_mm: float, rounding: Rounding = Rounding.NEAREST) -> str:
        """Sizes to the step of the tape, with their unit once."""
        texts = (format_length(size_mm, step=self.plan.step, rounding=rounding).text for size_mm in sizes_mm)
        return f"{' × '.join(texts)} {self.unit}"

    def mass(self, mass_kg: float) -> str:
        """A mass in the project's unit."""
        return mass_text(mass_kg, unit=self.unit)

    def weight(self, mass_kg: float) -> str:
        """What a card says that the frame weighs: over what is known, where not all is."""
        return self.plan.package.mass.said(mass_kg, unit=self.unit)

    def advice(self, findings: Iterable[Finding]) -> tuple[Advice, ...]:
        """Findings about the frame in words, with their ways out."""
        return self.plan.advise(findings)
