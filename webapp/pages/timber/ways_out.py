"""Ways out for a board that is too thin: the ledge as a strip of its own, boards glued up, a thicker board.

A way is offered when it puts an end to the stop: each is tried on a copy of the project first.
"""

from collections.abc import Callable, Iterator, Mapping
from copy import deepcopy
from decimal import Decimal

from framecalc.errors import FrameCalcError
from framecalc.findings import Finding, Rounding, Severity
from framecalc.plan import Plan
from framecalc.plan.timber.group import TimberGroup
from framecalc.project import Project, items_at, part_of, read_project, set_value
from framecalc.project.document import Document
from framecalc.project.timber import Stock
from framecalc.records import Record
from framecalc.timber.boards import Board, PricedBy, price_of_board
from framecalc.timber.thicknessing import layers_to_glue, reachable_thickness_mm
from framecalc.units import format_length
from webapp.live.desk import new_id

TOO_THIN = "thicknessing.too-thin"


class WayButton(Record):
    """A button that ends a stop: its value, and what it says."""

    do: str
    says: str


def ways_out(document: Document, plan: Plan, groups: tuple[TimberGroup, ...]) -> Mapping[str, tuple[WayButton, ...]]:
    """The ways out of boards that are too thin, by the path of the finding."""
    found: dict[str, tuple[WayButton, ...]] = {}
    for group in groups:
        for finding in group.findings:
            if finding.code == TOO_THIN and finding.severity is Severity.STOP:
                ways = _ways(group, finding, plan.project)
                found[finding.argument] = tuple(way for way in ways if _helps(way, finding, document))
    return found


def _take(document: Document, name: str, argument: str) -> None:
    """Do what the button of a way out says."""
    WAYS[name](document, argument)


def _ways(group: TimberGroup, finding: Finding, project: Project) -> Iterator[WayButton]:
    entry = _entry(project, finding.argument.split(".")[2])
    if solid := [one.frame.id for one in group.frames if one.is_tray and not one.has_loose_ledge]:
        yield WayButton(do=f"own-ledge:{','.join(solid)}", says="Ledge as a strip of its own")
    reached_mm, needed_mm, clean_up_mm = _reached_mm(entry, project), finding.lengths["needed"], _clean_up_mm(project)
    layers = layers_to_glue(reached_mm=reached_mm, needed_mm=needed_mm, clean_up_mm=clean_up_mm)
    if layers and (entry.count is None or entry.count >= layers):
        thick = _text(layers * reached_mm, project, Rounding.DOWN)
        yield WayButton(do=f"glue-up:{entry.id}:{layers}", says=f"Glue up {layers} of them, face to face: {thick}")
    thick = _text(needed_mm + entry.bow.mm + entry.twist.mm + clean_up_mm, project, Rounding.UP)
    yield WayButton(do=f"thicker:{entry.id}:{thick}", says=f"Another board, {thick} thick")


def _helps(way: WayButton, finding: Finding, document: Document) -> bool:
    """Whether a way ends the stop that it is for, and makes no other."""
    tried = deepcopy(document)
    name, _, argument = way.do.partition(":")
    _take(tried, name, argument)
    try:
        groups = Plan(read_project(tried)).timber.groups
    except FrameCalcError:
        return False
    stops = {one.argument for group in groups for one in group.findings if one.severity is Severity.STOP}
    return finding.argument not in stops


def _own_ledge(document: Document, argument: str) -> None:
    for frame in items_at(document, "frames"):
        if frame["id"] in argument.split(","):
            set_value(frame, "section.ledge", "strip")


def _glue_up(document: Document, argument: str) -> None:
    """Make one entry of so many glued up face to face, each milled flat before."""
    stock_id, _, layers = argument.partition(":")
    project, times = read_project(document), int(layers) if layers.isdecimal() and len(layers) == 1 else 0
    entry = next((one for one in project.timber.stock if one.id == stock_id and one.width and one.thickness), None)
    if entry is None or times < 2:
        return
    glued: Document = {
        "name": f"{entry.name[:100]}, {times} glued up",
        "thickness": _text(times * _reached_mm(entry, project), project, Rounding.DOWN),
        "bow": _text(0.0, project, Rounding.NEAREST),
        "twist": _text(0.0, project, Rounding.NEAREST),
        "count": None if entry.count is None else entry.count // times,
        "price": None if entry.price is None else str(times * price_of_board(_board(entry))),
        "priced_by": PricedBy.PIECE.value,
    }
    part_of(document, f"timber.stock.{stock_id}").update(glued)


def _thicker(document: Document, argument: str) -> None:
    """Put a thicker board for sale in the place of one that is too thin; one at hand stays, for other members."""
    stock_id, _, thickness = argument.partition(":")
    for one in items_at(document, "timber.stock"):
        if one["id"] == stock_id:
            one |= {"id": new_id(), "thickness": thickness, "count": None, "in_hand": False, "on_rack": False}
            one |= {"defects": [], "price": "0"}


WAYS: dict[str, Callable[[Document, str], None]] = {
    "own-ledge": _own_ledge,
    "glue-up": _glue_up,
    "thicker": _thicker,
}
"""What the buttons do, by the name in their value."""


def _entry(project: Project, stock_id: str) -> Stock:
    return next(one for one in project.timber.stock if one.id == stock_id)


def _reached_mm(entry: Stock, project: Project) -> float:
    """The thickness that one board reaches, milled in its whole length."""
    return reachable_thickness_mm(
        rough_mm=entry.thickness.mm if entry.thickness else 0.0,
        bow_mm=entry.bow.mm,
        twist_mm=entry.twist.mm,
        clean_up_mm=_clean_up_mm(project),
    )


def _clean_up_mm(project: Project) -> float:
    return project.timber.clean_up.mm


def _board(entry: Stock) -> Board:
    return Board(
        name=entry.name,
        species=entry.species,
        thickness_mm=entry.thickness.mm if entry.thickness else 0.0,
        width_mm=entry.width.mm if entry.width else 0.0,
        length_mm=entry.length.mm,
        price=entry.price or Decimal(0),
        priced_by=entry.priced_by,
    )


def _text(length_mm: float, project: Project, rounding: Rounding) -> str:
    """A length as a person types it."""
    written = format_length(length_mm, step=project.shop.step(project.unit), rounding=rounding)
    return f"{written.text} {written.unit}"
