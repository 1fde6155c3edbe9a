"""The sentences about a group of members and its cutting plan: its quality, its proof, its use of wood."""

from collections import Counter
from collections.abc import Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from functools import partial

from framecalc.errors import quoted
from framecalc.findings import Finding, Rounding
from framecalc.money import Currency, tag_text
from framecalc.plan.advice import Advice, advise
from framecalc.plan.figures import write_long_point
from framecalc.plan.frame import FramePlan
from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.runs import long_edges_mm
from framecalc.plan.timber.stock import StockOffer
from framecalc.plan.timber.wood_use import wood_use
from framecalc.project import Project
from framecalc.sizes.shape import RECTANGLE_SIDES
from framecalc.timber.boards import Board, price_of_board, tallied_bf, timber_in
from framecalc.timber.sticks.answer import ProofStatus, StickPlan
from framecalc.timber.sticks.bounds import ShareMeasure
from framecalc.timber.sticks.proof import PieceShare, StickProof, StickShares, amount_words
from framecalc.timber.stops import cutting_cautions
from framecalc.timber.thicknessing import Order
from framecalc.units import Unit, describe_length, describe_size, format_length, step_of_sentences
from framecalc.words import joined, typed, worded
from webapp.live.answers import Big, Table, plural
from webapp.pages.timber.how_good import one_fewer_words

TURNED = (
    "Pieces lie head to tail: every other one is turned over, so the grain runs to and fro. Mill the rabbet after the"
    " corners are cut, and never turn short pointed pieces."
)
"""Source: common practice, no source."""


ORDER_OF_SIDES = "{name}: order {moulding} cut to size, long point to long point {sides}."
ORDER_OF_FRAMES = "{name}: order {moulding} cut and joined, long point to long point {sides}."


def title_of(group: TimberGroup, unit: Unit) -> str:
    """The title of a group: what its members have in common; a wood only if one is named."""
    section = group.section
    what = "rabbet strips" if group.is_strip else "ledge strips" if group.is_ledge else "members"
    name = section.moulding or section.wood
    named = typed(name[:1].upper() + name[1:]) + ": "
    wood = named + what if name else what.capitalize()
    size = describe_size(section.width_mm, section.thickness_mm, unit=unit)
    return wood + f" {size}{_many_sides(group)}"


def section_words(group: TimberGroup, unit: Unit) -> str:
    """The title, short enough for a title block."""
    section = group.section
    size = describe_size(section.width_mm, section.thickness_mm, unit=unit)
    return f"{section.moulding or section.wood} {size}{_many_sides(group)}".strip()


def _many_sides(group: TimberGroup) -> str:
    """The number of sides of the frames, if it is not four, and their slope, if they slope."""
    section = group.section
    sides = "" if section.sides == len(RECTANGLE_SIDES) else f", {section.sides} sides"
    return f"{sides}, sloping {section.slope_deg:g}°" if section.slope_deg else sides


def unsized_words(names: Sequence[str]) -> str:
    """The sentence about polygons without a typed size."""
    if not names:
        return ""
    return worded(
        "Not in the plan yet: {names}. Type on the Setting-out page how large the polygon is, and it is cut with the"
        " rest.",
        names=joined(", ", map(quoted, names)),
    )


def needs_of(group: TimberGroup, project: Project) -> Iterator[str]:
    """The pieces to cut, before a plan."""
    counts: dict[float, int] = {}
    unit = project.unit
    for piece in group.problem.pieces:
        counts[piece.length_mm] = counts.get(piece.length_mm, 0) + 1
    total = describe_length(group.written_mm, unit=unit)
    pieces = plural(len(group.problem.pieces), "piece")
    yield worded("For {names}: {pieces}, together {total}.", names=", ".join(group.names), pieces=pieces, total=total)
    longest_first = sorted(counts.items(), reverse=True)
    listed = [f"{count} × {group.long_point(length_mm)}" for length_mm, count in longest_first]
    more = f" and {len(listed) - 12} more lengths" if len(listed) > 12 else ""
    yield f"Long point to long point: {', '.join(listed[:12])}{more}."
    if group.is_estimate and not group.is_unserved:
        stick = describe_length(group.problem.stock[0].length_mm, unit=unit)
        yield f"Estimate: no stock is typed that these members can be cut from, so sticks of {stick} are taken."
    if group.section.moulding:
        yield "Bought moulding: only mitred here. Measure its face and rabbet on every new stick."
    if group.section.repeat_mm:
        repeat = describe_length(group.section.repeat_mm, unit=unit)
        yield f"Start each side at the same place of the pattern. Up to {repeat} more of the stick is planned for each."


def ordered_words(frame: FramePlan) -> str:
    """What the supplier of a moulding cuts for a frame."""
    moulding, count = frame.frame.section.moulding, frame.frame.count
    lengths = Counter(long_edges_mm(frame).values())
    sides = joined(
        ", ",
        (
            f"{times * count} × {write_long_point(length_mm, sides=frame.shape.sides, step=frame.step).full}"
            for length_mm, times in lengths.items()
        ),
    )
    return worded(
        ORDER_OF_FRAMES if moulding.sale.is_joined else ORDER_OF_SIDES,
        name=frame.frame.name,
        moulding=moulding.name or "the moulding",
        sides=sides,
    )


def left_over_words(length_mm: float, *, project: Project) -> str:
    """The length of an off-cut, down to the tape's step."""
    return format_length(length_mm, step=project.shop.step(project.unit), rounding=Rounding.DOWN).full


def advice_of(group: TimberGroup, project: Project) -> tuple[Advice, ...]:
    """The findings about the stock and the pieces, in words, the worst first."""
    found = [*group.findings, *cutting_cautions(group.problem.pieces, slope_mm=group.problem.slope_mm)]
    return advised(found, project)


def advised(findings: list[Finding], project: Project) -> tuple[Advice, ...]:
    """Findings in the unit and words of a project; their arguments are already paths."""
    return advise(
        findings,
        step=project.shop.step(project.unit),
        words=project.shop.words,
        path_of=lambda argument: argument,
        holds=lambda path, text: False,
    )


def verdict_of(plan: StickPlan, group: TimberGroup, currency: Currency) -> str:
    """The number of sticks and boards of a plan, and its cost."""
    boards = sum(1 for stick in plan.sticks if (offer := group.offer_of(stick)) and offer.board)
    counts = ((plan.stick_count - boards, "stick"), (boards, "board"))
    taken = " and ".join(plural(count, what) for count, what in counts if count)
    taken += f" for {tag_text(plan.money, currency=currency)}" if plan.money else ""
    if group.is_estimate:
        return f"Estimate: {taken} of a usual length. Enter your stock."
    return " ".join([f"{taken}.", *map(_unripped, group.part_ripped), *map(_other_section, group.of_other_section)])


def _unripped(board: str) -> str:
    return f"{board} is not ripped further: its rest is for the rack."


def _other_section(stick: str) -> str:
    return f"{stick} was begun in another section: put what is left of it on the rack."


def proof_words(plan: StickPlan, group: TimberGroup, unit: Unit, currency: Currency) -> Iterator[str]:
    """The proof in shop words; if the plan was found by full search, that comes first."""
    if group.left:
        yield "What is left to cut was searched over whole sticks and what begun ones have left."
        return
    if plan.proof_status is ProofStatus.RULED_OUT:
        yield (
            "This was only searched out: every cheaper way was tried and ruled out by the computer, which nobody can"
            " check by hand. What can be checked by hand proves a little less:"
        )
    yield plan.proof.saying.written(
        partial(describe_length, unit=unit),
        step=step_of_sentences(unit),
        price=lambda price: tag_text(price, currency=currency),
        piece=group.long_point,
    )
    yield from one_fewer_words(plan, group, unit)
    step = group.step
    longest, most = (
        format_length(mm, step=step, rounding=Rounding.DOWN).full
        for mm in (plan.longest_left_mm, plan.longest_possible_mm)
    )
    if longest == most:
        yield f"The longest off-cut is {longest}: the longest that these sticks can leave."
    else:
        yield f"The longest off-cut is {longest}; these sticks could leave {most} at most."


def share_tables(proof: StickProof, group: TimberGroup, unit: Unit, currency: Currency) -> tuple[Table, ...]:
    """The shares behind the proof: of every piece, and the most that each stick can hold."""
    count = len(proof.shares)
    which = [f" ({number} of {count})" if count > 1 else "" for number in range(1, count + 1)]
    return tuple(
        table
        for shares, one in zip(proof.shares, which, strict=True)
        for table in _share_tables(shares, group, unit, currency, one)
    )


def _share_tables(
    shares: StickShares, group: TimberGroup, unit: Unit, currency: Currency, which: str
) -> tuple[Table, Table]:
    is_length = shares.measure is ShareMeasure.LENGTH
    head = "Takes, with its saw cut" if is_length else "Worth"
    pieces = [
        (
            _what(piece, group, unit),
            str(piece.count),
            _amount(piece.share, shares, unit, currency),
            _together(piece, shares, unit, currency),
        )
        for piece in shares.pieces
    ]
    total = (
        "All together",
        str(sum(piece.count for piece in shares.pieces)),
        "",
        _amount(shares.total, shares, unit, currency),
    )
    sticks = [
        (
            stick.stock.name,
            describe_length(stick.stock.length_mm, unit=unit),
            "as needed" if stick.stock.count is None else str(stick.stock.count),
            tag_text(stick.stock.price, currency=currency),
            _amount(stick.most, shares, unit, currency),
        )
        for stick in shares.sticks
    ]
    return (
        Table(
            caption=_measure_words(shares) + which, heads=("Piece", "Count", head, "Together"), rows=(*pieces, total)
        ),
        Table(
            caption=f"The most that one can hold, however it is filled{which}",
            heads=("Stick", "Length", "There are", "Price", "Holds at most"),
            rows=tuple(sticks),
        ),
    )


def wood_bigs(plan: StickPlan, group: TimberGroup, unit: Unit, currency: Currency) -> tuple[Big, ...]:
    """The main figures of a plan: sticks, money and wood."""
    use = wood_use(plan, group)
    boards = {bool((offer := group.offer_of(stick)) and offer.board) for stick in plan.sticks}
    label = "Sticks and boards" if len(boards) == 2 else "Boards" if True in boards else "Sticks"
    taken = Big(label=label, text=str(plan.stick_count))
    in_hand = sum((stick.stock.price for stick in plan.sticks if stick.stock.in_hand), Decimal(0))
    sums = (("To pay", plan.money - in_hand), ("Worth of what is at hand", in_hand))
    money = tuple(Big(label=label, text=tag_text(one, currency=currency)) for label, one in sums if one)
    if group.section.moulding:
        waste = Big(label="Waste", text=f"{use.waste_pct:.0f}%", says="mitred ends, saw cuts, short ends")
        return (taken, *money, waste)
    kept = (Big(label="To the rack", text=_wood(use.kept.m3, use.kept.board_feet_bf, unit)),) if use.kept.mm3 else ()
    return (
        taken,
        *money,
        Big(label="Wood taken", text=_wood(use.stock.m3, use.stock.board_feet_bf, unit)),
        Big(label="In the pieces", text=_wood(use.parts.m3, use.parts.board_feet_bf, unit)),
        *kept,
        Big(label="Waste", text=f"{use.waste_pct:.0f}%", says="mitred ends, saw cuts, chips, edges, short ends"),
    )


def milling_table(group: TimberGroup, unit: Unit) -> Table | None:
    """The thickness that each board yields both ways, and the better way; None if no thickness is typed."""
    rows = [
        (
            offer.stock.name,
            describe_length(offer.board.thickness_mm, unit=unit),
            describe_length(offer.milling.needed_mm, unit=unit),
            _reached(offer.milling.long_mm, unit),
            describe_length(offer.milling.part_mm, unit=unit),
            _reached(offer.milling.crosscut_mm, unit),
            "Mill long" if offer.milling.order is Order.LONG else "Crosscut first",
        )
        for offer in _typed_boards(group)
        if offer.board and offer.milling
    ]
    heads = ("Board", "Rough", "Needed", "Milled long", "Crosscut to", "Reaches", "Do")
    caption = "Thickness that can be reached: rough less bow, twist and clean-up"
    return Table(caption=caption, heads=heads, rows=tuple(rows)) if rows else None


def _typed_boards(group: TimberGroup) -> tuple[StockOffer, ...]:
    """Each entry of boards once, and no rest of one."""
    once = {offer.stock.typed_id: offer for offer in group.offers.values() if not offer.is_rest}
    return tuple(once.values())


def _reached(thickness_mm: float, unit: Unit) -> str:
    """A yielded thickness; a very crooked board yields nothing."""
    return describe_length(thickness_mm, unit=unit) if thickness_mm > 0 else "nothing left"


def boards_table(group: TimberGroup, unit: Unit, currency: Currency) -> Table | None:
    """The volume of wood in one board of every kind, as sold, and its price."""
    rows = [_board_row(offer.board, unit, currency) for offer in _typed_boards(group) if offer.board]
    heads = ("Board", "Rough", "Board feet", "As a yard tallies", "m³", "Price of one")
    return Table(caption="Wood in one board, as it is sold", heads=heads, rows=tuple(rows)) if rows else None


def _board_row(board: Board, unit: Unit, currency: Currency) -> tuple[str, ...]:
    rough = {"thickness_mm": board.thickness_mm, "width_mm": board.width_mm, "length_mm": board.length_mm}
    wood = timber_in(**rough)
    return (
        board.name,
        " × ".join(describe_length(length_mm, unit=unit) for length_mm in rough.values()),
        f"{wood.board_feet_bf:.3f}",
        f"{tallied_bf(**rough):.4g}",
        f"{wood.m3:.5f}",
        tag_text(price_of_board(board), currency=currency),
    )


def _what(piece: PieceShare, group: TimberGroup, unit: Unit) -> str:
    if piece.pieces == 1:
        return group.long_point(piece.length_mm)
    return f"{piece.pieces} pieces, {describe_length(piece.length_mm, unit=unit)} together"


def _together(piece: PieceShare, shares: StickShares, unit: Unit, currency: Currency) -> str:
    return _amount(piece.count * piece.share, shares, unit, currency)


def _amount(amount: Fraction, shares: StickShares, unit: Unit, currency: Currency) -> str:
    """A share in words: a length, part of a stick, or money."""
    if shares.measure is ShareMeasure.LENGTH:
        return describe_length(float(amount), unit=unit)
    text = amount_words(amount, measure=shares.measure)
    return tag_text(Decimal(text), currency=currency) if shares.measure is ShareMeasure.MONEY else text


def _measure_words(shares: StickShares) -> str:
    return {
        ShareMeasure.LENGTH: "What the pieces take of a stick, each length rounded by itself",
        ShareMeasure.STICKS: "What the pieces are worth, in sticks",
        ShareMeasure.MONEY: "What the pieces are worth, in money",
    }[shares.measure]


def _wood(m3: float, board_feet: float, unit: Unit) -> str:
    return f"{board_feet:.1f} board feet" if unit is Unit.INCH else f"{m3:.4f} m³"
