"""The revisions of a project."""

from webapp.live.addresses import NEWEST, REVISIONS
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Revisions", path=REVISIONS, in_menu=False, elsewhere=(NEWEST,))
