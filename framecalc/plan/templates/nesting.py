"""Copies of a template on the bed of a machine, as few beds as can be: the layout of sheets, with a gap for a kerf."""

from time import monotonic

from framecalc.errors import OutOfRange
from framecalc.search.watch import start_watch
from framecalc.sheets.answer import CutSheet
from framecalc.sheets.plan import lay_out_sheets
from framecalc.sheets.problem import SheetPart, StockSheet, sheet_problem
from framecalc.templates.parts import parts_of, together, turned
from framecalc.templates.template import Template
from framecalc.templates.warnings import Bed

TIME_LIMIT_S = 1.5
"""Copies of a few rectangles are laid out at once; longer is not worth a wait for a template."""

MOST_COPIES = 99


def nested(template: Template, *, copies: int, bed: Bed) -> tuple[Template, ...]:
    """Lay copies of all parts of a template out on beds.

    A part with words lies as it does in the template, so that they can be read along the bed.

    Args:
        copies: of each part, 1 to 99.
    Raises:
        OutOfRange: the bed has no size, or the copies are none or too many.
        ImpossibleLayout: a part is larger than the bed, or there are too many.
    """
    if not bed.is_known:
        raise OutOfRange("Enter the bed of the laser on the Shop page.", field="bed_across")
    if not 1 <= copies <= MOST_COPIES:
        raise OutOfRange(f"Enter 1 to {MOST_COPIES} copies.", field="copies")
    parts = {str(number): part for number, part in enumerate(parts_of(template), start=1)}
    problem = sheet_problem(
        parts=[
            SheetPart(name=name, across_mm=one.across_mm, up_mm=one.up_mm, count=copies, may_turn=not one.words)
            for name, one in parts.items()
        ],
        stock=[StockSheet(name="bed", across_mm=bed.across_mm, up_mm=bed.up_mm)],
        kerf_mm=bed.gap_mm,
    )
    layout = lay_out_sheets(problem, watch=start_watch(TIME_LIMIT_S, clock=monotonic), most_beginnings=0)
    return tuple(_on_bed(sheet, parts, template) for sheet in layout.sheets)


def _on_bed(sheet: CutSheet, parts: dict[str, Template], like: Template) -> Template:
    laid = [
        (turned(parts[placed.name]) if placed.is_turned else parts[placed.name], (placed.x_mm, placed.y_mm))
        for placed in sheet.parts
    ]
    return together(laid, like=like)
