"""The style of drawings: one table of roles gives the page's stylesheet and the attributes of a saved file.

A *role* says what a mark means: an outline seen, an edge hidden, a dimension, a letter. A *look* is how it is drawn, in
millimetres of the sheet: after ISO 128 two widths of line, 2 to 1, and after ISO 3098 letters of one height, and on a
paper larger figures. The border of a paper is thinner than what is drawn on it. A *hatch*
is the pattern that tells one material from another. `stylesheet.py` writes it out for pages.
"""

from enum import StrEnum

from framecalc.records import Record

THICK_MM, THIN_MM = 0.5, 0.25
"""Line widths of the 0.5 mm group. Source: ISO 128-2:2020, from memory, not re-read."""

LETTER_MM = 3.5
"""Type size of lettering: capitals of 2.5 mm. Source: ISO 3098-1:2015 (h = 2.5), from memory, not re-read."""

FIGURE_MM = 4.9
"""Type size of the sizes on a paper: figures of 3.5 mm. Source: ISO 3098-1:2015 (h = 3.5), from memory, not re-read."""

CAPITAL_RATIO = 0.72
"""Height of capitals and figures to the type size, of the widest of the faces below (measured on DejaVu Sans)."""

FONTS = "Arial, 'Liberation Sans', Roboto, Helvetica, sans-serif"
PAGE_FONT = "Inter"
"""The font that pages bring along, in `static/fonts.css`; a saved file makes do with the faces above."""

INK, FAINT_INK, ACCENT, ALARM = "#1d2a2f", "#435055", "#0b5c8a", "#a3211b"


class Role(StrEnum):
    """The meaning of a mark on a drawing; lines are drawn in this order."""

    WOOD = "wood"
    COVERED = "covered"
    MAT = "mat"
    PICTURE = "picture"
    SHADOW = "shadow"
    LAYER = "layer"
    THIN = "thin"
    MEMBER = "member"
    METAL = "metal"
    TAG = "tag"
    GIVEN_AREA = "given-area"
    GRAIN = "grain"
    DIAGONAL = "diagonal"
    DEFECT = "defect"
    HIDDEN = "hidden"
    EDGE = "edge"
    OUTLINE = "outline"
    MITRE = "mitre"
    BREAK = "break"
    LEADER = "leader"
    DIMENSION = "dimension"
    ARROW = "arrow"
    FRAME = "frame"
    BAR = "bar"
    GIVEN = "given"
    TROUBLE = "trouble"
    GIVEN_ARROW = "given-arrow"
    LETTER = "letter"
    STRONG = "strong"
    FAINT = "faint"
    GIVEN_LETTER = "given-letter"


class RoleLook(Record):
    """The look of a role: colours, width and dashes of the line [mm of the sheet], and letters."""

    stroke: str = "none"
    width_mm: float = 0
    dash_mm: tuple[float, ...] = ()
    fill: str | None = "none"
    round: bool = False
    letter: bool = False
    bold: bool = False

    def attributes(self) -> dict[str, str]:
        """The look as SVG presentation attributes."""
        return {**self._line(), **self._area(), **self._letters()}

    def _line(self) -> dict[str, str]:
        if self.stroke == "none":
            return {}
        line = {"stroke": self.stroke, "stroke-width": f"{self.width_mm:g}"}
        if self.dash_mm:
            line["stroke-dasharray"] = " ".join(f"{length_mm:g}" for length_mm in self.dash_mm)
        if self.round:
            line |= {"stroke-linejoin": "round", "stroke-linecap": "round"}
        return line

    def _area(self) -> dict[str, str]:
        return {"fill": self.fill} if self.fill else {}

    def _letters(self) -> dict[str, str]:
        if not self.letter:
            return {}
        weight = {"font-weight": "700"} if self.bold else {}
        return {"font-family": FONTS, "font-size": f"{LETTER_MM:g}"} | weight


LOOKS = {
    Role.OUTLINE: RoleLook(stroke=INK, width_mm=THICK_MM, round=True),
    Role.EDGE: RoleLook(stroke=INK, width_mm=THIN_MM, round=True),
    Role.HIDDEN: RoleLook(stroke=INK, width_mm=THIN_MM, dash_mm=(1.6, 0.8)),
    Role.DIMENSION: RoleLook(stroke=INK, width_mm=THIN_MM),
    Role.ARROW: RoleLook(fill=INK),
    Role.LEADER: RoleLook(stroke=INK, width_mm=THIN_MM),
    Role.BREAK: RoleLook(stroke=INK, width_mm=THIN_MM, round=True),
    Role.MITRE: RoleLook(stroke=ACCENT, width_mm=THICK_MM, round=True),
    Role.LAYER: RoleLook(stroke=INK, width_mm=THIN_MM, fill=None),
    Role.THIN: RoleLook(fill=None),
    Role.MEMBER: RoleLook(fill=None),
    Role.GRAIN: RoleLook(stroke="#b08850", width_mm=0.18, round=True),
    Role.WOOD: RoleLook(fill="#e3c499"),
    Role.METAL: RoleLook(fill="#b4bdc0"),
    Role.COVERED: RoleLook(fill="#c9a26c"),
    Role.MAT: RoleLook(fill="#fbf6e9"),
    Role.PICTURE: RoleLook(fill="#d5e3e4"),
    Role.DIAGONAL: RoleLook(stroke="#7d9094", width_mm=0.18),
    Role.DEFECT: RoleLook(stroke=ALARM, width_mm=THIN_MM),
    Role.SHADOW: RoleLook(fill="#b9b2a3"),
    Role.TAG: RoleLook(stroke=INK, width_mm=THIN_MM, fill="#ffffff"),
    Role.FRAME: RoleLook(stroke=INK, width_mm=0.35),
    Role.BAR: RoleLook(fill=INK),
    Role.LETTER: RoleLook(fill=INK, letter=True),
    Role.STRONG: RoleLook(fill=INK, letter=True, bold=True),
    Role.FAINT: RoleLook(fill=FAINT_INK, letter=True),
    Role.GIVEN: RoleLook(stroke=ACCENT, width_mm=0.4),
    Role.TROUBLE: RoleLook(stroke=ALARM, width_mm=0.6, round=True),
    Role.GIVEN_ARROW: RoleLook(fill=ACCENT),
    Role.GIVEN_LETTER: RoleLook(fill=ACCENT, letter=True, bold=True),
    Role.GIVEN_AREA: RoleLook(fill="#bcd8e6"),
}
"""The look of every role. Areas are pale enough for ink to stand on at more than 7 to 1."""


class Hatch(StrEnum):
    """The materials of a package that a section distinguishes."""

    GLAZING = "glazing"
    MAT = "mat-board"
    SPACER = "spacer"
    ARTWORK = "artwork"
    BACKING = "backing"
    BACK = "back"
    FILLET = "fillet"
    PAPER = "paper"


class Pattern(Record):
    """One hatch: its ground, the lines of one tile as path data, the tile's size and angle [mm of the sheet]."""

    ground: str
    stroke: str
    path: str
    across_mm: float
    up_mm: float
    turned_deg: float = 0
    width_mm: float = 0.18
    solid: str = ""


PATTERNS = {
    Hatch.GLAZING: Pattern(
        ground="#d9ecf2",
        stroke="#5f94a8",
        path="M0,0V1.6M0.9,0.6V1.6",
        across_mm=5,
        up_mm=3,
        turned_deg=45,
        solid="#8fbccb",
    ),
    Hatch.MAT: Pattern(
        ground="#fbf4e2", stroke="#a89a78", path="M0,0V1", across_mm=1.1, up_mm=1, turned_deg=-45, solid="#e6d9b8"
    ),
    Hatch.SPACER: Pattern(
        ground="#ffffff", stroke="#6d787b", path="M0,0L2.4,2.4M0,2.4L2.4,0", across_mm=2.4, up_mm=2.4, solid="#c3c9ca"
    ),
    Hatch.ARTWORK: Pattern(
        ground="#cfe0d9", stroke="#4f7a6a", path="M0,0.4H1.6M2.2,0.4H2.8", across_mm=3.2, up_mm=0.9, solid="#2d5a4b"
    ),
    Hatch.BACKING: Pattern(
        ground="#ead9bb", stroke="#94784a", path="M0,0V1", across_mm=1.5, up_mm=1, turned_deg=45, solid="#d3b88a"
    ),
    Hatch.BACK: Pattern(
        ground="#d8c7ae", stroke="#6f5a3c", path="M0,0V1", across_mm=2.1, up_mm=1, turned_deg=-30, solid="#a98f6b"
    ),
    Hatch.FILLET: Pattern(
        ground="#eccf9a", stroke="#8a6420", path="M0,0.5H1.4", across_mm=1.4, up_mm=1.3, turned_deg=20, solid="#c99b4a"
    ),
    Hatch.PAPER: Pattern(
        ground="#e9e4da", stroke="#8b8577", path="M0,0.3H0.6", across_mm=1.2, up_mm=0.6, solid="#9c9483"
    ),
}
"""Touching layers differ in angle and in spacing, so that they are told apart in grey too; `solid` fills thin ones."""

HEART_MM = 26.0
"""How far under the section the heart of its tree lies, on the sheet."""

RINGS_GROUND, RINGS_LINE = "#f2dfbb", "#b98d52"
RINGS_MM = (0.0, 1.5, 2.7, 4.5, 5.7, 7.4)
"""The hatch of wood cut across: where year rings end in one period around the heart; the last is the period."""

RING_MM = 0.34
"""How wide a ring's dark late wood is drawn."""
