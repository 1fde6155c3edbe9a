"""Papers are true to size and scale, and their margins say so."""

import re

import pytest
from drawn_plans import FRAMES, plan_of
from svg_reading import Drawn

from framecalc.drawing.pen import Pen
from framecalc.drawing.registry import PAPER_DRAWINGS, draw_paper
from framecalc.drawing.sheet import INCH_SCALES, ISO_SCALES, PAPERS, TitleBlock, draw_title_block, fit_scale
from framecalc.drawing.style import LOOKS, Role
from framecalc.units import Unit

SIZES_MM = {"a4": (297, 210), "a3": (420, 297), "letter": (11 * 25.4, 8.5 * 25.4), "tabloid": (17 * 25.4, 11 * 25.4)}
"""ISO 216:2007 and ANSI/ASME Y14.1, from memory, not re-read."""


@pytest.mark.parametrize("paper", SIZES_MM)
def test_papers_have_their_standard_size(paper: str) -> None:
    across_mm, up_mm = SIZES_MM[paper]
    assert (PAPERS[paper].across_mm, PAPERS[paper].up_mm) == pytest.approx((across_mm, up_mm))
    portrait = PAPERS[f"{paper}-portrait"]
    assert (portrait.across_mm, portrait.up_mm) == pytest.approx((up_mm, across_mm))


@pytest.mark.parametrize("unit", list(Unit))
@pytest.mark.parametrize("largest", [0.011, 0.2, 0.21, 0.99, 1.0, 3.7, 40.0])
def test_the_scale_on_paper_is_the_next_of_the_standards_below(unit: Unit, largest: float) -> None:
    scales = ISO_SCALES if unit is Unit.MM else INCH_SCALES
    scale = fit_scale(largest, sheet=PAPERS["a4"], unit=unit)
    assert scale in scales or largest < min(scales)
    assert scale <= largest
    assert not [other for other in scales if scale < other <= largest]


def extent(run: list[tuple[float, float]]) -> tuple[float, float]:
    return max(x for x, _ in run) - min(x for x, _ in run), max(y for _, y in run) - min(y for _, y in run)


def stated_scale(drawn: Drawn) -> float:
    ratio = next(match for text in drawn.texts if (match := re.search(r"(\d+):(\d+)", text.text)))
    return int(ratio[1]) / int(ratio[2])


@pytest.mark.parametrize("paper", ["a4", "a3-portrait", "letter", "tabloid-portrait"])
@pytest.mark.parametrize(("name", "frame_id"), [("cafe-prints", "oak5"), ("maple-canvas", "map1")])
def test_the_stated_scale_is_the_measured_one(name: str, frame_id: str, paper: str) -> None:
    plan = plan_of(name, frame_id)
    drawn = Drawn(draw_paper("front", plan, paper))
    scale, sizes = stated_scale(drawn), plan.sizes
    wanted = (sizes.outside_across_mm * scale, sizes.outside_up_mm * scale)
    assert any(extent(run) == pytest.approx(wanted, abs=0.002) for run in drawn.runs("outline"))


@pytest.mark.parametrize(("name", "frame_id"), FRAMES)
@pytest.mark.parametrize("drawing", PAPER_DRAWINGS)
def test_the_scale_bars_agree_with_the_stated_scale(drawing: str, name: str, frame_id: str) -> None:
    plan = plan_of(name, frame_id)
    drawn = Drawn(draw_paper(drawing, plan, "a4"))
    texts = [text.text for text in drawn.texts]
    at = next(index for index, text in enumerate(texts) if text.startswith("prints "))
    work, printed = (_length_mm(text) for text in texts[at - 1 : at + 1])
    assert printed == pytest.approx(work * stated_scale(drawn), abs=0.01)
    bars = [extent(run) for run in drawn.runs("edge")]
    assert any(across == pytest.approx(printed, abs=0.002) and up == pytest.approx(1) for across, up in bars)
    assert any(up == pytest.approx(printed, abs=0.002) and across == pytest.approx(1) for across, up in bars)


def _length_mm(text: str) -> float:
    whole, numerator, denominator, unit = re.search(r"(\d+(?:\.\d+)?)?(?: ?(\d+)/(\d+))? (mm|inch)", text).groups()  # type: ignore[union-attr]
    number = float(whole or 0) + (int(numerator) / int(denominator) if numerator else 0)
    return number * (25.4 if unit == "inch" else 1)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("drawing", PAPER_DRAWINGS)
def test_the_title_block_is_complete_and_in_the_lower_right(drawing: str, paper: str) -> None:
    saved = {"revision": 7, "when": "2026-11-25T09:00:00Z", "equals": 7}
    plan = plan_of("cafe-prints", "oak5", saved=saved)
    drawn = Drawn(draw_paper(drawing, plan, paper))
    sheet = PAPERS[paper]
    block = [text for text in drawn.texts if text.left > sheet.across_mm - 125 and text.top > sheet.up_mm - 37]
    said = " | ".join(text.text for text in block)
    for part in ("Prints for a café wall", "5 × Linocut, matted", "revision 7", "2026-11-25", "sizes in mm"):
        assert part in said
    assert re.search(r"\d:\d", said)


def test_the_name_of_the_shop_stands_over_the_block_and_changes_no_drawing() -> None:
    plan = plan_of("cafe-prints", "oak5")
    plain, named = (Drawn(draw_paper("front", plan, "a4", shop=shop)) for shop in ("", "Nora Ellis, frames"))
    assert {text.text for text in named.texts} - {text.text for text in plain.texts} == {"Nora Ellis, frames"}
    assert plain.runs("outline") == named.runs("outline")


def test_a_frame_that_is_called_as_its_job_is_named_once() -> None:
    for count, says in ((1, "1 frame"), (5, "5 frames, all alike")):
        plan = plan_of("cafe-prints", "oak5", {"name": "Hall", "count": count}, name="Hall")
        texts = [text.text for text in Drawn(draw_paper("front", plan, "a4")).texts]
        assert texts.count("Hall") == 1 and says in texts


def test_the_border_is_thinner_than_what_is_drawn_and_figures_are_larger_than_words() -> None:
    assert LOOKS[Role.FRAME].width_mm < LOOKS[Role.OUTLINE].width_mm == 0.5
    texts = Drawn(draw_paper("front", plan_of("cafe-prints", "oak5"), "a4")).elements("text")
    sized = [text for text in texts if text.get("data-figure")]
    assert {text[0].get("font-size") for text in sized} == {"4.9"}
    assert {text.get("font-size") for text in texts} == {"3.5"}


def test_a_long_project_name_is_cut_short_inside_its_cell() -> None:
    plan = plan_of("cafe-prints", "oak5", name="A very long name " * 7)
    texts = Drawn(draw_paper("front", plan, "a4")).texts
    assert [text for text in texts if text.text.startswith("A very long") and text.text.endswith("…")]


@pytest.mark.parametrize(
    "scale", ["scale 1:5", "members 1:100, corner 1:20", "members 1:1230, corner 1:1250, held 1:50"]
)
def test_a_title_block_never_cuts_its_scale(scale: str) -> None:
    """Fault: of two drawings on one sheet the scale of the second ended in an ellipsis where the frame was long."""
    pen = Pen(name="block", across_mm=297, up_mm=210, title="a block", inline=False)
    block = TitleBlock(project="Hall", frame="A very long name " * 9, drawing="d", revision="r", date="d", unit=Unit.MM)
    draw_title_block(pen, PAPERS["a4"], block=block, scale=scale)
    texts = {text.text: text for text in Drawn(pen.svg()).texts}
    assert scale in texts
    (frame,) = [text for said, text in texts.items() if said.startswith("A very long")]
    assert frame.right <= texts[scale].left and not frame.overlaps(texts[scale])
