"""Advice: a finding worded for one project: its unit, its fields, its ways out with the text to type.

A topic names arguments and millimetres; here an argument becomes the path of a field, and a length becomes a text in
the project's unit, rounded in the direction that the way out needs.
"""

from collections.abc import Callable, Iterable, Mapping
from itertools import combinations

from framecalc.findings import Finding, Severity
from framecalc.measures import written_measures
from framecalc.project.form import paths_of_arguments
from framecalc.project.frame import Frame
from framecalc.project.model import ShopValues
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM, Step, Unit, describe_gap, describe_length, format_length, write_gap
from framecalc.words import Words, say, worded

FIELD_OF_ARGUMENT = {
    **{argument: f"shop.{path}" for argument, path in paths_of_arguments(ShopValues).items()},
    **paths_of_arguments(Frame, leaving="corner"),
}
"""The field, within a frame (or within the project, for the shop's values), that an argument of a topic stands for."""


def field_of_argument(argument: str) -> str:
    """The field of an argument; one about an item of a list goes on with its id and its own field. Source: derived.

    >>> field_of_argument("rabbet_depth_mm"), field_of_argument("profile_points.p3.radius")
    ('section.rabbet_depth', 'section.points.p3.radius')
    """
    name, dot, rest = argument.partition(".")
    return FIELD_OF_ARGUMENT.get(argument) or f"{FIELD_OF_ARGUMENT.get(name, name)}{dot}{rest}"


class WayOut(Record):
    """One way out: the field to fill, its new text, and the effect in words."""

    path: str
    text: str
    says: str


class Advice(Record):
    """A finding as shown: one sentence, the reason, the source of the limit, ways out.

    `take_out` is the kind of layer whose removal would help.
    """

    code: str
    severity: Severity
    sentence: str
    why: str
    source: str
    path: str
    ways: tuple[WayOut, ...]
    take_out: str = ""


def advise(
    findings: Iterable[Finding],
    *,
    step: Step,
    words: Words,
    path_of: Callable[[str], str],
    holds: Callable[[str, str], bool],
) -> tuple[Advice, ...]:
    """Word findings for a project, the worst first.

    Args:
        step: the step that lengths are rounded to; it gives their unit.
        words: the trade words.
        path_of: the full path of the field that an argument stands for.
        holds: whether a text at a path makes no new stop; other ways out are not offered.
    Source: derived.
    """
    order = list(Severity)
    worded = (_advice(finding, step, words, path_of, holds) for finding in findings)
    return tuple(sorted(worded, key=lambda advice: order.index(advice.severity)))


def sentence_of(finding: Finding, *, step: Step, words: Words) -> str:
    """What was found, in a project's words and unit. Source: derived."""
    lengths = _written(finding, step)
    return say(worded(finding.sentence, **lengths), words) + _apart(finding, lengths, step.unit)


def _written(finding: Finding, step: Step) -> dict[str, str]:
    lengths = {name: describe_length(length_mm, unit=step.unit) for name, length_mm in finding.lengths.items()}
    return lengths | written_measures(finding.measures, step.unit)


def _advice(
    finding: Finding, step: Step, words: Words, path_of: Callable[[str], str], holds: Callable[[str, str], bool]
) -> Advice:
    return Advice(
        code=finding.code,
        severity=finding.severity,
        sentence=sentence_of(finding, step=step, words=words),
        why=say(worded(finding.why, **_written(finding, step)), words),
        source=say(finding.source, words),
        path=path_of(finding.argument),
        ways=tuple(way for way in _ways(finding, step, words, path_of) if holds(way.path, way.text)),
        take_out=finding.take_out,
    )


def _apart(finding: Finding, lengths: Mapping[str, str], unit: Unit) -> str:
    """By how much two lengths of a sentence differ that look alike; nothing where the sentence says it, or none do."""
    said = [name for name in finding.lengths if f"{{{name}}}" in finding.sentence]
    for first, second in combinations(said, 2):
        gap_mm = abs(finding.lengths[first] - finding.lengths[second])
        looks_alike = lengths[first] == lengths[second]
        is_said = any(abs(finding.lengths[name] - gap_mm) <= TOLERANCE_MM for name in said)
        if looks_alike and not is_said and write_gap(gap_mm, unit=Unit.MM) != "0":
            return f" They are {describe_gap(gap_mm, unit=unit)} apart."
    return ""


def _ways(finding: Finding, step: Step, words: Words, path_of: Callable[[str], str]) -> Iterable[WayOut]:
    for way in finding.ways:
        written = format_length(way.value_mm, step=step, rounding=way.rounding)
        yield WayOut(
            path=path_of(way.argument),
            text=f"{written.text.replace('−', '-')} {written.unit}",
            says=say(way.says, words),
        )
