"""Whatever the size: no word on a word or on a line, and nothing leaves its sheet."""

from functools import cache

import pytest
from drawn_plans import FRAMES, plain, plan_of
from legible import require_legible
from svg_reading import Drawn, Text, path_runs

from framecalc.drawing.registry import PANELS, PAPER_DRAWINGS, draw_panel, draw_paper, papers_of
from framecalc.plan import FramePlan

OUTSIDES_MM = ((50, 50), (60, 400), (400, 60), (433, 365), (1200, 120), (2500, 400), (400, 2500), (3000, 3000))
FACES_MM = (8, 22, 60, 150)
FRAMES_OF_ALL_SIZES = [
    (across, up, face, unit) for across, up in OUTSIDES_MM for face in FACES_MM for unit in ("mm", "in")
]

LAYERS = [
    ("glass", "glazing", "2 mm"),
    ("window mat, hand-cut, with a name as long as anybody types", "mat", "1.5 mm"),
    ("spacer", "spacer", "5 mm"),
    ("print", "artwork", "0.3 mm"),
    ("tissue", "backing", "0.1 mm"),
    ("mat board", "backing", "1.5 mm"),
    ("foil", "backing", "0.1 mm"),
    ("corrugated board", "backing", "3 mm"),
    ("plywood", "back", "1/8 in"),
]


def layers(count: int) -> list[dict[str, str]]:
    chosen = [LAYERS[row % len(LAYERS)] for row in range(count)]
    return [
        {"id": f"l{row}", "name": name, "kind": kind, "thickness": thickness, "tolerance": "0.05 mm"}
        for row, (name, kind, thickness) in enumerate(chosen)
    ]


ODD = {
    "proud": ("cafe-prints", "oak5", {"section.rabbet_depth": "4 mm"}),
    "no clearance": ("cafe-prints", "oak5", {"package.clearance_across": "0 mm"}),
    "no layers": ("cafe-prints", "oak5", {"package.layers": []}),
    "nine layers": ("cafe-prints", "oak5", {"package.layers": layers(9)}),
    "24 layers": (
        "cafe-prints",
        "oak5",
        {"package.layers": layers(24), "section.thickness": "70 mm", "section.rabbet_depth": "60 mm"},
    ),
    "deep box": ("ash-relief", "box1", {"section.thickness": "150 mm", "section.rabbet_depth": "138 mm"}),
    "bevel": ("cafe-prints", "oak5", {"section.face": "bevelled toward the picture", "section.face_width": "60 mm"}),
    "flat and wide": ("cafe-prints", "oak5", {"section.face_width": "140 mm"}),
    "flush": ("cafe-prints", "oak5", {"section.rabbet_depth": "8.3 mm"}),
    "low tray": ("ash-relief", "tray1", {"section.thickness": "50 mm", "section.ledge_thickness": "4 mm"}),
    "triangle": ("maple-canvas", "map1", {"shape.sides": 3, "shape.size": "300 mm"}),
    "hexagon": ("maple-canvas", "map1", {"shape.sides": 6, "shape.size": "12.99 in"}),
    "24 sides": ("maple-canvas", "map1", {"shape.sides": 24, "shape.size": "900 mm"}),
    "seven sides in a tray": ("ash-relief", "tray1", {"shape.sides": 7, "shape.size": "300 mm"}),
    "sloping": ("cafe-prints", "oak5", {"shape.slope": "20"}),
    "steep octagon": ("maple-canvas", "map1", {"shape.sides": 8, "shape.size": "400 mm", "shape.slope": "52"}),
    "two mats": ("cafe-prints", "oak5", {"package.mat.reveal": "6 mm", "package.layers": layers(7)}),
    "on edge": ("cafe-prints", "oak5", {"shape.slope": "90"}),
    "thin tray": ("ash-relief", "tray1", {"section.face_width": "4 mm", "section.tray_gap": "2 mm"}),
}


def drawings(plan: FramePlan) -> dict[str, Drawn]:
    return {name: Drawn(draw_panel(name, plan)) for name in PANELS}


def papers(plan: FramePlan) -> dict[str, Drawn]:
    sheets = ("a4", "letter-portrait")
    return {f"{name} {paper}": Drawn(draw_paper(name, plan, paper)) for name in PAPER_DRAWINGS for paper in sheets}


def every_paper(plan: FramePlan) -> dict[str, Drawn]:
    sheets = ("a4", "letter-portrait")
    return {f"{name} {paper}": Drawn(draw_paper(name, plan, paper)) for name in papers_of(plan) for paper in sheets}


@cache
def odd_plan(name: str) -> FramePlan:
    return plan_of(*ODD[name])


@pytest.mark.parametrize(("across", "up", "face", "unit"), FRAMES_OF_ALL_SIZES)
def test_panels_of_every_size_are_legible(across: float, up: float, face: float, unit: str) -> None:
    for drawn in drawings(plain(across, up, face, unit=unit)).values():
        require_legible(drawn)


@pytest.mark.parametrize(("across", "up", "face", "unit"), FRAMES_OF_ALL_SIZES[::3])
def test_papers_of_every_size_are_legible(across: float, up: float, face: float, unit: str) -> None:
    for drawn in papers(plain(across, up, face, unit=unit)).values():
        require_legible(drawn)


@pytest.mark.parametrize(("name", "frame_id"), FRAMES)
def test_the_demos_are_legible(name: str, frame_id: str) -> None:
    plan = plan_of(name, frame_id)
    for drawn in (drawings(plan) | every_paper(plan)).values():
        require_legible(drawn)


@pytest.mark.parametrize("name", ODD)
def test_odd_frames_are_legible(name: str) -> None:
    plan = odd_plan(name)
    for drawn in (drawings(plan) | every_paper(plan)).values():
        require_legible(drawn)


@pytest.mark.parametrize("name", [*ODD, *FRAMES])
def test_no_line_of_a_size_goes_through_the_package(name: str | tuple[str, str]) -> None:
    """Fault: the line down from the sight edge went through every layer."""
    plan = odd_plan(name) if isinstance(name, str) else plan_of(*name)
    if not plan.is_tray:
        drawn = Drawn(draw_panel("section", plan))  # on a paper leaders look like the lines of sizes
        crossed = [one for one in drawn.segments("dimension") for box in _boards(drawn) if box.is_crossed_by(*one)]
        assert crossed == []


def _boards(drawn: Drawn) -> list[Text]:
    """The boxes of the layers, a little inside their edges and their break."""
    clipped = [path for path in drawn.elements("path") if path.get("clip-path") and path.get("fill")]
    runs = [run for path in clipped if "rings" not in path.attrib["fill"] for run in path_runs(path.attrib["d"])]
    return [
        Text("", "", run[0][0] + 0.3, min(y for _, y in run) + 0.05, run[1][0] - 2.0, max(y for _, y in run) - 0.05)
        for run in runs
    ]


@pytest.mark.parametrize(("name", "frame_id"), FRAMES)
def test_a_drawing_stays_small(name: str, frame_id: str) -> None:
    """150 elements a drawing is what the speed of a redraw was reckoned with."""
    for drawn in drawings(plan_of(name, frame_id)).values():
        assert len(list(drawn.root.iter())) <= 150


@pytest.mark.parametrize(("name", "frame_id"), FRAMES)
def test_every_figure_is_the_one_of_the_plan(name: str, frame_id: str) -> None:
    plan = plan_of(name, frame_id)
    for drawn in (drawings(plan) | papers(plan)).values():
        written = drawn.figures()
        assert written
        for figure, texts in written.items():
            assert all(
                text == plan.figures[figure].text or text.endswith(f" {plan.figures[figure].text}") for text in texts
            )


@pytest.mark.parametrize(("name", "frame_id"), FRAMES)
def test_each_size_is_given_once_in_a_drawing(name: str, frame_id: str) -> None:
    for drawn in drawings(plan_of(name, frame_id)).values():
        assert all(len(texts) == 1 for texts in drawn.figures().values())


@pytest.mark.parametrize(
    ("name", "frame_id", "unit"), [("cafe-prints", "oak5", " mm"), ("maple-canvas", "map1", " inch")]
)
def test_the_unit_is_said_once_in_a_drawing(name: str, frame_id: str, unit: str) -> None:
    for drawn in drawings(plan_of(name, frame_id)).values():
        assert len([text for text in drawn.texts if unit in text.text]) == 1


@pytest.mark.parametrize("name", ["hangers", "nails"])
def test_figures_beside_a_low_frame_end_above_the_scale_bar(name: str) -> None:
    """Fault: beside a long, low frame the drop was written over the scale bar."""
    drawn = Drawn(draw_panel(name, plain(3053, 465, 22)))
    (scale,) = [text for text in drawn.texts if text.text == "1000 mm"]
    others = [text for text in drawn.texts if text.text not in ("1000 mm", "from behind")]
    assert others and max(text.bottom for text in others) <= scale.top
