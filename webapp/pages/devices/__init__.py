"""Devices that may open the shop's pages."""

from webapp.live.addresses import Address
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Devices", path=Address("/devices"), in_menu=False)
