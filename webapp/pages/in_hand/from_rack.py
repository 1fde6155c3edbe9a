"""Sticks and boards of the rack to try: sticks of the member's section, boards that yield a strip of it."""

from collections.abc import Iterator

from framecalc.errors import FrameCalcError
from framecalc.plan.timber.frames_from_a_stick import FramesFromAStick
from framecalc.plan.timber.profiles import milled_of, mills_alike, states_a_section
from framecalc.plan.timber.stock import allowances_of
from framecalc.project import read_project, with_value
from framecalc.records import Record, replace
from framecalc.timber.boards import rough_size, strips_across
from framecalc.timber.rack import StickSection, of_section
from framecalc.units import TOLERANCE_MM
from framecalc.words import joined
from webapp.data.errors import StoreError
from webapp.data.rack_file import RackEntry, RackFile
from webapp.live.desk import Desk
from webapp.live.typed.forms import Draft, Typed
from webapp.live.work.rack_words import length_said, section_said

TAKE = "in-hand"
"""What a button asks for that takes a stick of the rack in hand, by its id."""

SIZES = ("reach.length", "reach.width", "reach.count", "reach.defect_from", "reach.defect_to")
"""What is typed of a stick in hand, and gives way to the one that is taken."""


class OnRack(Record):
    """A stick or board to try, and the value of its button."""

    tag: str
    length: str
    says: str
    take: str


def on_rack(desk: Desk, plan: FramesFromAStick) -> tuple[OnRack, ...]:
    """List the sticks that suit the member, the longest first; none if the rack or the frame cannot be read."""
    try:
        file, section = desk.rack.read(), _section(plan)
    except (StoreError, FrameCalcError):
        return ()
    found = sorted(_suitable(file, plan, section), key=lambda entry: (entry.is_board, -entry.length.mm, entry.tag))
    return tuple(_shown(entry, plan) for entry in found)


def take_in_hand(desk: Desk, draft: Draft, form: Typed, frame_id: str) -> Draft:
    """Replace the typed sizes by those of a stick of the rack; other buttons change nothing more."""
    name, _, stick_id = form.do.partition(":")
    entry = next((one for one in desk.rack.read().sticks if one.id == stick_id), None) if name == TAKE else None
    if entry is None:
        return draft
    document = draft.document
    for path in SIZES:
        document = with_value(document, path, None)
    document = with_value(document, "reach.length", entry.length.text)
    document = with_value(document, "reach.width", entry.width.text if entry.is_board else None)
    return replace(
        draft,
        document=document,
        checked=read_project(document),
        messages={path: text for path, text in draft.messages.items() if path not in SIZES},
        typed={path: text for path, text in draft.typed.items() if path not in SIZES},
    )


def _section(plan: FramesFromAStick) -> StickSection:
    frame = plan.frame
    return StickSection(
        species=frame.frame.species, width_mm=frame.blank_width_mm, thickness_mm=frame.blank_thickness_mm
    )


def _suitable(file: RackFile, plan: FramesFromAStick, section: StickSection) -> Iterator[RackEntry]:
    own = milled_of(plan.frame, is_ledge=False, unit=plan.project.unit).words
    tags = {
        stick.tag
        for profile in {stick.profile for stick in file.rack}
        if mills_alike(profile, own) or not states_a_section(profile)
        for stick in of_section(file.rack, section=replace(section, profile=profile))
    }
    for entry in file.sticks:
        if entry.tag in tags and (not entry.is_board or _yields_a_strip(entry, plan, section)):
            yield entry


def _yields_a_strip(board: RackEntry, plan: FramesFromAStick, section: StickSection) -> bool:
    """Whether it is thick enough to lie flat, and wide enough for a strip."""
    rough = rough_size(
        thickness_mm=section.thickness_mm,
        width_mm=section.width_mm,
        length_mm=board.length.mm,
        allowances=allowances_of(plan.project),
    )
    edge_mm, kerf_mm = plan.project.timber.edge.mm, plan.project.shop.kerf.mm
    strips = strips_across(width_mm=board.width.mm, edge_mm=edge_mm, strip_mm=rough.width_mm, kerf_mm=kerf_mm)
    return strips > 0 and board.thickness.mm >= rough.thickness_mm - TOLERANCE_MM


def _shown(entry: RackEntry, plan: FramesFromAStick) -> OnRack:
    unit = plan.project.unit
    what = f"Board, {section_said(entry, unit)}" if entry.is_board else "Off-cut" if entry.is_off_cut else "Stick"
    says = joined(", ", filter(None, (what, entry.profile)))
    return OnRack(tag=entry.tag, length=length_said(entry, unit), says=says, take=f"{TAKE}:{entry.id}")
