"""Differences in words: sizes with their sign, texts before and after, frames added and taken out."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.client.difference import ClientFact, ClientFacts, differences, signed_length
from framecalc.records import replace
from framecalc.units import Step

OUTSIDE = ClientFact(name="outside", label="Outside", text="13 × 17 in", lengths=(("width", 330.2), ("height", 431.8)))
MAT = ClientFact(name="mat", label="Mat", text="ivory")
OAK = ClientFacts(frame_id="k3", frame="Oak", facts=(OUTSIDE, MAT))
ASH = ClientFacts(frame_id="m4", frame="Ash", facts=(OUTSIDE,))


def said(before: list[ClientFacts], after: list[ClientFacts]) -> tuple[str, ...]:
    return differences(before, after, step=Step.SIXTEENTH)


def wider(told: ClientFacts, by_mm: float) -> ClientFacts:
    fact = replace(OUTSIDE, text="other", lengths=(("width", 330.2 + by_mm), ("height", 431.8)))
    return replace(told, facts=(fact, *told.facts[1:]))


def test_the_same_differs_in_nothing() -> None:
    assert said([OAK, ASH], [OAK, ASH]) == ()


def test_a_wider_frame_and_another_mat_are_said() -> None:
    changed = replace(wider(OAK, 3.175), facts=(*wider(OAK, 3.175).facts[:1], replace(MAT, text="black")))
    assert said([OAK], [changed]) == ("outside width +1/8 in", "mat: ivory → black")


@pytest.mark.parametrize(
    ("by_mm", "says"), [(-25.4, "−1 in"), (0.3, "+0.3 mm"), (1.5875, "+1/16 in"), (0.01, "+0.01 mm")]
)
def test_a_difference_has_its_sign_and_a_fine_one_millimetres(by_mm: float, says: str) -> None:
    assert said([OAK], [wider(OAK, by_mm)]) == (f"outside width {says}",)


def test_a_text_that_is_written_otherwise_but_measures_the_same_is_no_difference() -> None:
    assert said([OAK], [wider(OAK, 0)]) == ()


def test_what_is_new_and_what_has_gone_is_said() -> None:
    bare = replace(OAK, facts=OAK.facts[:1])
    assert said([OAK], [bare]) == ("mat: none any more",)
    assert said([bare], [OAK]) == ("mat: ivory",)


def test_sizes_that_became_words_are_said_as_words() -> None:
    words = replace(OAK, facts=(replace(OUTSIDE, text="as the panel", lengths=()), MAT))
    assert said([OAK], [words]) == ("outside: 13 × 17 in → as the panel",)
    assert said([words], [OAK]) == ("outside: as the panel → 13 × 17 in",)


def test_with_several_frames_each_is_named() -> None:
    assert said([OAK, ASH], [OAK, wider(ASH, 1)]) == ("Ash: outside width +1 mm",)
    assert said([OAK], [OAK, ASH]) == ("Ash: added",)
    assert said([OAK, ASH], [OAK]) == ("Ash: removed",)


def test_another_name_is_said_and_the_frame_stays_the_same_one() -> None:
    assert said([OAK], [replace(OAK, frame="Dark oak")]) == ("name: Oak → Dark oak",)


@given(st.floats(-500, 500).filter(lambda value: abs(value) > 0.006), st.sampled_from(Step))
def test_a_sign_is_always_written(length_mm: float, step: Step) -> None:
    text = signed_length(length_mm, step=step)
    assert text.startswith("+" if length_mm > 0 else "−") and not text.startswith(("+0 ", "−0 "))


IVORY = ClientFact(name="mat", label="Mat colour", text="#f3ecd9")
SEEN = replace(OAK, seen=(IVORY,))


def test_what_looks_different_is_named_without_its_numbers() -> None:
    darker = replace(OAK, seen=(replace(IVORY, text="#112233"),))
    assert said([SEEN], [darker]) == ("mat colour",)
    assert said([SEEN, ASH], [darker, ASH]) == ("Oak: mat colour",)


def test_what_is_told_to_be_different_is_not_named_twice() -> None:
    facts = (OUTSIDE, replace(MAT, text="black"))
    assert said([SEEN], [replace(SEEN, facts=facts, seen=(replace(IVORY, text="#000000"),))]) == ("mat: ivory → black",)


def test_what_an_older_record_does_not_know_is_not_made_a_difference() -> None:
    assert said([OAK], [SEEN]) == said([SEEN], [OAK]) == ()


def test_a_mat_that_an_older_record_told_by_the_code_of_its_colour_is_the_same_mat() -> None:
    """Fault: clients read “#f7f2e6” of a mat without a name."""
    code = replace(IVORY, text="#f7f2e6")
    before = replace(OAK, facts=(OUTSIDE, replace(MAT, text=code.text)), seen=(code,))
    after = replace(OAK, facts=(OUTSIDE, replace(MAT, text="mat board")), seen=(code,))
    assert said([before], [after]) == ()
    assert said([before], [replace(after, seen=(replace(code, text="#101010"),))]) == ("mat colour",)
