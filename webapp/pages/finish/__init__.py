"""The finish of a job, day by day, and the hours that its steps take: written down, and told from past jobs."""

from webapp.live.addresses import FINISH
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Finish and hours", path=FINISH, in_menu=False, under="bench")
