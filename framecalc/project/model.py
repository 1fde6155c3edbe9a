"""The whole project: a name, a unit, the shop's values as copied at its start, and its frames."""

from typing import Literal

from pydantic import Field

from framecalc.project.fields import Model, Name, Note, Part, Run, Slack
from framecalc.project.frame import Frame
from framecalc.project.in_hand import Reach
from framecalc.project.price import Quote
from framecalc.project.sheets import Sheets
from framecalc.project.timber import Timber
from framecalc.units import Comma, Step, Unit
from framecalc.words import Words


class ShopValues(Model):
    """The shop's values that a project was started with; a later change in the shop's own page does not reach here."""

    inch_step: Literal[Step.EIGHTH, Step.SIXTEENTH, Step.THIRTY_SECOND, Step.SIXTY_FOURTH] = Step.SIXTEENTH
    mm_step: Literal[Step.MILLIMETRE, Step.HALF_MILLIMETRE, Step.TENTH_MILLIMETRE] = Step.HALF_MILLIMETRE
    comma: Comma = Comma.ASK
    words: Words = Words.US
    blade: Name
    kerf: Part
    end_trim: Slack
    fence_length: Run

    def step(self, unit: Unit) -> Step:
        """What lengths are written to in a project of this unit."""
        return self.inch_step if unit is Unit.INCH else self.mm_step


class Saved(Model):
    """How this revision came to be; written by the store, left out of what is exported."""

    revision: int = Field(ge=1)
    when: str
    tab: str = ""
    step: Literal["new", "save", "undo", "redo", "restore", "import", "copy"] = "save"
    equals: int = Field(ge=1)
    redo: tuple[int, ...] = ()


class Project(Model):
    """Everything that was typed for one job."""

    schema_number: Literal[1] = Field(alias="schema")
    name: Name
    note: Note = ""
    unit: Unit
    shop: ShopValues
    frames: tuple[Frame, ...] = Field(min_length=1, max_length=60)
    quote: Quote | None = None
    timber: Timber = Timber()
    reach: Reach = Reach()
    sheets: Sheets = Sheets()
    assumed: tuple[str, ...] = Field(default=(), max_length=2000)
    saved: Saved | None = None

    def frame(self, frame_id: str) -> Frame | None:
        """Return the frame of this id, or None."""
        return next((frame for frame in self.frames if frame.id == frame_id), None)
