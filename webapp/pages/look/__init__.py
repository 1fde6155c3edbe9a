"""The look of a frame: photo, colours, the wall."""

from webapp.live.addresses import LOOK
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Look", path=LOOK)
