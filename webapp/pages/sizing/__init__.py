"""Sizes out of a photograph: the photo with its eight marks, what they tell, the sheet to print."""

from webapp.live.addresses import SIZING
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Sizes from a photograph", path=SIZING, in_menu=False, under="setting_out")
