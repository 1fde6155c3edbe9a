"""Links for the client, and their answers."""

from webapp.live.addresses import CLIENT
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Client", path=CLIENT)
