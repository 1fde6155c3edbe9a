"""What the page shows beside its fields: the photo with its marks, the six sizes, what makes them doubtful."""

from collections.abc import Iterator
from typing import ClassVar

from framecalc.artwork.photo_findings import ASIDE_INCH_MM, ASIDE_MM, photo_findings
from framecalc.artwork.photo_sizes import PhotoSize, PhotoSizes
from framecalc.errors import FrameCalcError
from framecalc.plan.advice import Advice, advise
from framecalc.plan.inputs import shape_of
from framecalc.plan.sizing import FIELDS, camera_of, doubt_text, marks_of, sheet_of, sizes_by_photo, taped_sizes
from framecalc.project import Artwork
from framecalc.project.form import parts_of
from framecalc.project.sizing import Sizing
from framecalc.records import Record
from framecalc.units import Step, Unit, describe_length, format_length
from webapp.data.photo_parts import PART_SHOWN_PX
from webapp.live.actions import TAPPED_ACROSS
from webapp.live.addresses import PHOTO, PHOTO_PART, SETTING_OUT, SHEET_PHOTO_TO, SIZING, SIZING_CLOSE, SIZING_SHEET
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.shown import FrameShown
from webapp.live.typed.answer import FrameAnswer
from webapp.pages.sizing.fields import MARKS, OF

_CAUSES = {
    "marks_mm": "how exactly the marks stand",
    "sheet_mm": "the sheet: measure it",
    "lens_mm": "the lens: keep both in the middle of the photo",
    "plane_mm": "the sheet out of the artwork's plane",
}
"""What a doubt comes from, and what to do."""


class SizingMarkView(Record):
    """One mark: its name, its words, its place, blank until it is put, and how it was put."""

    name: str
    says: str
    across: str
    down: str
    how: str
    close_at: str


class MarksView(Record):
    """The photo with its marks, in its own pixels; `outlines` are the sheet's and the artwork's, by their names."""

    href: str
    across: str
    up: str
    radius: str
    outlines: tuple[tuple[str, str], ...]
    marks: tuple[SizingMarkView, ...]
    next_mark: str
    tapped_across: str


class PhotoSizeRow(Record):
    """One size out of the photo, how far off it may be, what is typed, and whether the two contradict each other.

    `is_taped`: it was typed, is no longer assumed, and is another one: the photo's does not take its place by itself.
    """

    name: str
    label: str
    text: str
    doubt: str
    typed: str
    is_apart: bool
    is_taped: bool


class SizingShown(FrameShown):
    """What the page shows. `refused` says why the marks tell nothing; `lines` how the photo was taken."""

    photo: MarksView | None = None
    rows: tuple[PhotoSizeRow, ...] = ()
    lines: tuple[str, ...] = ()
    findings: tuple[Advice, ...] = ()
    refused: str = ""
    above: ClassVar[str] = "sizing."

    @property
    def taped(self) -> tuple[PhotoSizeRow, ...]:
        """The sizes that stand as a tape has said them."""
        return tuple(row for row in self.rows if row.is_taped)

    @property
    def photo_to(self) -> str:
        """The address that takes a photo."""
        return SHEET_PHOTO_TO(**self._ids)

    @property
    def sheet_at(self) -> str:
        """The sheet to print."""
        return SIZING_SHEET(**self._ids)

    @property
    def back(self) -> str:
        """Where the sizes are typed."""
        return SETTING_OUT(**self._ids)

    @property
    def is_in_frame(self) -> bool:
        """Whether the Look page shows this photo."""
        sizing, photo = self.frame.sizing, self.frame.look.photo
        return sizing is not None and photo is not None and sizing.id == photo.id

    @property
    def has_four_sides(self) -> bool:
        """Whether the artwork has sizes across and up."""
        return self.frame.shape.sides == 4

    @property
    def _ids(self) -> dict[str, str]:
        return {"project_id": self.answer.project_id, "frame_id": self.frame.id}


class CloseShown(Record):
    """A piece of the photo, enlarged, to put one mark on."""

    frame_name: str
    says: str
    at: str
    href: str
    shown_px: str
    post_to: str
    back: str


def sizing_shown(desk: Desk, opened: ProjectAtRevision, answer: FrameAnswer) -> SizingShown:
    """What the page shows."""
    frame, sizing = answer.frame, answer.frame.sizing
    if sizing is None or not shape_of(frame).is_rectangle:
        return SizingShown(answer=answer)
    photo = _photo(answer, sizing)
    try:
        sizes = sizes_by_photo(frame)
    except FrameCalcError as error:
        return SizingShown(answer=answer, photo=photo, refused=error.sentence)
    if sizes is None:
        return SizingShown(answer=answer, photo=photo, lines=tuple(_still_to_put(photo)))
    return SizingShown(
        answer=answer,
        photo=photo,
        rows=tuple(_rows(answer, sizes)),
        lines=tuple(_lines(answer, sizes, photo)),
        findings=_findings(answer, sizing, sizes),
    )


def close_shown(opened: ProjectAtRevision, frame_id: str, mark: str, at: str) -> CloseShown:
    """What the page of one mark shows."""
    frame = opened.frame(frame_id)
    ids = {"project_id": opened.project_id, "frame_id": frame_id}
    photo_id = frame.sizing.id if frame.sizing else ""
    return CloseShown(
        frame_name=frame.name,
        says=MARKS[mark],
        at=at,
        href=f"{PHOTO_PART(project_id=opened.project_id, photo_id=photo_id)}?at={at}",
        shown_px=str(PART_SHOWN_PX),
        post_to=SIZING_CLOSE(mark=mark, **ids),
        back=SIZING(**ids),
    )


def _photo(answer: FrameAnswer, sizing: Sizing) -> MarksView:
    marks = tuple(_marks(answer, sizing))
    return MarksView(
        href=PHOTO(project_id=answer.project_id, photo_id=sizing.id),
        across=str(sizing.across),
        up=str(sizing.up),
        radius=str(max(sizing.across, sizing.up) // 40),
        outlines=tuple((of, _outline(marks, of)) for of in OF),
        marks=marks,
        next_mark=next((mark.name for mark in marks if not mark.across), marks[0].name),
        tapped_across=str(TAPPED_ACROSS),
    )


def _outline(marks: tuple[SizingMarkView, ...], of: str) -> str:
    return " ".join(f"{mark.across},{mark.down}" for mark in marks if mark.across and mark.name.startswith(f"{of}."))


def _marks(answer: FrameAnswer, sizing: Sizing) -> Iterator[SizingMarkView]:
    ids = {"project_id": answer.project_id, "frame_id": answer.frame.id}
    eight = (*sizing.sheet.four, *sizing.artwork.four)
    for (name, says), mark in zip(MARKS.items(), eight, strict=True):
        is_put = mark.place is not None
        at = f"{mark.place[0]:.0f},{mark.place[1]:.0f}" if mark.place else ""
        yield SizingMarkView(
            name=name,
            says=says,
            across=f"{mark.across:f}" if is_put and mark.across is not None else "",
            down=f"{mark.down:f}" if is_put and mark.down is not None else "",
            how="on its edges" if mark.is_found else "by hand" if is_put else "not yet",
            close_at=f"{SIZING_CLOSE(mark=name, **ids)}?at={at}" if is_put else "",
        )


def _still_to_put(photo: MarksView) -> Iterator[str]:
    left = sum(not mark.across for mark in photo.marks)
    yield f"{left} {'mark' if left == 1 else 'marks'} to put: the four corners of the sheet, then the artwork's."


def _rows(answer: FrameAnswer, sizes: PhotoSizes) -> Iterator[PhotoSizeRow]:
    step = answer.project.shop.step(answer.project.unit)
    labels = parts_of(Artwork)
    taped = taped_sizes(answer.frame, sizes, assumed=answer.project.assumed, step=step)
    for name, size in sizes.named():
        typed = getattr(answer.frame.artwork, FIELDS[name])
        yield PhotoSizeRow(
            name=name,
            label=labels[FIELDS[name]].labels[0].text,
            text=format_length(size.length_mm, step=step).full,
            doubt=f"± {doubt_text(size, step=step)}",
            typed=_typed(typed.mm, step) if typed else "–",
            is_apart=typed is not None and size.is_apart(typed.mm),
            is_taped=name in taped,
        )


def _typed(length_mm: float, step: Step) -> str:
    return format_length(length_mm, step=step).full


def _lines(answer: FrameAnswer, sizes: PhotoSizes, photo: MarksView) -> Iterator[str]:
    unit, widest = answer.project.unit, max((size for _, size in sizes.named()), key=lambda size: size.length_mm)
    found = sum(mark.how == "on its edges" for mark in photo.marks)
    yield (
        "All 8 marks are on their edges."
        if found == len(photo.marks)
        else f"{found} of 8 marks are on their edges; the others count as put by hand."
    )
    yield _squareness(answer, sizes)
    yield f"Most of the ± comes from {_CAUSES[_worst(widest)]}."
    away_mm = ASIDE_MM if unit is Unit.MM else ASIDE_INCH_MM
    moved = format_length(widest.length_mm * away_mm / sizes.height_mm, step=answer.project.shop.step(unit)).full
    far, away = _far(sizes.height_mm, unit), describe_length(away_mm, unit=unit)
    yield f"The camera was about {far} away. A sheet {away} before or behind the artwork: diagonals off by {moved}."


def _squareness(answer: FrameAnswer, sizes: PhotoSizes) -> str:
    """Whether the photo shows a piece out of square, beyond what may be off."""
    step = answer.project.shop.step(answer.project.unit)
    differences = dict(sizes.differences())
    name = max(differences, key=lambda one: abs(differences[one].length_mm) / differences[one].doubt_mm)
    apart = differences[name]
    if abs(apart.length_mm) <= apart.doubt_mm:
        return f"Square as far as the photo shows: diagonals equal to ± {doubt_text(sizes.diagonals_apart, step=step)}."
    more = format_length(abs(apart.length_mm), step=step).full
    return f"Out of square: {_APART[name][apart.length_mm < 0]} by {more} ± {doubt_text(apart, step=step)}."


_APART = {
    "taper_across": ("the top is longer than the bottom", "the bottom is longer than the top"),
    "taper_up": ("the left is longer than the right", "the right is longer than the left"),
    "diagonals_apart": ("the rising diagonal is longer", "the falling diagonal is longer"),
}


def _worst(size: PhotoSize) -> str:
    return max(_CAUSES, key=lambda cause: float(getattr(size, cause)))


def _far(height_mm: float, unit: Unit) -> str:
    return f"{height_mm / 1000:.1f} m" if unit is Unit.MM else f"{height_mm / 304.8:.1f} ft"


def _findings(answer: FrameAnswer, sizing: Sizing, sizes: PhotoSizes) -> tuple[Advice, ...]:
    marks = marks_of(sizing)
    found = photo_findings(sizes, marks, sheet_of(sizing), camera_of(sizing)) if marks else ()
    return advise(
        found,
        step=answer.project.shop.step(answer.project.unit),
        words=answer.project.shop.words,
        path_of=answer.plan.path_of,
        holds=lambda *_: False,
    )
