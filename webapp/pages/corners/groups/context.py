"""The context of the groups of the corners page; it writes errors, gaps and shims."""

from collections.abc import Sequence

from markupsafe import Markup

from framecalc.corners.saw import sheets_of_paper
from framecalc.drawing.registry import draw_panel
from framecalc.evidence import USUAL_PRACTICE
from framecalc.findings import Finding
from framecalc.measures import Kind, measure_text
from framecalc.plan import FramePlan
from framecalc.plan.advice import Advice, advise
from framecalc.plan.corners.corners import corner_field
from framecalc.records import Record
from framecalc.units import Unit, describe_gap, describe_length
from webapp.live.answers import AnswerGroup, Big, Table, degrees, plural
from webapp.live.render import drawing

__all__ = [
    "DERIVED",
    "USUAL_PRACTICE",
    "AnswerGroup",
    "Big",
    "CornersContext",
    "Table",
    "degrees",
    "error",
    "paper",
    "plural",
]

DERIVED = "Derived by geometry."


class CornersContext(Record):
    """The plan, and the settings of the saw known from other frames of the shop."""

    plan: FramePlan
    elsewhere_deg: Sequence[Sequence[float]] = ()

    @property
    def unit(self) -> Unit:
        """The project's unit."""
        return self.plan.unit

    def measure(self, value: float, kind: Kind, *, digits: int = 0) -> str:
        """A temperature, a force or a pressure in the project's unit."""
        return measure_text(value, kind=kind, unit=self.plan.unit, digits=digits)

    def say(self, length_mm: float) -> str:
        """A length in the project's unit."""
        return describe_length(length_mm, unit=self.plan.unit)

    def drawn(self, *names: str) -> tuple[Markup, ...]:
        """Drawings of this page by name."""
        return tuple(drawing(draw_panel(name, self.plan)) for name in names)

    def gap(self, gap_mm: float) -> str:
        """A gap, a shim or a step, as a feeler reads it; a negative rounding error counts as zero."""
        return describe_gap(max(gap_mm, 0.0), unit=self.plan.unit)

    def advice(self, findings: Sequence[Finding]) -> tuple[Advice, ...]:
        """Findings of the corners in words."""
        return advise(
            findings,
            step=self.plan.step,
            words=self.plan.project.shop.words,
            path_of=lambda argument: self.plan.path_of(corner_field(argument)),
            holds=lambda path, text: False,
        )


def error(error_deg: float) -> str:
    """An error with its sign.

    >>> error(0.0954), error(-0.2), error(-0.0001)
    ('+0.095°', '−0.200°', '0.000°')
    """
    text = f"{error_deg:+.3f}°".replace("-", "−")
    return text[1:] if text[1:] == "0.000°" else text


def paper(shim_mm: float) -> str:
    """A shim in sheets of paper.

    >>> paper(0.72), paper(0.02)
    ('about 7 sheets of paper', 'less than a sheet of paper')
    """
    sheets = sheets_of_paper(shim_mm)
    return f"about {plural(sheets, 'sheet of paper', 'sheets of paper')}" if sheets else "less than a sheet of paper"
