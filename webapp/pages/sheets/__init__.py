"""The sheets of a project: stock, layouts, lists."""

from webapp.live.addresses import SHEETS
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Sheets", path=SHEETS)
