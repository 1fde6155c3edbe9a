"""Older files: facts that were typed twice move to their one place, nothing is lost, and what was meant stays."""

import copy
from typing import Any

import pytest
from drawn_plans import DEMOS, demo

from framecalc.plan import FramePlan, Plan
from framecalc.project import project_document, read_project
from framecalc.project.moved import moved


def older(*, species: str = "", chosen: str = "", **parts: Any) -> FramePlan:
    """The plan of a file of when the Corners page asked for the wood; parts by their path in the frame."""
    document = demo("cafe-prints")
    del document["shop"]["strap"]
    frame = document["frames"][0]
    frame["species"] = species
    frame["corner"]["seasons"]["species"] = chosen
    for path, values in parts.items():
        part, name = path.split("__")
        frame[part][name] |= values
    return Plan(read_project(document)).frames["oak5"]


@pytest.mark.parametrize(
    ("species", "chosen", "named", "reckoned_as", "meant"),
    [
        ("", "", "", "", None),
        ("", "white_oak", "Oak, white", "", "white_oak"),
        ("white oak", "white_oak", "white oak", "", "white_oak"),
        ("ash", "white_ash", "ash", "white_ash", "white_ash"),
        ("olive ash", "white_ash", "olive ash", "white_ash", "white_ash"),
        ("white oak", "", "white oak", "", "white_oak"),
        ("white oak", "black_walnut", "white oak", "black_walnut", "white_oak"),
    ],
)
def test_the_wood_of_the_corners_becomes_the_wood_of_the_frame(
    species: str, chosen: str, named: str, reckoned_as: str, meant: str | None
) -> None:
    plan = older(species=species, chosen=chosen)
    assert (plan.frame.species, plan.frame.reckoned_as) == (named, reckoned_as)
    wood = plan.corners.seasons.species
    assert (wood.species_id if wood else None) == meant
    codes = [finding.code for finding in plan.findings]
    assert ("wood.two-names" in codes) == (chosen == "black_walnut")


USUAL = {"driest_temperature": "22", "driest_humidity": "30", "dampest_temperature": "26", "dampest_humidity": "65"}


@pytest.mark.parametrize(
    ("room", "winter", "counts", "earlier"),
    [
        ({}, "35", 35, None),
        ({"driest_humidity": "30.0"}, "40", 40, None),
        ({"driest_humidity": "25"}, "35", 25, None),
        ({"driest_humidity": "40"}, "40", 40, None),
        ({"driest_humidity": "25"}, "40", 40, 25),
    ],
)
def test_the_air_of_the_package_becomes_that_of_the_corners(
    room: dict[str, str], winter: str, counts: float, earlier: float | None
) -> None:
    plan = older(fitting__room=USUAL | room, corner__seasons={"winter_humidity": winter})
    assert plan.package.growth.room.driest.humidity_pct == pytest.approx(counts)
    assert min(air.humidity_pct for air in plan.corners.seasons.air) == pytest.approx(counts)
    kept = plan.frame.fitting.earlier_air
    assert (None if kept is None else float(kept.driest_humidity or 0)) == earlier
    assert any(one.code == "growth.earlier-air" for one in plan.package.growth.findings) == (earlier is not None)


def test_typed_months_are_the_air_of_the_package_too() -> None:
    months = {"months": "31 32 35 40 45 50 55 58 50 45 40 35"}
    room = older(corner__seasons=months).package.growth.room
    assert (room.driest.humidity_pct, room.dampest.humidity_pct) == (31, 58)


def test_a_strap_that_all_frames_share_becomes_the_shops_and_others_stay_where_they_are() -> None:
    first = {"strap_force": "300", "ratchet": "at a corner", "friction": "0.2"}
    alike = two_frames(first, first)
    assert (alike.shop.strap.ratchet, alike.shop.strap.friction) == ("at a corner", "0.2")
    assert [frame.corner.clamps.strap_force for frame in alike.frames] == [None, None]
    apart = two_frames(first, first | {"strap_force": "200"})
    assert apart.shop.strap.pull is None
    assert [float(frame.corner.clamps.strap_force or 0) for frame in apart.frames] == [300, 200]
    for project, pulls in ((alike, (300, 300)), (apart, (300, 200))):
        straps = [plan.corners.clamps.strap for plan in Plan(project).frames.values()]
        assert tuple(max(strap.tensions_n) for strap in straps if strap) == pulls


def two_frames(*clamps: dict[str, str]) -> Any:
    document = demo("ash-relief")
    del document["shop"]["strap"]
    for frame, typed in zip(document["frames"], clamps, strict=True):
        frame["corner"]["clamps"] |= typed
    return read_project(document)


@pytest.mark.parametrize("name", [path.name.partition(".")[0] for path in sorted(DEMOS.glob("*.demo.json"))])
def test_a_file_of_today_has_nothing_to_move(name: str) -> None:
    document = demo(name)
    before = copy.deepcopy(document)
    assert moved(document) == before == document
    assert project_document(read_project(document)) == before


def test_what_is_moved_stays_when_somebody_goes_back_to_the_usual() -> None:
    """A second reading never fetches the earlier air again."""
    once = project_document(
        older(fitting__room=USUAL | {"driest_humidity": "25"}, corner__seasons={"winter_humidity": "40"}).project
    )
    once["frames"][0]["corner"]["seasons"]["winter_humidity"] = "35"
    assert Plan(read_project(once)).frames["oak5"].package.growth.room.driest.humidity_pct == 35
