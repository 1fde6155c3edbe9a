"""Findings on an artwork: it is not a rectangle, a reading is doubtful, it does not go into its opening.

Opposite sides come first: diagonals only mean something once these agree. Being out of square *uses up* clearance, so a
finding states the play that is left, never an addition.
"""

from collections.abc import Iterator

from framecalc.artwork.measuring import ArtworkFit, Measurements, Play, differs
from framecalc.artwork.turning import least_across_mm, on_its_side
from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.sizes.chain import TIGHT_CLEARANCE_MM
from framecalc.units import TOLERANCE_MM

MISFIT_LIMIT_MM = 0.5
"""More than careful reading leaves: near a rectangle, a diagonal read wrong leaves a quarter of its error on each
diagonal. Source: derived."""

MISREAD_LIMIT_MM = 2.0
"""At least one reading is off by 8 mm (5/16 in): more than a badly held tape. Source: common practice, no source."""

READING_PER_MISFIT = 4
"""How wrong one diagonal must be to leave a misfit of one, near a rectangle. Source: derived."""


def artwork_findings(
    measurements: Measurements,
    fit: ArtworkFit,
    play: Play,
    *,
    clearance_across_mm: float,
    clearance_up_mm: float,
    is_tray: bool = False,
    is_taped: bool = True,
) -> tuple[Finding, ...]:
    """Report a piece that is not a rectangle, opposite sides first, a doubtful reading, and a piece that does not fit.

    Args:
        measurements, fit: what was measured, and the shape behind it.
        play: that shape, or the mat around it, in its opening.
        clearance_across_mm, clearance_up_mm: what the opening was given over the largest sizes [mm].
        is_tray: whether the opening is the inside of a tray, whose gap is half its clearance.
        is_taped: whether all sizes come from a tape; one that is only assumed, out of a photo say, proves none wrong.
    Source: derived; the limits are common practice, no source.

    >>> from framecalc.artwork.measuring import fit_artwork, play
    >>> tape = Measurements(across_top_mm=300, across_bottom_mm=302, up_left_mm=400, up_right_mm=400)
    >>> fit = fit_artwork(tape)
    >>> loose = play(fit.corners, rabbet_across_mm=305, rabbet_up_mm=403)
    >>> found = artwork_findings(tape, fit, loose, clearance_across_mm=3, clearance_up_mm=3)
    >>> [finding.code for finding in found]
    ['artwork.sides-differ-across']
    """
    given = (clearance_across_mm, clearance_up_mm)
    return (
        *_side_findings(measurements, is_tray=is_tray),
        *_diagonal_findings(measurements),
        *(_misfit_findings(fit) if is_taped else ()),
        *_play_findings(play, given, is_tray=is_tray),
    )


def _side_findings(tape: Measurements, *, is_tray: bool) -> Iterator[Finding]:
    why = _BESIDE_THE_SMALLER if is_tray else _OVER_THE_SMALLER
    if differs(tape.across_top_mm, tape.across_bottom_mm):
        yield _side_finding("across", ("top", tape.across_top_mm), ("bottom", tape.across_bottom_mm), why)
    if differs(tape.up_left_mm, tape.up_right_mm):
        yield _side_finding("up", ("left", tape.up_left_mm), ("right", tape.up_right_mm), why)


_OVER_THE_SMALLER = (
    "The frame is made for the larger; the lip or the mat has to cover the smaller. Equal diagonals "
    "prove nothing until opposite sides agree."
)
_BESIDE_THE_SMALLER = (
    "The tray is made for the larger; beside the smaller its gap is wider. Equal diagonals prove nothing "
    "until opposite sides agree."
)


def _side_finding(direction: str, first: tuple[str, float], second: tuple[str, float], why: str) -> Finding:
    (first_place, first_mm), (second_place, second_mm) = first, second
    return Finding(
        code=f"artwork.sides-differ-{direction}",
        severity=Severity.NOTE,
        sentence=f"The artwork measures {{first}} {direction} at the {first_place} and {{second}} at the "
        f"{second_place}: {{difference}} apart.",
        why=why,
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
        why="It uses up play, and the play shown allows for it: add nothing.",
        source="plane geometry",
        argument="diagonal_rising_mm",
        lengths={"difference": abs(rising_mm - falling_mm)},
    )


def _misfit_findings(fit: ArtworkFit) -> Iterator[Finding]:
    if fit.misfit_mm <= MISFIT_LIMIT_MM + TOLERANCE_MM:
        return
    misread = fit.misfit_mm > MISREAD_LIMIT_MM + TOLERANCE_MM
    yield Finding(
        code="artwork.misread" if misread else "artwork.misfit",
        severity=Severity.STOP if misread else Severity.WARN,
        sentence="The six measurements contradict each other by {misfit}, as if a diagonal were read {reading} wrong: "
        "measure again; up to {limit} is usual.",
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


def _play_findings(play: Play, clearance_mm: tuple[float, float], *, is_tray: bool) -> Iterator[Finding]:
    """What being crooked costs: silent where the clearance itself is short, which the sizes say."""
    left_mm = min(play.across_mm, play.up_mm)
    if not min(clearance_mm) >= TIGHT_CLEARANCE_MM - TOLERANCE_MM > left_mm:
        return
    ways = _gap_ways(clearance_mm[0], left_mm) if is_tray else _clearance_ways(play, *clearance_mm)
    argument = "tray_gap_mm" if is_tray else "clearance_across_mm"
    yield (_tight_finding if play.enters else _stuck_finding)(left_mm, argument, tuple(ways))


def _clearance_ways(play: Play, across_mm: float, up_mm: float) -> Iterator[Way]:
    """More clearance in one direction alone, so that the least play is left in both."""
    least_mm = least_across_mm(play.corners, up_mm=play.rabbet_up_mm - TIGHT_CLEARANCE_MM)
    if least_mm is not None:
        more_mm = least_mm + TIGHT_CLEARANCE_MM - play.rabbet_across_mm
        yield _more_room("clearance_across_mm", across_mm + more_mm, "give more clearance across")
    least_mm = least_across_mm(on_its_side(play.corners), up_mm=play.rabbet_across_mm - TIGHT_CLEARANCE_MM)
    if least_mm is not None:
        more_mm = least_mm + TIGHT_CLEARANCE_MM - play.rabbet_up_mm
        yield _more_room("clearance_up_mm", up_mm + more_mm, "give more clearance up")


def _gap_ways(clearance_mm: float, left_mm: float) -> Iterator[Way]:
    """A wider gap makes both directions larger alike; both clearances of a tray are twice its gap."""
    yield _more_room("tray_gap_mm", (clearance_mm + TIGHT_CLEARANCE_MM - left_mm) / 2, "leave a wider gap")


def _more_room(argument: str, value_mm: float, says: str) -> Way:
    return Way(argument=argument, value_mm=value_mm, says=says, rounding=Rounding.UP)


def _stuck_finding(left_mm: float, argument: str, ways: tuple[Way, ...]) -> Finding:
    return Finding(
        code="artwork.does-not-enter",
        severity=Severity.STOP,
        sentence="The artwork, as crooked as it is, does not go in: {missing} is missing, however it is turned.",
        why="Being out of square uses up the room around it. Measure the diagonals again before making room for them.",
        source="plane geometry",
        argument=argument,
        lengths={"missing": -left_mm},
        ways=ways,
    )


def _tight_finding(left_mm: float, argument: str, ways: tuple[Way, ...]) -> Finding:
    return Finding(
        code="artwork.little-play",
        severity=Severity.WARN,
        sentence="The artwork, as crooked as it is, goes in with {left} of play; {limit} or more is usual.",
        why="Being out of square uses up most of the room around it, and what is left must do for damp air and dust.",
        source="usual practice",
        argument=argument,
        lengths={"left": left_mm, "limit": TIGHT_CLEARANCE_MM},
        ways=ways,
    )
