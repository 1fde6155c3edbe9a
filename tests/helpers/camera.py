"""A pinhole camera of our own before a plane with a sheet and an artwork: nothing of the code under test.

Photos have 4000 × 3000 pixels; a radial term bends lines.
"""

import io
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from PIL import ExifTags, Image, ImageDraw

from framecalc.artwork.photo_sizes import Camera, PhotoMarks
from framecalc.geometry.perspective import Corners
from framecalc.records import replace

ACROSS_PX, UP_PX = 4000, 3000
CAMERA = Camera(photo_across_px=ACROSS_PX, photo_up_px=UP_PX)
Points = npt.NDArray[np.float64]
SPANS = {
    "across_top": (0, 1),
    "across_bottom": (3, 2),
    "up_left": (0, 3),
    "up_right": (1, 2),
    "diagonal_rising": (3, 1),
    "diagonal_falling": (0, 2),
}


@dataclass(frozen=True, kw_only=True)
class Scene:
    """A sheet and an artwork on a plane [mm], and the camera: where it stands and how long its lens is."""

    sheet: Points
    artwork: Points
    turn: Points
    at: Points
    focal_px: float
    bend: float = 0.0
    away_mm: float = 0.0

    def seen(self, places: Points, *, away_mm: float = 0.0) -> Points:
        """Where places of the plane, or of one in front of it, lie in the photo [pixels]."""
        flat = np.c_[places, np.full(len(places), -away_mm)] @ self.turn.T + self.at
        x, y = (self.focal_px * flat[:, axis] / flat[:, 2] for axis in (0, 1))
        out = 1 + self.bend * (x * x + y * y) / (ACROSS_PX**2 + UP_PX**2) * 4
        return np.c_[x * out + ACROSS_PX / 2, y * out + UP_PX / 2]

    @property
    def pixels(self) -> Points:
        """The eight corners in the photo."""
        return np.vstack([self.seen(self.sheet), self.seen(self.artwork, away_mm=self.away_mm)])

    @property
    def truths(self) -> dict[str, float]:
        """The six sizes of the artwork."""
        return {name: float(np.hypot(*(self.artwork[i] - self.artwork[j]))) for name, (i, j) in SPANS.items()}

    @property
    def height_mm(self) -> float:
        """The distance of the camera from the plane."""
        return float(abs(self.turn[:, 2] @ self.at))

    def drawn(self, *, ground: int = 90, sheet: int = 235, artwork: int = 40) -> Image.Image:
        """The photo: the plane, the sheet, the artwork, each in one grey; edges between pixels are smooth."""
        image = Image.new("L", (ACROSS_PX * 2, UP_PX * 2), ground)
        pen = ImageDraw.Draw(image)
        for corners, grey, away in ((self.sheet, sheet, 0.0), (self.artwork, artwork, self.away_mm)):
            along = np.linspace(0, 1, 40)[:, None]
            ring = [a + along * (b - a) for a, b in zip(corners, np.roll(corners, -1, axis=0), strict=True)]
            outline = self.seen(np.vstack(ring), away_mm=away) * 2
            pen.polygon([(float(x), float(y)) for x, y in outline], fill=grey)
        return image.reduce(2)


def photo_of(scene: Scene, *, across_px: int = 1600) -> bytes:
    """A photo of a scene as a phone would send it, smaller, with the lens that the scene has."""
    image = scene.drawn().convert("RGB").resize((across_px, across_px * UP_PX // ACROSS_PX), Image.Resampling.BOX)
    exif, written = Image.Exif(), io.BytesIO()
    film_mm = 43.27 * scene.focal_px / float(np.hypot(ACROSS_PX, UP_PX))
    exif.get_ifd(ExifTags.IFD.Exif)[ExifTags.Base.FocalLengthIn35mmFilm] = round(film_mm)
    image.save(written, "JPEG", quality=92, exif=exif)
    return written.getvalue()


def marks_at(pixels: Points, *, off_px: float) -> PhotoMarks:
    """Eight marks, all equally far off."""
    x = [(float(across), float(down)) for across, down in pixels]
    sheet: Corners = (x[0], x[1], x[2], x[3])
    artwork: Corners = (x[4], x[5], x[6], x[7])
    four = (off_px, off_px, off_px, off_px)
    return PhotoMarks(sheet=sheet, artwork=artwork, sheet_off_px=four, artwork_off_px=four)


def random_scene(rng: np.random.Generator) -> Scene:
    """An artwork of 150 to 500 mm, out of square by millimetres, an A4 sheet beside or below it, and a camera.

    It is held up to 20° aside in both directions, from as near as shows both.
    """
    while True:
        scene = _tried(rng)
        inside = (scene.pixels > 10).all() and (scene.pixels < [ACROSS_PX - 10, UP_PX - 10]).all()
        if inside:
            return scene


def _tried(rng: np.random.Generator) -> Scene:
    across, up = rng.uniform(150, 500, 2)
    artwork = _box(across, up) + rng.normal(0, 2, (4, 2))
    size = (297, 210) if rng.random() < 0.5 else (210, 297)
    lean = rng.uniform(-0.1, 0.1)
    sheet = _box(*size) @ np.array([[np.cos(lean), np.sin(lean)], [-np.sin(lean), np.cos(lean)]])
    gap = rng.uniform(40, 80)
    sheet = sheet + ([across + gap, 0] if rng.random() < 0.5 else [0, up + gap])
    middle = (np.vstack([sheet, artwork]).max(0) + np.vstack([sheet, artwork]).min(0)) / 2
    spread = np.ptp(np.vstack([sheet, artwork]), axis=0)
    focal_px = float(rng.uniform(0.5, 1.3) * np.hypot(ACROSS_PX, UP_PX))
    away = focal_px * max(spread[0] / ACROSS_PX, spread[1] / UP_PX) * rng.uniform(1.05, 1.35)
    return Scene(
        sheet=sheet - middle,
        artwork=artwork - middle,
        turn=turned(*rng.uniform(-0.35, 0.35, 2), rng.uniform(-0.15, 0.15)),
        at=np.array([*(rng.uniform(-0.03, 0.03, 2) * away), away]),
        focal_px=focal_px,
    )


def plain_scene(*, bend: float = 0.0, away_mm: float = 0.0, tilt_rad: float = 0.15) -> Scene:
    """A print of 400 × 300 mm with an A4 sheet at its right, seen from about 900 mm by a phone."""
    focal_px = 0.65 * float(np.hypot(ACROSS_PX, UP_PX))
    scene = Scene(
        sheet=_box(210, 297) + np.array([90, -148.5]),
        artwork=_box(400, 300) + np.array([-340, -150]),
        turn=turned(tilt_rad, -tilt_rad / 2, 0.03),
        at=np.array([0.0, 0.0, 900.0]),
        focal_px=focal_px,
    )
    return replace(scene, bend=bend, away_mm=away_mm)


def turned(about_x: float, about_y: float, about_z: float) -> Points:
    """The rotation of the plane before the camera [rad]."""
    (ca, sa), (cb, sb), (cc, sc) = ((np.cos(angle), np.sin(angle)) for angle in (about_x, about_y, about_z))
    x = np.array([[1, 0, 0], [0, ca, -sa], [0, sa, ca]])
    y = np.array([[cb, 0, sb], [0, 1, 0], [-sb, 0, cb]])
    z = np.array([[cc, -sc, 0], [sc, cc, 0], [0, 0, 1]])
    return np.asarray(z @ y @ x, dtype=np.float64)


def _box(across: float, up: float) -> Points:
    return np.array([[0, 0], [across, 0], [across, up], [0, up]], dtype=np.float64)
