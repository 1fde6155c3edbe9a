"""Mark a cutting plan as cut."""

from webapp.live.addresses import CUT
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Mark as cut", path=CUT, in_menu=False)
