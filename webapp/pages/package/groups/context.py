"""What the groups of the package page are worked out from, and how they write sizes, masses and sources."""

from collections.abc import Iterable

from markupsafe import Markup

from framecalc.drawing.registry import draw_panel
from framecalc.evidence import Source
from framecalc.findings import Finding, Rounding
from framecalc.measures import Kind, measure_text
from framecalc.plan import FramePlan
from framecalc.plan.advice import Advice
from framecalc.records import Record
from framecalc.units import Unit, describe_length, format_length
from framecalc.weights import mass_text
from webapp.live.render import drawing


class PackageContext(Record):
    """The plan of the frame."""

    plan: FramePlan

    @property
    def unit(self) -> Unit:
        """The project's unit."""
        return self.plan.unit

    def measure(self, value: float, kind: Kind, *, digits: int = 0) -> str:
        """A temperature, a force or a pressure in the project's unit."""
        return measure_text(value, kind=kind, unit=self.plan.unit, digits=digits)

    def say(self, length_mm: float) -> str:
        """A length as measured, in the project's unit."""
        return describe_length(length_mm, unit=self.plan.unit)

    def tape(self, length_mm: float, *, rounding: Rounding = Rounding.NEAREST) -> str:
        """A length to set or cut, rounded to the step of the tape."""
        return format_length(length_mm, step=self.plan.step, rounding=rounding).full

    def size(self, across_mm: float, up_mm: float, *, rounding: Rounding = Rounding.NEAREST) -> str:
        """A size to the step of the tape, across by up, the unit once."""
        across, up = (
            format_length(length_mm, step=self.plan.step, rounding=rounding).text for length_mm in (across_mm, up_mm)
        )
        return f"{across} × {up} {self.plan.unit}"

    def outline(self, across_mm: float, up_mm: float, *, rounding: Rounding = Rounding.NEAREST) -> str:
        """A size; of a polygon its measure across the flats."""
        if self.plan.shape.is_rectangle:
            return self.size(across_mm, up_mm, rounding=rounding)
        return f"{self.tape(across_mm, rounding=rounding)} across the flats"

    def mass(self, mass_kg: float) -> str:
        """A mass in the project's unit."""
        return mass_text(mass_kg, unit=self.plan.unit)

    def drawn(self, *names: str) -> tuple[Markup, ...]:
        """Drawings of this page by name."""
        return tuple(drawing(draw_panel(name, self.plan)) for name in names)

    def advice(self, findings: Iterable[Finding]) -> tuple[Advice, ...]:
        """Findings in words, with their ways out."""
        return self.plan.advise(findings)

    def found(self, *topics: str) -> tuple[Advice, ...]:
        """Findings of the whole frame that belong to these topics, by the beginning of their codes."""
        return tuple(advice for advice in self.plan.advice if advice.code.partition(".")[0] in topics)


def source_words(source: Source) -> str:
    """A source with its evidence before it.

    >>> from framecalc.evidence import PLANE_GEOMETRY, PRACTICE
    >>> source_words(PRACTICE), source_words(PLANE_GEOMETRY)
    ('Usual practice.', 'Derived: plane geometry.')
    """
    evidence = source.evidence.value
    words = source.name if source.name.startswith(evidence) else f"{evidence}: {source.name}"
    return f"{words[:1].upper()}{words[1:]}."
