"""The rack of the shop, and what of it suits a project."""

from webapp.live.addresses import RACK
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Rack", path=RACK)
