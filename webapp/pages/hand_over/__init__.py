"""Handing over: the piece as taken in, the label, the back, the box, and making the same again."""

from webapp.live.addresses import HAND_OVER
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Hand over", path=HAND_OVER, in_menu=False, under="wall")
