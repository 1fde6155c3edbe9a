"""The canvas on its stretcher, or the box for an object, of one frame."""

from typing import Self

from framecalc.artwork.measuring import ArtworkKind
from framecalc.errors import ImpossibleSize
from framecalc.findings import Finding
from framecalc.mats.wished_mat import MatCover
from framecalc.package.box import Box, box_around, box_depth_findings, box_findings, shadow_mm
from framecalc.package.canvas import StretchedCanvas, TrayScrew, canvas_findings, stretch, tray_screw
from framecalc.package.layers import LayerKind
from framecalc.plan.inputs import is_tray, layers_of
from framecalc.project import Frame
from framecalc.records import Record
from framecalc.section.rabbeted import Section
from framecalc.sizes.chain import Sizes
from framecalc.sizes.starting_points import SolvedChain


class CanvasPlan(Record):
    """A canvas: its size over the folds, the findings about its opening, and the screws of a tray."""

    canvas: StretchedCanvas
    findings: tuple[Finding, ...]
    ledge_mm: float
    bar_mm: float
    is_tray: bool

    @classmethod
    def of(cls, frame: Frame, *, settled: SolvedChain) -> Self | None:
        """The canvas of a frame. The artwork is measured over the cloth, so the bars are smaller by it.

        Raises:
            ImpossibleSize: the frame is a polygon.
        """
        if frame.artwork.kind is not ArtworkKind.CANVAS:
            return None
        _require_four_sides(settled, "A stretcher")
        typed, sizes = frame.fitting.canvas, settled.sizes
        cloth_mm = typed.cloth.mm
        canvas = stretch(
            bars_across_mm=settled.artwork_across_mm - 2 * cloth_mm,
            bars_up_mm=settled.artwork_up_mm - 2 * cloth_mm,
            cloth_mm=cloth_mm,
            folds=typed.folds,
            has_keys=typed.has_keys,
        )
        found = canvas_findings(
            canvas,
            rabbet_across_mm=sizes.rabbet_across_mm,
            rabbet_up_mm=sizes.rabbet_up_mm,
            is_tray=is_tray(frame),
        )
        return cls(
            canvas=canvas,
            findings=found,
            ledge_mm=frame.section.ledge_thickness.mm,
            bar_mm=typed.bar.mm if typed.bar else _thickness_mm(frame, LayerKind.ARTWORK),
            is_tray=is_tray(frame),
        )

    @property
    def screw(self) -> TrayScrew | None:
        """The length of the screw that holds it in a tray.

        Raises:
            ImpossibleSize: the bars are too thin for one.
        """
        if not self.is_tray or not self.bar_mm:
            return None
        return tray_screw(ledge_thickness_mm=self.ledge_mm, bar_thickness_mm=self.bar_mm)


class BoxPlan(Record):
    """A box: its walls, its findings, the shadow of the lip on its back, and its depth."""

    box: Box
    findings: tuple[Finding, ...]
    shadow_mm: float
    lamp_deg: float
    needed_mm: float

    @classmethod
    def of(cls, frame: Frame, *, settled: SolvedChain, section: Section, covered: MatCover) -> Self | None:
        """The box of a frame, where the depth of an object is typed.

        Raises:
            FrameCalcError: the walls leave nothing between them, or the frame is a polygon.
        """
        typed = frame.fitting.box
        if typed.object_depth is None:
            return None
        _require_four_sides(settled, "A box")
        box = _box(frame, settled.sizes, typed.object_depth.mm)
        glazing_mm, lamp_deg = _thickness_mm(frame, LayerKind.GLAZING), float(typed.lamp)
        around_mm = glazing_mm + sum(_thickness_mm(frame, kind) for kind in (LayerKind.BACKING, LayerKind.BACK))
        deep = box_depth_findings(
            box,
            around_mm=around_mm,
            rabbet_depth_mm=section.rabbet_depth_mm,
            spacer_mm=_thickness_mm(frame, LayerKind.SPACER),
        )
        seen = box_findings(
            box,
            lip_mm=section.lip_mm,
            glazing_mm=glazing_mm,
            margin_mm=typed.margin.mm,
            lamp_deg=lamp_deg,
            covered_mm=min(covered.across_mm, covered.up_mm),
        )
        return cls(
            box=box,
            findings=(*deep, *seen),
            shadow_mm=shadow_mm(depth_mm=section.lip_mm + glazing_mm + box.inside_depth_mm, lamp_deg=lamp_deg),
            lamp_deg=lamp_deg,
            needed_mm=around_mm + box.inside_depth_mm,
        )


def _require_four_sides(settled: SolvedChain, what: str) -> None:
    sides = settled.sizes.shape.sides
    if not settled.sizes.shape.is_rectangle:
        raise ImpossibleSize(f"{what} with {sides} sides: not worked out here, only with 4.", field="sides")


def _box(frame: Frame, sizes: Sizes, object_depth_mm: float) -> Box:
    typed = frame.fitting.box
    return box_around(
        object_depth_mm=object_depth_mm,
        air_mm=typed.air.mm,
        rabbet_across_mm=sizes.rabbet_across_mm,
        rabbet_up_mm=sizes.rabbet_up_mm,
        clearance_mm=max(0.0, min(sizes.clearance_across_mm, sizes.clearance_up_mm)),
        wall_mm=typed.wall.mm,
    )


def _thickness_mm(frame: Frame, kind: LayerKind) -> float:
    """The total thickness of the layers of a kind."""
    return sum(layer.thickness.mm for layer in layers_of(frame) if layer.kind is kind)
