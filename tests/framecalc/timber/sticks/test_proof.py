"""Proofs: every share is checked again here by listing all patterns, and the paragraph says what the numbers say."""

import re
from collections.abc import Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from functools import partial
from itertools import product
from math import ceil, floor, sqrt

import pytest
from cutting_jobs import cut, frame_of, loose, random_job

from framecalc.timber.sticks.answer import ProofStatus
from framecalc.timber.sticks.bounds import ShareMeasure, certify_by_length
from framecalc.timber.sticks.problem import Grain, StickProblem, Stock
from framecalc.timber.sticks.proof import LengthSentence, StickCapacity, StickProof, StickShares, fraction_words, prove
from framecalc.timber.sticks.whole_numbers import in_whole_numbers
from framecalc.units import Unit, describe_length, parse_length, step_of_sentences
from framecalc.words import Words, localise


def _patterns(lengths_um: Sequence[int], counts: Sequence[int], room_um: int) -> Iterator[tuple[int, ...]]:
    for pattern in product(*(range(count + 1) for count in counts)):
        if sum(times * length for times, length in zip(pattern, lengths_um, strict=True)) <= room_um:
            yield pattern


def _most(shares: StickShares, stick: StickCapacity, problem: StickProblem) -> Fraction:
    """The most that a stick can hold, by listing everything that fits."""
    cut_um = ceil(problem.kerf_mm * sqrt(2) * 1000 - 1e-3)
    lengths = [ceil(piece.length_mm * 1000) + cut_um for piece in shares.pieces]
    room_um = floor((stick.stock.length_mm - 2 * stick.stock.trim_mm) * 1000) + cut_um
    return max(
        sum((times * piece.share for times, piece in zip(pattern, shares.pieces, strict=True)), Fraction(0))
        for pattern in _patterns(lengths, [piece.count for piece in shares.pieces], room_um)
    )


def _covers(shares: StickShares, taken: Sequence[int]) -> bool:
    return sum(count * stick.most for count, stick in zip(taken, shares.sticks, strict=True)) >= shares.total


def _most_taken(stock: Stock, proof: StickProof, pieces: int) -> int:
    there = pieces if stock.count is None else stock.count
    return min(there, int(proof.least_money / stock.price)) if stock.price else there


def _assert_nothing_cheaper_covers(proof: StickProof, pieces: int) -> None:
    """Every purchase that costs less holds too little by one set of shares."""
    stocks = [stick.stock for stick in proof.shares[0].sticks]
    for taken in product(*(range(1 + _most_taken(stock, proof, pieces)) for stock in stocks)):
        spent = sum((count * stock.price for count, stock in zip(taken, stocks, strict=True)), Decimal(0))
        if (spent, sum(taken)) < (proof.least_money, proof.least_sticks):
            assert not all(_covers(shares, taken) for shares in proof.shares)


@pytest.mark.parametrize("seed", range(40))
def test_no_stick_can_hold_more_than_a_proof_says(seed: int) -> None:
    problem = random_job(seed)
    for shares in cut(problem).proof.shares:
        for stick in shares.sticks:
            assert _most(shares, stick, problem) == stick.most
        assert sum(piece.count * piece.share for piece in shares.pieces) == shares.total


@pytest.mark.parametrize("seed", range(40))
def test_no_cheaper_purchase_covers_the_shares_of_all_pieces(seed: int) -> None:
    problem = random_job(seed)
    _assert_nothing_cheaper_covers(cut(problem).proof, len(problem.pieces))


def test_a_proof_by_length_says_so() -> None:
    stock = (Stock(name="ash", length_mm=1000),)
    plan = cut(StickProblem(pieces=frame_of("hall", across_mm=348, up_mm=471), stock=stock, kerf_mm=3, width_mm=30))
    assert plan.proof.shares[0].measure is ShareMeasure.LENGTH
    assert plan.proof.saying.in_mm == (
        "Each with one saw cut, the pieces take 1654.97 mm of stick. However they are arranged, 1 stick of “ash” holds "
        "at most 950.486 mm of that: 704.48 mm short. So it takes 2 sticks, and no plan has fewer."
    )


@pytest.mark.parametrize("name", ["ash {", "ash {left}", "ash {total0}", "mould mat"])
@pytest.mark.parametrize("length_mm", [1000, 2400])
def test_what_a_stick_is_called_is_neither_a_hole_nor_turned(name: str, length_mm: float) -> None:
    pieces, stock = frame_of("hall", across_mm=348, up_mm=471), (Stock(name=name, length_mm=length_mm),)
    plan = cut(StickProblem(pieces=pieces, stock=stock, kerf_mm=3, width_mm=30))
    assert f"“{name}”" in localise(plan.proof.saying.in_mm, Words.US)


def test_of_a_text_from_an_older_file_our_holes_alone_are_filled() -> None:
    said = LengthSentence(text="“ash {x” at {price 12.5} holds {held} of {left}.", lengths={"held": 900})
    assert said.in_mm == "“ash {x” at 12.50 holds 900 mm of {left}."


def test_no_gain_at_the_saw_is_told_of_a_plan_that_is_not_the_best() -> None:
    """The same near miss as below, where what was found takes more sticks than are proved to be needed."""
    stock = (Stock(name="ash", length_mm=1006, trim_mm=3),)
    problem = StickProblem(pieces=loose([330.0] * 9 + [10.0]), stock=stock, kerf_mm=3, width_mm=1)
    whole_numbers = in_whole_numbers(problem)
    certificates = (certify_by_length(whole_numbers),)
    told = [
        prove(certificates, least=4, is_reached=reached, whole_numbers=whole_numbers, problem=problem).saying.text
        for reached in (True, False)
    ]
    assert "To gain it" in told[0] and told[0].startswith(told[1]) and told[1].endswith("no plan has fewer.")


def test_a_near_miss_is_told_in_what_a_shop_can_change() -> None:
    """Nine of 330 mm and one of 10, each with 3·√2 of kerf, take 3022.43 mm; three of 330 fill a stick of 1000."""
    stock = (Stock(name="ash", length_mm=1006, trim_mm=3),)
    plan = cut(StickProblem(pieces=loose([330.0] * 9 + [10.0]), stock=stock, kerf_mm=3, width_mm=1))
    saying, kerf_mm = plan.proof.saying, 3 * sqrt(2)
    short_mm = saying.lengths["short"]
    assert saying.in_mm == (
        "Each with one saw cut, the pieces take 3022.43 mm of stick. However they are arranged, 3 sticks of “ash” hold "
        "at most 3008.19 mm of that: 14.24 mm short. So it takes 4 sticks, and no plan has fewer. To gain it, make "
        "sides 14.24 mm shorter together, or trim each end about 2.37383 mm less, or take a blade about 1.00713 mm "
        "thinner; then plan again before another stick is bought."
    )
    assert short_mm == pytest.approx(10 + kerf_mm, abs=0.001)
    assert saying.lengths["off_trim"] * 6 == pytest.approx(short_mm)
    assert saying.lengths["off_kerf"] * sqrt(2) * 10 == pytest.approx(short_mm)


@pytest.mark.parametrize("unit", Unit)
@pytest.mark.parametrize("length_in", [33.1, 41.27, 47.003, 63.9])
def test_the_printed_shortage_is_what_the_printed_lengths_leave(length_in: float, unit: Unit) -> None:
    stock = (Stock(name="ash", length_mm=length_in * 25.4),)
    plan = cut(StickProblem(pieces=loose([length_in * 11.3] * 6), stock=stock, kerf_mm=3.2, width_mm=30))
    told = plan.proof.saying.written(partial(describe_length, unit=unit), step=step_of_sentences(unit), price=str)
    printed = re.search(r"take (.+) of stick.* hold at most (.+) of that: (.+) short\.", told)
    assert printed is not None, told
    need_mm, hold_mm, short_mm = (parse_length(text).exact_mm for text in printed.groups())
    assert need_mm - hold_mm == short_mm


def test_a_proof_by_shares_says_so() -> None:
    stock = (Stock(name="raw", length_mm=100),)
    pieces = loose([45.0] * 3 + [36.0] * 6 + [31.0] * 3 + [14.0] * 2)
    plan = cut(StickProblem(pieces=pieces, stock=stock, kerf_mm=0, width_mm=1))
    assert plan.proof_status is ProofStatus.PROVED
    assert plan.proof.shares[0].measure is ShareMeasure.STICKS
    assert plan.proof.saying.in_mm == (
        "Give each piece a worth of a stick: 45 mm is worth 1/2, 3 times; 36 mm is worth 1/2, 6 times; "
        "31 mm is worth 1/4, 3 times; 14 mm is worth 0, 2 times. "
        "However they are arranged, “raw” can hold pieces worth 1 at most. "
        "All pieces together are worth 5 1/4. So it takes 6 sticks, and no plan has fewer. "
        "5 sticks hold pieces worth 5 at most: 1/4 short."
    )


def test_two_sets_of_shares_prove_together_what_neither_proves_alone() -> None:
    stock = (
        Stock(name="short", length_mm=2400, price=Decimal("18.50"), trim_mm=15),
        Stock(name="long", length_mm=3000, price=Decimal("24.90"), trim_mm=15),
    )
    problem = StickProblem(pieces=loose([806.0] * 14 + [757.0] * 14), stock=stock, kerf_mm=3.2, width_mm=30)
    plan = cut(problem)
    assert plan.proof_status is ProofStatus.PROVED
    assert [shares.measure for shares in plan.proof.shares] == [ShareMeasure.LENGTH, ShareMeasure.MONEY]
    for shares in plan.proof.shares:
        for stick in shares.sticks:
            assert _most(shares, stick, problem) == stick.most
    _assert_nothing_cheaper_covers(plan.proof, len(problem.pieces))
    assert plan.proof.saying.in_mm.endswith(
        "Give each piece another worth: 806 mm is worth 9, 14 times; 757 mm is worth 4, 14 times. "
        "However they are arranged, “short” at 18.50 can hold pieces worth 18 at most; "
        "“long” at 24.90 can hold pieces worth 27 at most. All pieces together are worth 182. "
        "What is bought must hold all pieces by every one of these measures, and nothing that costs less does. "
        "So at least 191.40 must be spent, and 10 sticks at that price: no plan costs less."
    )


def test_a_bundle_is_named_as_pieces_together() -> None:
    stock = (
        Stock(name="ash", length_mm=2400, price=Decimal("20")),
        Stock(name="oak", length_mm=1800, price=Decimal("13.5")),
    )
    pieces = frame_of("hall", across_mm=348, up_mm=471, copies=3)
    problem = StickProblem(pieces=pieces, stock=stock, kerf_mm=3, width_mm=30, grain=Grain.ROUND)
    proof = cut(problem).proof
    assert [(piece.pieces, piece.count) for piece in proof.shares[0].pieces] == [(4, 3)]


@pytest.mark.parametrize(
    ("share", "words"), [("0", "0"), ("5/3", "1 2/3"), ("1/61", "0.01639344262"), ("3/10000", "0.0003")]
)
def test_shares_in_words(share: str, words: str) -> None:
    assert fraction_words(Fraction(share)) == words


def test_a_single_stick_is_no_shortage_and_several_kinds_are_summed_by_no_one_number() -> None:
    one = cut(StickProblem(pieces=loose([400.0]), stock=(Stock(name="ash", length_mm=1000),), kerf_mm=0, width_mm=1))
    assert one.proof.saying.in_mm == (
        "Each with one saw cut, the pieces take 400 mm of stick. However they are arranged, “ash” holds at most 400 mm "
        "of that. So it takes 1 stick, and no plan has fewer."
    )
    two = cut(
        StickProblem(pieces=loose([900.0] * 2), stock=(Stock(name="ash", length_mm=1000),), kerf_mm=0, width_mm=1)
    )
    assert "1 stick of “ash” holds at most 900 mm of that: 900 mm short." in two.proof.saying.in_mm
    kinds = (Stock(name="ash", length_mm=1000), Stock(name="yew", length_mm=1200, count=2))
    both = cut(StickProblem(pieces=loose([900.0] * 3), stock=kinds, kerf_mm=0, width_mm=1))
    assert both.proof.saying.in_mm == (
        "Each with one saw cut, the pieces take 2700 mm of stick. However they are arranged, “yew” (2 there) holds at "
        "most 900 mm of that; “ash” holds at most 900 mm of that. So it takes 3 sticks, and no plan has fewer."
    )


def test_what_is_short_is_shared_by_every_cut_of_every_frame() -> None:
    """A stick holds one frame of 400 mm sides with its grain round it, and not a tiny one beside it: 12 cuts in all."""
    frames = [frame_of(name, across_mm=side, up_mm=side) for name, side in (("a", 400), ("b", 400), ("c", 5))]
    stock = (Stock(name="ash", length_mm=4 * 400 + 3 * 3 * sqrt(2) + 1, trim_mm=0),)
    pieces = tuple(piece for frame in frames for piece in frame)
    problem = StickProblem(pieces=pieces, stock=stock, kerf_mm=3, width_mm=1, grain=Grain.ROUND)
    saying = cut(problem).proof.saying
    assert saying.lengths["short"] == pytest.approx(20 + 4 * 3 * sqrt(2), abs=0.01)
    assert saying.lengths["off_kerf"] * sqrt(2) * 12 == pytest.approx(saying.lengths["short"])


def test_the_finest_fraction_is_written_and_one_finer_is_a_decimal() -> None:
    assert [fraction_words(Fraction(1, number)) for number in (60, 61)] == ["1/60", "0.01639344262"]
