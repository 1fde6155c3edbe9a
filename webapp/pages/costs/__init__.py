"""The costs of a job, and the quote."""

from webapp.live.addresses import COSTS
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Costs", path=COSTS)
