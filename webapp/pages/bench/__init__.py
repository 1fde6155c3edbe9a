"""The bench of a job: one card for each machine, ticked off and printed, and what came out of it."""

from webapp.live.addresses import BENCH
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Bench", path=BENCH)
