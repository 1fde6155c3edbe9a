"""The form's table: every field of the setting-out page, its label, its choices, and the sentence that explains it.

A field's *path* is its path in the project file, without `frames.<id>.` where it belongs to a frame. Words are ours and
are turned into the shop's trade words where they are shown.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import Any

from framecalc.artwork.measuring import ArtworkKind
from framecalc.package.layers import LayerKind
from framecalc.section.profile import EdgeShape, FaceShape
from framecalc.tables.reading import stock_sizes


class Control(StrEnum):
    """How a field is filled, and so how its text becomes a value of the file."""

    LENGTH = "length"
    CHOICE = "choice"
    YES_NO = "yes or no"
    COUNT = "count"
    NUMBER = "number"
    WEIGHT = "weight"
    MONEY = "money"
    DAY = "day"
    COLOUR = "colour"
    WORDS = "words"


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One field. `choices` are pairs of a value of the file and what is shown for it; `drawing` shows its effect.

    A number with a `unit` may be typed in another one too, where there is a usual other: see `forms.OTHER_UNITS`.
    """

    path: str
    label: str
    control: Control = Control.LENGTH
    explain: str = ""
    optional: bool = False
    choices: tuple[tuple[str, str], ...] = ()
    drawing: str = "front"
    where: str = ""
    unit: str = ""

    @property
    def is_length(self) -> bool:
        """Whether a length is typed here."""
        return self.control is Control.LENGTH


def _named(values: Iterable[str]) -> tuple[tuple[str, str], ...]:
    return tuple((value, value[:1].upper() + value[1:]) for value in values)


def _length(path: str, label: str, explain: str, *, drawing: str = "front", optional: bool = False) -> Field:
    return Field(path=path, label=label, explain=explain, drawing=drawing, optional=optional, where=path)


def _choice(path: str, label: str, choices: tuple[tuple[str, str], ...], explain: str = "", **more: Any) -> Field:
    return Field(path=path, label=label, control=Control.CHOICE, choices=choices, explain=explain, **more)


STARTS = (
    ("artwork", "Artwork"),
    ("wall", "Wall space"),
    ("stock", "Stock size"),
    ("stick", "One stick"),
)
STICK_SOLVES = (("face width", "the face width"), ("picture", "the scale of the picture"))
SECTION_KINDS = (("rabbet", "Rabbet"), ("tray", "Tray"))
LEDGES = (("solid", "Milled with the wall"), ("strip", "A strip of its own"))
TURNED = (("no", "As named"), ("yes", "Turned"))
FACES = _named(FaceShape)
EDGES = _named(EdgeShape)
LAYER_KINDS = _named(LayerKind)


def _stocks() -> tuple[tuple[str, str], ...]:
    return (("", "Choose a size"), *((size.name, size.name) for size in stock_sizes()))


FRAME_FIELDS = (
    Field(path="name", label="Name of this frame", control=Control.WORDS),
    Field(path="count", label="How many", control=Control.COUNT, drawing="members"),
    Field(path="species", label="Wood", control=Control.WORDS, optional=True),
    _choice(
        "artwork.kind",
        "Kind",
        _named(ArtworkKind),
        "What it is decides the usual clearance and what should touch what.",
    ),
    _length("artwork.across", "Across", "Measure the piece itself, edge to edge, along its top."),
    _length(
        "artwork.across_bottom",
        "Across, bottom",
        "Measure along the bottom too: paper and stretchers are seldom as wide below as above.",
        optional=True,
    ),
    _length("artwork.up", "Up", "Measure the piece from bottom to top along its left edge."),
    _length("artwork.up_right", "Up, right", "Measure along the right edge too.", optional=True),
    _length(
        "artwork.diagonal_rising",
        "Diagonal, rising",
        "From the lower left corner to the upper right. Equal diagonals alone do not prove a rectangle.",
        optional=True,
    ),
    _length(
        "artwork.diagonal_falling",
        "Diagonal, falling",
        "From the upper left corner to the lower right.",
        optional=True,
    ),
    _choice("start.given", "Start from", STARTS, "What is known first; the rest is worked out from it."),
    _length(
        "start.wall_across",
        "Wall space, across",
        "The outside size that the frame may take on the wall. The package or the mat is worked out from it.",
        optional=True,
    ),
    _length("start.wall_up", "Wall space, up", "The height that the frame may take on the wall.", optional=True),
    _choice("start.stock", "Stock size", _stocks(), "A sheet, mat or glass size that the frame has to take."),
    Field(path="start.stock_turned", label="Which way", control=Control.YES_NO, choices=TURNED),
    _length(
        "start.stick_length",
        "Length of the stick",
        "One length of stock that all four sides are cut from, with its kerfs and end trims.",
        drawing="members",
        optional=True,
    ),
    _choice("start.stick_solves", "It settles", STICK_SOLVES, drawing="members"),
    _length(
        "package.clearance_across",
        "Clearance, across",
        "The looseness of the package between the rabbet walls, both sides together.",
    ),
    _length(
        "package.clearance_up",
        "Clearance, up",
        "The looseness from the lower rabbet wall to the upper, both sides together.",
    ),
    _length("package.mat.overlap", "Overlap", "By how much the window laps over the artwork, on each side."),
    _length(
        "package.mat.border",
        "Border, sides and top",
        "From the window to the outside of the mat: as cut, or as seen where the Package page says so.",
    ),
    _length("package.mat.bottom", "Border, bottom", "The bottom border as cut; often a little wider than the others."),
    _choice(
        "section.kind",
        "Section",
        SECTION_KINDS,
        "A rabbet laps over the edge of the package. In a tray the artwork lies on a ledge and nothing laps over it.",
        drawing="section",
    ),
    _length(
        "section.face_width",
        "Face width",
        "From the outer edge of the member to its sight edge. In a tray: the thickness of the wall.",
        drawing="section",
    ),
    _length(
        "section.thickness",
        "Thickness",
        "From the back of the member to its face. In a tray: the height of the wall.",
        drawing="section",
    ),
    _length(
        "section.rabbet_width",
        "Rabbet width",
        "From the rabbet wall to the sight edge: what laps over.",
        drawing="section",
    ),
    _length(
        "section.rabbet_depth",
        "Rabbet depth",
        "From the back of the member to the underside of the lip.",
        drawing="section",
    ),
    _choice("section.face", "Face", FACES, "Flat, or falling toward or away from the picture.", drawing="section"),
    _length("section.face_drop", "Face drop", "How much lower the face is at its low edge.", drawing="section"),
    _choice(
        "section.sight_edge.shape", "Sight edge", EDGES, "What is milled on the edge at the picture.", drawing="section"
    ),
    _length(
        "section.sight_edge.size", "Size", "Leg, radius or side of the shape on the sight edge.", drawing="section"
    ),
    _choice(
        "section.back_edge.shape", "Outer edge", EDGES, "What is milled on the edge at the wall.", drawing="section"
    ),
    _length("section.back_edge.size", "Size", "Leg, radius or side of the shape on the outer edge.", drawing="section"),
    _length("section.tray_gap", "Gap", "The even gap in view between the artwork and the wall, on each side."),
    _choice(
        "section.ledge",
        "The ledge is",
        LEDGES,
        "Milled from one blank with the wall, or a strip of its own, mitred round the inside and glued to the wall.",
        drawing="section",
    ),
    _length("section.ledge_width", "Ledge width", "How far the ledge reaches in under the artwork.", drawing="section"),
    _length(
        "section.ledge_thickness", "Ledge thickness", "The thickness of the ledge, at the back.", drawing="section"
    ),
    _length(
        "known.outside_across",
        "Outside, across",
        "An outside size that you know from elsewhere. It is held against the plan and changes nothing.",
        optional=True,
    ),
    _length("known.outside_up", "Outside, up", "The outside height that you know from elsewhere.", optional=True),
)
"""Fields of one frame, in trade order."""

LAYER_FIELDS = (
    Field(path="name", label="Layer", control=Control.WORDS, drawing="section"),
    _choice("kind", "What it is", LAYER_KINDS, drawing="section"),
    _length("thickness", "Thickness", "Measure it with calipers, at an edge, not pressed.", drawing="section"),
    _length("tolerance", "Give or take", "By how much the thickness may differ, up or down.", drawing="section"),
)
"""Fields of one layer of the package; their paths follow `package.layers.<id>.`."""

PROJECT_FIELDS = (
    _length("shop.kerf", "Kerf", "The width of the cut that the blade takes, measured in a scrap.", drawing="members"),
    _length("shop.end_trim", "End trim", "What is cut off each end of a stick before it counts.", drawing="members"),
    Field(path="note", label="Note", control=Control.WORDS, optional=True),
)
"""Fields of the project itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldSet:
    """The fields on one page, by the full path that is their name in the form."""

    fields: dict[str, Field] = field(default_factory=dict)

    def __contains__(self, path: str) -> bool:
        return path in self.fields

    def items(self) -> Iterable[tuple[str, Field]]:
        """Full paths and fields, in the order of the page."""
        return self.fields.items()


def fields_of(frame: dict[str, Any]) -> FieldSet:
    """The fields that the page of one frame holds: those of a mat only where there is a mat.

    Args:
        frame: the frame as it stands in the document.
    """
    here = f"frames.{frame['id']}."
    package = frame["package"]
    fields = {here + one.path: one for one in FRAME_FIELDS if package.get("mat") or "package.mat." not in one.path}
    for layer in package.get("layers", ()):
        above = f"{here}package.layers.{layer['id']}."
        fields |= {above + one.path: replace(one, where=f"package.layers.{one.path}") for one in LAYER_FIELDS}
    return FieldSet(fields=fields | {one.path: one for one in PROJECT_FIELDS})


def fields_in(document: dict[str, Any], frame_id: str) -> FieldSet:
    """The fields of the page of one frame of a document; none where it has no such frame."""
    frame = next((frame for frame in document["frames"] if frame["id"] == frame_id), None)
    return fields_of(frame) if frame else FieldSet()
