"""The timber of a whole project: what shares its sticks, what of the stock serves, what is left for the next group."""

from typing import Any

import pytest
from panel import PANEL_IN_INCHES
from timber_plans import BOARD, STICK, frame, groups, planned

from framecalc.findings import Severity
from framecalc.plan.timber.wood_use import wood_use
from framecalc.plan.whole import Plan
from framecalc.project import project_document, read_project
from framecalc.timber.thicknessing import Order
from framecalc.units import parse_length


def test_frames_of_one_wood_and_section_share_their_sticks() -> None:
    (group,) = groups(frames=(frame("f1", species="Ash"), frame("f2", species="ash ")))
    assert len(group.problem.pieces) == 8 and group.is_estimate


@pytest.mark.parametrize("artwork", [{}, {"across": "10 7/16 in"}])
def test_the_length_as_written_is_that_of_every_piece(artwork: dict[str, Any]) -> None:
    (group,) = groups(
        frames=(frame("f1", count=3), frame("f2", count=2, artwork=PANEL_IN_INCHES["frames"][0]["artwork"] | artwork))
    )
    assert len(group.problem.pieces) == 20
    assert group.written_mm == sum(group.long_point_mm(piece.length_mm) for piece in group.problem.pieces)


@pytest.mark.parametrize(
    "other", [{"species": "oak"}, {"section": {"face_width": "3 in"}}, {"section": {"thickness": "1 1/2 in"}}]
)
def test_another_wood_width_or_thickness_is_another_group(other: dict[str, Any]) -> None:
    assert len(groups(frames=(frame("f1", species="ash"), frame("f2", **({"species": "ash"} | other))))) == 2


def test_frames_of_one_name_have_labels_of_their_own() -> None:
    (group,) = groups(frames=(frame("f1") | {"name": "hall"}, frame("f2") | {"name": "hall"}))
    labels = [piece.label for piece in group.problem.pieces]
    assert len(set(labels)) == len(labels) and "hall (2)/1 top" in labels


def test_stock_of_one_name_has_labels_of_its_own_and_makes_a_plan() -> None:
    (group,) = groups(STICK | {"count": 1, "length": "40 in"}, STICK | {"id": "s2", "count": 9, "length": "36 in"})
    labels = [stick.label for stick in planned(group).sticks]
    assert len(set(labels)) == len(labels) and "stick (2) #1" in labels


@pytest.mark.parametrize(
    ("stock", "serves"),
    [
        ({}, True),
        ({"species": "OAK"}, True),
        ({"species": "ash"}, False),
        ({"member_width": "2 in"}, True),
        ({"member_width": "50.8 mm"}, True),
        ({"member_width": "1 7/8 in"}, False),
        ({"thickness": "1/8 in"}, False),
    ],
)
def test_a_stick_serves_its_own_wood_and_section(stock: dict[str, Any], serves: bool) -> None:
    (group,) = groups(STICK | stock, frames=(frame("f1", species="oak", section={"face_width": "2 in"}),))
    assert bool(group.offers) is serves


def test_the_next_group_gets_what_is_left_and_numbers_go_on() -> None:
    wide, narrow = groups(
        STICK | {"count": 3, "in_hand": True}, STICK | {"id": "s2", "name": "sold"},
        frames=(frame("f1", section={"face_width": "3 in"}), frame("f2")),
    )  # fmt: skip
    assert wide.shares_stock_with(narrow)
    first = planned(wide)
    left = narrow.after([first])
    taken = sum(stick.stock.id == "s1" for stick in first.sticks)
    assert taken and left.problem.stock[0].count == 3 - taken
    labels = [stick.label for plan in (first, planned(left)) for stick in plan.sticks]
    assert len(set(labels)) == len(labels)


def test_a_bowed_board_is_cut_before_it_is_milled_and_no_piece_lies_across() -> None:
    (group,) = groups(BOARD | {"thickness": "1 1/8 in", "bow": "3/8 in"})
    offer = group.offers["b1"]
    assert [finding.code for finding in group.findings] == ["thicknessing.crosscut-first"]
    assert offer.milling is not None and offer.crosscuts
    assert offer.milling.crosscut_mm >= offer.milling.needed_mm > offer.milling.long_mm
    for _, _, stretch in planned(group).stretches():
        assert not any(stretch.start_mm < cut.start_mm < stretch.end_mm for cut in offer.crosscuts)


@pytest.mark.parametrize("trim", ["0 mm", "25 mm", "2 in", "150 mm"])
def test_both_sides_of_a_first_crosscut_are_left_over(trim: str) -> None:
    (group,) = groups(BOARD | {"thickness": "1 1/8 in", "bow": "3/8 in"}, part_trim=trim)
    offer, trim_mm = group.offers["b1"], parse_length(trim).mm
    assert offer.milling is not None and offer.crosscuts
    cuts_mm = [number * offer.milling.part_mm for number in range(1, len(offer.crosscuts) + 1)]
    away_mm = trim_mm + group.problem.kerf_mm / 2 - 1e-6
    pieces = [piece for _, _, stretch in planned(group).stretches() for piece in stretch.pieces]
    assert len(pieces) == 4
    for piece in pieces:
        assert all(piece.end_mm <= cut_mm - away_mm or piece.start_mm >= cut_mm + away_mm for cut_mm in cuts_mm)


def test_the_more_the_ends_of_parts_lose_the_fewer_parts_a_board_is_cut_into() -> None:
    bowed = BOARD | {"thickness": "1 1/8 in", "bow": "3/8 in"}
    counts = [len(groups(bowed, part_trim=f"{trim} mm")[0].offers["b1"].crosscuts) for trim in (0, 100, 250)]
    assert counts == sorted(counts, reverse=True) and counts[0] >= 1
    (too_much,) = groups(bowed, part_trim="300 mm", shortest_machined="2400 mm")
    assert [finding.severity for finding in too_much.findings] == [Severity.STOP]


def test_a_last_part_too_short_for_the_machines_is_avoided() -> None:
    bowed = {
        "id": "b1",
        "name": "board",
        "length": "1400 mm",
        "width": "150 mm",
        "thickness": "1 1/8 in",
        "bow": "9 mm",
    }
    (group,) = groups(bowed, frames=(frame("f1"),), shortest_machined="900 mm")
    offer = group.offers["b1"]
    assert [cut.end_mm - cut.start_mm for cut in offer.crosscuts] == pytest.approx([50 + group.problem.kerf_mm])
    stub = offer.stock.defects[-1]
    assert (stub.start_mm, stub.end_mm) == pytest.approx((900 + 1.5 * group.problem.kerf_mm, 1400))


def test_a_board_too_bowed_for_the_longest_piece_still_serves_the_shorter_ones() -> None:
    wide = frame("f1", artwork={"across": "40 in", "up": "8 in"})
    (group,) = groups(BOARD | {"thickness": "22 mm", "bow": "9 mm"}, STICK | {"id": "s2"}, frames=(wide,))
    milling = group.offers["b1"].milling
    assert milling is not None and milling.order is Order.CROSSCUT and milling.part_mm < 40 * 25.4
    cut_of = {
        piece.piece.side: stick.stock.id for stick, _, stretch in planned(group).stretches() for piece in stretch.pieces
    }
    assert cut_of["top"] == cut_of["bottom"] == "s2"


def test_a_board_too_thin_to_lie_flat_is_ripped_on_edge() -> None:
    deep = frame("f1", section={"face_width": "1 in", "thickness": "2 1/2 in"})
    (group,) = groups(BOARD | {"thickness": "1 3/8 in"}, frames=(deep,))
    offer = group.offers["b1"]
    assert [finding.code for finding in group.findings] == ["timber.on-edge"]
    assert offer.on_edge and (offer.planed_mm, offer.strip_mm) == pytest.approx((25.7, 66.5))
    (flat,) = groups(BOARD | {"thickness": "3 in"}, frames=(deep,))
    assert not flat.offers["b1"].on_edge
    assert (flat.offers["b1"].planed_mm, flat.offers["b1"].strip_mm) == pytest.approx((63.8, 28.4))


@pytest.mark.parametrize(
    ("entry", "says", "place"),
    [
        (BOARD | {"width": "1 in"}, "makes no strip of", "width"),
        (BOARD | {"thickness": "1/2 in"}, "is needed. It is left out", "thickness"),
        (BOARD | {"length": "10 in", "thickness": "3 in"}, "too short for planer and jointer", "length"),
        (BOARD | {"defects": [{"id": "d1", "start": "90 in", "end": "99 in"}]}, "lie within", "length"),
        (STICK | {"defects": [{"id": "d1", "start": "9 in", "end": "9 in"}]}, "end after it starts", "length"),
        (
            STICK | {"name": "{a}", "price": "0.00001"},
            "“{a}”: enter a price of 0 or more, not 0.00001. It is left out of the plan",
            "length",
        ),
    ],
)
def test_what_cannot_be_used_is_left_out_with_a_sentence_beside_it(
    entry: dict[str, Any], says: str, place: str
) -> None:
    (group,) = groups(entry)
    (finding,) = group.findings
    assert finding.severity is Severity.STOP and group.is_estimate
    assert says in finding.sentence.format_map({name: f"{mm} mm" for name, mm in finding.lengths.items()})
    assert finding.argument == f"timber.stock.{entry['id']}.{place}"


def test_a_board_that_another_group_can_use_is_no_stop() -> None:
    thin = BOARD | {"thickness": "1 1/8 in"}
    thick = frame("f1", section={"face_width": "3 in", "thickness": "2 in"})
    wide, narrow = groups(thin, frames=(thick, frame("f2")))
    assert not wide.offers and narrow.offers
    assert [finding.severity for finding in wide.findings] == [Severity.NOTE]
    (alone,) = groups(thin, frames=(thick,))
    assert [finding.severity for finding in alone.findings] == [Severity.STOP]


def test_pieces_and_what_is_kept_are_never_more_than_the_stock() -> None:
    (group,) = groups(BOARD | {"thickness": "1 5/8 in"}, spares=1, tests=2)
    use = wood_use(planned(group), group)
    assert use.parts.m3 > 0 and 0 < use.parts.m3 + use.kept.m3 < use.stock.m3 and 0 < use.waste_pct < 100
    assert use.stock.m3 == pytest.approx(len(planned(group).sticks) * 0.041275 * 0.150 * 2.4)


def test_of_a_stick_without_a_kerf_only_the_mitred_ends_are_lost() -> None:
    document = PANEL_IN_INCHES | {"shop": PANEL_IN_INCHES["shop"] | {"kerf": "0.1 mm", "end_trim": "0 mm"}}
    document |= {"frames": [frame("f1")], "timber": {"stock": [STICK], "shortest_useful": "100 mm"}}
    (group,) = Plan(read_project(document)).timber.groups
    plan, pieces = planned(group), len(group.problem.pieces)
    ends_pct = 100 * pieces * group.section.width_mm / (2400 * plan.stick_count)
    assert wood_use(plan, group).waste_pct == pytest.approx(ends_pct, abs=0.1)


def test_an_older_file_with_one_defect_still_reads() -> None:
    old = STICK | {"defect_from": "900 mm", "defect_to": "960 mm"}
    project = read_project(PANEL_IN_INCHES | {"timber": {"stock": [old, STICK | {"id": "s2", "defect_from": None}]}})
    (defect,) = project.timber.stock[0].defects
    assert (defect.start.text, defect.end.text) == ("900 mm", "960 mm")
    assert read_project(project_document(project)) == project


@pytest.mark.parametrize("clean_up", ["0 mm", "1/16 in", "3 mm"])
def test_what_cleaning_up_takes_is_for_the_shop_to_say(clean_up: str) -> None:
    (group,) = groups(BOARD | {"thickness": "1 1/8 in", "bow": "3 mm", "twist": "1 mm"}, clean_up=clean_up)
    milling = group.offers["b1"].milling
    assert milling is not None
    assert milling.long_mm == pytest.approx(28.575 - 3 - 1 - parse_length(clean_up).mm)


def test_every_part_is_as_long_as_planer_and_jointer_hold_saw_cut_or_not() -> None:
    bowed = BOARD | {"length": "1203 mm", "thickness": "27 mm", "bow": "18 mm"}
    small = frame("f1", artwork={"across": "5 in", "up": "5 in"})
    (group,) = groups(bowed, frames=(small,), shortest_machined="400 mm", part_trim="0 mm")
    offer = group.offers["b1"]
    milled = [part for part in offer.parts if part not in offer.stock.defects]
    assert len(milled) >= 2 and all(part.length_mm >= 400 for part in milled)


@pytest.mark.parametrize(
    ("other", "profiles"),
    [
        ({"rabbet_width": "1/4 in"}, 2),
        ({"sight_edge": {"shape": "round-over", "size": "1/8 in"}}, 2),
        ({"kind": "tray", "face_width": "1/2 in"}, 2),
        ({"sight_edge": {"shape": "square", "size": "1/4 in"}, "face_drop": "1/4 in"}, 1),
        ({"rabbet_width": "12.7 mm"}, 1),
    ],
)
def test_sticks_that_have_their_profile_already_serve_no_other(other: dict[str, Any], profiles: int) -> None:
    frames = (frame("f1"), frame("f2", section=other))
    assert len(groups(STICK, frames=frames)) == 1
    found = groups(STICK, frames=frames, milled=True)
    assert len(found) == profiles
    for group in found:
        assert [finding.code for finding in group.findings] == ["timber.profiles"] * (profiles - 1)


def test_a_frame_of_no_named_wood_that_may_come_out_of_two_is_told() -> None:
    oak, ash = STICK | {"species": "oak"}, STICK | {"id": "s2", "species": "Ash"}
    (group,) = groups(oak, ash)
    assert [finding.code for finding in group.findings] == ["timber.mixed-woods"]
    assert "ash and oak" in group.findings[0].sentence
    for stock, wood in (((oak, ash), "oak"), ((oak, oak | {"id": "s2"}), ""), ((oak, STICK | {"id": "s2"}), "")):
        (group,) = groups(*stock, frames=(frame("f1", species=wood),))
        assert not group.findings


@pytest.mark.parametrize(("thickness", "codes"), [("1 1/2 in", []), ("1 5/8 in", ["timber.much-planed"])])
def test_a_board_that_goes_mostly_into_chips_is_told(thickness: str, codes: list[str]) -> None:
    (group,) = groups(BOARD | {"thickness": thickness})
    assert [finding.code for finding in group.findings] == codes
    assert [finding.severity for finding in group.findings] == [Severity.NOTE] * len(codes)


def test_the_names_of_woods_are_told_as_they_are_typed() -> None:
    (group,) = groups(STICK | {"species": "{oak}"}, STICK | {"id": "s2", "species": "ash"})
    assert "ash and {oak}" in group.findings[0].sentence.format_map({})


def test_what_is_planed_to_one_thickness_goes_through_together() -> None:
    thick = frame("f3", section={"face_width": "2 in", "thickness": "1 in"})
    wide, thicker, narrow = groups(
        BOARD | {"thickness": "1 5/8 in"}, frames=(frame("f1", section={"face_width": "3 in"}), frame("f2"), thick)
    )
    assert wide.planed_with == (narrow.section,) and narrow.planed_with == (wide.section,)
    assert not thicker.planed_with
    assert not any(group.planed_with for group in groups(STICK, frames=(frame("f1"), thick)))
