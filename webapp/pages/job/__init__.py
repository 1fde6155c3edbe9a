"""The job: its frames, its client, the day it is due, and the way through it."""

from webapp.live.addresses import PROJECT
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="The way through the job", path=PROJECT, in_menu=False)
