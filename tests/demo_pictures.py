"""Draws the pictures that the demo projects come with: `python tests/demo_pictures.py`.

A linocut of a coffee cup, a harbour at low tide, and two reliefs lit from the upper left. Each lies on a grey table,
as in a photo; the marks of the demos stand at its corners.
"""

import sys
from collections.abc import Callable
from itertools import pairwise
from math import atan2, cos, exp, hypot, pi, sin
from pathlib import Path

from PIL import Image, ImageDraw, ImageFilter

ROOT = Path(__file__).parents[1]
FOLDER = ROOT / "framecalc" / "demos" / "pictures"
RIM, FINE = 24, 2
"""The table around a picture, in pixels; and how many times finer it is drawn than it is kept."""

Colour = tuple[int, int, int]
INK, PAPER, TABLE = (29, 42, 47), (244, 236, 219), (126, 124, 118)


def linocut() -> Image.Image:
    """A cup on a counter: all that is not ink is cut away."""
    picture = Image.new("RGB", (980 * FINE, 700 * FINE), INK)
    pen = ImageDraw.Draw(picture)
    edge = 26 * FINE
    pen.rectangle((0, 0, picture.width - 1, picture.height - 1), outline=PAPER, width=edge)
    _rays(pen, picture.size)
    _counter(pen, picture.size)
    _cup(pen)
    _steam(pen)
    return picture


def _rays(pen: ImageDraw.ImageDraw, size: tuple[int, int]) -> None:
    """Cuts that run out from behind the cup, shorter toward it."""
    x, y = size[0] / 2, size[1] * 0.47
    for number in range(72):
        angle = 2 * pi * number / 72
        if sin(angle) < 0.28:
            near, far = (300 + 26 * (number % 3)) * FINE, (430 + 44 * (number * 7 % 4)) * FINE
            ends = [(x + cos(angle) * reach, y + sin(angle) * reach * 0.72) for reach in (near, far)]
            pen.line(ends, fill=PAPER, width=(5 + number % 2 * 3) * FINE)


def _counter(pen: ImageDraw.ImageDraw, size: tuple[int, int]) -> None:
    top = 520 * FINE
    pen.rectangle((26 * FINE, top, size[0] - 26 * FINE, size[1] - 26 * FINE), fill=PAPER)
    for number in range(9):
        y = top + (14 + number * 18) * FINE
        shift = (number * 137 % 220) * FINE
        for x in range(40 * FINE + shift % (90 * FINE), size[0] - 190 * FINE, 230 * FINE):
            pen.line([(x, y), (x + 150 * FINE, y + 4 * FINE)], fill=INK, width=5 * FINE)


def _cup(pen: ImageDraw.ImageDraw) -> None:
    at = [value * FINE for value in (490, 300)]
    x, y = at
    pen.ellipse((x - 250 * FINE, y + 196 * FINE, x + 250 * FINE, y + 276 * FINE), fill=INK)
    pen.ellipse((x - 232 * FINE, y + 200 * FINE, x + 232 * FINE, y + 258 * FINE), fill=PAPER)
    pen.ellipse((x + 110 * FINE, y + 10 * FINE, x + 250 * FINE, y + 150 * FINE), outline=PAPER, width=26 * FINE)
    pen.pieslice((x - 170 * FINE, y - 200 * FINE, x + 170 * FINE, y + 226 * FINE), 0, 180, fill=PAPER)
    pen.ellipse((x - 170 * FINE, y - 34 * FINE, x + 170 * FINE, y + 54 * FINE), fill=PAPER)
    pen.ellipse((x - 148 * FINE, y - 18 * FINE, x + 148 * FINE, y + 44 * FINE), fill=INK)
    for number in range(7):
        reach = (150 - number * 8) * FINE
        box = (x - reach, y - 150 * FINE + number * 26 * FINE, x + reach, y + (120 + number * 14) * FINE)
        pen.arc(box, 104, 168 - number * 4, fill=INK, width=5 * FINE)


def _steam(pen: ImageDraw.ImageDraw) -> None:
    for number, x in enumerate((430, 490, 550)):
        line = [
            ((x + 22 * sin(step / 7 + number * 1.3)) * FINE, (262 - step * 4) * FINE)
            for step in range(46 - 6 * (number % 2))
        ]
        pen.line(line, fill=PAPER, width=13 * FINE, joint="curve")


def seascape() -> Image.Image:
    """A harbour at low tide: sky, far shore, a strip of water, wet sand and two boats that lie on it."""
    size = (720 * FINE, 902 * FINE)
    picture = Image.new("RGB", size)
    pen = ImageDraw.Draw(picture)
    _bands(pen, size)
    pen.ellipse([value * FINE for value in (470, 232, 540, 302)], fill=(252, 232, 190))
    _hills(pen, size)
    _ripples(pen, size)
    for x, y, large, lean in ((190, 640, 1.0, -0.16), (500, 560, 0.62, 0.12)):
        _boat(pen, x, y, large, lean)
    return picture.filter(ImageFilter.GaussianBlur(FINE * 0.8))


def _between(one: Colour, other: Colour, part: float) -> Colour:
    red, green, blue = (round(a + (b - a) * part) for a, b in zip(one, other, strict=True))
    return red, green, blue


def _bands(pen: ImageDraw.ImageDraw, size: tuple[int, int]) -> None:
    """Sky, water and sand, each from one colour into another, by strokes that do not quite lie level."""
    stops: list[tuple[float, Colour]] = [
        (0.0, (86, 122, 148)),
        (0.28, (214, 178, 150)),
        (0.44, (246, 214, 160)),
        (0.445, (120, 142, 150)),
        (0.58, (168, 170, 160)),
        (0.60, (150, 124, 96)),
        (1.0, (94, 74, 60)),
    ]
    for y in range(size[1]):
        place = y / size[1] + 0.004 * sin(y / 31)
        (low, one), (high, other) = next(
            (pair for pair in pairwise(stops) if place <= pair[1][0]), (stops[-2], stops[-1])
        )
        part = min(max((place - low) / (high - low), 0.0), 1.0)
        colour = _between(one, other, part)
        pen.line([(0, y), (size[0], y)], fill=colour, width=2)
        pen.line([(0, y), (size[0], y + 9 * sin(y / 17))], fill=colour, width=5)


def _hills(pen: ImageDraw.ImageDraw, size: tuple[int, int]) -> None:
    for base, height, colour in ((0.445, 60, (108, 122, 136)), (0.446, 34, (78, 92, 104))):
        line = [
            (x, base * size[1] - height * FINE * (0.5 + 0.5 * sin(x / size[0] * 7 + height)) * (0.4 + x / size[0]))
            for x in range(0, size[0] + 8, 8)
        ]
        pen.polygon([(0, base * size[1]), *line, (size[0], base * size[1])], fill=colour)


def _ripples(pen: ImageDraw.ImageDraw, size: tuple[int, int]) -> None:
    """Light on the water under the sun, and pools in the sand."""
    for number in range(60):
        y = (0.452 + 0.14 * (number / 60)) * size[1]
        half = (12 + 60 * abs(sin(number * 2.4))) * FINE
        x = 505 * FINE + 30 * FINE * sin(number * 1.7)
        pen.line([(x - half, y), (x + half, y)], fill=(248, 224, 178), width=2 * FINE)
    for number in range(16):
        x, y = (number * 191 % 720) * FINE, (580 + number * 19) * FINE
        half, deep = (40 + number * 6) * FINE, (3 + number // 3) * FINE
        pen.ellipse(
            (x - half, y - deep, x + half, y + deep), fill=_between((198, 178, 150), (120, 110, 104), number / 16)
        )


def _boat(pen: ImageDraw.ImageDraw, x: float, y: float, large: float, lean: float) -> None:
    def at(right: float, up: float) -> tuple[float, float]:
        turned = (right * cos(lean) + up * sin(lean), -right * sin(lean) + up * cos(lean))
        return (x + turned[0] * large) * FINE, (y - turned[1] * large) * FINE

    shadow = [(x - 130 * large, y + 30 * large), (x + 150 * large, y + 62 * large)]
    pen.ellipse([value * FINE for corner in shadow for value in corner], fill=(70, 56, 48))
    pen.polygon([at(-130, 40), at(150, 52), at(112, -40), at(-92, -44)], fill=(38, 58, 72))
    pen.polygon([at(-130, 40), at(150, 52), at(146, 34), at(-126, 22)], fill=(190, 70, 46))
    pen.polygon([at(-40, 44), at(40, 47), at(34, 88), at(-34, 86)], fill=(226, 214, 190))
    pen.line([at(6, 60), at(6, 300)], fill=(52, 42, 36), width=round(7 * large * FINE))
    pen.line([at(6, 290), at(148, 52)], fill=(64, 54, 48), width=round(2 * large * FINE))
    pen.line([at(6, 290), at(-128, 42)], fill=(64, 54, 48), width=round(2 * large * FINE))


def shell(x: float, y: float) -> float:
    """The height of a coiled shell over its ground, for places from −1 to 1."""
    x, y = x * 1.15, (y - 0.05) * 1.15
    away, angle = hypot(x, y), atan2(y, x)
    turn = (angle / (2 * pi) + 2.2 * (max(away, 0.01) ** 0.45)) % 1
    ribs = 0.05 * sin(angle * 22 + away * 9)
    return (0.5 * sin(pi * turn) ** 0.7 + ribs) * (1 / (1 + exp((away - 0.82) * 22)))


def leaves(x: float, y: float) -> float:
    """The height of a spray of leaves along a stem that bends."""
    stem = 0.24 * sin(y * 1.8)
    height = 0.36 * exp(-(((x - stem) / 0.035) ** 2)) * (abs(y) < 0.9)
    for number in range(7):
        base = -0.78 + number * 0.235
        for side in (-1, 1):
            along, beside = side * (x - 0.24 * sin(base * 1.8)) - 0.3, (y - base) + 0.55 * side * (x - stem)
            body = 1 - (along / 0.3) ** 2 - (beside / 0.1) ** 2
            if body > 0:
                height = max(height, 0.42 * body**0.5 - 0.1 * exp(-((beside / 0.012) ** 2)))
    return height


def relief(height: Callable[[float, float], float], size: tuple[int, int]) -> Image.Image:
    """A carved board, lit from the upper left; gouge marks cover its ground."""
    across, up = size
    picture = Image.new("RGB", size)
    wide = max(size) / 2

    def carved(column: int, row: int) -> float:
        x, y = (column - across / 2) / wide, (row - up / 2) / wide
        shape = height(x * max(size) / min(size), y * max(size) / min(size))
        return shape + (0.012 * sin(column / 5.3 + 2 * sin(row / 37)) if shape < 0.04 else 0.0)

    for row in range(up):
        for column in range(across):
            here = carved(column, row)
            slope = (carved(column + 1, row) - here + carved(column, row + 1) - here) * wide * 0.05
            light = min(max(0.62 - slope * 0.35 + here * 0.25, 0.1), 1.0)
            grain = 0.03 * sin(column / 3.1 + 3 * sin(row / 90))
            picture.putpixel((column, row), _between((74, 48, 28), (240, 214, 170), min(max(light + grain, 0), 1)))
    return picture


def pictures() -> dict[str, Image.Image]:
    """Every picture by its name, as drawn."""
    return {
        "linocut": linocut(),
        "seascape": seascape(),
        "leaves": relief(leaves, (520, 720)),
        "shell": relief(shell, (480, 640)),
    }


def photographed(picture: Image.Image, *, longest: int = 980) -> Image.Image:
    """The picture at the size it is kept, on a table."""
    scale = min(1.0, longest / max(picture.size))
    small = picture.resize((round(picture.width * scale), round(picture.height * scale)), Image.Resampling.LANCZOS)
    photo = Image.new("RGB", (small.width + 2 * RIM, small.height + 2 * RIM), TABLE)
    photo.paste(small, (RIM, RIM))
    return photo


def main() -> None:
    """Draw them all."""
    FOLDER.mkdir(exist_ok=True)
    for name, picture in pictures().items():
        file = FOLDER / f"{name}.jpg"
        photographed(picture).save(file, "JPEG", quality=82, optimize=True)
        print(file, Image.open(file).size, file.stat().st_size)


if __name__ == "__main__":
    sys.exit(main())
