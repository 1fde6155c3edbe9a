"""The findings of one frame, topic by topic."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from framecalc.artwork.findings import artwork_findings
from framecalc.artwork.photo_findings import tape_findings
from framecalc.findings import Finding
from framecalc.package.layers import package_findings
from framecalc.package.seat import rabbet_findings
from framecalc.plan.sizing import paths_of_sizes, typed_sizes
from framecalc.section.findings import section_findings
from framecalc.section.rabbeted import Section
from framecalc.section.tray import tray_section_findings
from framecalc.sizes.chain import known_outside_findings, sizes_findings
from framecalc.sizes.tray_sizes import tray_findings
from framecalc.wood.naming import naming_findings

if TYPE_CHECKING:
    from framecalc.plan.frame import FramePlan


def findings_of(plan: "FramePlan") -> Iterable[Finding]:
    """What the topics find about one frame, in the order of its pages."""
    known = plan.frame.known
    if plan.tray:
        yield from tray_findings(plan.tray)
    else:
        usual_mm = sum(allowance.amount_mm for allowance in plan.usual_clearance)
        yield from sizes_findings(plan.sizes, usual_clearance_mm=usual_mm)
    yield from artwork_findings(
        plan.measurements,
        plan.fit,
        plan.play,
        clearance_across_mm=plan.sizes.clearance_across_mm,
        clearance_up_mm=plan.sizes.clearance_up_mm,
        is_tray=plan.is_tray,
        is_taped=not any(path in plan.project.assumed for path in paths_of_sizes(plan.frame)),
    )
    if plan.by_photo:
        yield from tape_findings(plan.by_photo, plan.measurements, typed=typed_sizes(plan.frame))
    yield from plan.package.mat_findings
    yield from plan.package.image_findings
    yield from package_findings(plan.stack, plan.frame.artwork.kind)
    yield from plan.package.weights.no_material
    yield from plan.package.gap_findings
    if isinstance(plan.section, Section):
        yield from section_findings(plan.section)
    else:
        yield from tray_section_findings(plan.section)
    yield from rabbet_findings(plan.seat, plan.cover, kind=plan.frame.artwork.kind, held_by=plan.package.retainer)
    yield from naming_findings(plan.frame.species, reckoned_as=plan.frame.reckoned_as)
    yield from known_outside_findings(
        plan.sizes,
        known_across_mm=known.outside_across.mm if known.outside_across else None,
        known_up_mm=known.outside_up.mm if known.outside_up else None,
        step_mm=float(plan.step.size_mm),
    )
