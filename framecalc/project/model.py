"""The whole project: a name, a unit, the shop's values as copied at its start, and its frames."""

from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints

from framecalc.project.bench import Bench
from framecalc.project.choices import MOST_CHOICES, Choice
from framecalc.project.fields import Model, Name, Note, Part, Run, Slack, printable
from framecalc.project.frame import Frame
from framecalc.project.in_hand import StickInHand
from framecalc.project.label import Choices, Label
from framecalc.project.own_times import MOST_OWN, OwnFinish, OwnGlue
from framecalc.project.price import Mark, Quote
from framecalc.project.sheets import Sheets
from framecalc.project.strap import Strap
from framecalc.project.timber import Timber
from framecalc.project.wall import Wall
from framecalc.project.way import JobWay
from framecalc.units import Comma, Step, Unit
from framecalc.words import Words, typed

ClientName = Annotated[
    str, AfterValidator(printable), StringConstraints(strip_whitespace=True, max_length=120), AfterValidator(typed)
]

UNITS: Choices = ((Unit.MM.value, "Millimetres"), (Unit.INCH.value, "Inches"))


class ShopValues(Model):
    """The shop's values that a project was started with; a later change in the shop's own page does not reach here."""

    inch_step: Annotated[
        Literal[Step.EIGHTH, Step.SIXTEENTH, Step.THIRTY_SECOND, Step.SIXTY_FOURTH],
        Label("Inches are written to", "What your tape is read to."),
    ] = Step.SIXTEENTH
    mm_step: Annotated[
        Literal[Step.MILLIMETRE, Step.HALF_MILLIMETRE, Step.TENTH_MILLIMETRE],
        Label("Millimetres are written to", "What your tape is read to."),
    ] = Step.HALF_MILLIMETRE
    comma: Annotated[
        Comma,
        Label(
            "A comma before three digits",
            "12,125 can be a size in decimals, or twelve thousand.",
            choices=(
                (Comma.ASK.value, "Ask which is meant"),
                (Comma.DECIMAL.value, "It is a decimal comma"),
                (Comma.THOUSANDS.value, "It groups thousands"),
            ),
        ),
    ] = Comma.ASK
    words: Annotated[
        Words,
        Label(
            "Trade words",
            "Both name the same things.",
            choices=(
                (Words.US.value, "American: rabbet, mat, miter"),
                (Words.UK.value, "British: rebate, mount, mitre"),
            ),
        ),
    ] = Words.US
    blade: Annotated[Name, Label("Blade")]
    kerf: Annotated[
        Part,
        Label("Kerf", "The width of the cut that the blade takes, measured in a scrap.", arguments=("kerf_mm",)),
        Label("Kerf", "The width of the cut that the blade takes.", case="timber"),
    ]
    end_trim: Annotated[
        Slack,
        Label("End trim", "What is cut off each end of a stick before it counts."),
        Label(
            "End trim",
            "What is lost at each end of a stick or board, its saw cut included: checks, snipe, squaring.",
            case="timber",
        ),
    ]
    fence_length: Annotated[Run, Label("Fence length", "How long a piece the stop on your fence can set.")]
    strap: Annotated[Strap, Label("Strap clamp")] = Strap.usual()
    glues: Annotated[tuple[OwnGlue, ...], Label("Times of glues")] = Field(default=(), max_length=MOST_OWN)
    finishes: Annotated[tuple[OwnFinish, ...], Label("Times of finishes")] = Field(default=(), max_length=MOST_OWN)
    mark: Annotated[Mark, Label("Currency sign", "$, €, £, kr. Blank: $, or £ with British words.")] = ""
    mark_follows: Annotated[bool, Label("Sign goes", is_typed=False)] = False
    decimals: Annotated[Literal["0", "2", "3"], Label("Decimals of a coin", is_typed=False)] = "2"

    def step(self, unit: Unit) -> Step:
        """The step that lengths are rounded to in a project of this unit."""
        return self.inch_step if unit is Unit.INCH else self.mm_step


class Saved(Model):
    """The origin of this revision; the store writes it, exports leave it out."""

    revision: Annotated[int, Label("Revision", is_typed=False)] = Field(ge=1)
    when: Annotated[str, Label("Saved on", is_typed=False)]
    tab: Annotated[str, Label("Browser tab", is_typed=False)] = ""
    step: Annotated[
        Literal["new", "save", "undo", "redo", "restore", "import", "copy"], Label("What was done", is_typed=False)
    ] = "save"
    equals: Annotated[int, Label("The revision it equals", is_typed=False)] = Field(ge=1)
    redo: Annotated[tuple[int, ...], Label("Revisions that can be done again")] = ()
    origin: Annotated[str, Label("What it was copied from", is_typed=False)] = ""


class Project(Model):
    """All typed values of one job."""

    schema_number: Annotated[Literal[2], Label("Number of this file format", is_typed=False)] = Field(alias="schema")
    name: Annotated[Name, Label("Name")]
    note: Annotated[Note, Label("Note", drawing="front")] = ""
    client: Annotated[ClientName, Label("Client", "Who it is for. A link begins with this name.")] = ""
    unit: Annotated[Unit, Label("Measured in", choices=UNITS)]
    shop: Annotated[ShopValues, Label("Values of the shop", drawing="members")]
    frames: Annotated[tuple[Frame, ...], Label("Frames")] = Field(min_length=1, max_length=60)
    quote: Annotated[Quote | None, Label("Costs")] = None
    timber: Annotated[Timber, Label("Timber")] = Timber.usual()
    reach: Annotated[StickInHand, Label("What will this board make?")] = StickInHand.usual()
    sheets: Annotated[Sheets, Label("Sheets")] = Sheets.usual()
    wall: Annotated[Wall, Label("Wall")] = Wall.usual()
    way: Annotated[JobWay, Label("The way through the job")] = JobWay.usual()
    bench: Annotated[Bench, Label("Bench")] = Bench.usual()
    choices: Annotated[tuple[Choice, ...], Label("Choices of the client")] = Field(default=(), max_length=MOST_CHOICES)
    assumed: Annotated[tuple[str, ...], Label("Values that are only assumed")] = Field(default=(), max_length=2000)
    saved: Annotated[Saved | None, Label("How it was saved")] = None

    def frame(self, frame_id: str) -> Frame | None:
        """Return the frame of this id, or None."""
        return next((frame for frame in self.frames if frame.id == frame_id), None)
