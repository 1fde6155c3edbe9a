"""What one stick or board makes."""

from webapp.live.addresses import IN_HAND
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="What will this board make?", path=IN_HAND, in_menu=False, under="timber")
