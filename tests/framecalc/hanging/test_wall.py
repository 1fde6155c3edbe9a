"""Hook heights, uneven hooks, walkways, fixings, and what else is on a wall."""

import pytest

from framecalc.hanging.groups import OnWall
from framecalc.hanging.things import Thing, ThingKind, thing_findings
from framecalc.hanging.wall import anchor_findings, front_out_mm, hook_height_mm, level_of, walkway_findings

INCH = 25.4


def test_hook_heights_as_published_and_as_worked() -> None:
    """Source: a frame 16 in high, centre 58 in, drop 2 in: 64 in (a magazine on exhibitions, 2008); and by hand."""
    inches = hook_height_mm(centre_mm=58 * INCH, top_mm=8 * INCH, drop_mm=2 * INCH)
    assert inches == pytest.approx(64 * INCH)
    assert hook_height_mm(centre_mm=1450, top_mm=235.5, drop_mm=95) == pytest.approx(1590.5)


@pytest.mark.parametrize(("lean_deg", "out_mm"), [(-5, 26), (0, 26), (30, 526), (90, 1026)])
def test_a_frame_that_leans_forward_stands_out_by_its_top(lean_deg: float, out_mm: float) -> None:
    """Half its height of 1000 mm at 30°, all of it where it lies; leaning back, its foot is what stands out."""
    assert front_out_mm(thickness_mm=20, up_mm=1000, bumper_mm=6, lean_deg=lean_deg) == pytest.approx(out_mm)


@pytest.mark.parametrize("error_mm", [-3.0, 2.0])
def test_a_shim_of_the_error_at_the_lower_hook_mends_the_tilt(error_mm: float) -> None:
    level = level_of(higher_right_mm=error_mm, apart_mm=400, across_mm=800)
    assert level.edge_off_mm == pytest.approx(2 * abs(error_mm)) and level.shim_mm == abs(error_mm)
    assert level.low_side == ("left" if error_mm > 0 else "right")


@pytest.mark.parametrize(
    ("low_in", "out_in", "found"),
    [(27.01, 4.01, 1), (27.0, 4.01, 0), (80.0, 4.01, 1), (80.01, 4.01, 0), (40, 4.0, 0), (40, 4.01, 1)],
)
def test_a_walkway_takes_four_inches_between_27_and_80(low_in: float, out_in: float, found: int) -> None:
    """Source: 2010 ADA Standards for Accessible Design, 307.2, from memory, not re-read."""
    sentences = walkway_findings("hall", low_mm=low_in * INCH, high_mm=90 * INCH, out_mm=out_in * INCH)
    assert len(list(sentences)) == found


@pytest.mark.parametrize(("rating_kg", "severity"), [(None, None), (12, None), (11.9, "warn"), (2.9, "stop")])
def test_a_fixing_is_held_against_its_own_packet(rating_kg: float | None, severity: str | None) -> None:
    found = list(anchor_findings("hall", load_kg=3, rating_kg=rating_kg, factor_ratio=4, pull_n=5))
    assert [one.severity.value for one in found] == ([severity] if severity else [])


def at(x_mm: float, y_mm: float, across_mm: float = 400, up_mm: float = 300) -> OnWall:
    return OnWall(key="a", across_mm=across_mm, up_mm=up_mm, x_mm=x_mm, y_mm=y_mm)


@pytest.mark.parametrize(
    ("kind", "place", "code"),
    [
        (ThingKind.SEAT, at(1000, 400, 1800, 800), "wall.over_heads"),
        (ThingKind.SIDEBOARD, at(1000, 400, 1800, 800), ""),
        (ThingKind.SWITCH, at(1100, 1050, 80, 80), "wall.cables"),
        (ThingKind.SWITCH, at(2000, 700, 80, 80), ""),
        (ThingKind.ALARM, at(1000, 1500, 100, 100), "wall.covers"),
        (ThingKind.RADIATOR, at(1000, 350, 900, 600), "wall.warm"),
    ],
)
def test_what_else_is_on_the_wall_is_heeded(kind: ThingKind, place: OnWall, code: str) -> None:
    found = thing_findings([("{print}", at(1000, 1500))], [Thing(kind=kind, name="it", place=place)])
    assert [one.code for one in found] == ([code] if code else [])


@pytest.mark.parametrize(("off_mm", "codes"), [(149, ["wall.cables"]), (151, [])])
@pytest.mark.parametrize("kind", [ThingKind.SWITCH, ThingKind.SOCKET, ThingKind.ALARM])
def test_cables_are_looked_for_as_far_to_every_side(kind: ThingKind, off_mm: float, codes: list[str]) -> None:
    frame = at(2000, 1500)
    beside = [(frame.left_mm - off_mm, 3000), (frame.right_mm + off_mm, 300)]
    level = [(300, frame.low_mm - off_mm), (4000, frame.high_mm + off_mm)]
    for x_mm, y_mm in beside + level:
        thing = Thing(kind=kind, name="it", place=at(x_mm, y_mm, 80, 80))
        assert [one.code for one in thing_findings([("print", frame)], [thing])] == codes
