"""What else is on a wall: a frame is over a thing exactly where it hangs higher and some of it above it."""

import pytest

from framecalc.findings import Severity
from framecalc.hanging.groups import OnWall
from framecalc.hanging.things import Thing, ThingKind, thing_findings

FRAME = OnWall(key="a", across_mm=400, up_mm=300, x_mm=2000, y_mm=1500)
CODES = {ThingKind.BED: "wall.over_heads", ThingKind.SEAT: "wall.over_heads", ThingKind.RADIATOR: "wall.warm"}


def codes(kind: ThingKind, *, x_mm: float, top_mm: float = 850, across_mm: float = 1000) -> list[str]:
    place = OnWall(key="b", across_mm=across_mm, up_mm=800, x_mm=x_mm, y_mm=top_mm - 400)
    return [one.code for one in thing_findings([("print", FRAME)], [Thing(kind=kind, name="it", place=place)])]


@pytest.mark.parametrize("kind", CODES)
@pytest.mark.parametrize("across_mm", [100, 1000])
def test_a_thing_is_under_a_frame_as_long_as_a_little_of_it_is(kind: ThingKind, across_mm: float) -> None:
    reach_mm = (400 + across_mm) / 2
    for off_mm, is_under in ((0, True), (reach_mm - 1, True), (reach_mm + 1, False)):
        for x_mm in (2000 - off_mm, 2000 + off_mm):
            assert codes(kind, x_mm=x_mm, across_mm=across_mm) == ([CODES[kind]] if is_under else [])


@pytest.mark.parametrize("kind", CODES)
@pytest.mark.parametrize(("top_mm", "is_said"), [(1349, True), (1350, True), (2500, False)])
def test_what_reaches_up_to_a_frame_is_under_it_and_what_is_over_it_is_not(
    kind: ThingKind, top_mm: float, is_said: bool
) -> None:
    assert codes(kind, x_mm=2000, top_mm=top_mm) == ([CODES[kind]] if is_said else [])


@pytest.mark.parametrize("kind", [kind for kind in ThingKind if kind not in CODES])
def test_over_anything_else_a_frame_may_hang(kind: ThingKind) -> None:
    assert set(codes(kind, x_mm=2000)) <= {"wall.cables"}


@pytest.mark.parametrize("kind", list(ThingKind))
def test_whatever_a_frame_covers_is_said_and_an_alarm_is_a_stop(kind: ThingKind) -> None:
    (found,) = thing_findings([("print", FRAME)], [Thing(kind=kind, name="it", place=FRAME)])
    assert found.code == "wall.covers"
    assert (found.severity is Severity.STOP) is (kind is ThingKind.ALARM)
