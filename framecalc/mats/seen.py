"""The sheet and the image on it: the sheet must fit, the image must show, and the mat laps over what is between them.

The *sheet* is the artwork itself, edge to edge. The *image* is what of it is to be seen: the image, the plate mark, the
signature. A crooked sheet is lapped at its smallest: the largest upright rectangle that lies on it. The *lap* is what
the mat covers of the sheet on one side; negative where the edge of the sheet shows.
"""

from framecalc.errors import ImpossibleSize
from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.limits import require_positive
from framecalc.mats.mat import LEAST_OVERLAP_MM, Mat
from framecalc.mats.openings import Opening
from framecalc.mats.windows import Window
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM

_SOURCE = "plane geometry"


class SeenImage(Record):
    """What of a sheet is to be seen: its size, and how far in from the left and the lower edge of the sheet it lies."""

    across_mm: float
    up_mm: float
    left_mm: float
    below_mm: float

    def scaled(self, *, by_ratio: float) -> "SeenImage":
        """The image of a sheet that is made in another size."""
        return SeenImage(
            across_mm=self.across_mm * by_ratio,
            up_mm=self.up_mm * by_ratio,
            left_mm=self.left_mm * by_ratio,
            below_mm=self.below_mm * by_ratio,
        )


class Laps(Record):
    """What a mat covers of a sheet, side by side; negative where the edge shows."""

    left_mm: float
    right_mm: float
    top_mm: float
    bottom_mm: float

    @property
    def least_mm(self) -> float:
        """The narrowest of them."""
        return min(self.left_mm, self.right_mm, self.top_mm, self.bottom_mm)

    @property
    def most_mm(self) -> float:
        """The widest of them."""
        return max(self.left_mm, self.right_mm, self.top_mm, self.bottom_mm)

    @property
    def narrowest(self) -> str:
        """The side on which the lap is narrowest."""
        sides = {"left": self.left_mm, "right": self.right_mm, "top": self.top_mm, "bottom": self.bottom_mm}
        return min(sides, key=lambda side: sides[side])


def seen_image(
    *,
    sheet_across_mm: float,
    sheet_up_mm: float,
    across_mm: float,
    up_mm: float,
    left_mm: float | None = None,
    below_mm: float | None = None,
) -> SeenImage:
    """Place an image on its sheet; in the middle where its place is not known.

    Args:
        sheet_across_mm, sheet_up_mm: the sheet at its largest [mm], > 0.
        across_mm, up_mm: the image [mm], > 0.
        left_mm, below_mm: from the left and the lower edge of the sheet to the image [mm].
    Raises:
        OutOfRange: a length is out of range.
        ImpossibleSize: the image does not lie on the sheet.
    Source: plane geometry.

    >>> seen_image(sheet_across_mm=300, sheet_up_mm=400, across_mm=200, up_mm=250, below_mm=90).left_mm
    50.0
    """
    require_positive(image_across_mm=across_mm, image_up_mm=up_mm)
    left_mm = _placed(sheet_across_mm, across_mm, left_mm, direction="across", place="image_left_mm")
    below_mm = _placed(sheet_up_mm, up_mm, below_mm, direction="up", place="image_below_mm")
    return SeenImage(across_mm=across_mm, up_mm=up_mm, left_mm=left_mm, below_mm=below_mm)


def laps_of(
    opening: Opening, *, sheet_across_mm: float, sheet_up_mm: float, lapped: Opening | None, seen: SeenImage | None
) -> Laps:
    """What a mat laps over its sheet: the window's middle lies over that of the image.

    Args:
        sheet_across_mm, sheet_up_mm: the sheet at its largest [mm], > 0.
        lapped: the sheet at its smallest; none where it is a true rectangle.
        seen: the image; none where all of the sheet is.
    Source: plane geometry.

    >>> laps_of(Opening(across_mm=200, up_mm=250), sheet_across_mm=300, sheet_up_mm=400, lapped=None,
    ...         seen=SeenImage(across_mm=200, up_mm=250, left_mm=50, below_mm=90))
    Laps(left_mm=50.0, right_mm=50.0, top_mm=60.0, bottom_mm=90.0)
    """
    least = lapped or Opening(across_mm=sheet_across_mm, up_mm=sheet_up_mm)
    seen = seen or SeenImage(across_mm=sheet_across_mm, up_mm=sheet_up_mm, left_mm=0.0, below_mm=0.0)
    aside_mm = (opening.across_mm - seen.across_mm + sheet_across_mm - least.across_mm) / 2
    above_mm = (opening.up_mm - seen.up_mm + sheet_up_mm - least.up_mm) / 2
    return Laps(
        left_mm=seen.left_mm - aside_mm,
        right_mm=sheet_across_mm - seen.left_mm - seen.across_mm - aside_mm,
        top_mm=sheet_up_mm - seen.below_mm - seen.up_mm - above_mm,
        bottom_mm=seen.below_mm - above_mm,
    )


def sheet_behind(window: Window, *, sheet_across_mm: float, sheet_up_mm: float, seen: SeenImage | None) -> Window:
    """Where a sheet lies behind its window, in the places of the mat.

    Source: plane geometry.

    >>> window = Window(left_mm=60, bottom_mm=70, across_mm=200, up_mm=250)
    >>> sheet_behind(window, sheet_across_mm=300, sheet_up_mm=400, seen=None).left_mm
    10.0
    """
    seen = seen or SeenImage(across_mm=sheet_across_mm, up_mm=sheet_up_mm, left_mm=0.0, below_mm=0.0)
    return Window(
        left_mm=window.left_mm + (window.across_mm - seen.across_mm) / 2 - seen.left_mm,
        bottom_mm=window.bottom_mm + (window.up_mm - seen.up_mm) / 2 - seen.below_mm,
        across_mm=sheet_across_mm,
        up_mm=sheet_up_mm,
    )


def lap_findings(laps: Laps, *, asked_mm: float, shows_mm: float) -> tuple[Finding, ...]:
    """Report where the mat laps over the sheet by less than was asked for, or shows its edge on one side only.

    Args:
        asked_mm: the overlap that was asked for [mm].
        shows_mm: what shows around the image [mm].
    Source: plane geometry.

    >>> laps = Laps(left_mm=2, right_mm=2, top_mm=10, bottom_mm=20)
    >>> [finding.code for finding in lap_findings(laps, asked_mm=3, shows_mm=6)]
    ['image.small-lap']
    """
    if laps.least_mm >= asked_mm - TOLERANCE_MM:
        return ()
    shown = laps.least_mm <= TOLERANCE_MM
    says = f"At the {laps.narrowest} the edge of the sheet shows" if shown else _LAPS.format(side=laps.narrowest)
    return (
        Finding(
            code="image.sheet-shows" if shown else "image.small-lap",
            severity=Severity.STOP if shown else Severity.WARN,
            sentence=f"{says}: the overlap asked for is {{asked}}.",
            why="The window stands around the image; the rest of the sheet is what the mat can lap over.",
            source=_SOURCE,
            argument="float_reveal_mm" if shows_mm > TOLERANCE_MM else "image_across_mm",
            lengths={"lap": laps.least_mm, "asked": asked_mm},
            ways=_ways_to_lap(laps, asked_mm, shows_mm),
        ),
    )


def mat_cover_findings(opening: Opening, seen: SeenImage) -> tuple[Finding, ...]:
    """Report where a window that was typed covers part of the image.

    Source: plane geometry.

    >>> image = SeenImage(across_mm=200, up_mm=250, left_mm=50, below_mm=90)
    >>> [finding.code for finding in mat_cover_findings(Opening(across_mm=190, up_mm=250), image)]
    ['image.covered-by-mat-across']
    """
    directions = (("across", opening.across_mm, seen.across_mm), ("up", opening.up_mm, seen.up_mm))
    return tuple(
        Finding(
            code=f"image.covered-by-mat-{direction}",
            severity=Severity.STOP,
            sentence=f"The mat covers {{covered}} of the image, {direction}: its window is {{window}}, the image "
            "{image}.",
            why="What was measured as the image is to be seen.",
            source=_SOURCE,
            argument=f"window_{direction}_mm",
            lengths={"covered": image_mm - window_mm, "window": window_mm, "image": image_mm},
            ways=(
                Way(
                    argument=f"window_{direction}_mm",
                    value_mm=image_mm,
                    says="cut the window as large as the image",
                    rounding=Rounding.UP,
                ),
            ),
        )
        for direction, window_mm, image_mm in directions
        if image_mm - window_mm > TOLERANCE_MM
    )


def sheet_place_findings(
    sheet: Window, mat: Mat, *, gap_mm: float = 0.0, others: tuple[Window, ...] = ()
) -> tuple[Finding, ...]:
    """Report where a sheet reaches past its mat, or into the window of another picture.

    Args:
        sheet: where it lies behind the mat.
        mat: the mat.
        gap_mm: what is left between two windows [mm].
        others: the other windows of the mat.
    Source: plane geometry.

    >>> mat = Mat(window_across_mm=194, window_up_mm=244, border_sides_mm=60, border_top_mm=60, border_bottom_mm=70,
    ...           across_mm=314, up_mm=374, overlap_mm=3)
    >>> sheet = Window(left_mm=-4, bottom_mm=20, across_mm=300, up_mm=300)
    >>> [finding.code for finding in sheet_place_findings(sheet, mat)]
    ['image.sheet-past-mat']
    """
    past_mm = max(-sheet.left_mm, sheet.right_mm - mat.across_mm, sheet.top_mm - mat.up_mm)
    found = []
    if past_mm > TOLERANCE_MM:
        border_mm = min(mat.border_sides_mm, mat.border_top_mm)
        found.append(_past_mat(past_mm, "mat_border_mm", border_mm, says="widen the borders"))
    if -sheet.bottom_mm > TOLERANCE_MM:
        found.append(_past_mat(-sheet.bottom_mm, "mat_bottom_mm", mat.border_bottom_mm, says="widen the bottom border"))
    into_mm = max((_into_mm(sheet, other) for other in others), default=0.0)
    if into_mm > TOLERANCE_MM:
        found.append(_in_window(into_mm, gap_mm))
    return tuple(found)


def _placed(sheet_mm: float, image_mm: float, place_mm: float | None, *, direction: str, place: str) -> float:
    if image_mm > sheet_mm + TOLERANCE_MM:
        raise ImpossibleSize(
            f"The image is {{image}} {direction}, and its sheet {{sheet}}: measure both again.",
            field=f"image_{direction}_mm",
            lengths={"image": image_mm, "sheet": sheet_mm},
        )
    if place_mm is None:
        return (sheet_mm - image_mm) / 2
    if place_mm + image_mm > sheet_mm + TOLERANCE_MM:
        raise ImpossibleSize(
            "Enter {most} or less, not {place}: the image leaves its sheet.",
            field=place,
            lengths={"place": place_mm, "most": sheet_mm - image_mm},
        )
    return place_mm


_LAPS = "At the {side} the mat laps over the sheet by {{lap}}"


def _ways_to_lap(laps: Laps, asked_mm: float, shows_mm: float) -> tuple[Way, ...]:
    """Show less around the image, as far as that helps; or ask for what there is."""
    less_mm = shows_mm - (asked_mm - laps.least_mm)
    if less_mm >= 0:
        return (
            Way(argument="float_reveal_mm", value_mm=less_mm, says="show less of the sheet", rounding=Rounding.DOWN),
        )
    if laps.least_mm < LEAST_OVERLAP_MM - TOLERANCE_MM:
        return ()
    return (Way(argument="mat_overlap_mm", value_mm=laps.least_mm, says="lap over less", rounding=Rounding.DOWN),)


def _past_mat(past_mm: float, argument: str, border_mm: float, *, says: str) -> Finding:
    return Finding(
        code="image.sheet-past-mat",
        severity=Severity.STOP,
        sentence="Behind its window the sheet reaches {past} past the edge of the mat: it does not fit in the frame.",
        why="The sheet lies so that its image shows in the window; all of it has to go into the rabbet.",
        source=_SOURCE,
        argument=argument,
        lengths={"past": past_mm},
        ways=(Way(argument=argument, value_mm=border_mm + past_mm, says=says, rounding=Rounding.UP),),
    )


def _in_window(into_mm: float, gap_mm: float) -> Finding:
    wider = Way(
        argument="window_gap_mm",
        value_mm=gap_mm + into_mm,
        says="leave more between the windows",
        rounding=Rounding.UP,
    )
    return Finding(
        code="image.sheet-in-window",
        severity=Severity.STOP,
        sentence="The sheet of the artwork reaches {into} into the window of another picture.",
        why="Sheets lie side by side behind their mat; what is between the windows has to hide both.",
        source=_SOURCE,
        argument="window_gap_mm",
        lengths={"into": into_mm},
        ways=(wider,),
    )


def _into_mm(sheet: Window, other: Window) -> float:
    """How far a sheet reaches into a window: the shorter way out of it."""
    across_mm = min(sheet.right_mm - other.left_mm, other.right_mm - sheet.left_mm)
    return min(across_mm, sheet.top_mm - other.bottom_mm, other.top_mm - sheet.bottom_mm)
