"""Findings in words: the project's unit and trade words, paths of fields, ways out that hold."""

import pytest

from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.plan.advice import FIELD_OF_ARGUMENT, advise
from framecalc.records import replace
from framecalc.units import Step
from framecalc.words import Words

THIN = Finding(
    code="section.lip-thin",
    severity=Severity.WARN,
    sentence="The rabbet leaves a lip of {lip}",
    why="Under {limit} it may break out.",
    source="usual practice",
    argument="rabbet_depth_mm",
    lengths={"lip": 4.2, "limit": 5.0},
    ways=(
        Way(argument="rabbet_depth_mm", value_mm=14.9, says="cut the rabbet less deep", rounding=Rounding.DOWN),
        Way(argument="thickness_mm", value_mm=20.8, says="plane less off", rounding=Rounding.UP),
    ),
)
NOTE = Finding(
    code="note", severity=Severity.NOTE, sentence="A note", why="", source="derived", argument="thickness_mm"
)


def words_for(step: Step = Step.HALF_MILLIMETRE, words: Words = Words.US, holds: bool = True):  # type: ignore[no-untyped-def]
    return advise(
        [NOTE, THIN], step=step, words=words, path_of=FIELD_OF_ARGUMENT.__getitem__, holds=lambda path, text: holds
    )


def test_the_worst_stands_first() -> None:
    assert [advice.code for advice in words_for()] == ["section.lip-thin", "note"]


def test_lengths_are_written_in_the_units_of_the_project() -> None:
    assert words_for()[0].sentence == "The rabbet leaves a lip of 4.2 mm"
    assert words_for(Step.THIRTY_SECOND)[0].sentence == "The rabbet leaves a lip of 11/64 in"


def test_a_way_out_is_rounded_to_the_safe_side_and_can_be_typed() -> None:
    assert [(way.path, way.text) for way in words_for()[0].ways] == [
        ("section.rabbet_depth", "14.5 mm"),
        ("section.thickness", "21 mm"),
    ]


def test_a_way_out_that_makes_a_new_stop_is_not_offered() -> None:
    assert words_for(holds=False)[0].ways == ()


def test_the_shop_s_own_words_are_used() -> None:
    assert words_for(words=Words.UK)[0].sentence.startswith("The rebate leaves")


@pytest.mark.parametrize(
    ("widest_mm", "step", "says"),
    [
        (
            773.3,
            Step.SIXTEENTH,
            "30 7/16 in across, the opening 30 7/16 in. They are 0.007 in (0.19 mm) apart.",
        ),
        (773.6, Step.SIXTEENTH, "30 29/64 in across, the opening 30 7/16 in."),
        (773.1125, Step.SIXTEENTH, "30 7/16 in across, the opening 30 7/16 in."),
        (773.3, Step.MILLIMETRE, "773.3 mm across, the opening 773.11 mm."),
    ],
)
def test_lengths_that_look_alike_are_told_apart(widest_mm: float, step: Step, says: str) -> None:
    """Fault: “the canvas is 30 7/16 across, and the opening 30 7/16” was a stop that nobody could understand."""
    tight = replace(
        NOTE,
        sentence="{widest} across, the opening {rabbet}.",
        lengths={"widest": widest_mm, "rabbet": 30.4375 * 25.4},
    )
    (advice,) = advise([tight], step=step, words=Words.US, path_of=FIELD_OF_ARGUMENT.__getitem__, holds=lambda *_: True)
    assert advice.sentence == says
