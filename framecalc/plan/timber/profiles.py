"""What is milled into the members of a frame: its rabbet, its face and edges, in which order, and in words.

The words go to the rack with an off-cut that was milled in its stick, and tell which frames it still serves.
"""

import re
from collections.abc import Iterable, Iterator

from framecalc.errors import FrameCalcError
from framecalc.plan.frame import FramePlan
from framecalc.project.section import Edge
from framecalc.records import Record
from framecalc.section.milling import MillingStep
from framecalc.section.profile import EdgeShape, FaceShape
from framecalc.units import MM_PER_INCH, TOLERANCE_MM, Unit, describe_length, describe_size, parse_length

_STATES_A_SECTION = re.compile(r"no rabbet\b|rabbet \d")
_NUMBER = r"\d+(?: \d+/\d+|/\d+|\.\d+)?"
_SIZE = re.compile(rf"({_NUMBER}(?: × {_NUMBER})*) (mm|in)\b")
_WRITTEN_TO_MM = {"mm": 0.01, "in": float(MM_PER_INCH) / 64}
"""How finely a size of milled wood is written in each unit."""


class Milled(Record):
    """What is milled into a stick, in words: the size of its rabbet, and its profile; blank for none.

    `profile_first`: the profile is milled before the rabbet. `strip`: the size of what is glued on for a rabbet.
    """

    rabbet: str = ""
    strip: str = ""
    profile: str = ""
    profile_first: bool = False

    @property
    def words(self) -> str:
        """All of it, as a rack says it; blank for a stick that stays plain."""
        rabbet = f"rabbet {self.rabbet}" if self.rabbet else "no rabbet"
        return ", ".join(filter(None, (rabbet, self.profile))) if self.rabbet or self.profile else ""


def milled_of(frame: FramePlan, *, is_ledge: bool, unit: Unit) -> Milled:
    """What is milled into the members of a frame; a loose ledge, and the wall over it, have no rabbet.

    In a tray whose ledge is milled with its wall, the rabbet is the room over the ledge. An arris is broken last, by
    hand, and is no profile.

    Source: derived.
    """
    if is_ledge:
        return Milled()
    order = frame.milling_order
    return Milled(
        rabbet="" if frame.has_strip else _rabbet(frame, unit),
        strip=describe_size(*frame.strip_mm, unit=unit) if frame.has_strip else "",
        profile=", ".join(_profile(frame, unit)),
        profile_first=order is not None and order.first is MillingStep.PROFILE,
    )


def common_words(milled: Iterable[Milled]) -> str:
    """What all of them have milled into them, in words; blank where they differ.

    Source: derived.
    """
    words = {one.words for one in milled}
    return words.pop() if len(words) == 1 else ""


def states_a_section(profile: str) -> bool:
    """Whether the profile of a stick is told by its sizes, and not by a name that somebody gave it.

    Source: derived.

    >>> states_a_section("rabbet 6 × 12 mm"), states_a_section("grandmother's ogee")
    (True, False)
    """
    return _STATES_A_SECTION.match(profile) is not None


def mills_alike(one: str, other: str) -> bool:
    """Whether two sticks are milled alike, in whichever unit each is told: as near as their words can tell.

    Source: derived.

    >>> mills_alike("rabbet 1/4 × 1/2 in", "rabbet 6.35 × 12.7 mm"), mills_alike("rabbet 6 × 12 mm", "rabbet 6 × 13 mm")
    (True, False)
    """
    if one == other:
        return True
    (ours, sizes), (theirs, others) = _read(one), _read(other)
    return ours == theirs and all(_same_size(*pair) for pair in zip(sizes, others, strict=True))


def _read(profile: str) -> tuple[str, tuple[tuple[float, str], ...]]:
    """The words of a profile without its sizes, and its sizes [mm], each with the unit that it is written in.

    A size that nobody can read, such as 1/0 in, leaves it as it is.
    """
    found = [(number, unit) for numbers, unit in _SIZE.findall(profile) for number in numbers.split(" × ")]
    try:
        sizes = tuple((parse_length(f"{number} {unit}").mm, unit) for number, unit in found)
    except FrameCalcError:
        return profile, ()
    return _SIZE.sub(lambda found: " × " * found[1].count("×"), profile).casefold(), sizes


def _same_size(one: tuple[float, str], other: tuple[float, str]) -> bool:
    """Two sizes of one unit are alike as written; of two units, as near as both are written."""
    (one_mm, unit), (other_mm, other_unit) = one, other
    near_mm = 0.0 if unit == other_unit else (_WRITTEN_TO_MM[unit] + _WRITTEN_TO_MM[other_unit]) / 2
    return abs(one_mm - other_mm) <= near_mm + TOLERANCE_MM


def _rabbet(frame: FramePlan, unit: Unit) -> str:
    section = frame.frame.section
    if frame.has_loose_ledge:
        return ""
    if frame.is_tray:
        return describe_size(section.ledge_width.mm, section.thickness.mm - section.ledge_thickness.mm, unit=unit)
    return describe_size(section.rabbet_width.mm, section.rabbet_depth.mm, unit=unit)


def _profile(frame: FramePlan, unit: Unit) -> Iterator[str]:
    section = frame.frame.section
    if section.face is not FaceShape.FLAT and not frame.is_tray:
        yield f"{section.face} {describe_length(section.face_drop.mm, unit=unit)}"
    for name, edge in (("sight edge", section.sight_edge), ("outer edge", section.back_edge)):
        if edge.shape not in (EdgeShape.SQUARE, EdgeShape.ARRIS):
            yield f"{name} {_shaped(edge, unit)}"


def _shaped(edge: Edge, unit: Unit) -> str:
    return f"{edge.shape} {describe_length(edge.size.mm, unit=unit)}"
