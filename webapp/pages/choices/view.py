"""The page of the choices, under the client."""

from webapp.live.live_page import ProjectPage
from webapp.pages.choices import PAGE
from webapp.pages.choices.actions import carry_out
from webapp.pages.choices.fields import choice_fields_in
from webapp.pages.choices.shown import choices_shown

VIEW = ProjectPage(
    page=PAGE,
    fields=choice_fields_in,
    act=carry_out,
    shows=choices_shown,
    anchors={"try-another": "choices", "remove-choice": "choices"},
    has_preview=False,
)
