"""Which drawings there are, each with its panel for the screen and its sheet of paper; drawn once for each record."""

from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from framecalc.drawing.corners.joint_plan import draw_joint_plan, joint_plan_title
from framecalc.drawing.corners.joint_view import read_joint
from framecalc.drawing.corners.lap import draw_lap, lap_title, read_lap
from framecalc.drawing.corners.mitre_face import draw_mitre_face, mitre_face_title
from framecalc.drawing.corners.polygon import draw_polygon, polygon_title, read_polygon
from framecalc.drawing.package.layers import LABEL_MM
from framecalc.drawing.package.mat import draw_mat, mat_title, read_lower_mat, read_upper_mat
from framecalc.drawing.package.retainers import draw_held, held_title, read_held
from framecalc.drawing.pen import Pen
from framecalc.drawing.setting_out.corner import corner_title, draw_corner, read_corner
from framecalc.drawing.setting_out.front import Front, draw_front, front_title, read_front, read_small_front
from framecalc.drawing.setting_out.members import draw_members, members_title, read_members
from framecalc.drawing.setting_out.section import draw_rabbet_section, rabbet_section_title, read_rabbet_section
from framecalc.drawing.setting_out.tray import draw_tray, read_tray, tray_title
from framecalc.drawing.sheet import (
    PAPERS,
    Area,
    Sheet,
    TitleBlock,
    draw_border,
    draw_paper_bars,
    draw_scale_bar,
    draw_title_block,
    panel,
    ratio_text,
    scale_text,
)
from framecalc.plan import FramePlan
from framecalc.units import Unit
from framecalc.words import localise

KEPT = 256
"""How many drawings are kept: some tens of frames, each with its panels."""

THUMBNAIL_MM = 40.0
"""Side of the square that a front without words is drawn in."""

Draw = Callable[[Any, Sheet, Pen, Area], float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """One drawing: what it reads from a plan, how it is told in words, how it is drawn, and its panel's size [mm]."""

    read: Callable[[FramePlan], Any]
    title: Callable[[Any], str]
    draw: Draw
    panel: Callable[[Any], Sheet]


FEW_LABELS = 6
"""More layers than this make a section's panel taller, so that their labels do not crowd the member."""


def _large(_: Any) -> Sheet:
    return panel(80, 76)


def _large_for_labels(record: Any) -> Sheet:
    return panel(80, 76 + LABEL_MM * max(0, len(record.layers) - FEW_LABELS))


def _small(_: Any) -> Sheet:
    return panel(80, 52)


_DRAWINGS = {
    "front": Drawing(read=read_front, title=front_title, draw=draw_front, panel=_large),
    "section": Drawing(
        read=read_rabbet_section, title=rabbet_section_title, draw=draw_rabbet_section, panel=_large_for_labels
    ),
    "tray": Drawing(read=read_tray, title=tray_title, draw=draw_tray, panel=_large_for_labels),
    "members": Drawing(read=read_members, title=members_title, draw=draw_members, panel=_small),
    "corner": Drawing(read=read_corner, title=corner_title, draw=draw_corner, panel=_small),
    "face": Drawing(read=read_joint, title=mitre_face_title, draw=draw_mitre_face, panel=_small),
    "lap": Drawing(read=read_lap, title=lap_title, draw=draw_lap, panel=_large),
    "polygon": Drawing(read=read_polygon, title=polygon_title, draw=draw_polygon, panel=_large),
    "mat": Drawing(read=read_lower_mat, title=mat_title, draw=draw_mat, panel=_large),
    "upper-mat": Drawing(read=read_upper_mat, title=mat_title, draw=draw_mat, panel=_large),
    "held": Drawing(read=read_held, title=held_title, draw=draw_held, panel=_large),
    "plan": Drawing(read=read_joint, title=joint_plan_title, draw=draw_joint_plan, panel=_large),
}

PANELS = ("front", "section", "members", "corner")
"""The drawings of the page, in its order."""

PAPER_DRAWINGS = {"front": ("front",), "section": ("section",), "mitre": ("members", "corner")}
"""The drawings that go on paper, each with the drawings that share its sheet."""


CORNER_DRAWINGS = {"joint": ("face", "plan"), "lap": ("lap",), "polygon": ("polygon",)}
"""The same for frames that have what they show; a joint is drawn at full size where the paper is large enough."""


PACKAGE_PAPERS = {"mat": ("mat",), "upper-mat": ("upper-mat",), "held": ("held",)}
"""The same for frames that have a mat, or a package held from behind."""

_PAPER_TITLES = {
    "held": "Retainers",
    "upper-mat": "Upper mat",
    "mitre": "Mitre layout",
    "lap": "Lapped joint",
    "polygon": "Setting out",
}


def draw_panel(name: str, plan: FramePlan) -> str:
    """Draw one panel of a plan, as SVG to stand in a page.

    Args:
        name: one of PANELS.
    Raises:
        KeyError: there is no such drawing.
        FrameCalcError: the plan cannot be computed.
    """
    kind = _kind(name, plan)
    return _panel(kind, _DRAWINGS[kind].read(plan))


def draw_thumbnail(plan: FramePlan) -> str:
    """Draw the front of a plan small and without words, as SVG to stand in a list.

    Raises:
        FrameCalcError: the plan cannot be computed.
    """
    return _thumbnail(read_small_front(plan))


def draw_paper(name: str, plan: FramePlan, paper: str) -> str:
    """Draw a sheet of paper, as an SVG file of true size.

    Args:
        name: one of PAPER_DRAWINGS, CORNER_DRAWINGS or PACKAGE_PAPERS.
        paper: one of PAPERS.
    Raises:
        KeyError: there is no such drawing or paper.
        FrameCalcError: the plan cannot be computed.
    """
    kinds = tuple(_kind(part, plan) for part in (PAPER_DRAWINGS | CORNER_DRAWINGS | PACKAGE_PAPERS)[name])
    records = tuple(_DRAWINGS[kind].read(plan) for kind in kinds)
    return _paper(name, kinds, records, _title_block(name, plan), PAPERS[paper])


def _kind(name: str, plan: FramePlan) -> str:
    return "tray" if name == "section" and plan.is_tray else name


@lru_cache(maxsize=KEPT)
def _panel(kind: str, record: Hashable) -> str:
    drawing, unit = _DRAWINGS[kind], _unit(record)
    sheet = drawing.panel(record)
    title = drawing.title(record)
    pen = Pen(name=kind, across_mm=sheet.across_mm, up_mm=sheet.up_mm, title=title, inline=True)
    draw_scale_bar(pen, sheet, scale=drawing.draw(record, sheet, pen, sheet.room), unit=unit)
    return pen.svg()


@lru_cache(maxsize=KEPT)
def _thumbnail(front: Front) -> str:
    pen = Pen(name="thumbnail", across_mm=THUMBNAIL_MM, up_mm=THUMBNAIL_MM, title=front.title, inline=True)
    room = Area(left_mm=1, top_mm=1, right_mm=THUMBNAIL_MM - 1, bottom_mm=THUMBNAIL_MM - 1)
    draw_front(front, panel(THUMBNAIL_MM, THUMBNAIL_MM), pen, room)
    return pen.svg()


@lru_cache(maxsize=KEPT // 4)
def _paper(name: str, kinds: tuple[str, ...], records: tuple[Hashable, ...], block: TitleBlock, sheet: Sheet) -> str:
    title = "; ".join(_DRAWINGS[kind].title(record) for kind, record in zip(kinds, records, strict=True))
    pen = Pen(name=name, across_mm=sheet.across_mm, up_mm=sheet.up_mm, title=title, inline=False)
    draw_border(pen, sheet)
    scales = [
        _DRAWINGS[kind].draw(record, sheet, pen, room)
        for kind, record, room in zip(kinds, records, _rooms(sheet, len(kinds)), strict=True)
    ]
    draw_title_block(pen, sheet, block=block, scale=_scales_text(kinds, scales, block.unit))
    draw_paper_bars(pen, sheet, scale=scales[0], unit=block.unit, of=kinds[0] if len(kinds) > 1 else "")
    return pen.svg()


def _unit(record: Any) -> Unit:
    unit: Unit = record.unit
    return unit


def _rooms(sheet: Sheet, parts: int) -> Sequence[Area]:
    """Share the room of a sheet among drawings: the second lies under the first, clear of the scale bars."""
    room = sheet.room
    if parts == 1:
        return (room,)
    cut_mm = 0.48 * room.up_mm
    aside_mm = 0.4 * room.across_mm
    return room.less(bottom_mm=room.up_mm - cut_mm), room.less(top_mm=cut_mm + 4, left_mm=aside_mm)


def _scales_text(kinds: Sequence[str], scales: Sequence[float], unit: Unit) -> str:
    if len(kinds) == 1:
        return scale_text(scales[0], unit)
    return ", ".join(f"{kind} {ratio_text(scale)}" for kind, scale in zip(kinds, scales, strict=True))


def _title_block(name: str, plan: FramePlan) -> TitleBlock:
    saved = plan.project.saved
    count = f"{plan.frame.count} × " if plan.frame.count > 1 else ""
    return TitleBlock(
        project=plan.project.name,
        frame=f"{count}{plan.frame.name}",
        drawing=localise(_PAPER_TITLES.get(name, name.capitalize()), plan.project.shop.words),
        revision=f"revision {saved.revision}" if saved else "not saved",
        date=saved.when[:10] if saved else "no date",
        unit=plan.unit,
    )
