"""The photo of a piece set straight, as pages link to it."""

from framecalc.errors import FrameCalcError
from framecalc.geometry.perspective import implied_ratio
from framecalc.plan import FramePlan
from framecalc.project import Photo
from webapp.data.photos import are_placed, corners_of
from webapp.live.addresses import STRAIGHT_PHOTO


def straight_address(project_id: str, photo: Photo, *, aspect_ratio: float) -> str:
    """The address of the straightened picture; it changes with the marks."""
    marks = ",".join(f"{across:.0f},{down:.0f}" for across, down in corners_of(photo))
    address = STRAIGHT_PHOTO(project_id=project_id, photo_id=photo.id)
    return f"{address}?marks={marks}&ratio={aspect_ratio:.5f}"


def photo_of(plan: FramePlan, *, project_id: str) -> str:
    """The address of the photo of a frame's piece, set straight; nothing without one, or where its marks are none."""
    photo = plan.frame.look.photo
    if photo is None:
        return ""
    try:
        if are_placed(photo):
            implied_ratio(corners_of(photo), photo_across_px=photo.across, photo_up_px=photo.up)
    except FrameCalcError:
        return ""
    return straight_address(project_id, photo, aspect_ratio=plan.fit.across_mm / plan.fit.up_mm)
