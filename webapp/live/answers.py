"""What one group of a page of answers says: its big figures, lines, tables, drawings, findings, sources, cautions.

A page of answers is worked out group by group. A group whose numbers describe nothing that can be made says so in its
own place; the others go on.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Protocol, TypeVar

from markupsafe import Markup

from framecalc.errors import FrameCalcError
from framecalc.findings import Severity
from framecalc.plan.advice import Advice
from framecalc.words import capitalised

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
class Link:
    """Something that belongs to a group and is fetched: a file to download, or another page."""

    href: str
    says: str
    is_file: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerGroup:
    """What one group says; where its numbers describe nothing that can be made it `refuses`, in one line."""

    name: str
    bigs: tuple[Big, ...] = ()
    lines: tuple[str, ...] = ()
    tables: tuple[Table, ...] = ()
    drawings: tuple[Markup, ...] = ()
    links: tuple[Link, ...] = ()
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


class SaysLengths(Protocol):
    """What groups are worked out from; it can say a length in the project's unit."""

    def say(self, length_mm: float, /) -> str:
        """A length in the project's unit."""


Context = TypeVar("Context", bound=SaysLengths)


def work_out(
    groups: Mapping[str, tuple[str, Callable[[Context], AnswerGroup]]], context: Context
) -> dict[str, AnswerGroup]:
    """Every group of a page, by name.

    Args:
        groups: for each name its title and what works it out.
        context: what they are worked out from.
    """
    return {name: _group(context, name, works_out) for name, (_, works_out) in groups.items()}


def plural(count: int, one: str, many: str = "") -> str:
    """A count with its noun.

    >>> plural(1, "cut"), plural(3, "cut"), plural(2, "sheet of paper", "sheets of paper")
    ('1 cut', '3 cuts', '2 sheets of paper')
    """
    return f"1 {one}" if count == 1 else f"{count} {many or one + 's'}"


def degrees(angle_deg: float, *, places: int = 2) -> str:
    """An angle without trailing zeros.

    >>> degrees(45), degrees(35.2644), degrees(22.5)
    ('45°', '35.26°', '22.5°')
    """
    text = f"{angle_deg:.{places}f}"
    return f"{text.rstrip('0').rstrip('.') if '.' in text else text}°".replace("-", "−")


def refusal(error: FrameCalcError, say: Callable[[float], str]) -> str:
    """A refusal as a closed sentence, its lengths in the project's unit."""
    lengths = {key: say(length_mm) for key, length_mm in error.lengths.items()}
    sentence = error.wording.format_map(lengths) if lengths else error.sentence
    sentence = capitalised(sentence)
    return sentence if sentence.endswith((".", "?", "!")) else sentence + "."


def _group(context: Context, name: str, works_out: Callable[[Context], AnswerGroup]) -> AnswerGroup:
    try:
        return works_out(context)
    except FrameCalcError as error:
        return AnswerGroup(name=name, lines=(refusal(error, context.say),), refuses=True)
