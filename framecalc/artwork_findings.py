"""What is wrong with an artwork: where it is no rectangle, which reading is doubtful, whether it goes into its opening.

Opposite sides come first: equal diagonals only tell something once those agree. Being out of square *uses up*
clearance, so what is said about it is the play that is left, never an addition.
"""

from collections.abc import Iterator
from math import dist

from framecalc.artwork import ArtworkFit, Measurements, Play, differs
from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.sizes import TIGHT_CLEARANCE_MM
from framecalc.turning import least_across_mm, on_its_side
from framecalc.units import TOLERANCE_MM

MISFIT_LIMIT_MM = 0.5
"""More than careful reading leaves: near a rectangle, a diagonal read wrong leaves a quarter of its error on each
diagonal. Source: derived."""

READING_PER_MISFIT = 4
"""How wrong one diagonal must be to leave a misfit of one, near a rectangle. Source: derived."""


def artwork_findings(
    measurements: Measurements, fit: ArtworkFit, play: Play, *, is_tray: bool = False
) -> tuple[Finding, ...]:
    """Say where the piece is no rectangle, opposite sides first, where a reading is doubtful, and whether it goes in.

    Args:
        measurements, fit: what was measured, and the shape behind it.
        play: that shape, or the mat around it, in its opening.
        is_tray: whether the opening is the inside of a tray, whose gap is even all round.
    Source: derived; the limits are common practice, no source.

    >>> from framecalc.artwork import fit_artwork, play
    >>> tape = Measurements(across_top_mm=300, across_bottom_mm=302, up_left_mm=400, up_right_mm=400)
    >>> fit = fit_artwork(tape)
    >>> loose = play(fit.corners, rabbet_across_mm=305, rabbet_up_mm=403)
    >>> [finding.code for finding in artwork_findings(tape, fit, loose)]
    ['artwork.sides-differ-across']
    """
    return (
        *_side_findings(measurements),
        *_diagonal_findings(measurements),
        *_misfit_findings(fit),
        *_play_findings(play, is_tray=is_tray),
    )


def _side_findings(tape: Measurements) -> Iterator[Finding]:
    if differs(tape.across_top_mm, tape.across_bottom_mm):
        yield _side_finding("across", ("top", tape.across_top_mm), ("bottom", tape.across_bottom_mm))
    if differs(tape.up_left_mm, tape.up_right_mm):
        yield _side_finding("up", ("left", tape.up_left_mm), ("right", tape.up_right_mm))


def _side_finding(direction: str, first: tuple[str, float], second: tuple[str, float]) -> Finding:
    (first_place, first_mm), (second_place, second_mm) = first, second
    return Finding(
        code=f"artwork.sides-differ-{direction}",
        severity=Severity.NOTE,
        sentence=f"The artwork measures {{first}} {direction} at the {first_place} and {{second}} at the "
        f"{second_place}: {{difference}} apart.",
        why="The frame is made for the larger; the lip has to cover the smaller. Equal diagonals would not make it a "
        "rectangle, for they only tell something once opposite sides agree.",
        source="plane geometry",
        argument=f"artwork_{direction}_mm",
        lengths={"first": first_mm, "second": second_mm, "difference": abs(first_mm - second_mm)},
    )


def _diagonal_findings(tape: Measurements) -> Iterator[Finding]:
    rising_mm, falling_mm = tape.diagonal_rising_mm, tape.diagonal_falling_mm
    if rising_mm is None or falling_mm is None or not differs(rising_mm, falling_mm):
        return
    yield Finding(
        code="artwork.diagonals-differ",
        severity=Severity.NOTE,
        sentence="The diagonals of the artwork are {difference} apart: it is out of square.",
        why="A piece out of square uses up clearance, which shows in the play; nothing has to be added for it.",
        source="plane geometry",
        argument="diagonal_rising_mm",
        lengths={"difference": abs(rising_mm - falling_mm)},
    )


def _misfit_findings(fit: ArtworkFit) -> Iterator[Finding]:
    if fit.misfit_mm <= MISFIT_LIMIT_MM + TOLERANCE_MM:
        return
    yield Finding(
        code="artwork.misfit",
        severity=Severity.WARN,
        sentence="The six measurements contradict each other by {misfit}; a diagonal read {reading} wrong would do "
        "that. Measure again; up to {limit} is usual.",
        why="Four sides and one diagonal settle the shape, so the sixth number has to agree. A side would have to be "
        "wrong by even more.",
        source="derived, least squares of the six measurements",
        argument="diagonal_rising_mm",
        lengths={
            "misfit": fit.misfit_mm,
            "reading": READING_PER_MISFIT * fit.misfit_mm,
            "limit": MISFIT_LIMIT_MM,
        },
    )


def _play_findings(play: Play, *, is_tray: bool) -> Iterator[Finding]:
    """What being crooked costs: silent where the clearance itself is short, which the sizes say."""
    across_mm, up_mm = _straight_clearances(play)
    least_mm = min(play.across_mm, play.up_mm)
    if min(across_mm, up_mm) < TIGHT_CLEARANCE_MM - TOLERANCE_MM or least_mm >= TIGHT_CLEARANCE_MM - TOLERANCE_MM:
        return
    ways = _gap_ways(play, across_mm) if is_tray else _clearance_ways(play, across_mm, up_mm)
    yield _tight_finding(play, least_mm, ways) if play.enters else _stuck_finding(play, -least_mm, ways)


def _straight_clearances(play: Play) -> tuple[float, float]:
    """What the clearance would be if the piece were straight: the opening less its largest sides."""
    bottom_left, bottom_right, top_right, top_left = play.corners
    widest_mm = max(dist(bottom_left, bottom_right), dist(top_left, top_right))
    highest_mm = max(dist(bottom_left, top_left), dist(bottom_right, top_right))
    return play.rabbet_across_mm - widest_mm, play.rabbet_up_mm - highest_mm


def _clearance_ways(play: Play, across_mm: float, up_mm: float) -> Iterator[Way]:
    """More clearance in one direction alone, so that the least play is left in both."""
    across = least_across_mm(play.corners, up_mm=play.rabbet_up_mm - TIGHT_CLEARANCE_MM)
    up = least_across_mm(on_its_side(play.corners), up_mm=play.rabbet_across_mm - TIGHT_CLEARANCE_MM)
    if across is not None:
        more_mm = across + TIGHT_CLEARANCE_MM - play.rabbet_across_mm
        yield _more_room("clearance_across_mm", across_mm + more_mm, "give more clearance across")
    if up is not None:
        more_mm = up + TIGHT_CLEARANCE_MM - play.rabbet_up_mm
        yield _more_room("clearance_up_mm", up_mm + more_mm, "give more clearance up")


def _gap_ways(play: Play, across_mm: float) -> Iterator[Way]:
    """A wider gap makes both directions larger alike."""
    more_mm = TIGHT_CLEARANCE_MM - min(play.across_mm, play.up_mm)
    yield _more_room("tray_gap_mm", (across_mm + more_mm) / 2, "leave a wider gap")


def _more_room(argument: str, value_mm: float, says: str) -> Way:
    return Way(argument=argument, value_mm=value_mm, says=says, rounding=Rounding.UP)


def _stuck_finding(play: Play, missing_mm: float, ways: Iterator[Way]) -> Finding:
    return Finding(
        code="artwork.does-not-enter",
        severity=Severity.STOP,
        sentence="The artwork, as crooked as it is, does not go in: {missing} is missing, however it is turned.",
        why="Being out of square uses up the clearance. Measure the diagonals again before making room for them.",
        source="plane geometry",
        argument="clearance_across_mm",
        lengths={"missing": missing_mm},
        ways=tuple(ways),
    )


def _tight_finding(play: Play, left_mm: float, ways: Iterator[Way]) -> Finding:
    return Finding(
        code="artwork.little-play",
        severity=Severity.WARN,
        sentence="The artwork, as crooked as it is, goes in with {left} of play; {limit} or more is usual.",
        why="Being out of square uses up most of the clearance, and what is left must do for damp air and dust.",
        source="common practice, no source",
        argument="clearance_across_mm",
        lengths={"left": left_mm, "limit": TIGHT_CLEARANCE_MM},
        ways=tuple(ways),
    )
