"""The list of projects: start, import, copy and delete one."""

from webapp.live.addresses import PROJECTS, Address
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Projects", path=Address("/"), elsewhere=(PROJECTS + "/import",))
