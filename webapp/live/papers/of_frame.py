"""What every paper of one frame shows: facts at its head, what to heed, drawings, and the way back to its page."""

from markupsafe import Markup

from framecalc.plan import FramePlan
from framecalc.records import Record
from framecalc.words import Words


class PrintedFact(Record):
    """One line at the head of a paper."""

    label: str
    text: str


class FramePaper(Record):
    """A paper of one frame. `back` is the address of the page that it belongs to."""

    plan: FramePlan
    back: str
    facts: tuple[PrintedFact, ...]
    cautions: tuple[str, ...] = ()
    drawings: tuple[Markup, ...] = ()

    @property
    def words(self) -> Words:
        """The trade words of the shop."""
        return self.plan.project.shop.words

    @property
    def project(self) -> str:
        """The name of the project."""
        return self.plan.project.name

    @property
    def frame(self) -> str:
        """The name of the frame."""
        return self.plan.frame.name
