"""The page of the finish and the hours, under the bench."""

from webapp.live.addresses import FINISH
from webapp.live.live import ProjectPage
from webapp.pages.finish.actions import carry_out
from webapp.pages.finish.fields import finish_fields_in
from webapp.pages.finish.shown import finish_shown

PAGE = ProjectPage(
    name="finish",
    title="Finish and hours",
    path=FINISH,
    fields=finish_fields_in,
    act=carry_out,
    shows=finish_shown,
    anchors={"write-hours": "hours", "remove-hours": "hours", "use-hours": "hours"},
    in_menu=False,
    under="bench",
)
