"""The light of a frame: everything found or refused on any of its pages, each at its stage of the work.

What has to be right before wood is cut counts before cutting: sizes, section, package, joint, and whatever moves. What
is read at the saw's outfeed or in the clamps counts before gluing, what holds the package before fitting, and the
weight before hanging.
"""

from collections.abc import Callable, Iterable, Iterator
from enum import StrEnum

from framecalc.errors import FrameCalcError
from framecalc.findings import Finding, Severity
from framecalc.plan.corners.clamping import ClampsPlan
from framecalc.plan.corners.corners import CornerPlan, corner_field
from framecalc.plan.corners.joint import JointPlan
from framecalc.plan.corners.sides_as_cut import PartsPlan
from framecalc.plan.hanging.hangers import HangersPlan
from framecalc.plan.inputs import has_solid_panel, is_tray, mat_of, unplanned_layers
from framecalc.plan.package.package import PackagePlan
from framecalc.project import Frame
from framecalc.records import Record
from framecalc.section.profile import FaceShape


class Stage(StrEnum):
    """A stage of the work, in order, called by what it must be done before."""

    CUTTING = "cutting"
    GLUING = "gluing"
    FITTING = "fitting"
    HANGING = "hanging"


class FindingPage(StrEnum):
    """A page of a frame on which something is found."""

    SETTING_OUT = "setting_out"
    CORNERS = "corners"
    PACKAGE = "package"
    WALL = "wall"


class Concern(Record):
    """Something found, or refused, in a group of a page; it counts at a stage."""

    stage: Stage
    page: FindingPage
    group: str
    said: Finding | FrameCalcError

    @property
    def is_refusal(self) -> bool:
        """Whether nothing could be worked out there."""
        return isinstance(self.said, FrameCalcError)

    @property
    def severity(self) -> Severity:
        """How bad it is: a refusal is a stop."""
        return self.said.severity if isinstance(self.said, Finding) else Severity.STOP

    @property
    def code(self) -> str:
        """What it is called; a refusal is called after its group."""
        return self.said.code if isinstance(self.said, Finding) else f"{self.group}.refused"

    @property
    def field(self) -> str:
        """The argument, or the field within the frame, that it is about."""
        argument = self.said.argument if isinstance(self.said, Finding) else self.said.field
        return corner_field(argument) if self.page is FindingPage.CORNERS else argument


Asked = tuple[str, Stage, Callable[[], Iterable[Finding]]]
"""A group of a page, the stage at which it counts, and what finds something there or refuses."""


def concerns_of(
    found: Iterable[Finding], *, corners: CornerPlan, package: PackagePlan, hangers: HangersPlan
) -> Iterator[Concern]:
    """Everything found or refused on the pages of a frame that can be worked out.

    Args:
        found: what was found about its sizes, its section and its layers.
    """
    return _concerns(found, _corner_groups(corners, parts=_parts), _package_groups(package), _wall_groups(hangers))


def stops_of(
    found: Iterable[Finding], *, corners: CornerPlan, package: PackagePlan, hangers: HangersPlan
) -> Iterator[Concern]:
    """What stops the work, as `concerns_of` has it, without what can only warn: many ways out are tried by it."""
    corner_groups = _corner_groups(corners, parts=_parts_refused)
    concerns = _concerns(found, corner_groups, _package_groups(package), _wall_groups(hangers))
    return (concern for concern in concerns if concern.severity is Severity.STOP)


def _concerns(
    found: Iterable[Finding], corners: Iterable[Asked], package: Iterable[Asked], wall: Iterable[Asked]
) -> Iterator[Concern]:
    for finding in found:
        yield Concern(stage=Stage.CUTTING, page=FindingPage.SETTING_OUT, group="findings", said=finding)
    for page, groups in ((FindingPage.CORNERS, corners), (FindingPage.PACKAGE, package), (FindingPage.WALL, wall)):
        for group, stage, finds in groups:
            yield from (Concern(stage=stage, page=page, group=group, said=said) for said in _said(finds))


def refusal_of_frame(error: FrameCalcError) -> Concern:
    """The refusal of a frame of which nothing can be worked out."""
    return Concern(stage=Stage.CUTTING, page=FindingPage.SETTING_OUT, group="findings", said=error)


def takes_part(frame: Frame, field: str) -> bool:
    """Whether a field of a frame counts with its section and its layers."""
    if field.startswith(_POINTS_ALONE) and frame.section.face is not FaceShape.POINTS:
        return False
    if field.startswith(_PANEL_ALONE) and not has_solid_panel(frame):
        return False
    if field.startswith("package.mat.") and mat_of(frame) is None:
        return False
    if field.startswith("package.layers."):
        return not any(layer.id == field.split(".")[2] for layer in unplanned_layers(frame))
    if is_tray(frame):
        return not field.startswith(_RABBET_ALONE)
    return not field.startswith(_TRAY_ALONE)


_POINTS_ALONE = "section.points."
_RABBET_ALONE = ("section.rabbet_width", "section.rabbet_depth", _POINTS_ALONE, "package.clearance_")
_TRAY_ALONE = ("section.tray_gap", "section.ledge_width", "section.ledge_thickness")
_PANEL_ALONE = ("fitting.room.", "corner.seasons.winter_humidity", "corner.seasons.summer_humidity")


def _said(finds: Callable[[], Iterable[Finding]]) -> tuple[Finding | FrameCalcError, ...]:
    try:
        return tuple(finds())
    except FrameCalcError as error:
        return (error,)


def _corner_groups(corners: CornerPlan, *, parts: Callable[[PartsPlan], Iterable[Finding]]) -> Iterator[Asked]:
    yield "angles", Stage.CUTTING, lambda: _angles(corners)
    yield "parts", Stage.GLUING, lambda: parts(corners.parts)
    yield "clamps", Stage.GLUING, lambda: _clamps(corners.clamps)
    yield "joint", Stage.CUTTING, lambda: _joint(corners.joint)
    yield "seasons", Stage.CUTTING, lambda: corners.seasons.findings


def _package_groups(package: PackagePlan) -> Iterator[Asked]:
    yield "layers", Stage.HANGING, lambda: package.weights.findings
    yield "growth", Stage.CUTTING, lambda: package.growth.findings
    yield "handling", Stage.CUTTING, lambda: package.handling.findings if package.handling else ()
    yield "handling", Stage.FITTING, lambda: package.handling.lift_findings if package.handling else ()
    yield "held", Stage.FITTING, lambda: _retainers(package)
    yield "canvas", Stage.CUTTING, lambda: _canvas(package)
    yield "box", Stage.CUTTING, lambda: package.box.findings if package.box else ()


def _wall_groups(hangers: HangersPlan) -> Iterator[Asked]:
    yield "hangers", Stage.HANGING, lambda: hangers.findings


def _angles(corners: CornerPlan) -> Iterable[Finding]:
    _ = corners.blade_gap_mm
    return corners.findings_of_settings


def _parts(parts: PartsPlan) -> Iterable[Finding]:
    _ = parts.pairing
    return parts.findings


def _parts_refused(parts: PartsPlan) -> Iterable[Finding]:
    parts.require_closable()
    return ()


def _clamps(clamps: ClampsPlan) -> Iterable[Finding]:
    _ = clamps.eased, clamps.wind
    return clamps.findings


def _joint(joint: JointPlan) -> Iterable[Finding]:
    _ = joint.splines and joint.even_depth_mm
    return joint.findings


def _retainers(package: PackagePlan) -> Iterable[Finding]:
    if package.retainers is None:
        return ()
    _ = package.retainers.screwing
    return package.retainers.findings


def _canvas(package: PackagePlan) -> Iterable[Finding]:
    if package.canvas is None:
        return ()
    _ = package.canvas.screw
    return package.canvas.findings
