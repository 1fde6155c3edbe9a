"""The cautions of each machine, once, and the direction in which wood is fed. The machine's manual comes first.

Source: common practice, no source.
"""

from collections.abc import Mapping

from framecalc.bench.cards import Machine
from framecalc.section.milling import CAUTIONS as MILLING_CAUTIONS

ROUTER_CAUTIONS = MILLING_CAUTIONS[1:]
"""Without the feed, which stands on the card by itself."""

FEED: Mapping[Machine, str] = {
    Machine.FLATTEN: "Over the cutter head, grain running down and back.",
    Machine.RIP: "Against the blade's rotation, jointed edge along the fence, until past the blade.",
    Machine.PLANE: "With the grain, jointed face down. Turn end for end where it tears.",
    Machine.WIDTH: "Against the blade's rotation, jointed edge along the fence.",
    Machine.PROFILE: "From right to left, against the cutter's rotation; never climb-cut.",
    Machine.RABBET: "From right to left, against the cutter's rotation; never climb-cut.",
    Machine.ROUTER: "Inside a frame: clockwise. Never climb-cut.",
}
"""Source: common practice, no source."""

CAUTIONS: Mapping[Machine, tuple[str, ...]] = {
    Machine.CROSSCUT: ("Support both ends; never crosscut a bowed board against the rip fence.",),
    Machine.FLATTEN: (
        "Push blocks on every pass; guard over the knives.",
        "Nothing shorter than the machine's manual allows.",
    ),
    Machine.RIP: (
        "Riving knife on, guard down, push stick at hand.",
        "Stand beside the strip, never behind it. Stop if it closes on the blade.",
    ),
    Machine.PLANE: ("Stand to one side; hands off the bed rollers.", "One piece at a time, ends supported."),
    Machine.WIDTH: ("Riving knife on, guard down; a push block for narrow strips.",),
    Machine.PROFILE: ROUTER_CAUTIONS,
    Machine.RABBET: ROUTER_CAUTIONS,
    Machine.ROUTER: (
        "Clamp the frame down, face protected; both hands on the router.",
        "Let the glue cure first. Eyes and ears protected.",
    ),
    Machine.GLUE: ("Gloves; wipe squeeze-out before it skins.",),
}
"""Source: common practice, no source; the machine's manual comes before all of it."""

RABBET_AT_THE_SAW = (
    "Riving knife on where the cut allows; the guard back on after it.",
    "Featherboard before the blade, never beside it. Stand out of line with the waste.",
    "Mill in lengths of two pieces or more and mitre afterwards.",
)
"""Cautions where the rabbet is cut at the table saw. Source: common practice, no source."""

SLOT_CAUTION = (
    "Hold the member in a jig when its mitre is slotted, and keep hands off the line of the cutter: a short mitre tips."
)
LAP_CAUTION = (
    "Cut laps and slots with the member clamped in a tenoning jig or to a sled, never held on end by hand; keep the"
    " waste from being trapped between blade and stop."
)
PIN_CAUTION = "Keep fingers well clear of the joint: a pin follows the grain and may come out at the side."
"""Source: common practice, no source."""
