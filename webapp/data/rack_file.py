"""What `rack.json` holds: sticks, off-cuts and boards; every cut that changed them; what was taken away last."""

from collections.abc import Iterable, Iterator
from hashlib import sha256
from itertools import count
from typing import Annotated, Literal
from zlib import crc32

from pydantic import AfterValidator, Field, StringConstraints, ValidationError

from framecalc.findings import Rounding
from framecalc.project import ProjectErrors, sentences_of
from framecalc.project.document import Document, ReadDocument
from framecalc.project.fields import Id, Model, Name, Part, Run, Size, printable
from framecalc.project.label import Label
from framecalc.project.look import Words
from framecalc.timber.rack import Rack, RackChange, RackStick
from framecalc.units import Step, format_length
from framecalc.words import typed
from webapp.data.times import is_time

MOST_STICKS = 500
"""As many sticks as a rack can hold."""

_Profile = Annotated[
    str, AfterValidator(printable), StringConstraints(strip_whitespace=True, max_length=200), AfterValidator(typed)
]
_ProjectId = Annotated[str, StringConstraints(pattern=r"^[a-z0-9]{8}$")]


def _a_time(text: str) -> str:
    if not is_time(text):
        raise ValueError("a cut does not say when it was made")
    return text


def _a_time_or_blank(text: str) -> str:
    if text and not is_time(text):
        raise ValueError("a cut does not say when it was undone")
    return text


class RackEntry(Model):
    """One stick, off-cut or rough board, as typed or as it came back from a cut."""

    id: Id
    tag: Annotated[Name, Label("Tag", "What is chalked on it; blank: the wood and a number.")]
    species: Annotated[Words, Label("Wood")] = ""
    length: Annotated[Run, Label("Length")]
    width: Annotated[Size, Label("Width")]
    thickness: Annotated[Part, Label("Thickness")]
    profile: Annotated[
        _Profile,
        Label(
            "Rabbet or profile",
            "Blank while it is a plain blank; else what was milled, in the same words each time.",
        ),
    ] = ""
    origin: Annotated[str, StringConstraints(max_length=200)] = ""
    is_off_cut: Annotated[bool, Label("Whole or off-cut", choices=(("no", "Whole"), ("yes", "Off-cut")))] = False
    is_board: Annotated[bool, Label("What it is", choices=(("no", "A stick"), ("yes", "A rough board")))] = False

    @property
    def stamp(self) -> int:
        """A number that changes with anything in it: what a form shows is changed only while it still stands."""
        return crc32(self.model_dump_json().encode()) % 10**9 + 1

    @property
    def stick(self) -> RackStick:
        """The entry as the topics take it."""
        return RackStick(
            tag=self.tag,
            species=self.species,
            length_mm=self.length.mm,
            width_mm=self.width.mm,
            thickness_mm=self.thickness.mm,
            profile=self.profile,
            origin=self.origin,
            is_off_cut=self.is_off_cut,
            is_board=self.is_board,
        )


class CutEntry(Model):
    """One plan marked as cut: of which project, when, what went and what came; `undone` is when it was taken back.

    `untold` is the revision that was marked, until the project itself says which of its pieces are cut; 0 from then on.
    """

    id: Id
    project: _ProjectId
    project_name: Name
    members: Annotated[str, StringConstraints(max_length=400)]
    problem: Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{64}$")]
    when: Annotated[str, AfterValidator(_a_time)]
    taken: tuple[RackEntry, ...] = ()
    returned: tuple[RackEntry, ...] = ()
    undone: Annotated[str, AfterValidator(_a_time_or_blank)] = ""
    untold: Annotated[int, Field(ge=0)] = 0

    @property
    def change(self) -> RackChange:
        """What it did to the rack."""
        return RackChange(
            taken=tuple(entry.stick for entry in self.taken), returned=tuple(entry.stick for entry in self.returned)
        )


class RackFile(Model):
    """Everything that is kept about the rack."""

    schema_number: Literal[1] = Field(default=1, alias="schema")
    sticks: tuple[RackEntry, ...] = Field(default=(), max_length=MOST_STICKS)
    cuts: tuple[CutEntry, ...] = ()
    away: tuple[RackEntry, ...] = ()

    @property
    def rack(self) -> Rack:
        """What stands on it, as the topics take it."""
        return tuple(entry.stick for entry in self.sticks)

    def cuts_of(self, project_id: str, *, problem: str = "") -> tuple[CutEntry, ...]:
        """The cuts of a project that were not undone, or of one plan of it, the newest first."""
        cuts = (cut for cut in reversed(self.cuts) if cut.project == project_id and not cut.undone)
        return tuple(cut for cut in cuts if problem in ("", cut.problem))

    def with_sticks(self, sticks: Iterable[RackEntry], **more: object) -> "RackFile":
        """The file with other sticks, in the order of their tags: one rack has one text."""
        ordered = tuple(sorted(sticks, key=lambda entry: (entry.tag, entry.id)))
        return self.model_copy(update={"sticks": ordered} | more)

    @property
    def tags_ever(self) -> frozenset[str]:
        """Every tag that is remembered, of whatever stands there, was cut or was taken away; in small letters."""
        cut = (entry for one in self.cuts for entry in (*one.taken, *one.returned))
        return frozenset(entry.tag.casefold() for entry in (*self.sticks, *self.away, *cut))


def entry_of(stick: RackStick, entry_id: str) -> RackEntry:
    """A stick as the file keeps it: an off-cut is never called longer than it is, its section is kept exactly."""
    document: Document = {
        "id": entry_id,
        "tag": stick.tag,
        "species": stick.species,
        "length": f"{format_length(stick.length_mm, step=Step.TENTH_MILLIMETRE, rounding=Rounding.DOWN).text} mm",
        "width": _exact(stick.width_mm),
        "thickness": _exact(stick.thickness_mm),
        "profile": stick.profile,
        "origin": stick.origin,
        "is_off_cut": stick.is_off_cut,
        "is_board": stick.is_board,
    }
    return read_entry(document)


def read_entry(document: ReadDocument) -> RackEntry:
    """Check one stick.

    Raises:
        ProjectErrors: single values are at fault; one sentence for each path.
    """
    try:
        return RackEntry.model_validate(document)
    except ValidationError as error:
        raise ProjectErrors(sentences_of(error, document)) from error


def new_tags(file: RackFile, word: str) -> Iterator[str]:
    """Tags that no stick has or ever had, so that an undo finds its own free: a word and a number."""
    known = file.tags_ever
    return (tag for number in count(1) if (tag := f"{word} {number}").casefold() not in known)


def digest_of(change: RackChange) -> str:
    """A short name of a change, by everything that goes and comes: what was shown is what is done."""
    return sha256(repr(change).encode()).hexdigest()[:16]


def _exact(length_mm: float) -> str:
    """A size of the section as it is: rounded for a tape, an off-cut would be of another section than its stick."""
    return f"{round(length_mm, 6):.10g} mm"
