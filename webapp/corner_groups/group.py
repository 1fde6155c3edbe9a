"""What one group of the corners page says: its big figures, lines, tables, drawings, findings, sources, cautions."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from framecalc.drawing.corners import draw_corner_panel
from framecalc.findings import Finding, Severity
from framecalc.plan import FramePlan
from framecalc.plan.advice import Advice, advise
from framecalc.plan.corner import corner_field
from framecalc.saw import sheets_of_paper
from framecalc.units import describe_gap, describe_length
from webapp.render import drawing

DERIVED = "Derived by geometry; the sums are checked against independent ones in the tests."
PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class Big:
    """A figure that is read first: what it is, the figure, a word under it."""

    label: str
    text: str
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A small table: what it is called, its heads, its rows; the first cell of a row is its name."""

    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    is_folded: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """What one group says; where its numbers describe nothing that can be made it `refuses`, in one line."""

    name: str
    bigs: tuple[Big, ...] = ()
    lines: tuple[str, ...] = ()
    tables: tuple[Table, ...] = ()
    drawings: tuple[Markup, ...] = ()
    findings: tuple[Advice, ...] = ()
    sources: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    refuses: bool = False

    @property
    def state(self) -> str:
        """The worst that it has to say: `stop`, `warn`, or nothing."""
        severities = {advice.severity for advice in self.findings}
        if self.refuses or Severity.STOP in severities:
            return "stop"
        return "warn" if Severity.WARN in severities else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What the groups are worked out from: the plan, and what is known of the saw from elsewhere in the shop."""

    plan: FramePlan
    elsewhere_deg: Sequence[Sequence[float]] = ()

    def say(self, length_mm: float) -> str:
        """A length in the project's unit."""
        return describe_length(length_mm, unit=self.plan.unit)

    def drawn(self, *names: str) -> tuple[Markup, ...]:
        """Drawings of this page by name."""
        return tuple(drawing(draw_corner_panel(name, self.plan)) for name in names)

    def gap(self, gap_mm: float) -> str:
        """A gap, a shim or a step, as a feeler reads it; what is less than nothing by a solver's noise is nothing."""
        return describe_gap(max(gap_mm, 0.0), unit=self.plan.unit)

    def advice(self, findings: Sequence[Finding]) -> tuple[Advice, ...]:
        """Findings of the corners in words."""
        here = f"frames.{self.plan.frame.id}."
        return advise(
            findings,
            step=self.plan.step,
            words=self.plan.project.shop.words,
            path_of=lambda argument: here + corner_field(argument),
            holds=lambda path, text: False,
        )


def degrees(angle_deg: float, *, places: int = 2) -> str:
    """An angle without trailing zeros.

    >>> degrees(45), degrees(35.2644), degrees(22.5)
    ('45°', '35.26°', '22.5°')
    """
    text = f"{angle_deg:.{places}f}"
    return f"{text.rstrip('0').rstrip('.') if '.' in text else text}°".replace("-", "−")


def error(error_deg: float) -> str:
    """An error with its sign.

    >>> error(0.0954), error(-0.2), error(-0.0001)
    ('+0.095°', '−0.200°', '0.000°')
    """
    text = f"{error_deg:+.3f}°".replace("-", "−")
    return text[1:] if text[1:] == "0.000°" else text


def counted(count: int, one: str, many: str = "") -> str:
    """A count with its noun.

    >>> counted(1, "cut"), counted(3, "cut"), counted(2, "sheet of paper", "sheets of paper")
    ('1 cut', '3 cuts', '2 sheets of paper')
    """
    return f"1 {one}" if count == 1 else f"{count} {many or one + 's'}"


def paper(shim_mm: float) -> str:
    """A shim in sheets of paper.

    >>> paper(0.72), paper(0.02)
    ('about 7 sheets of paper', 'less than a sheet of paper')
    """
    sheets = sheets_of_paper(shim_mm)
    return f"about {counted(sheets, 'sheet of paper', 'sheets of paper')}" if sheets else "less than a sheet of paper"
