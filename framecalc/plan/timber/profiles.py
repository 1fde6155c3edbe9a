"""What is milled into the members of a frame: its rabbet, its face and edges, in which order, and in words.

The words go to the rack with an off-cut that was milled in its stick, and tell which frames it still serves.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from framecalc.plan.frame import FramePlan
from framecalc.project.section import Edge
from framecalc.section.milling import MillingStep
from framecalc.section.profile import EdgeShape, FaceShape
from framecalc.units import Unit, describe_length, describe_size

_STATES_A_SECTION = re.compile(r"no rabbet\b|rabbet \d")


@dataclass(frozen=True, slots=True, kw_only=True)
class Milled:
    """What is milled into a stick, in words: the size of its rabbet, and its profile; blank for none.

    `profile_first`: the profile is milled before the rabbet.
    """

    rabbet: str = ""
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
        rabbet=_rabbet(frame, unit),
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
