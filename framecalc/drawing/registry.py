"""The drawings of a frame. Panels, papers, enlarged pages and files derive from this one list.

A new drawing is a module with its `Drawing`, and its line here. What is drawn from something else than one frame is no
part of the list, since no frame could hand it out: sticks and strips are drawn from a cutting plan (`timber`), sheets
from a layout (`sheets`), the glue-up from a timetable (`bench`), the frame and its wall from a client's copy
(`client`), and what is cut or laid on at its true size from a template (`templates`).
"""

from framecalc.drawing.corners.closing import CLOSING
from framecalc.drawing.corners.gauge import GAUGE
from framecalc.drawing.corners.joint_plan import PLAN
from framecalc.drawing.corners.lap import LAP
from framecalc.drawing.corners.lean import LEAN
from framecalc.drawing.corners.mitre_face import FACE
from framecalc.drawing.corners.polygon import POLYGON
from framecalc.drawing.corners.slope import SLOPE
from framecalc.drawing.corners.strap import STRAP
from framecalc.drawing.corners.test_joint import GAPS
from framecalc.drawing.corners.year import YEAR
from framecalc.drawing.package.exploded import EXPLODED
from framecalc.drawing.package.mat import MAT, UPPER_MAT
from framecalc.drawing.package.retainers import HELD
from framecalc.drawing.record import FrameDrawing, PaperDrawing, RecordRead, panel_svg, paper_svg
from framecalc.drawing.setting_out.corner import CORNER
from framecalc.drawing.setting_out.front import FRONT, THUMBNAIL
from framecalc.drawing.setting_out.members import MEMBERS
from framecalc.drawing.setting_out.section import SECTION
from framecalc.drawing.sheet import PAPERS, TitleBlock
from framecalc.drawing.wall.back import BACK
from framecalc.drawing.wall.hangers import HANGERS
from framecalc.drawing.wall.nails import NAILS
from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan
from framecalc.words import say

DRAWINGS: tuple[FrameDrawing, ...] = (
    FRONT,
    THUMBNAIL,
    SECTION,
    MEMBERS,
    CORNER,
    EXPLODED,
    MAT,
    UPPER_MAT,
    HELD,
    GAUGE,
    GAPS,
    CLOSING,
    LEAN,
    STRAP,
    POLYGON,
    SLOPE,
    FACE,
    PLAN,
    LAP,
    YEAR,
    HANGERS,
    BACK,
    NAILS,
)
"""Every drawing of a frame. Those of every frame stand on the page and those on a paper share it in this order."""

_BY_NAME = {drawing.name: drawing for drawing in DRAWINGS}

PANELS = {drawing.name: drawing.label for drawing in DRAWINGS if drawing.of_every_frame}
"""The drawings that every frame has, each with what it is called."""

_ON_PAPER: dict[PaperDrawing, tuple[FrameDrawing, ...]] = {
    paper: tuple(drawing for drawing in DRAWINGS if drawing.paper == paper)
    for paper in dict.fromkeys(drawing.paper for drawing in DRAWINGS)
    if paper
}
_PAPERS_BY_NAME = {paper.name: paper for paper in _ON_PAPER}

PAPER_DRAWINGS = tuple(
    paper.name for paper, drawings in _ON_PAPER.items() if all(drawing.of_every_frame for drawing in drawings)
)
"""The sheets of paper that every frame has."""

FURTHER_PAPERS = tuple(name for name in _PAPERS_BY_NAME if name not in PAPER_DRAWINGS)
"""The sheets of paper that only some frames have: of a mat, a joint, retainers, a polygon."""


def draw_panel(name: str, plan: FramePlan, *, beside: str = "") -> str:
    """Draw one panel of a plan, as SVG for a page.

    Args:
        name: that of one of DRAWINGS.
        beside: an ending for its ids, where the same drawing of another plan is on the page too.
    Raises:
        KeyError: there is no such drawing.
        FrameCalcError: what it shows cannot be computed, is not measured or chosen, or the frame has no such thing.
    """
    return panel_svg(_BY_NAME[name].of(plan), beside=beside)


def paper_showing(name: str) -> str:
    """The sheet of paper of this name, or the one of the drawing of this name.

    Raises:
        KeyError: there is none.

    >>> paper_showing("corner"), paper_showing("mat")
    ('mitre', 'mat')
    """
    if name in _PAPERS_BY_NAME:
        return name
    paper = _BY_NAME[name].paper
    if paper is None:
        raise KeyError(name)
    return paper.name


def papers_showing(*names: str) -> tuple[str, ...]:
    """The sheets of paper that show any of these drawings, in the order of the list.

    >>> papers_showing("face", "gauge", "plan")
    ('joint',)
    """
    return tuple(sheet.name for sheet, shown in _ON_PAPER.items() if any(drawing.name in names for drawing in shown))


def papers_of(plan: FramePlan) -> dict[str, str]:
    """The sheets of paper that a frame has, each with its label; those of every frame come first."""
    names = (*PAPER_DRAWINGS, *(name for name in FURTHER_PAPERS if _can_be_read(name, plan)))
    return {name: say(_PAPERS_BY_NAME[name].label, plan.project.shop.words) for name in names}


def _can_be_read(name: str, plan: FramePlan) -> bool:
    try:
        _readings(name, plan)
    except FrameCalcError:
        return False
    return True


def _readings(name: str, plan: FramePlan) -> tuple[RecordRead, ...]:
    return tuple(drawing.of(plan) for drawing in _ON_PAPER[_PAPERS_BY_NAME[name]])


def draw_paper(name: str, plan: FramePlan, paper: str, *, shop: str = "") -> str:
    """Draw a sheet of paper, as an SVG file of true size.

    Args:
        name: that of a sheet that drawings go on.
        paper: one of PAPERS.
        shop: the name of the shop.
    Raises:
        KeyError: there is no such sheet or paper.
        FrameCalcError: what it shows cannot be computed, or the frame has no such thing.
    """
    shown = _PAPERS_BY_NAME[name]
    block = _title_block(shown, plan, shop)
    return paper_svg(f"{name}-{paper}", _readings(name, plan), block=block, sheet=PAPERS[paper])


def _title_block(shown: PaperDrawing, plan: FramePlan, shop: str) -> TitleBlock:
    saved = plan.project.saved
    return TitleBlock(
        project=plan.project.name,
        frame=_called(plan),
        drawing=say(shown.label, plan.project.shop.words),
        revision=f"revision {saved.revision}" if saved else "not saved",
        date=saved.when[:10] if saved else "no date",
        unit=plan.unit,
        shop=shop,
    )


def _called(plan: FramePlan) -> str:
    """What a frame is called beside its job, and how many there are; one that is called as its job is says so once."""
    count = plan.frame.count
    if plan.frame.name == plan.project.name:
        return "1 frame" if count == 1 else f"{count} frames, all alike"
    return f"{count} × {plan.frame.name}" if count > 1 else plan.frame.name
