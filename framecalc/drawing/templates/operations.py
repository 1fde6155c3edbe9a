"""What a machine does with a template: what it cuts through, scores, engraves, or only marks.

The *kerf* is what the beam takes away. A part is cut half a kerf outside its outline, a hole half a kerf inside its
own, so that both come out at size.
"""

import re
from enum import StrEnum
from functools import lru_cache

from framecalc.errors import ImpossibleSize, OutOfRange
from framecalc.geometry.offset import parallel
from framecalc.geometry.outline import Line, Outline
from framecalc.limits import require_not_negative
from framecalc.records import Record
from framecalc.templates.template import Template, Word

MOST_KERF_MM = 4.0
"""A wider cut is no beam's; parts of one template lie twice as far apart."""


class Operation(StrEnum):
    """What a machine does along a line, by the usual name of its group or layer."""

    CUT = "cut"
    SCORE = "score"
    ENGRAVE = "engrave"
    MARK = "mark"


_NAME = re.compile(r"[A-Za-z][A-Za-z0-9_-]{0,30}")


class GroupNames(Record):
    """What the groups of a laser's file and the layers of a DXF are called, as the machine wants it."""

    cut: str = "cut"
    score: str = "score"
    engrave: str = "engrave"
    mark: str = "mark"

    def __post_init__(self) -> None:
        """Refuse a name that files cannot bear, and two of one name.

        Raises:
            OutOfRange: so it is; `field` names the operation.
        """
        seen: set[str] = set()
        for operation in Operation:
            name = self.of(operation)
            if not _NAME.fullmatch(name):
                raise OutOfRange("Enter a letter, then letters, digits, - or _.", field=f"{operation.value}_name")
            if name.lower() in seen:
                raise OutOfRange("Enter a name of its own for each operation.", field=f"{operation.value}_name")
            seen.add(name.lower())

    def of(self, operation: Operation) -> str:
        """The name of an operation's group."""
        return str(getattr(self, operation.value))


USUAL_NAMES = GroupNames()

KEPT = 64
"""So many works are kept: that of a template is asked for by each of its files."""


class MachineOperations(Record):
    """A template as a machine takes it: in the order of work, holes before the parts that they are in."""

    template: Template
    cuts: tuple[Outline, ...]

    @property
    def scores(self) -> tuple[Line, ...]:
        """The lines that are not cut through."""
        return self.template.marks

    @property
    def zones(self) -> tuple[Outline, ...]:
        """The closed lines that are only drawn."""
        return self.template.zones

    @property
    def words(self) -> tuple[Word, ...]:
        """The words to engrave."""
        return self.template.words


@lru_cache(maxsize=KEPT)
def machine_work(template: Template, *, kerf_mm: float) -> MachineOperations:
    """Lay out the work on a template for a beam.

    Args:
        kerf_mm: what the beam takes away [mm], 0 to 4; 0 where the machine makes up for it by itself.
    Raises:
        OutOfRange: a kerf that no beam has.
        ImpossibleSize: a part or a hole is too narrow for the kerf.
    """
    require_not_negative(kerf_mm=kerf_mm)
    if kerf_mm > MOST_KERF_MM:
        raise OutOfRange("Enter a kerf up to {most}.", field="kerf_mm", lengths=_lengths(kerf_mm))
    try:
        holes = tuple(parallel(hole, by_mm=-kerf_mm / 2) for hole in template.holes)
        parts = tuple(parallel(outline, by_mm=kerf_mm / 2) for outline in template.outlines)
    except ImpossibleSize as error:
        raise ImpossibleSize(
            "Too narrow for a kerf of {kerf}: cut it by hand.",
            field="kerf_mm",
            lengths=_lengths(kerf_mm),
        ) from error
    return MachineOperations(template=template, cuts=holes + parts)


def _lengths(kerf_mm: float) -> dict[str, float]:
    return {"kerf": kerf_mm, "most": MOST_KERF_MM}
