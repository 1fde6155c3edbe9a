"""Rescue: a piece went wrong, and these ways are left, each with its cost."""

from webapp.live.addresses import RESCUE
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="A piece went wrong", path=RESCUE, in_menu=False, under="bench")
