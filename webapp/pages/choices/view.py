"""The page of the choices, under the client."""

from webapp.live.addresses import CHOICES
from webapp.live.live import ProjectPage
from webapp.pages.choices.actions import carry_out
from webapp.pages.choices.fields import choice_fields_in
from webapp.pages.choices.shown import choices_shown

PAGE = ProjectPage(
    name="choices",
    title="Choices",
    path=CHOICES,
    fields=choice_fields_in,
    act=carry_out,
    shows=choices_shown,
    anchors={"try-another": "choices", "remove-choice": "choices"},
    in_menu=False,
    under="client",
    has_preview=False,
)
