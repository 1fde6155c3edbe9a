"""Advice: a finding turned into words for one project: its unit, its fields, its ways out with the text to type.

A topic speaks in arguments and millimetres; here an argument becomes the path of a field, and a length becomes a text
in the project's unit, rounded in the direction that the way out needs.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from framecalc.findings import Finding, Severity
from framecalc.units import Step, describe_length, format_length
from framecalc.words import Words, localise

FIELD_OF_ARGUMENT = {
    "artwork_across_mm": "artwork.across",
    "artwork_up_mm": "artwork.up",
    "across_bottom_mm": "artwork.across_bottom",
    "up_right_mm": "artwork.up_right",
    "diagonal_rising_mm": "artwork.diagonal_rising",
    "diagonal_falling_mm": "artwork.diagonal_falling",
    "clearance_across_mm": "package.clearance_across",
    "clearance_up_mm": "package.clearance_up",
    "mat_overlap_mm": "package.mat.overlap",
    "mat_border_mm": "package.mat.border",
    "mat_bottom_mm": "package.mat.bottom",
    "visible_border_mm": "package.mat.border",
    "visible_bottom_mm": "package.mat.bottom",
    "mat_reveal_mm": "package.mat.reveal",
    "float_reveal_mm": "package.mat.shows",
    "window_gap_mm": "package.mat.gap",
    "gap_across_mm": "package.mat.gap",
    "gap_up_mm": "package.mat.gap",
    "window_across_mm": "package.mat.opening_across",
    "window_up_mm": "package.mat.opening_up",
    "columns_count": "package.mat.columns",
    "windows_count": "package.mat.arrangement",
    "windows": "package.mat.arrangement",
    "fillet_mm": "package.fillet_shows",
    "wall_thickness_mm": "fitting.box.wall",
    "object_depth_mm": "fitting.box.object_depth",
    "artwork_thickness_mm": "fitting.canvas.bar",
    "species": "fitting.panel.species",
    "layer": "package.layers",
    "face_width_mm": "section.face_width",
    "thickness_mm": "section.thickness",
    "rabbet_width_mm": "section.rabbet_width",
    "rabbet_depth_mm": "section.rabbet_depth",
    "face_drop_mm": "section.face_drop",
    "sight_edge_mm": "section.sight_edge.size",
    "back_edge_mm": "section.back_edge.size",
    "tray_gap_mm": "section.tray_gap",
    "tray_wall_mm": "section.face_width",
    "tray_height_mm": "section.thickness",
    "tray_ledge_width_mm": "section.ledge_width",
    "tray_ledge_thickness_mm": "section.ledge_thickness",
    "stick_length_mm": "start.stick_length",
    "wall_across_mm": "start.wall_across",
    "wall_up_mm": "start.wall_up",
    "stock": "start.stock",
    "known_outside_across_mm": "known.outside_across",
    "known_outside_up_mm": "known.outside_up",
    "kerf_mm": "shop.kerf",
}
"""The field, within a frame (or within the project, for the shop's values), that an argument of a topic stands for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WayOut:
    """One way out: the field to fill, the text to fill it with, and what that does in words."""

    path: str
    text: str
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """A finding as it is shown: one sentence, why it happens, where the limit comes from, ways out.

    `take_out` is the kind of layer that it would help to take out of the package.
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
        step: what lengths are written to, and so in which unit.
        words: whose trade words.
        path_of: the full path of the field that an argument stands for.
        holds: whether a text at a path makes no new stop; a way out that does is not offered.
    Source: derived.
    """
    order = list(Severity)
    worded = (_advice(finding, step, words, path_of, holds) for finding in findings)
    return tuple(sorted(worded, key=lambda advice: order.index(advice.severity)))


def _advice(
    finding: Finding, step: Step, words: Words, path_of: Callable[[str], str], holds: Callable[[str, str], bool]
) -> Advice:
    lengths = {name: describe_length(length_mm, unit=step.unit) for name, length_mm in finding.lengths.items()}
    return Advice(
        code=finding.code,
        severity=finding.severity,
        sentence=localise(finding.sentence.format_map(lengths), words),
        why=localise(finding.why.format_map(lengths), words),
        source=localise(finding.source, words),
        path=path_of(finding.argument),
        ways=tuple(way for way in _ways(finding, step, words, path_of) if holds(way.path, way.text)),
        take_out=finding.take_out,
    )


def _ways(finding: Finding, step: Step, words: Words, path_of: Callable[[str], str]) -> Iterable[WayOut]:
    for way in finding.ways:
        written = format_length(way.value_mm, step=step, rounding=way.rounding)
        yield WayOut(
            path=path_of(way.argument),
            text=f"{written.text.replace('−', '-')} {written.unit}",
            says=localise(way.says, words),
        )
