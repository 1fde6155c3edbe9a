"""The setting-out of a frame: its fields beside the live drawings."""

from webapp.live.addresses import SETTING_OUT
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Setting-out", path=SETTING_OUT)
