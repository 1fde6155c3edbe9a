"""Other ways that a job may be made, side by side, to be offered to its client."""

from webapp.live.addresses import CHOICES
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Choices", path=CHOICES, in_menu=False, under="client")
