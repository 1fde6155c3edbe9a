"""The fields of the timetable: the glue, the clamps, the hours, and which frame must wait."""

from framecalc.project.document import Document
from framecalc.project.form import fields_under
from webapp.live.typed.field import FieldSet

ASKED = (
    "bench.{glue,temperature,open_minutes,clamped_minutes,strong_hours,closing_minutes}",
    "bench.{clamp_sets,workers,opens,closes,week,glue_day}",
    "frames.*.glue_from",
)


def timetable_fields_in(document: Document, _: str) -> FieldSet:
    """The fields of the timetable."""
    return FieldSet(fields=fields_under(document, *ASKED))
