"""What the ends of members are cut with, and the cautions of each kind. The machine's manual comes first."""

from collections.abc import Mapping
from enum import StrEnum

NO_SHORT_PIECE = (
    "Never hold a piece shorter than the manual allows: cut test pieces off a long stick, clamped to the fence."
)
UNPLUG = "Unplug the saw before you shim a fence or square the blade."


class SawKind(StrEnum):
    """What the ends are cut with: its cautions follow from it."""

    UNSAID = ""
    MITRE_SAW = "mitre saw"
    TABLE_SAW = "table saw with a sled"
    HAND_SAW = "hand saw and mitre box"
    CHOPPER = "chopper"
    TRIMMER = "mitre trimmer"


CUTTING_CAUTIONS: Mapping[SawKind, tuple[str, ...]] = {
    SawKind.UNSAID: (
        "Hands a hand's length from the blade. Let it stop before you lift.",
        "At a table saw keep guard and riving knife on wherever its manual allows them with a mitre gauge or a sled.",
        NO_SHORT_PIECE,
        UNPLUG,
    ),
    SawKind.MITRE_SAW: (
        "Hands a hand's length from the blade. Let it stop before you lift.",
        "Member flat on the table, tight to the fence; never cross your arms to hold it.",
        NO_SHORT_PIECE,
        UNPLUG,
    ),
    SawKind.TABLE_SAW: (
        "Both hands on the sled, clear of where the blade comes out. Pull it back only when the blade has stopped.",
        "Guard and riving knife on wherever the manual allows them with a sled.",
        NO_SHORT_PIECE,
        UNPLUG,
    ),
    SawKind.HAND_SAW: (
        "Clamp box and member to the bench; thumb away from the kerf.",
        "Light strokes to begin and to end. Hang the saw up, teeth away from you.",
    ),
    SawKind.CHOPPER: (
        "Hands behind the guard before the foot goes down; nobody else near the knives.",
        "Small bites: the last one a shaving. Lock the treadle when you leave it.",
        "Knives are changed and cleaned with the treadle locked, in gloves.",
    ),
    SawKind.TRIMMER: (
        "One hand on the lever, the other on the member, well clear of the knife.",
        "It shaves, it does not cut: saw the mitre a little over first. Lever locked when it stands.",
    ),
}
"""To be shown beside every setting of the saw (common practice, no source; the machine's manual decides)."""

POWERED = frozenset({SawKind.UNSAID, SawKind.MITRE_SAW, SawKind.TABLE_SAW})
"""Saws that are unplugged before they are set."""


def setting_cautions(kind: SawKind) -> tuple[str, ...]:
    """The caution for whoever sets a saw anew; none for one without a motor.

    Source: common practice, no source.

    >>> setting_cautions(SawKind.CHOPPER)
    ()
    """
    return (UNPLUG,) if kind in POWERED else ()
