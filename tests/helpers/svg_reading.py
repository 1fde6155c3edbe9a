"""Reads a drawing back: its texts with the room they take, and its lines as points, in millimetres of the sheet."""

import csv
import re
import xml.etree.ElementTree as ET
from dataclasses import dataclass
from functools import cache, cached_property
from itertools import islice, pairwise
from math import cos, radians, sin
from pathlib import Path

import framecalc
from framecalc.drawing.style import LOOKS, Role

LETTER_MM = 3.5
"""Type size of the lettering, as the style guide states it; `test_style` holds the table to it."""

ASCENT_EM, DESCENT_EM = 0.74, 0.2
"""Room of a letter up and down; across it is that of the widest face in the table of letter widths."""

Point = tuple[float, float]


@dataclass(frozen=True)
class Text:
    """A text on the sheet: its letters, the size that it states, and the upright box around it."""

    text: str
    figure: str
    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: "Text", *, slack_mm: float = 0.1) -> bool:
        """Whether the boxes share more than a sliver."""
        across = min(self.right, other.right) - max(self.left, other.left)
        up = min(self.bottom, other.bottom) - max(self.top, other.top)
        return across > slack_mm and up > slack_mm

    def is_crossed_by(self, start: Point, end: Point) -> bool:
        """Whether a straight line enters the box (Liang and Barsky's clipping, from memory)."""
        near, far = 0.0, 1.0
        for axis, (least, most) in enumerate(((self.left, self.right), (self.top, self.bottom))):
            way = end[axis] - start[axis]
            if way == 0:
                if not least < start[axis] < most:
                    return False
                continue
            first, last = sorted(((least - start[axis]) / way, (most - start[axis]) / way))
            near, far = max(near, first), min(far, last)
        return near < far


class Drawn:
    """One SVG drawing, read back."""

    def __init__(self, svg: str) -> None:
        self.root = ET.fromstring(svg)
        self.across_mm, self.up_mm = (float(part) for part in self.root.attrib["viewBox"].split()[2:])
        self.runs = cache(self._runs)
        self.segments = cache(self._segments)

    def elements(self, name: str) -> list[ET.Element]:
        """All elements of a name."""
        return [element for element in self.root.iter() if element.tag.endswith("}" + name)]

    @property
    def title(self) -> str:
        """The title of the drawing."""
        return self.elements("title")[0].text or ""

    @cached_property
    def texts(self) -> list[Text]:
        """Every text."""
        return [_text(element) for element in self.elements("text")]

    def figures(self) -> dict[str, list[str]]:
        """The texts that state a size, by the size's name."""
        found: dict[str, list[str]] = {}
        for text in self.texts:
            if text.figure:
                found.setdefault(text.figure, []).append(text.text)
        return found

    def _runs(self, role: str) -> list[list[Point]]:
        """The corner points of every run of lines of a role, not of patterns, clips, or turned or clipped groups.

        In a page a role is a class; in a file it is known by its looks, which some roles share.
        """
        looks = LOOKS[Role(role)].attributes().items()
        known = (
            (path.get("class") == role or (looks and looks <= path.attrib.items()), runs) for path, runs in self._paths
        )
        return [run for is_of_role, runs in known if is_of_role for run in runs]

    @cached_property
    def _paths(self) -> list[tuple[ET.Element, list[list[Point]]]]:
        """Every path that is drawn, with its runs."""
        turned = [group for group in self.elements("g") if "transform" in group.attrib or "clip-path" in group.attrib]
        apart = {id(path) for part in (*self.elements("defs"), *turned) for path in part.iter()}
        paths = (path for path in self.elements("path") if id(path) not in apart and "clip-path" not in path.attrib)
        return [(path, path_runs(path.attrib["d"])) for path in paths]

    def _segments(self, role: str) -> list[tuple[Point, Point]]:
        """The straight pieces of every run of a role."""
        return [piece for run in self.runs(role) for piece in pairwise(run)]

    def all_points(self) -> list[Point]:
        """Every point of every path that is drawn."""
        return [point for _, runs in self._paths for run in runs for point in run]


_TOKEN = re.compile(r"[MLHVCQAZmqa]|-?\d+(?:\.\d+)?")
_NUMBERS = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "Q": 4, "A": 7, "q": 4, "a": 7, "Z": 0}


def path_runs(data: str) -> list[list[Point]]:
    """Path data as runs of the points it goes through; of a curve, its end."""
    tokens, runs, command, place = iter(_TOKEN.findall(data)), [], "", (0.0, 0.0)
    for token in tokens:
        if token in _NUMBERS:
            command = token
        read = () if token in _NUMBERS else (token,)
        values = [float(number) for number in (*read, *islice(tokens, _NUMBERS[command] - len(read)))]
        if command == "Z":
            runs[-1].append(runs[-1][0])
            continue
        place = _next_place(command, values, place)
        if command == "M":
            runs.append([])
            command = "L"
        runs[-1].append(place)
    return runs


def _next_place(command: str, values: list[float], place: Point) -> Point:
    if command == "H":
        return values[0], place[1]
    if command == "V":
        return place[0], values[0]
    start = place if command.islower() else (0.0, 0.0)
    return start[0] + values[-2], start[1] + values[-1]


def _text(element: ET.Element) -> Text:
    parts = [(element.text or "", LETTER_MM)]
    parts += [(part.text or "", float(part.get("font-size", LETTER_MM))) for part in element]
    text, size = "".join(part for part, _ in parts), max(size for _, size in parts)
    x, y = float(element.attrib["x"]), float(element.attrib["y"])
    across = sum(across_em(part, bold=_is_bold(element)) * size for part, size in parts)
    left = -{"start": 0.0, "middle": 0.5, "end": 1.0}[element.get("text-anchor", "start")] * across
    turned = re.match(r"rotate\((-?[\d.]+) ", element.get("transform", ""))
    corners = [
        _turned((left + right, down), float(turned[1]) if turned else 0.0)
        for right in (0, across)
        for down in (-ASCENT_EM * size, DESCENT_EM * LETTER_MM)
    ]
    return Text(
        text=text,
        figure=element.get("data-figure", ""),
        left=x + min(corner[0] for corner in corners),
        top=y + min(corner[1] for corner in corners),
        right=x + max(corner[0] for corner in corners),
        bottom=y + max(corner[1] for corner in corners),
    )


def across_em(text: str, *, bold: bool = False) -> float:
    """The width of a text in the type size: every letter as in that face in which it is widest."""
    return sum(_widths(bold=bold).get(letter, 1.0) for letter in text)


@cache
def _widths(*, bold: bool) -> dict[str, float]:
    with (Path(framecalc.__file__).parent / "tables/letter_widths.csv").open(encoding="utf-8", newline="") as table:
        rows = [(chr(int(row.pop("code"), 16)), row) for row in csv.DictReader(table)]
    faces = [face for face in rows[0][1] if face.endswith(" bold") is bold]
    return {letter: max(int(row[face] or 0) for face in faces) / 1000 for letter, row in rows}


def _is_bold(element: ET.Element) -> bool:
    roles = [role for role, look in LOOKS.items() if look.bold]
    return element.get("class") in roles or element.get("font-weight") == "700"


def _turned(point: Point, angle_deg: float) -> Point:
    angle = radians(angle_deg)
    return point[0] * cos(angle) - point[1] * sin(angle), point[0] * sin(angle) + point[1] * cos(angle)
