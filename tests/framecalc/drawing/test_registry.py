"""One list of drawings: what is defined stands in it, and panels, papers and files follow from it."""

import pytest
from drawings import drawings_in
from drawn_plans import plan_of
from svg_reading import Drawn

import framecalc.drawing
from framecalc.drawing.record import FrameDrawing
from framecalc.drawing.registry import DRAWINGS, PANELS, PAPER_DRAWINGS, draw_panel, draw_paper, paper_showing
from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan


def test_every_drawing_that_is_defined_is_registered() -> None:
    defined = drawings_in(framecalc.drawing)
    of_a_tray = {"tray"}
    assert set(defined) - of_a_tray == {drawing.name for drawing in DRAWINGS}
    assert len(defined) >= 20


def test_no_two_drawings_share_a_name() -> None:
    assert len({drawing.name for drawing in DRAWINGS}) == len(DRAWINGS)


def test_a_drawing_that_stands_by_itself_is_called_something() -> None:
    assert all(PANELS.values())
    assert all(drawing.paper.label for drawing in DRAWINGS if drawing.paper)


def test_every_frame_has_its_panels_and_its_papers() -> None:
    assert tuple(PANELS) == ("front", "section", "members", "corner")
    assert PAPER_DRAWINGS == ("front", "section", "mitre")


@pytest.mark.parametrize(
    ("drawing", "paper"), [("members", "mitre"), ("corner", "mitre"), ("face", "joint"), ("mitre", "mitre")]
)
def test_drawings_that_share_a_sheet_lead_to_it(drawing: str, paper: str) -> None:
    assert paper_showing(drawing) == paper


@pytest.mark.parametrize("name", ["closing", "behind", ""])
def test_what_goes_on_no_paper_is_refused(name: str) -> None:
    with pytest.raises(KeyError):
        paper_showing(name)


def test_no_sheet_holds_more_drawings_than_it_has_rooms() -> None:
    papers = [drawing.paper for drawing in DRAWINGS if drawing.paper]
    assert max(map(papers.count, papers)) <= 2


def test_a_tray_has_its_own_section_under_the_same_name() -> None:
    plan = plan_of("ash-relief", "tray1")
    panel, paper = Drawn(draw_panel("section", plan)), Drawn(draw_paper("section", plan, "a4"))
    assert "the artwork lies" in panel.title
    assert paper.title == panel.title


def _refused_field(drawing: FrameDrawing, plan: FramePlan) -> str | None:
    """The field that a drawing is refused for; nothing where it can be read."""
    try:
        drawing.of(plan)
    except FrameCalcError as error:
        return error.field
    return None


def test_what_a_frame_does_not_have_is_refused_beside_a_field() -> None:
    bare = plan_of("cafe-prints", "oak5", {"species": ""})
    refused = {drawing.name: _refused_field(drawing, bare) for drawing in DRAWINGS}
    assert {name for name, field in refused.items() if field is None} >= set(PANELS)
    assert [refused[name] for name in ("closing", "slope", "strap", "year")] == ["sides", "slope", "pull", "species"]
    assert "" not in refused.values()
