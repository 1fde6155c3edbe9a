"""The client's view of a link."""

from webapp.live.addresses import CLIENT_VIEW
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="What the client sees", path=CLIENT_VIEW, in_menu=False)
