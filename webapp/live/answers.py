"""One group of answers on a page: its big figures, lines, tables, drawings, findings, sources, cautions.

Each group is worked out by itself. A group whose numbers describe nothing that can be made says so in its own place;
the others still answer.
"""

from collections.abc import Callable, Mapping, Sequence
from typing import Protocol, TypeVar

from markupsafe import Markup

from framecalc.errors import FrameCalcError
from framecalc.findings import Severity
from framecalc.measures import written_measures
from framecalc.plan.advice import Advice
from framecalc.records import Record
from framecalc.units import Unit
from framecalc.words import capitalised, joined


class Big(Record):
    """A figure to read first: its label, the figure, a word under it."""

    label: str
    text: str
    says: str = ""


class Table(Record):
    """A small table: its caption, heads and rows; the first cell of a row is its name.

    A long name stands above the other cells on a phone where `is_named_above`.
    """

    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    is_folded: bool = False
    is_named_above: bool = False


class Link(Record):
    """A link of a group: a file to download, or another page."""

    href: str
    says: str
    is_file: bool = True


class AnswerGroup(Record):
    """One group; `refuses` when its numbers describe nothing that can be made: what to do says why.

    `answer` is its one short value for a list of groups. The first of `bigs` is its headline. `does` says what to do,
    in two lines; `lines`, tables, cautions and sources are folded. `papers` are the sheets of paper that its drawings
    can be had on. A group that the frame has nothing for does not apply; an open one waits for something to be typed.
    """

    name: str
    answer: str = ""
    applies: bool = True
    is_open: bool = False
    bigs: tuple[Big, ...] = ()
    does: tuple[str, ...] = ()
    lines: tuple[str, ...] = ()
    tables: tuple[Table, ...] = ()
    drawings: tuple[Markup, ...] = ()
    papers: tuple[str, ...] = ()
    links: tuple[Link, ...] = ()
    findings: tuple[Advice, ...] = ()
    sources: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    refuses: bool = False

    @property
    def state(self) -> str:
        """Its worst severity: `stop`, `warn`, or nothing."""
        severities = {advice.severity for advice in self.findings}
        if self.refuses or Severity.STOP in severities:
            return "stop"
        return "warn" if Severity.WARN in severities else ""


class SaysLengths(Protocol):
    """The context that groups are worked out from; it writes lengths in the project's unit."""

    @property
    def unit(self) -> Unit:
        """The project's unit."""

    def say(self, length_mm: float, /) -> str:
        """A length in the project's unit."""


Context = TypeVar("Context", bound=SaysLengths)


def work_out(
    groups: Mapping[str, tuple[str, Callable[[Context], AnswerGroup]]], context: Context
) -> dict[str, AnswerGroup]:
    """Every group of a page, by name.

    Args:
        groups: by name, each title and the function that works the group out.
        context: passed to each function.
    """
    return {name: _group(context, name, works_out) for name, (_, works_out) in groups.items()}


def first_few(said: Sequence[str], *, most: int = 3) -> str:
    """The first few of several things, and how many more there are.

    >>> first_few(("oak", "ash")), first_few(("oak", "ash", "elm", "pine", "box"))
    ('oak, ash', 'oak, ash, elm and 2 more')
    """
    more = f" and {len(said) - most} more" if len(said) > most else ""
    return joined("", (joined(", ", said[:most]), more))


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


def refusal(error: FrameCalcError, say: Callable[[float], str], *, unit: Unit = Unit.MM) -> str:
    """The sentence of an error, with its lengths and measures in the project's unit and a full stop."""
    lengths = {key: say(length_mm) for key, length_mm in error.lengths.items()} | written_measures(error.measures, unit)
    sentence = error.wording.format_map(lengths) if lengths else error.sentence
    sentence = capitalised(sentence)
    return sentence if sentence.endswith((".", "?", "!")) else sentence + "."


def _group(context: Context, name: str, works_out: Callable[[Context], AnswerGroup]) -> AnswerGroup:
    try:
        return works_out(context)
    except FrameCalcError as error:
        does = (refusal(error, context.say, unit=context.unit),)
        return AnswerGroup(name=name, answer="Cannot be made", does=does, refuses=True)
