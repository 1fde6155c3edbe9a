"""What holds the package, by what it is and by the room behind it."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from framecalc.artwork.measuring import ArtworkKind
from framecalc.errors import ImpossibleSize, OutOfRange
from framecalc.package.retainers import (
    FLUSH_MM,
    MOST_SPRING_MM,
    POINT_ROOM_MM,
    STOCK_OFFSETS_MM,
    Retainer,
    choose_retainer,
    hold_with,
    retainer_findings,
)

PAPER, CANVAS = ArtworkKind.PAPER, ArtworkKind.CANVAS


@pytest.mark.parametrize(
    ("left_over_mm", "kind", "retainer", "size_mm"),
    [
        (0, PAPER, Retainer.BUTTONS, 0),
        (-0.4, PAPER, Retainer.BUTTONS, 0),
        (0.6, PAPER, Retainer.SHIM, 0.6),
        (2.9, PAPER, Retainer.SHIM, 2.9),
        (3, PAPER, Retainer.POINTS, 0),
        (9, PAPER, Retainer.POINTS, 0),
        (-2, PAPER, Retainer.STRIP, 2),
        (-3.175, PAPER, Retainer.CLIPS, 3.175),
        (-3.9, PAPER, Retainer.CLIPS, 3.175),
        (-6.3, PAPER, Retainer.STRIP, 6.3),
        (-6.35, PAPER, Retainer.CLIPS, 6.35),
        (-11, PAPER, Retainer.STRIP, 11),
        (-40, PAPER, Retainer.STRIP, 40),
        (0.3, CANVAS, Retainer.BUTTONS, 0),
        (2.6, CANVAS, Retainer.CLIPS, 3.175),
        (6, CANVAS, Retainer.CLIPS, 6.35),
        (9, CANVAS, Retainer.SHIM, 9),
        (-6.7, CANVAS, Retainer.CLIPS, 6.35),
        (-5, CANVAS, Retainer.STRIP, 5),
    ],
)
def test_the_retainer_follows_from_what_is_held_and_what_is_left(
    left_over_mm: float, kind: ArtworkKind, retainer: Retainer, size_mm: float
) -> None:
    found = choose_retainer(left_over_mm=left_over_mm, kind=kind)
    assert (found.retainer, found.size_mm) == (retainer, pytest.approx(size_mm))


@given(left_over_mm=some.floats(-60, 60), kind=some.sampled_from(ArtworkKind))
def test_a_clip_presses_and_bends_by_tenths_of_a_millimetre(left_over_mm: float, kind: ArtworkKind) -> None:
    found = choose_retainer(left_over_mm=left_over_mm, kind=kind)
    if found.retainer is Retainer.CLIPS:
        assert -1e-3 <= found.spring_mm <= MOST_SPRING_MM + 1e-3 < 1
        assert found.size_mm in STOCK_OFFSETS_MM
    elif left_over_mm < -0.51:
        assert found.retainer is Retainer.STRIP and found.size_mm == -left_over_mm


@given(left_over_mm=some.floats(-60, 60))
def test_a_canvas_is_never_held_by_points(left_over_mm: float) -> None:
    assert choose_retainer(left_over_mm=left_over_mm, kind=CANVAS).retainer is not Retainer.POINTS


def test_only_clips_at_hand_are_taken() -> None:
    assert choose_retainer(left_over_mm=-5.5, kind=PAPER, offsets_mm=[5.0]).size_mm == 5.0
    with pytest.raises(OutOfRange):
        choose_retainer(left_over_mm=-7, kind=PAPER, offsets_mm=[0.0])


@pytest.mark.parametrize(
    ("left_over_mm", "least_mm", "most_mm", "land_mm", "codes"),
    [
        (-7, -7.1, -6.4, 20, []),
        (-7, -7.1, -6, 20, ["retainers.never-presses"]),
        (-7, -7.5, -6.4, 20, ["retainers.bends-too-far"]),
        (-7, -7.1, -6.4, 8, ["retainers.foot-off-wood"]),
        (4, 2.5, 5, 8, ["retainers.no-room-for-points"]),
        (4, 3.5, 5, 8, []),
    ],
)
def test_what_is_said_of_a_retainer(
    left_over_mm: float, least_mm: float, most_mm: float, land_mm: float, codes: list[str]
) -> None:
    held = choose_retainer(left_over_mm=left_over_mm, kind=PAPER)
    found = retainer_findings(
        held, kind=PAPER, least_left_over_mm=least_mm, most_left_over_mm=most_mm, land_mm=land_mm, foot_mm=12
    )
    assert [finding.code for finding in found] == codes
    assert all(finding.sentence.format_map(finding.lengths) for finding in found)


@pytest.mark.parametrize(("most_mm", "codes"), [(6.2, []), (6.6, ["retainers.never-presses"])])
def test_a_clip_into_a_recess_misses_a_canvas_that_lies_deeper(most_mm: float, codes: list[str]) -> None:
    held = choose_retainer(left_over_mm=6, kind=CANVAS)
    found = retainer_findings(
        held, kind=CANVAS, least_left_over_mm=5.6, most_left_over_mm=most_mm, land_mm=20, foot_mm=12
    )
    assert [finding.code for finding in found] == codes


def test_points_that_are_wished_for_in_a_canvas_are_spoken_of() -> None:
    held = hold_with(Retainer.POINTS, left_over_mm=9, kind=CANVAS)
    found = retainer_findings(held, kind=CANVAS, least_left_over_mm=8, most_left_over_mm=10, land_mm=20, foot_mm=12)
    assert [finding.code for finding in found] == ["retainers.points-on-canvas"]


@given(left_over_mm=some.floats(-40, 40), kind=some.sampled_from([PAPER, CANVAS]))
def test_whatever_is_wished_for_holds_or_is_refused_with_what_would_do(left_over_mm: float, kind: ArtworkKind) -> None:
    chosen = choose_retainer(left_over_mm=left_over_mm, kind=kind).retainer
    for wished in Retainer:
        try:
            assert hold_with(wished, left_over_mm=left_over_mm, kind=kind).retainer is wished
        except ImpossibleSize as refusal:
            assert wished is not chosen and chosen.value in refusal.sentence


@pytest.mark.parametrize("left_over_mm", [-7.0, -2.0, -0.3, 0, 0.3, 0.6, 2.9, 3.0, 9.0])
@pytest.mark.parametrize("kind", [PAPER, CANVAS])
def test_whatever_is_wished_for_holds_exactly_where_it_finds_what_it_needs(
    left_over_mm: float, kind: ArtworkKind
) -> None:
    """Points want wood behind the package, a shim a recess, a strip a package that stands proud."""
    needs = {
        Retainer.POINTS: (left_over_mm >= POINT_ROOM_MM, 0.0),
        Retainer.SHIM: (left_over_mm > FLUSH_MM, left_over_mm),
        Retainer.STRIP: (left_over_mm < 0, -left_over_mm),
        Retainer.BUTTONS: (abs(left_over_mm) <= FLUSH_MM, 0.0),
    }
    for wished, (is_there, size_mm) in needs.items():
        if is_there:
            assert hold_with(wished, left_over_mm=left_over_mm, kind=kind).size_mm == size_mm
            continue
        with pytest.raises(ImpossibleSize, match="stands" if left_over_mm < 0 else "lies") as refusal:
            hold_with(wished, left_over_mm=left_over_mm, kind=kind)
        assert refusal.value.lengths == {"depth": abs(left_over_mm)}


@pytest.mark.parametrize(
    ("left_over_mm", "least_mm", "most_mm", "code", "lengths"),
    [
        (-7, -7, -6, "retainers.never-presses", {"step": 6.35, "gap": 0.35}),
        (-7, -7.5, -7, "retainers.bends-too-far", {"bend": 1.15, "most": MOST_SPRING_MM}),
        (4, 2.5, 4, "retainers.no-room-for-points", {"left": 2.5, "room": POINT_ROOM_MM}),
        (4, -1, 4, "retainers.no-room-for-points", {"left": 0, "room": POINT_ROOM_MM}),
    ],
)
def test_what_is_said_tells_by_how_much(
    left_over_mm: float, least_mm: float, most_mm: float, code: str, lengths: dict[str, float]
) -> None:
    held = choose_retainer(left_over_mm=left_over_mm, kind=PAPER)
    (finding,) = retainer_findings(
        held, kind=PAPER, least_left_over_mm=least_mm, most_left_over_mm=most_mm, land_mm=20, foot_mm=12
    )
    assert (finding.code, finding.lengths) == (code, pytest.approx(lengths))


def test_only_a_clip_is_bent() -> None:
    assert [choose_retainer(left_over_mm=left, kind=PAPER).spring_mm for left in (0, 2, 9, -2)] == [0, 0, 0, 0]
