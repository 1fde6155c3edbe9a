"""What there is room for."""

from webapp.live.addresses import Address
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Limits", path=Address("/limits"), in_menu=False)
