"""What each frame of a job takes of a thing, before a cutting plan or a sheet layout counts it."""

from collections.abc import Iterator, Sequence

from framecalc.plan.frame import FramePlan
from framecalc.plan.inputs import is_bought
from framecalc.plan.price.wanted import WantedItem
from framecalc.price.quantities import Needs
from framecalc.records import cached_property, replace


class JobNeeds:
    """The needs of the frames of a job: what does not hang on the item is worked out once a frame."""

    def __init__(self, plans: Sequence[FramePlan]) -> None:
        self._plans = plans

    def of(self, wanted: WantedItem) -> tuple[Needs, ...]:
        """The needs for an item; zero copies of a frame if it is for another one, or is wood of a bought moulding."""
        return tuple(
            replace(
                needs,
                count=0 if not wanted.is_for(plan.frame.id) or _is_bought(plan, wanted) else plan.frame.count,
                layers=_layers_of(plan, wanted.layer),
            )
            for plan, needs in zip(self._plans, self._of_frames, strict=True)
        )

    @cached_property
    def _of_frames(self) -> tuple[Needs, ...]:
        return tuple(map(_of_frame, self._plans))


def _of_frame(plan: FramePlan) -> Needs:
    """The needs of all copies of a frame, for a thing of which it takes one."""
    figures, blanks = plan.figures, tuple(_blanks(plan))
    stick_mm = sum(length_mm for length_mm, _ in blanks)
    return Needs(
        count=plan.frame.count,
        long_points_mm=tuple(_long_points_mm(plan)),
        stick_mm=stick_mm,
        section_mm2=sum(length_mm * section_mm2 for length_mm, section_mm2 in blanks) / stick_mm,
        package_across_mm=figures["package_across"].exact_mm,
        package_up_mm=figures["package_up"].exact_mm,
        face_mm2=sum(one.count * (one.long_mm + one.short_mm) / 2 * one.width_mm for one in plan.members),
        retainers=plan.package.retainer_count,
    )


def _is_bought(plan: FramePlan, wanted: WantedItem) -> bool:
    """Whether an item is wood that a frame does not take, as its moulding is bought."""
    return wanted.is_wood and is_bought(plan.frame)


def _blanks(plan: FramePlan) -> Iterator[tuple[float, float]]:
    """The stick length of one frame and its section: for its members, and for a ledge or a rabbet that is glued on."""
    section, stick_mm = plan.frame.section, plan.figures["stick_needed"].exact_mm
    yield stick_mm, plan.blank_width_mm * plan.blank_thickness_mm
    if plan.has_strip:
        width_mm, thickness_mm = plan.strip_mm
        yield stick_mm, width_mm * thickness_mm
    if plan.has_loose_ledge:
        yield plan.figures["ledge_stick"].exact_mm, section.ledge_width.mm * section.ledge_thickness.mm


def _long_points_mm(plan: FramePlan) -> Iterator[float]:
    yield from (member.long_mm for member in plan.members for _ in range(member.count))
    if plan.has_loose_ledge:
        assert plan.tray is not None
        yield from plan.shape.edges_mm(plan.tray.inside_across_mm, plan.tray.inside_up_mm)


def _layers_of(plan: FramePlan, kind: str) -> int:
    return sum(layer.kind == kind for layer in plan.layers) if kind else 1
