"""The fields of a page: which paths of a project are on it. Their labels stand in the model."""

from collections.abc import Iterable, Mapping

from framecalc.project import value_at
from framecalc.project.document import ReadDocument
from framecalc.project.form import Field, fields_under
from framecalc.records import Record, field
from webapp.live.addresses import Address

SET_OUT = (
    "artwork",
    "start",
    "{species,reckoned_as}",
    "section",
    "package.mat.{border,bottom,overlap}",
    "package.layers.*.thickness",
    "package.{clearance_across,clearance_up}",
    "shape",
    "{name,count}",
    "known",
)
"""The fields of a frame on the setting-out page, in trade order."""


NO_GROUPS = Address()
"""In the place of the address of a page that shows its fields one group at a time."""


class FieldSet(Record):
    """The fields on one page, by full path, which is also their name in the form.

    `page` is the page that shows them one group at a time, if it does.
    """

    fields: Mapping[str, Field] = field(default_factory=dict)
    page: Address = NO_GROUPS

    def __contains__(self, path: str) -> bool:
        return path in self.fields

    def items(self) -> Iterable[tuple[str, Field]]:
        """Full paths and fields, in the order of the page."""
        return self.fields.items()


def fields_in(document: ReadDocument, frame_id: str) -> FieldSet:
    """The fields of the setting-out page of one frame of a document; none where it has no such frame."""
    if value_at(document, f"frames.{frame_id}") is None:
        return FieldSet()
    of_the_project = ("shop.{kerf,end_trim}", "note")
    return FieldSet(fields=fields_under(document, *(f"frames.{frame_id}.{path}" for path in SET_OUT), *of_the_project))


def no_fields_in(document: ReadDocument, frame_id: str) -> FieldSet:
    """The fields of a page on which nothing of the project is typed."""
    return FieldSet()
