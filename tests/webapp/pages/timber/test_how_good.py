"""How good a plan is, in words: proved, or how far the best found is from what no plan beats, and what more it asks."""

from decimal import Decimal
from math import floor
from re import findall
from time import monotonic

import pytest
from timber_plans import BOARD, STICK, frame, groups

from framecalc.money import Currency
from framecalc.plan.timber.common import SharingGroups, sharing_of
from framecalc.plan.timber.group import TimberGroup
from framecalc.records import replace
from framecalc.search.watch import SoFar, start_watch
from framecalc.timber.common.plan import CommonPlan, plan_common_boards
from framecalc.timber.sticks.answer import ProofStatus, StickPlan
from framecalc.timber.sticks.plan import plan_sticks
from framecalc.units import Unit
from webapp.jobs.running import Job
from webapp.jobs.timber import GroupWork
from webapp.pages.timber.how_good import counted, one_fewer_words, proved_words, shared_words, so_far_words

MONEY = Currency()


def planned(group: TimberGroup) -> StickPlan:
    return plan_sticks(group.problem, watch=start_watch(20, clock=monotonic))


def one_stick_too_many(group: TimberGroup) -> StickPlan:
    plan = planned(group)
    return replace(plan, sticks=(*plan.sticks, replace(plan.sticks[0], number=99)), proof_status=ProofStatus.OPEN)


def test_a_plan_that_may_not_be_the_best_says_what_one_stick_fewer_asks_for() -> None:
    """Sticks of 2400 mm, an inch trimmed off each end."""
    (group,) = groups(STICK, frames=(frame("f1", count=9),))
    plan = one_stick_too_many(group)
    fewer = plan.stick_count - 1
    assert proved_words(plan, group, MONEY) == f"Not proved: {fewer + 1} sticks is the best found; {fewer} might do."
    cut_mm = group.problem.cut_mm
    taken_mm = sum(piece.length_mm + cut_mm for piece in group.problem.pieces)
    left_mm = fewer * (2400 - 2 * 25.4 + cut_mm) - taken_mm
    (says,) = one_fewer_words(plan, group, Unit.MM)
    assert says.startswith(f"To do with {fewer} sticks, no more than ") and says.endswith("no such plan was found.")
    in_all_mm, each_mm = (float(number) for number in findall(r"([\d.]+) mm", says))
    assert in_all_mm == pytest.approx(left_mm, abs=0.1) and each_mm == pytest.approx(left_mm / fewer, abs=0.1)


def test_a_proved_plan_asks_for_nothing_more() -> None:
    (group,) = groups(STICK, frames=(frame("f1", count=9),))
    assert proved_words(planned(group), group, MONEY) == "Best possible: no plan uses fewer."
    assert not list(one_fewer_words(planned(group), group, Unit.MM))


def test_sticks_of_two_kinds_are_not_told_apart_by_what_is_left() -> None:
    (group,) = groups(STICK, STICK | {"id": "s2", "length": "3000 mm"}, frames=(frame("f1", count=9),))
    assert not list(one_fewer_words(one_stick_too_many(group), group, Unit.MM))


def test_an_open_plan_in_money_says_what_might_do() -> None:
    (group,) = groups(STICK | {"price": "10"}, frames=(frame("f1", count=9),))
    plan = replace(planned(group), money=Decimal(80), least_money=Decimal(70), proof_status=ProofStatus.OPEN)
    assert proved_words(plan, group, MONEY) == "Not proved: $80 is the best found; $70 might do, 12.5% less."


def shared(*stock: dict[str, object]) -> tuple[SharingGroups, CommonPlan]:
    """Two widths out of boards, six frames of each."""
    frames = (frame("f1", count=6), frame("f2", count=6, section={"face_width": "1 in"}))
    (sharing,) = sharing_of(groups(*stock, frames=frames), kerf_mm=3.0)
    return sharing, plan_common_boards(sharing.problem, watch=start_watch(20, clock=monotonic))


def works_of(sharing: SharingGroups, common: CommonPlan | None) -> list[GroupWork]:
    job = Job(key=sharing.key, answer=common)
    return [GroupWork(group=group, sharing=sharing, common=job) for group in sharing.groups]


def test_shared_boards_that_are_proved_say_so_once() -> None:
    sharing, plan = shared(BOARD)
    (says,) = map(str, shared_words(works_of(sharing, plan), MONEY))
    assert says in (
        "Boards are shared (f1, f2). Proved: no way to rip and cut needs less.",
        "Boards are shared (f1, f2). Searched: every cheaper way was tried and ruled out.",
    )


def test_an_open_plan_of_shared_boards_says_its_gap_and_what_one_board_fewer_asks_for() -> None:
    sharing, plan = shared(BOARD | {"price": "30"})
    opened = replace(
        plan, proof_status=ProofStatus.OPEN, least_count=plan.count - 1, least_money=Decimal(30) * (plan.count - 1)
    )
    (says,) = map(str, shared_words(works_of(sharing, opened), MONEY))
    filled = floor(100 * sharing.least_fill_ratio(plan.count - 1))
    assert f"Not proved: the best way found takes {plan.count} boards for ${30 * plan.count};" in says
    assert f"no way takes less than {plan.count - 1} boards for ${30 * (plan.count - 1)}." in says
    assert says.endswith(
        f"With one board fewer, strips and saw cuts would have to fill at least {filled}% of the wood."
    )
    (kept_before,) = map(str, shared_words(works_of(sharing, replace(opened, least_count=0)), MONEY))
    assert kept_before.endswith("Not proved: a cheaper way may exist.")
    two_kinds, _ = shared(BOARD, BOARD | {"id": "b2", "length": "1800 mm"})
    assert two_kinds.least_fill_ratio(plan.count) == 0


def test_where_no_common_plan_was_found_the_plans_one_after_another_promise_nothing() -> None:
    sharing, _ = shared(BOARD)
    (says,) = map(str, shared_words(works_of(sharing, None), MONEY))
    assert says.startswith("f1, f2 could share boards, but no plan for all of them together was found.")


def test_a_search_for_shared_boards_counts_boards() -> None:
    sharing, _ = shared(BOARD)
    with_stick, _ = shared(BOARD, STICK | {"price": "1"})
    so_far = SoFar(money=Decimal(60), sticks=2, least_money=Decimal(30), least_sticks=1)
    says = "Best so far: 2 {} for $60. No plan does better than one {} for $30."
    assert so_far_words(so_far, MONEY, counted(sharing)) == says.format("boards", "board")
    assert so_far_words(so_far, MONEY, counted(with_stick)) == says.format("sticks and boards", "stick or board")


def test_boards_that_no_cutting_plan_touches_are_not_counted() -> None:
    """One board more is allotted than is cut in the end: what is cut is as little as is proved, and so is the best."""
    sharing, plan = shared(BOARD | {"price": "30"})
    (first, *others) = plan.ripped
    more = replace(
        plan,
        ripped=(replace(first, count=first.count + 1), *others),
        money=plan.money + 30,
        proof_status=ProofStatus.OPEN,
    )
    works = [
        replace(work, group=(group := sharing.allotted(place, more)), plan=planned(group))
        for place, work in enumerate(works_of(sharing, more))
    ]
    (says,) = map(str, shared_words(works, MONEY))
    assert says == "Boards are shared (f1, f2). Proved: no way to rip and cut needs less."
