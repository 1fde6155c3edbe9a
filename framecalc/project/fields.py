"""Kinds of field: a length keeps its typed text, and every field states its range.

The ranges are ours: wide enough for any frame a small shop makes, narrow enough to catch a slipped digit or unit.
"""

from collections.abc import Mapping
from functools import lru_cache
from typing import Annotated, Self

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, StringConstraints

from framecalc.errors import OutOfRange, UnreadableProject
from framecalc.project.as_text import AsText
from framecalc.project.label import Label
from framecalc.tables.wood import wood_species
from framecalc.units import Comma, Length, parse_length
from framecalc.words import typed


def _between(least: str, most: str) -> AsText:
    """A length from the one to the other."""
    least_length, most_length = parse_length(least), parse_length(most)

    @lru_cache(maxsize=2048)
    def within(text: str) -> Length:
        length = parse_length(text, comma=Comma.DECIMAL, is_kept=True)
        if not least_length.exact_mm <= length.exact_mm <= most_length.exact_mm:
            raise OutOfRange(f"Enter {least} to {most}")
        return length

    def read(value: object) -> Length:
        if not isinstance(value, str):
            raise UnreadableProject("Enter a length with its unit, in quotation marks: “333.4 mm”")
        return within(value)

    return AsText(read, lambda length: length.text, says=f"a length with its unit, {least} to {most}")


Size = Annotated[Length, _between("1 mm", "5000 mm")]
"""A size of artwork, wall, sheet or opening."""

Part = Annotated[Length, _between("0.1 mm", "300 mm")]
"""A size in the section of a member."""

Thin = Annotated[Length, _between("0.01 mm", "300 mm")]
"""The thickness of a layer."""

Slack = Annotated[Length, _between("0 mm", "100 mm")]
"""A looseness, an overlap or a tolerance; it may be nothing."""

Trim = Annotated[Length, _between("0 mm", "300 mm")]
"""What is lost at an end; a planer may snipe a hand's breadth."""

Clearance = Annotated[Length, _between("-20 mm", "100 mm")]
"""A clearance; negative where a tight package has been measured, so that the plan can say so."""

FeelerGap = Annotated[Length, _between("-5 mm", "5 mm")]
"""A gap against a true block: at the tip, or with a minus at the sight edge."""

Border = Annotated[Length, _between("1 mm", "1000 mm")]
"""A border of a mat."""

FromEdge = Annotated[Length, _between("0 mm", "300 mm")]
"""A distance in the section of a member from one of its edges; it may be nothing."""

Place = Annotated[Length, _between("0 mm", "20000 mm")]
"""A place along a stick, from its left end."""

Run = Annotated[Length, _between("100 mm", "20000 mm")]
"""The length of a stick."""


def printable(text: str) -> str:
    """Keep what XML and a page can carry: remove control characters, lone surrogates, and white space at the ends."""
    if text.isprintable():
        return text.strip()
    return "".join(c for c in text if c in "\n\t" or c.isprintable()).strip()


Name = Annotated[
    str,
    AfterValidator(printable),
    StringConstraints(strip_whitespace=True, min_length=1, max_length=120),
    AfterValidator(typed),
]
"""What a person calls a thing: typed, so no trade word in it is ever turned."""

Note = Annotated[
    str, AfterValidator(printable), StringConstraints(strip_whitespace=True, max_length=2000), AfterValidator(typed)
]
ID = StringConstraints(pattern=r"^[a-z0-9]{2,16}$")
Id = Annotated[str, ID, Label("Id", is_typed=False)]
Count = Annotated[int, Field(ge=1, le=999)]

WOODS = tuple((wood.species_id, wood.common_name) for wood in wood_species())
"""The woods of the table, as choices."""


class Model(BaseModel):
    """The base of every part of the project: frozen, no unknown fields, no infinite numbers.

    What checks it is built when the first text is read, not when the program starts.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False, defer_build=True)

    @classmethod
    def usual(cls) -> Self:
        """The part with the usual value of every field, which are as they are stated: nothing is checked."""
        return cls.model_construct()

    @classmethod
    def case_of(cls, document: Mapping[str, object]) -> str:
        """The kind of a document of this model, if its labels depend on the kind; else blank."""
        return ""
