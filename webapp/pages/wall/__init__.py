"""The wall: hangers of a frame, nails, the group of a job, hanging strips."""

from webapp.live.addresses import WALL
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Wall", path=WALL)
