"""The pen: the one module that writes SVG.

svgwrite makes the page of a drawing, its patterns and its pictures; shapes, lines, letters and fills that run, of which
a drawing has hundreds, are written as they are drawn, in the same form.

It draws on a sheet, in millimetres of that sheet from its upper left corner. Areas lie in the order in which they are
drawn; lines come over them, arrowheads over the lines, and letters on top. All lines of one role become one path, so a
drawing stays small. A drawing in a page carries classes; a saved file carries the same looks as attributes.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from functools import cache, lru_cache
from html import escape
from itertools import pairwise
from math import isfinite
from typing import TYPE_CHECKING

from framecalc.drawing.style import (
    FIGURE_MM,
    LETTER_MM,
    LOOKS,
    PATTERNS,
    RING_MM,
    RINGS_GROUND,
    RINGS_LINE,
    RINGS_MM,
    Hatch,
    Role,
)
from framecalc.geometry.outline import Arc, Outline, Point, sweep_rad

if TYPE_CHECKING:
    import svgwrite

_NO_XML = re.compile("[\0-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")


def number(value: float) -> str:
    """A coordinate to a thousandth of a millimetre, without exponent or trailing zeros.

    Raises:
        ValueError: the value is not finite.

    >>> number(12.3400001), number(-0.0001)
    ('12.34', '0')
    """
    if not isfinite(value):
        raise ValueError(f"{value} cannot be drawn: the sizes behind it describe nothing")
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def clean(text: str) -> str:
    """Text without characters that XML forbids; each becomes a replacement character.

    >>> clean("café" + chr(0))
    'café�'
    """
    return _NO_XML.sub("\ufffd", text)


def escaped(text: str) -> str:
    """Text as it stands between the tags of an SVG.

    >>> escaped("3 < 4 & café" + chr(0))
    '3 &lt; 4 &amp; café�'
    """
    return escape(clean(text), quote=False)


def point_text(point: Point) -> str:
    """A point as path data."""
    return f"{number(point[0])},{number(point[1])}"


def see_through(opacity: float) -> str:
    """An opacity in whole 255ths, as every renderer keeps it.

    >>> see_through(0.5), see_through(1)
    ('0.502', '1')
    """
    return f"{round(opacity * 255) / 255:.4g}"


def run(points: Iterable[Point], *, closed: bool = False) -> str:
    """Path data of a run of straight lines.

    >>> run([(0, 0), (10, 0), (10, 5)], closed=True)
    'M0,0L10,0L10,5Z'
    """
    return "M" + "L".join(point_text(point) for point in points) + ("Z" if closed else "")


def circle(centre: Point, radius_mm: float) -> str:
    """Path data of a circle."""
    radius, across = number(radius_mm), number(2 * radius_mm)
    half = f"a{radius},{radius} 0 1 0"
    return f"M{point_text((centre[0] - radius_mm, centre[1]))}{half} {across},0{half} -{across},0Z"


def outline_path(outline: Outline, *, scale: float, left_mm: float, base_mm: float) -> str:
    """Path data of an outline: its y runs up, the sheet's down, so an arc that turns left sweeps the other way."""

    def place(point: Point) -> str:
        return point_text((left_mm + point[0] * scale, base_mm - point[1] * scale))

    steps = ["M" + place(outline.segments[0].start)]
    for segment in outline.segments:
        steps.append(
            f"{_arc(segment, scale)} {place(segment.end)}" if isinstance(segment, Arc) else "L" + place(segment.end)
        )
    return "".join(steps) + "Z"


def _arc(arc: Arc, scale: float) -> str:
    radius = number(arc.radius_mm * scale)
    large, sweep = int(abs(sweep_rad(arc)) > 3.141593), int(not arc.turns_left)
    return f"A{radius},{radius} 0 {large} {sweep}"


def _ring_stops() -> Iterable[tuple[str, str]]:
    """Each ring darkens toward its end and is soon pale again."""
    period_mm = RINGS_MM[-1]
    for start_mm, end_mm in pairwise(RINGS_MM):
        dark_mm = end_mm - RING_MM
        for at_mm, colour in ((start_mm, RINGS_LINE), (start_mm + RING_MM / 3, RINGS_GROUND), (dark_mm, RINGS_GROUND)):
            yield number(at_mm / period_mm), colour
    yield "1", RINGS_LINE


def _element(name: str, look: Mapping[str, str], *, inner: str = "") -> str:
    """An element as svgwrite writes it: its attributes in the order of their names, without blank ones."""
    said = "".join([f' {key}="{_quoted(look[key])}"' for key in sorted(look) if look[key]])
    return f"<{name}{said}>{inner}</{name}>" if inner else f"<{name}{said} />"


def _quoted(value: str) -> str:
    return escape(value, quote=False).replace('"', "&quot;") if _UNQUOTED.search(value) else value


_UNQUOTED = re.compile('[&<>"]')


def _svg() -> "svgwrite.Drawing":
    """A page, which makes elements too; svgwrite is imported when the first is asked for."""
    import svgwrite

    return svgwrite.Drawing(debug=False)


@lru_cache(maxsize=256)
def _page(name: str, across_mm: float, up_mm: float) -> str:
    """How a drawing begins: one in a page has the name of its looks, a saved one its size."""
    page = _svg()
    page["viewBox"], page["role"] = f"0 0 {number(across_mm)} {number(up_mm)}", "img"
    page["width"], page["height"] = (None, None) if name else (f"{number(across_mm)}mm", f"{number(up_mm)}mm")
    page["class"] = f"drawing {name}" if name else None
    begin, _, _ = page.tostring().partition("<defs")
    return str(begin)


@lru_cache(maxsize=256)
def _tile(hatch: Hatch, name: str) -> str:
    """The pattern of a material."""
    pattern = PATTERNS[hatch]
    extra = {"patternTransform": f"rotate({pattern.turned_deg:g})"} if pattern.turned_deg else {}
    size = (number(pattern.across_mm), number(pattern.up_mm))
    svg = _svg()
    tile = svg.pattern(insert=(0, 0), size=size, id=name, patternUnits="userSpaceOnUse", **extra)
    tile.add(svg.rect((0, 0), size, fill=pattern.ground))
    tile.add(svg.path(d=pattern.path, fill="none", stroke=pattern.stroke, stroke_width=pattern.width_mm))
    return str(tile.tostring())


def _named(name: str) -> dict[str, str]:
    """What every fill that runs has: its name, and that it is measured on the sheet."""
    return {"id": name, "gradientUnits": "userSpaceOnUse"}


def _stops(stops: Iterable[tuple[float, str, float]]) -> str:
    """Stops of a fill that runs: how far on, colour, opacity."""
    looks = (
        {"offset": number(offset), "stop-color": colour, "stop-opacity": see_through(opacity)}
        for offset, colour, opacity in stops
    )
    return "".join(_element("stop", look) for look in looks)


@cache
def _rings() -> str:
    """The stops of wood cut across."""
    return "".join(_element("stop", {"offset": at, "stop-color": colour}) for at, colour in _ring_stops())


class Pen:
    """Draws one drawing on one sheet."""

    def __init__(self, *, name: str, across_mm: float, up_mm: float, title: str, inline: bool) -> None:
        self.name = name
        self.figure_mm = LETTER_MM if inline else FIGURE_MM
        self._inline = inline
        self._begin, self._title = _page(name if inline else "", across_mm, up_mm), title
        self._defs: list[str] = []
        self._lines: dict[Role, list[str]] = {}
        self._letters: list[str] = []
        self._hatches: set[Hatch] = set()
        self._names = 0
        self._drawn: list[str] = []

    def area(self, path: str, role: Role, *, fill: str = "", clip: str = "") -> None:
        """Draw a shape in the order of calls; `fill` is for roles without their own, `clip` cuts the shape off."""
        extra = {"fill": fill} if fill else {}
        if clip:
            extra["clip-path"] = clip
        self._drawn.append(_element("path", self._look(role) | extra | {"d": path}))

    def tint(self, path: str, fill: str, *, opacity: float = 1, even_odd: bool = False) -> None:
        """Draw a shape in a colour, or with a fade, in the order of calls."""
        extra = {"fill-opacity": see_through(opacity)} if opacity < 1 else {}
        if even_odd:
            extra["fill-rule"] = "evenodd"
        self._drawn.append(_element("path", extra | {"d": path, "fill": fill}))

    def stroke(self, path: str, colour: str, *, wide: float, opacity: float = 1, dash: Sequence[float] = ()) -> None:
        """Draw a line in a colour, in the order of calls; its width and dashes in the units it is drawn in."""
        look = {"d": path, "fill": "none", "stroke": colour, "stroke-width": number(wide)}
        if opacity < 1:
            look["stroke-opacity"] = see_through(opacity)
        if dash:
            look["stroke-dasharray"] = " ".join(map(number, dash))
        self._drawn.append(_element("path", look))

    def fade(self, start: Point, end: Point, stops: Iterable[tuple[float, str, float]]) -> str:
        """The fill that runs from a place to another through stops: how far on, colour, opacity."""
        name = self._new_name("fade")
        (x1, y1), (x2, y2) = start, end
        look = {"x1": number(x1), "y1": number(y1), "x2": number(x2), "y2": number(y2)}
        self._defs.append(_element("linearGradient", look | _named(name), inner=_stops(stops)))
        return f"url(#{name})"

    def glow(self, centre: Point, radius: float, stops: Iterable[tuple[float, str, float]]) -> str:
        """The fill that runs from a place outward through stops: how far out, colour, opacity."""
        name = self._new_name("glow")
        look = {"cx": number(centre[0]), "cy": number(centre[1]), "r": number(radius)}
        self._defs.append(_element("radialGradient", look | _named(name), inner=_stops(stops)))
        return f"url(#{name})"

    @contextmanager
    def within(self, *, clip: str = "", matrix: Sequence[float] = ()) -> Iterator[None]:
        """Draw into a group that a shape clips and that a matrix lays on the sheet; the clip is in its own units."""
        look = {"clip-path": clip}
        if matrix:
            look["transform"] = f"matrix({' '.join(f'{part:.6g}' for part in matrix)})"
        around, self._drawn = self._drawn, []
        yield
        around.append(_element("g", look, inner="".join(self._drawn)))
        self._drawn = around

    def hatch(self, hatch: Hatch) -> str:
        """The fill of a material."""
        name = f"{self.name}-{hatch}"
        if hatch not in self._hatches:
            self._hatches.add(hatch)
            self._defs.append(_tile(hatch, name))
        return f"url(#{name})"

    def rings(self, heart: Point) -> str:
        """The fill of wood cut across, with year rings around a heart; once in a drawing."""
        name, (x, y) = f"{self.name}-rings", heart
        look = {"cx": number(x), "cy": number(y), "r": number(RINGS_MM[-1]), "spreadMethod": "repeat"}
        self._defs.append(_element("radialGradient", look | _named(name), inner=_rings()))
        return f"url(#{name})"

    def clip(self, path: str) -> str:
        """Define a shape that clips later ones; returns the value for `clip`."""
        name = self._new_name("clip")
        self._defs.append(_element("clipPath", {"id": name}, inner=_element("path", {"d": path})))
        return f"url(#{name})"

    def picture(self, href: str, upper_left: Point, lower_right: Point, *, clip: str) -> None:
        """Stretch a picture over an upright rectangle, in the order of calls; `clip` cuts it off."""
        (left, top), (right, bottom) = upper_left, lower_right
        size = (number(right - left), number(bottom - top))
        picture = _svg().image(href, insert=(number(left), number(top)), size=size)
        picture["preserveAspectRatio"], picture["clip-path"] = "none", clip
        self._drawn.append(picture.tostring())

    def line(self, path: str, role: Role) -> None:
        """Draw a line over the areas; all lines of a role become one path."""
        self._lines.setdefault(role, []).append(path)

    def lay_lines(self) -> None:
        """Draw the lines up to now: areas drawn from here on hide them."""
        for role in Role:
            if role in self._lines:
                self._drawn.append(_element("path", self._look(role) | {"d": "".join(self._lines.pop(role))}))

    def text(
        self,
        text: str,
        at: Point,
        *,
        role: Role = Role.LETTER,
        anchor: str = "start",
        turned_deg: float = 0,
        figure: str = "",
        large: str = "",
    ) -> None:
        """Write on top of everything; `at` is on the base line, `figure` names the size that it states.

        `large` is the part of the text that is written as large as figures are on this sheet.
        """
        look = self._look(role) | {"x": number(at[0]), "y": number(at[1])}
        if anchor != "start":
            look["text-anchor"] = anchor
        if turned_deg:
            look["transform"] = f"rotate({number(turned_deg)} {point_text(at).replace(',', ' ')})"
        if figure:
            look["data-figure"] = figure
        before, large, after = text.partition(large) if large and self.figure_mm > LETTER_MM else (text, "", "")
        letters = escaped(before)
        if large:
            look["xml:space"] = "preserve"
            letters += _element("tspan", {"font-size": number(self.figure_mm)}, inner=escaped(large))
            letters += _element("tspan", {}, inner=escaped(after))
        self._letters.append(_element("text", look, inner=letters))

    def svg(self) -> str:
        """The drawing as text."""
        self.lay_lines()
        title = _element("title", {}, inner=escaped(self._title))
        defs = _element("defs", {}, inner="".join(self._defs))
        return "".join((self._begin, title, defs, *self._drawn, *self._letters, "</svg>"))

    def _new_name(self, kind: str) -> str:
        self._names += 1
        return f"{self.name}-{kind}-{self._names}"

    def _look(self, role: Role) -> dict[str, str]:
        return {"class": role.value} if self._inline else LOOKS[role].attributes()


def rectangle(left_mm: float, top_mm: float, right_mm: float, bottom_mm: float) -> str:
    """Path data of an upright rectangle."""
    return f"M{number(left_mm)},{number(top_mm)}H{number(right_mm)}V{number(bottom_mm)}H{number(left_mm)}Z"
