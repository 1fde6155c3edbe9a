"""Typed text becomes an exact length or a sentence; a length becomes a text for the tape and the rest it leaves out."""

import tomllib
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.errors import FrameCalcError, OutOfRange, UnreadableLength
from framecalc.findings import Rounding
from framecalc.units import (
    TOLERANCE_MM,
    Comma,
    Step,
    Unit,
    describe_length,
    describe_size,
    format_length,
    parse_length,
    whole_steps_mm,
)
from framecalc.units.reading import MOST_MM
from framecalc.units.writing import WrittenLength

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/units.toml").read_text("utf-8"))["check"]

THIRTEEN_AND_AN_EIGHTH_MM = Fraction(26670, 80)

steps = st.sampled_from(Step)
roundings = st.sampled_from(Rounding)
units = st.sampled_from(Unit)
lengths_mm = st.floats(min_value=-10_000, max_value=10_000)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check["name"])
def test_published_value(check: dict[str, Any]) -> None:
    assert parse_length(check["given"]).mm == pytest.approx(check["expect_mm"], abs=check["tolerance_mm"], rel=0)


@pytest.mark.parametrize(
    "text",
    [
        "13 1/8",
        "13-1/8",
        "13 - 1/8",
        "13⅛",
        "13 ⅛",
        "13 1⁄8",
        "13.125",
        '13 1/8"',
        "13 1/8 in",
        "13 1/8in",
        "13 1/8 IN",
        "13 1/8 inches",
        "13 1/8″",
        "13 1/8”",
        "13 1/8''",
        "13 1/8′′",
        "13 1/8’’",
        "  13   1/8  ",
        "13\u00a01/8",
        "13\u20091/8",
        "1' 1 1/8\"",
        "1'1 1/8\"",
        "1'-1 1/8\"",
        "1 ft 1 1/8 in",
        "1 foot 1 1/8 inches",
        "1′ 1⅛″",
        "1’ 1 1/8”",
        "1' 1 1/8",
        "333.375 mm",
        "33.3375 cm",
        "33.3375cm",
    ],
)
def test_one_length_in_every_spelling(text: str) -> None:
    assert parse_length(text, bare=Unit.INCH).exact_mm == THIRTEEN_AND_AN_EIGHTH_MM


@pytest.mark.parametrize(
    ("text", "expect_mm"),
    [
        ("7/8", Fraction(22225, 1000)),
        ("333.4 mm", Fraction(3334, 10)),
        ("33.34 cm", Fraction(3334, 10)),
        ("333,4 mm", Fraction(3334, 10)),
        ("12,50 mm", Fraction(125, 10)),
        ("½", Fraction(127, 10)),
        ("1 1/3", Fraction(254 * 4, 30)),
        (".5", Fraction(127, 10)),
        ("6 mm", Fraction(6)),
        ("6'", Fraction(18288, 10)),
        ("0", Fraction(0)),
        ("-1/8", Fraction(-3175, 1000)),
        ("−3 mm", Fraction(-3)),
    ],
)
def test_other_lengths_are_read_exactly(text: str, expect_mm: Fraction) -> None:
    assert parse_length(text, bare=Unit.INCH).exact_mm == expect_mm


@pytest.mark.parametrize("marks", [*(2**halved for halved in range(1, 8)), 3, 6, 12, 24, 5, 10, 20, 40, 50, 100])
def test_every_mark_of_a_rule_is_read(marks: int) -> None:
    """An inch is halved as far as 1/128; a carpenter's square has twelfths, an engineer's rule tenths and fiftieths."""
    assert parse_length(f"1 1/{marks}", bare=Unit.INCH).exact_mm == (1 + Fraction(1, marks)) * Fraction("25.4")


@pytest.mark.parametrize("eighths", range(1, 8))
def test_every_vulgar_eighth_is_read(eighths: int) -> None:
    sign = "⅛¼⅜½⅝¾⅞"[eighths - 1]
    assert parse_length(f"2{sign}", bare=Unit.INCH).exact_mm == (2 + Fraction(eighths, 8)) * Fraction("25.4")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "Enter a length, such as 13 1/8 or 333.4 mm"),
        ("   ", "Enter a length, such as 13 1/8 or 333.4 mm"),
        ("13 9/8", "Enter 14 1/8, if meant: 9/8 is not under 1"),
        ("13 8/8", "Enter 14, if meant: 8/8 is not under 1"),
        ("1/0", "Enter a fraction, such as 1/2, not over 0"),
        ("1 1/0", "Enter a fraction, such as 1/2, not over 0"),
        ("1/2/3", "Enter one fraction bar, as in 1/2"),
        ("1e3", "Enter the number written out, such as 13 1/8 or 333.4 mm"),
        ("1_0", "Enter the number written out, such as 13 1/8 or 333.4 mm"),
        ("nan", "Enter a length, such as 13 1/8 or 333.4 mm"),
        ("inf", "Enter a length"),
        ("-inf mm", "Enter a length"),
        ("13 1", "Enter one number, such as 13.1 or 13 1/2"),
        ("13 1/8 1/2", "Enter a length"),
        ("13 1/256", "Enter 13.0039: no fraction is finer than 1/128"),
        ("15 3/7", "Enter 15 27/64 or 15.4286: no tape divides by 7"),
        ("3/9 in", "Enter 21/64 or 0.3333: no tape divides by 9"),
        ("13 -1/8", "can be read two ways: type 13 1/8 or 12 7/8"),
        ("13 -1/8 in", "can be read two ways: type 13 1/8 or 12 7/8"),
        ("13 -⅛", "can be read two ways: type 13 1/8 or 12 7/8"),
        ("1' 6 mm", "Enter feet with inches, not mm: 1 ft 1 1/8 in"),
        ("5 yd", "Enter a length"),
        ("mm", "Enter a length"),
        ("٣", "Enter a length"),
        ("1.5 1/2", "Enter a length"),
        ("3½/2", "Enter a length"),
        ("--3", "Enter a length"),
        ("0x10", "Enter a length"),
        ("9" * 5000, "Enter a length"),
        ("<b>3</b>", "Enter a length"),
    ],
)
def test_what_is_no_length_is_refused_with_what_would_do(text: str, says: str) -> None:
    with pytest.raises(UnreadableLength) as refusal:
        parse_length(text, bare=Unit.INCH)
    assert says in refusal.value.sentence
    assert len(refusal.value.sentence) < 150


@pytest.mark.parametrize(
    ("text", "inches"), [("15 3/7 in", Fraction(108, 7)), ("13 -1/8 in", Fraction(105, 8)), ("3/9 in", Fraction(1, 3))]
)
def test_a_text_that_a_file_holds_is_read_as_it_was_when_it_was_taken(text: str, inches: Fraction) -> None:
    assert parse_length(text, is_kept=True).exact_mm == inches * Fraction("25.4")


def test_what_would_do_comes_in_the_unit_of_the_field() -> None:
    with pytest.raises(UnreadableLength, match=r"such as 333\.4 or 13 1/8 in"):
        parse_length("abc", bare=Unit.MM)


def test_a_bare_number_without_a_unit_to_take_is_refused() -> None:
    with pytest.raises(UnreadableLength, match="Enter a unit: 13 mm or 13 in"):
        parse_length("13")


@pytest.mark.parametrize("text", ["100001 mm", "400 ft", "-100001 mm", "999999999999999 in"])
def test_an_absurd_length_is_refused_with_its_limit(text: str) -> None:
    with pytest.raises(OutOfRange, match="Enter at most 100 m"):
        parse_length(text)


@pytest.mark.parametrize("text", [f"{MOST_MM} mm", f"-{MOST_MM} mm"])
def test_the_limit_itself_is_a_length(text: str) -> None:
    assert abs(parse_length(text).exact_mm) == MOST_MM


@pytest.mark.parametrize(
    ("text", "bare", "kept"),
    [
        ("13 1/8", Unit.INCH, "13 1/8 in"),
        ("13 1/8", Unit.MM, "13 1/8 mm"),
        ("6 mm", Unit.INCH, "6 mm"),
        ("13⅛", Unit.INCH, "13⅛ in"),
        ("1' 1", Unit.INCH, "1' 1"),
        ("  3   mm ", Unit.INCH, "3 mm"),
    ],
)
def test_the_text_typed_is_kept_with_its_unit(text: str, bare: Unit, kept: str) -> None:
    assert parse_length(text, bare=bare).text == kept


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("13,125", "type 13.125 or 13125"),
        ("1,234 mm", "type 1.234 mm or 1234 mm"),
        ("1' 1,125\"", "type 1' 1.125\" or 1' 1125\""),
    ],
)
def test_a_comma_before_exactly_three_digits_is_asked_about(text: str, says: str) -> None:
    with pytest.raises(UnreadableLength) as refusal:
        parse_length(text, bare=Unit.INCH)
    assert says in refusal.value.sentence


@pytest.mark.parametrize("text", ["13,1", "13,12", "13,1250", ",125"])
@pytest.mark.parametrize("comma", Comma)
def test_any_other_comma_is_a_decimal_comma_whatever_the_shop_says(text: str, comma: Comma) -> None:
    expected = Fraction(text.replace(",", "."))
    assert parse_length(text, bare=Unit.MM, comma=comma).exact_mm == expected


@given(whole=st.integers(1, 99), part=st.integers(0, 999))
def test_the_shop_settles_what_the_comma_means(whole: int, part: int) -> None:
    text = f"{whole},{part:03d} mm"
    assert parse_length(text, comma=Comma.DECIMAL).exact_mm == Fraction(f"{whole}.{part:03d}")
    assert parse_length(text, comma=Comma.THOUSANDS).exact_mm == whole * 1000 + part


@given(
    text=st.from_regex(r"\A[0-9]{1,2},[0-9]{1,4}( mm)?\Z"),
    comma=st.sampled_from([Comma.DECIMAL, Comma.THOUSANDS]),
    later=st.sampled_from(Comma),
)
def test_a_text_kept_reads_the_same_under_every_comma_policy(text: str, comma: Comma, later: Comma) -> None:
    kept = parse_length(text, bare=Unit.MM, comma=comma)
    assert parse_length(kept.text, comma=later) == kept


@given(text=st.text(alphabet="0123456789 ./,-'\"′″’”⅛½inftmc", max_size=12) | st.text(max_size=60), bare=units)
def test_any_text_is_read_or_refused_in_a_sentence(text: str, bare: Unit) -> None:
    try:
        length = parse_length(text, bare=bare)
    except FrameCalcError as refusal:
        assert refusal.sentence
    else:
        assert parse_length(length.text) == length


@given(count=st.integers(-20_000, 20_000), step=steps)
def test_a_length_on_a_step_is_read_back_from_its_text(count: int, step: Step) -> None:
    exact_mm = count * step.size_mm
    written = format_length(exact_mm, step=step)
    assert parse_length(f"{written.text} {written.unit}").exact_mm == exact_mm
    assert parse_length(written.full) == parse_length(f"{written.text} {written.unit}")


@given(count=st.integers(-20_000, 20_000), step=steps, rounding=roundings)
def test_on_a_step_no_direction_moves_a_length(count: int, step: Step, rounding: Rounding) -> None:
    written = format_length(float(count * step.size_mm), step=step, rounding=rounding)
    assert written.remainder_mm == pytest.approx(0, abs=TOLERANCE_MM)
    assert written.remainder == ""
    assert parse_length(f"{written.text} {written.unit}").exact_mm == count * step.size_mm


@given(length_mm=lengths_mm, step=steps, rounding=roundings)
def test_the_text_and_the_remainder_make_up_the_length(length_mm: float, step: Step, rounding: Rounding) -> None:
    written = format_length(length_mm, step=step, rounding=rounding)
    read_mm = parse_length(f"{written.text} {written.unit}").mm
    assert read_mm == pytest.approx(written.written_mm, abs=TOLERANCE_MM)
    assert read_mm + written.remainder_mm == pytest.approx(length_mm, abs=TOLERANCE_MM)


@given(length_mm=lengths_mm, step=steps)
def test_the_remainder_to_the_nearest_is_at_most_half_a_step(length_mm: float, step: Step) -> None:
    assert abs(format_length(length_mm, step=step).remainder_mm) <= float(step.size_mm) / 2 + TOLERANCE_MM


@given(length_mm=lengths_mm, step=steps)
def test_up_and_down_leave_less_than_a_step_on_the_right_side(length_mm: float, step: Step) -> None:
    up = format_length(length_mm, step=step, rounding=Rounding.UP).remainder_mm
    down = format_length(length_mm, step=step, rounding=Rounding.DOWN).remainder_mm
    assert -float(step.size_mm) < up <= TOLERANCE_MM
    assert -TOLERANCE_MM <= down < float(step.size_mm)


@given(length_mm=lengths_mm, step=steps, rounding=roundings)
def test_whole_steps_agree_with_what_is_written(length_mm: float, step: Step, rounding: Rounding) -> None:
    steps_mm = whole_steps_mm(length_mm, step_mm=float(step.size_mm), rounding=rounding)
    written_mm = format_length(length_mm, step=step, rounding=rounding).written_mm
    assert steps_mm == pytest.approx(written_mm, abs=TOLERANCE_MM)


@pytest.mark.parametrize(
    ("length_mm", "step", "rounding", "full"),
    [
        (333.2, Step.SIXTEENTH, Rounding.NEAREST, "13 1/8 in −0.2 mm"),
        (333.275, Step.SIXTEENTH, Rounding.UP, "13 1/8 in −0.1 mm"),
        (333.2, Step.SIXTEENTH, Rounding.DOWN, "13 1/16 in +1.4 mm"),
        (333.375, Step.THIRTY_SECOND, Rounding.UP, "13 1/8 in"),
        (3.175, Step.EIGHTH, Rounding.DOWN, "1/8 in"),
        (25.4, Step.SIXTY_FOURTH, Rounding.NEAREST, "1 in"),
        (0.0, Step.SIXTEENTH, Rounding.NEAREST, "0 in"),
        (300.04, Step.MILLIMETRE, Rounding.NEAREST, "300 mm"),
        (300.3, Step.HALF_MILLIMETRE, Rounding.NEAREST, "300.5 mm −0.2 mm"),
        (300.25, Step.HALF_MILLIMETRE, Rounding.NEAREST, "300.5 mm −0.3 mm"),
        (300.3, Step.TENTH_MILLIMETRE, Rounding.UP, "300.3 mm"),
        (-3.175, Step.SIXTEENTH, Rounding.NEAREST, "−1/8 in"),
        (-0.2, Step.HALF_MILLIMETRE, Rounding.UP, "0 mm −0.2 mm"),
    ],
)
def test_a_length_is_written_for_the_tape(length_mm: float, step: Step, rounding: Rounding, full: str) -> None:
    written = format_length(length_mm, step=step, rounding=rounding)
    assert f"{written.full} {written.remainder}".rstrip() == full


@pytest.mark.parametrize("length_mm", [float("nan"), float("inf"), float("-inf")])
def test_what_is_not_finite_is_never_written(length_mm: float) -> None:
    with pytest.raises(ValueError, match="is not a length"):
        format_length(length_mm, step=Step.MILLIMETRE)


@given(count=st.integers(-6400, 6400))
def test_a_sentence_says_whole_sixty_fourths_in_inches_alone(count: int) -> None:
    text = describe_length(float(count * Step.SIXTY_FOURTH.size_mm), unit=Unit.INCH)
    assert parse_length(text).exact_mm == count * Step.SIXTY_FOURTH.size_mm


@given(hundredths=st.integers(-100_000, 100_000))
def test_a_sentence_says_hundredths_of_a_millimetre_as_they_are(hundredths: int) -> None:
    assert parse_length(describe_length(hundredths / 100, unit=Unit.MM)).exact_mm == Fraction(hundredths, 100)


@pytest.mark.parametrize("share", [0.26, 0.49, 0.51, 0.74, 0.99, 1.6])
def test_a_sentence_says_sixty_fourths_from_half_a_one_on_and_never_none(share: float) -> None:
    """Half a sixty-fourth is the nearest to a whole one; what is nearer to none is said in decimals."""
    length_mm = share * float(Step.SIXTY_FOURTH.size_mm)
    said = describe_length(length_mm, unit=Unit.INCH)
    assert said.endswith(" in") and ("/" in said) == (share >= 0.5)
    assert share >= 0.5 or parse_length(said).mm == pytest.approx(length_mm, abs=0.0005 * 25.4)


@pytest.mark.parametrize(
    ("across_mm", "up_mm", "says"),
    [(254, 304.8, "10 × 12 in"), (254, 0.1, "10 × 0.004 in"), (0.01, 254, "0.0004 × 10 in")],
)
def test_the_unit_of_a_size_stands_once(across_mm: float, up_mm: float, says: str) -> None:
    assert describe_size(across_mm, up_mm, unit=Unit.INCH) == says


@pytest.mark.parametrize(
    ("remainder_mm", "says"), [(0.049, ""), (-0.049, ""), (0.051, "+0.1 mm"), (-0.149, "−0.1 mm"), (0.151, "+0.2 mm")]
)
def test_what_a_tape_does_not_read_is_said_to_the_nearest_tenth(remainder_mm: float, says: str) -> None:
    written = WrittenLength(text="1", unit=Unit.MM, written_mm=1, remainder_mm=remainder_mm)
    assert written.remainder == says
