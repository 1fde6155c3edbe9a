"""The shop's own values."""

from webapp.live.addresses import SHOP
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Shop", path=SHOP)
