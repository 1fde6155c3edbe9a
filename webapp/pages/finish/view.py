"""The page of the finish and the hours, under the bench."""

from webapp.live.live_page import ProjectPage
from webapp.pages.finish import PAGE
from webapp.pages.finish.actions import carry_out
from webapp.pages.finish.fields import finish_fields_in
from webapp.pages.finish.shown import finish_shown

VIEW = ProjectPage(
    page=PAGE,
    fields=finish_fields_in,
    act=carry_out,
    shows=finish_shown,
    anchors={"write-hours": "hours", "remove-hours": "hours", "use-hours": "hours"},
)
