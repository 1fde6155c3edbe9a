"""The timber of a project: stock, the cutting plan, its lists."""

from webapp.live.addresses import TIMBER
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Timber", path=TIMBER)
