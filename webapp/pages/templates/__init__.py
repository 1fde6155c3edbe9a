"""Templates of a job at their true size: for the laser, for other programs, for the printer."""

from webapp.live.addresses import TEMPLATES
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Templates", path=TEMPLATES)
