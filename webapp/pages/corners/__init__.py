"""The corners of a frame: saw, test cuts, sides as cut, clamps, joint, seasons."""

from webapp.live.addresses import CORNERS
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Corners", path=CORNERS)
