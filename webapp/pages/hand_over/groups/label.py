"""The label for the back: its words, and the leaf that it is printed on."""

from framecalc.drawing.sheet import usual_paper
from framecalc.drawing.templates.labels import LaidLabel, labels_a_leaf, lay_out_label
from framecalc.drawing.templates.tiles import paper_called
from framecalc.hand_over.label import label_findings
from framecalc.plan import FramePlan
from webapp.live.answers import AnswerGroup, Big, Table
from webapp.pages.hand_over.groups.context import HandOverContext


def label(context: HandOverContext) -> AnswerGroup:
    """The label for the back."""
    laid = laid_label(context.plan, shop=context.shop)
    columns, rows = labels_a_leaf(laid, paper_called(usual_paper(context.unit)))
    lines = context.plan.hand_over.label(shop=context.shop)
    return AnswerGroup(
        name="label",
        answer=context.sizes(laid.across_mm, laid.up_mm),
        bigs=(Big(label="Label", text=context.sizes(laid.across_mm, laid.up_mm), says=f"{columns * rows} to a sheet"),),
        does=("Print on paper that lasts, in pigment ink or by laser; paste it low, where the glass is not opened.",),
        findings=context.advice(label_findings(up_mm=laid.up_mm, needed_mm=laid.needed_mm)),
        tables=(
            Table(
                caption="On the label",
                heads=("Line", "Words"),
                rows=tuple(
                    (line.name or "Dedication" if number else "Title", line.says) for number, line in enumerate(lines)
                ),
            ),
        ),
        sources=("Words and care: usual practice. Materials as planned.",),
    )


def laid_label(plan: FramePlan, *, shop: str) -> LaidLabel:
    """The label of a frame, laid out."""
    typed = plan.frame.hand_over.label
    return lay_out_label(plan.hand_over.label(shop=shop), across_mm=typed.across.mm, up_mm=typed.up.mm)
