"""The piece as it came in: whose it is, how it looks, where it stands."""

from collections.abc import Iterator

from framecalc.drawing.wall.condition import condition_drawing, draw_condition
from framecalc.plan import FramePlan
from framecalc.units import describe_size
from framecalc.words import capitalised, day_said, joined, typed, worded
from webapp.live.answers import AnswerGroup, Big, Table, plural
from webapp.live.render import drawing
from webapp.pages.hand_over.groups.context import HandOverContext

CAUTIONS = (
    "Photograph front, back and every mark before the owner leaves.",
    "The value is the owner's word: ask your insurer what is covered, and up to which sum.",
)


def intake(context: HandOverContext) -> AnswerGroup:
    """The piece as it came in."""
    typed_in, plan = context.typed.intake, context.plan
    day = day_said(typed_in.day, plan.project.shop.words) if typed_in.day else ""
    return AnswerGroup(
        name="intake",
        answer=joined(", ", filter(None, (day, typed(typed_in.stands)))) or "Not received yet",
        is_open=typed_in.day is None,
        bigs=(
            Big(label="Piece", text=measured_of(context), says=kind_of(plan)),
            Big(label="Receipt", text=typed(receipt_number(plan))),
        ),
        does=tuple(_does(context)),
        drawings=() if context.photo else (drawing(draw_condition(condition_drawing(plan))),),
        tables=_marks(context),
        cautions=CAUTIONS,
    )


def receipt_number(plan: FramePlan) -> str:
    """The number of the receipt: as typed, else the day and the frame."""
    intake = plan.frame.hand_over.intake
    parts = (f"{intake.day:%Y%m%d}" if intake.day else "", plan.frame.id.upper())
    return intake.number or "-".join(filter(None, parts))


def kind_of(plan: FramePlan) -> str:
    """What kind of thing the piece is."""
    return capitalised(plan.frame.artwork.kind.value)


def measured_of(context: HandOverContext) -> str:
    """The size of the piece as it came in; of a polygon across its flats."""
    plan = context.plan
    if not plan.shape.is_rectangle:
        return f"{plan.figures['artwork_flats'].written.full} across the flats"
    return describe_size(plan.fit.across_mm, plan.fit.up_mm, unit=plan.unit)


def owner_of(plan: FramePlan) -> str:
    """Whose it is: as typed, else the client of the job."""
    return plan.frame.hand_over.intake.owner or plan.project.client


def _does(context: HandOverContext) -> Iterator[str]:
    typed_in, owner = context.typed.intake, owner_of(context.plan)
    if owner:
        yield worded("Owner: {owner}.", owner=owner)
    if typed_in.value:
        yield worded("Declared at {value}.", value=typed_in.value)
    if typed_in.condition:
        yield typed(typed_in.condition)


def _marks(context: HandOverContext) -> tuple[Table, ...]:
    marks = context.typed.intake.marks
    if not marks:
        return ()
    rows = tuple(
        (str(number), context.sizes(mark.across.mm), context.sizes(mark.down.mm), typed(mark.says))
        for number, mark in enumerate(marks, start=1)
    )
    caption = f"{plural(len(marks), 'mark')} on the piece"
    return (Table(caption=caption, heads=("No.", "From the left", "From the top", "What is there"), rows=rows),)
