"""An independent look at common boards before anyone rips: only widths, counts and cutting plans are used.

On every board the strips of all sections lie side by side with a saw cut between; no board is taken that is not there;
each is paid for once.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from framecalc.records import Record
from framecalc.timber.sticks.answer import CutStick, StickPlan
from framecalc.units import TOLERANCE_MM


class SharedWidth(Record):
    """A board that sections share: its width, what each edge loses, how many there are, and a strip of each section."""

    width_mm: float
    edge_mm: float
    kerf_mm: float
    count: int | None
    strips_mm: Sequence[float | None]


def faults_of_sharing(plans: Sequence[StickPlan], *, boards: Mapping[str, SharedWidth]) -> tuple[str, ...]:
    """List what is wrong where plans of several sections rip the same boards, in plain sentences.

    Args:
        plans: of each section, in the order of the strips.
        boards: by the id of their stock as typed.
    Source: derived.
    """
    used: dict[tuple[str, int], list[tuple[int, CutStick]]] = defaultdict(list)
    for section, plan in enumerate(plans):
        for stick in plan.sticks:
            if stick.stock.typed_id in boards:
                used[stick.stock.typed_id, stick.number].append((section, stick))
    return tuple(fault for key, sticks in used.items() for fault in _faults(key, sticks, boards[key[0]]))


def _faults(key: tuple[str, int], sticks: list[tuple[int, CutStick]], board: SharedWidth) -> Iterator[str]:
    label, number = sticks[0][1].label, key[1]
    taken_mm = -board.kerf_mm
    for section, stick in sticks:
        strip_mm = board.strips_mm[section]
        if strip_mm is None:
            yield f"{label} serves a section that it is not for"
            continue
        taken_mm += sum(bool(strip.pieces) for strip in stick.strips) * (strip_mm + board.kerf_mm)
    if taken_mm > board.width_mm - 2 * board.edge_mm + TOLERANCE_MM:
        yield f"the strips of {label} take {taken_mm:.2f} mm of its width"
    if board.count is not None and number > board.count:
        yield f"{label} is not there"
    if len({section for section, _ in sticks}) < len(sticks):
        yield f"{label} is taken twice by one section"
    if sum(1 for _, stick in sticks if not stick.stock.in_hand) > 1:
        yield f"{label} is paid for twice"
