"""Findings about the stock of a cutting plan: stock left out, how boards are ripped, mixed woods."""

from collections.abc import Iterable, Iterator

from framecalc.errors import FrameCalcError, quoted
from framecalc.findings import Finding, Severity
from framecalc.project.timber import Stock as TypedStock
from framecalc.timber.boards import Board
from framecalc.words import worded

MOST_PLANED_RATIO = 2.0
"""A board more than twice as thick as what is planed from it loses more to chips than it yields. Source: derived."""

_PLACES = {"board_width_mm": "width", "stock": "length"}


def ripping_findings(board: Board, *, key: str, strip_mm: float, planed_mm: float, on_edge: bool) -> Iterator[Finding]:
    """Find what the ripping and planing of a board means at the bench.

    Args:
        key: the id of its stock. The rest as in an offer.
    Source: derived.
    """
    path, name = f"timber.stock.{key}.thickness", quoted(board.name)
    if on_edge:
        yield Finding(
            code="timber.on-edge",
            severity=Severity.NOTE,
            sentence=name + " is ripped on edge: its thickness, planed to {planed}, gives the width of the members, "
            "and its strips of {strip} their thickness.",
            why="It is too thin to lie flat. The face of the members shows the edge of the board.",
            source="derived",
            argument=path,
            lengths={"planed": planed_mm, "strip": strip_mm},
        )
    if board.thickness_mm > MOST_PLANED_RATIO * planed_mm:
        yield Finding(
            code="timber.much-planed",
            severity=Severity.NOTE,
            sentence=name + " is planed from {rough} down to {planed}: more of it goes into chips than into the "
            "members. Have it resawn and type what that gives, or take a thinner board.",
            why="The plan rips a board into strips; it does not split it along its thickness.",
            source="derived",
            argument=path,
            lengths={"rough": board.thickness_mm, "planed": planed_mm},
        )


def mixed_woods(stock: Iterable[TypedStock]) -> Iterator[Finding]:
    """Find that a frame may mix woods: without a named wood, every wood serves.

    Args:
        stock: what serves a frame of no named wood.
    Source: derived.
    """
    woods = {typed.species.strip().casefold() for typed in stock} - {""}
    if len(woods) > 1:
        yield Finding(
            code="timber.mixed-woods",
            severity=Severity.WARN,
            sentence=worded(
                "No wood is named for these frames, and the stock is of {woods}: "
                "one frame may come out of both. Name its wood on the Look page.",
                woods=" and ".join(sorted(woods)),
            ),
            why="A frame whose wood is left blank is cut from any.",
            source="derived",
            argument="timber.stock",
        )


def left_out(refusal: FrameCalcError, typed: TypedStock) -> Finding:
    """Find the stock that cannot be used, and is left out of the plan.

    Source: derived.
    """
    return Finding(
        code="timber.left-out",
        severity=Severity.STOP,
        sentence=refusal.wording + ("" if refusal.wording.endswith(".") else ".") + " It is left out of the plan.",
        why="",
        source="derived",
        argument=f"timber.stock.{typed.id}.{_PLACES.get(refusal.field, 'length')}",
        lengths=refusal.lengths,
    )
