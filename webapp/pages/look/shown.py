"""What the look page shows beside its fields: the client's drawings, the photo with its marks, what it implies."""

from collections.abc import Iterator
from typing import ClassVar

from markupsafe import Markup

from framecalc.drawing.client.framed import draw_client, draw_close_up
from framecalc.drawing.client.on_wall import draw_on_wall, wall_says
from framecalc.drawing.client.seen import read_client
from framecalc.errors import FrameCalcError
from framecalc.geometry.perspective import FocalLength, implied_ratio, proportion_difference_pct, proportion_findings
from framecalc.plan import FramePlan
from framecalc.plan.advice import Advice, advise
from framecalc.project import Photo
from framecalc.records import Record
from webapp.data.photos import are_placed, corners_of
from webapp.live.actions import TAPPED_ACROSS
from webapp.live.addresses import PHOTO, PHOTO_TO
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.render import drawing
from webapp.live.shown import FrameShown
from webapp.live.straight_photo import straight_address
from webapp.live.typed.answer import FrameAnswer
from webapp.pages.look.fields import MARKS

UNPLACED = "Put the four marks on the corners of the artwork; then its proportion is compared with the tape's."


class LookPanel(Record):
    """A drawing on the page, and the lines under it."""

    svg: Markup
    says: str = ""


class MarkView(Record):
    """One mark on the photo: its name, its label, its place, and the fields of its place."""

    name: str
    says: str
    across: str
    down: str


class PhotoView(Record):
    """The photo with its marks, in its own pixels."""

    href: str
    across: str
    up: str
    radius: str
    outline: str
    marks: tuple[MarkView, ...]
    tapped_across: str


class LookShown(FrameShown):
    """What the look page shows.

    `lines` are what the photo implies of the artwork's proportion, `refused` why it implies nothing.
    """

    panels: tuple[LookPanel, ...] = ()
    photo: PhotoView | None = None
    lines: tuple[str, ...] = ()
    findings: tuple[Advice, ...] = ()
    refused: str = ""
    above: ClassVar[str] = "look."

    @property
    def photo_to(self) -> str:
        """The address that takes a photo."""
        return PHOTO_TO(project_id=self.answer.project_id, frame_id=self.frame.id)

    @property
    def kept(self) -> bool:
        """Whether the page keeps its earlier drawings, because there are no new ones."""
        return bool(self.answer.impossible)


def look_shown(desk: Desk, opened: ProjectAtRevision, answer: FrameAnswer) -> LookShown:
    """What the look page shows."""
    photo = answer.frame.look.photo
    view = _photo(opened.project_id, photo) if photo else None
    if answer.impossible:
        return LookShown(answer=answer, photo=view)
    lines, refused = _photo_lines(answer.plan, photo) if photo else ((), "")
    return LookShown(
        answer=answer,
        panels=tuple(_drawings(opened, answer.plan, photo, refused)),
        photo=view,
        lines=lines,
        findings=_findings(answer.plan, photo) if photo and not refused else (),
        refused=refused,
    )


def _drawings(opened: ProjectAtRevision, plan: FramePlan, photo: Photo | None, refused: str) -> Iterator[LookPanel]:
    front = read_client(plan)
    alone = front.alone
    ratio = plan.fit.across_mm / plan.fit.up_mm
    picture = straight_address(opened.project_id, photo, aspect_ratio=ratio) if photo and not refused else ""
    yield LookPanel(svg=drawing(draw_client(alone, name="look", picture=picture)), says=f"{front.says}.")
    yield LookPanel(svg=drawing(draw_close_up(alone, name="look-corner", picture=picture)), says="A corner, close by.")
    if front.look.on_wall:
        yield LookPanel(svg=drawing(draw_on_wall(front, name="look-wall", picture=picture)), says=wall_says(front))


def _photo(project_id: str, photo: Photo) -> PhotoView:
    marks = {"upper_left": photo.upper_left, "upper_right": photo.upper_right}
    marks |= {"lower_right": photo.lower_right, "lower_left": photo.lower_left}
    return PhotoView(
        href=PHOTO(project_id=project_id, photo_id=photo.id),
        across=str(photo.across),
        up=str(photo.up),
        radius=str(max(photo.across, photo.up) // 28),
        outline=" ".join(f"{mark.across},{mark.down}" for mark in marks.values()),
        marks=tuple(
            MarkView(name=name, says=MARKS[name], across=str(mark.across), down=str(mark.down))
            for name, mark in marks.items()
        ),
        tapped_across=str(TAPPED_ACROSS),
    )


def _photo_lines(plan: FramePlan, photo: Photo) -> tuple[tuple[str, ...], str]:
    """The proportion of the artwork that the photo implies, or why it implies none."""
    if not are_placed(photo):
        return (UNPLACED,), ""
    try:
        implied = implied_ratio(corners_of(photo), photo_across_px=photo.across, photo_up_px=photo.up)
    except FrameCalcError as error:
        return (), error.sentence
    across_mm, up_mm = plan.fit.across_mm, plan.fit.up_mm
    away_pct = proportion_difference_pct(implied, across_mm=across_mm, up_mm=up_mm)
    told = "told by the corners" if implied.focal_length is FocalLength.FROM_CORNERS else "that of a phone, assumed"
    return (
        (
            f"The photo says {implied.aspect_ratio:.3f} across to 1 up, give or take"
            f" {max(implied.doubt_pct, 0.1):.1f}%. Measured: {across_mm / up_mm:.3f}{_away(away_pct)}.",
            f"The focal length is {told}. Do not crop the photo: its middle must be where the lens looked.",
        ),
        "",
    )


def _away(away_pct: float) -> str:
    """By how much the photo is wider or narrower than what was measured, where a tenth of a per cent shows it.

    >>> _away(-1.26), _away(0.04)
    (': the photo is 1.3% narrower', ', the same')
    """
    if abs(away_pct) < 0.05:
        return ", the same"
    return f": the photo is {abs(away_pct):.1f}% {'wider' if away_pct > 0 else 'narrower'}"


def _findings(plan: FramePlan, photo: Photo) -> tuple[Advice, ...]:
    if not are_placed(photo):
        return ()
    implied = implied_ratio(corners_of(photo), photo_across_px=photo.across, photo_up_px=photo.up)
    found = proportion_findings(implied, across_mm=plan.fit.across_mm, up_mm=plan.fit.up_mm)
    return advise(
        found, step=plan.step, words=plan.project.shop.words, path_of=lambda argument: argument, holds=lambda *_: False
    )
