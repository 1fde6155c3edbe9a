"""What the fitting card shows: a page to print."""

from collections.abc import Iterator

from markupsafe import Markup

from framecalc.drawing.registry import draw_panel
from framecalc.errors import FrameCalcError
from framecalc.package.fitting import FittingStep
from framecalc.plan import FramePlan
from webapp.live.addresses import PACKAGE
from webapp.live.answers import AnswerGroup
from webapp.live.desk import Desk
from webapp.live.grouped import at_group
from webapp.live.papers.of_frame import FramePaper, PrintedFact
from webapp.live.render import drawing
from webapp.pages.package.groups import PackageContext
from webapp.pages.package.groups.fitting import cautions_of, steps_of
from webapp.pages.package.groups.layers import weight_words
from webapp.pages.package.groups.retainers import retainers


class FittingCard(FramePaper):
    """What the fitting card shows."""

    steps: tuple[FittingStep, ...]
    retainers: AnswerGroup

    @property
    def count(self) -> int:
        """The number of copies."""
        return self.plan.frame.count

    @property
    def revision(self) -> str:
        """The revision that is shown."""
        saved = self.plan.project.saved
        return str(saved.revision) if saved else ""

    @property
    def date(self) -> str:
        """The day of that revision."""
        saved = self.plan.project.saved
        return saved.when[:10] if saved else ""


def card_shown(desk: Desk, project_id: str, frame_id: str) -> FittingCard:
    """What the fitting card shows."""
    plan = desk.plan(project_id, frame_id)
    return FittingCard(
        plan=plan,
        back=at_group(PACKAGE, "steps")(project_id=project_id, frame_id=frame_id),
        facts=tuple(_facts(plan)),
        steps=steps_of(plan),
        retainers=_retainers(plan),
        drawings=_drawings(plan),
        cautions=cautions_of(plan),
    )


def _facts(plan: FramePlan) -> list[PrintedFact]:
    figures, context, mass = plan.figures, PackageContext(plan=plan), plan.package.mass
    spare = figures["left_over"] if "left_over" in figures else figures["proud"]
    weight = " ".join(filter(None, weight_words(context)))
    rabbet = f"{figures['rabbet_across'].text} × {figures['rabbet_up'].text} {plan.unit}"
    return [
        PrintedFact(label="Rabbet size" if not plan.is_tray else "Inside", text=rabbet),
        PrintedFact(
            label="Package", text=f"{figures['package_across'].text} × {figures['package_up'].text} {plan.unit}"
        ),
        *_polygon_facts(plan),
        PrintedFact(label=spare.label[:1].upper() + spare.label[1:], text=f"{spare.text} {plan.unit}"),
        PrintedFact(label="Package weighs", text=weight),
        PrintedFact(label="Whole frame weighs", text=mass.said(mass.whole_kg, unit=plan.unit)),
    ]


def _polygon_facts(plan: FramePlan) -> Iterator[PrintedFact]:
    """What sets out a polygon beside the rectangle round it."""
    if not plan.shape.is_rectangle:
        flats = f"{plan.figures['package_flats'].text} {plan.unit} across the flats"
        yield PrintedFact(label=f"Package, {plan.shape.sides} sides", text=flats)


def _retainers(plan: FramePlan) -> AnswerGroup:
    """The answer about the retainers; a wish that cannot hold the package gives its error instead."""
    context = PackageContext(plan=plan)
    try:
        return retainers(context)
    except FrameCalcError as error:
        return AnswerGroup(name="held", lines=(error.sentence,), refuses=True)


def _drawings(plan: FramePlan) -> tuple[Markup, ...]:
    names = ("exploded",) if plan.is_tray else ("exploded", "held")
    drawn = []
    for name in names:
        try:
            drawn.append(drawing(draw_panel(name, plan)))
        except FrameCalcError:
            continue
    return tuple(drawn)
