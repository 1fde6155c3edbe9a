"""A new project: three typed numbers; all other values are usual and marked as assumed.

A *beginning* is a plain document, as `project.read_project` takes it. A usual value stands with its field, in the
model; values that depend on the kind of artwork, such as the layers of a package, stand here. All usual values are
common practice, no source; each is there to be measured and confirmed.
"""

from collections.abc import Callable

from framecalc.artwork.measuring import ArtworkKind, usual_clearance
from framecalc.corners.saw_kinds import SawKind
from framecalc.findings import Rounding
from framecalc.package.shelf import ready_made
from framecalc.price.moulding import Sale
from framecalc.project.document import Document, ReadDocument
from framecalc.project.fields import Model
from framecalc.project.form import fields_under, parts_of
from framecalc.project.frame import Frame
from framecalc.project.hand_over import HandOver
from framecalc.project.hanging import Hanging
from framecalc.project.model import Project
from framecalc.project.package import Mat, Package
from framecalc.project.steps import SCHEMA
from framecalc.project.wall import Wall
from framecalc.records import Record
from framecalc.section.profile import EdgeShape, FaceShape
from framecalc.units import Length, Step, Unit, format_length, parse_length
from framecalc.words import Words, say


class UsualLength(Record):
    """A usual length of one kind of artwork, in round numbers of either unit."""

    mm: str
    inch: str

    def text(self, unit: Unit) -> str:
        """The value as typed in this unit."""
        return f"{self.mm} mm" if unit is Unit.MM else f"{self.inch} in"


def _usual(mm: str, inch: str) -> UsualLength:
    return UsualLength(mm=mm, inch=inch)


_PAPER = ("glass", "mat", "print", "mount", "thin backing")
"""A print is hinged to a board of rag, as good as its mat; common practice, no source."""

_PACKAGES = {
    ArtworkKind.PAPER: _PAPER,
    ArtworkKind.PHOTOGRAPH: _PAPER,
    ArtworkKind.FRIABLE: _PAPER,
    ArtworkKind.TEXTILE: ("glass", "spacer", "textile", "backing"),
    ArtworkKind.CANVAS: ("canvas",),
    ArtworkKind.PANEL: ("panel",),
    ArtworkKind.SOLID_PANEL: ("board",),
    ArtworkKind.OBJECT: ("object",),
}
_DEPTHS = {
    ArtworkKind.TEXTILE: (_usual("18", "3/4"), _usual("26", "1 1/8")),
    ArtworkKind.CANVAS: (_usual("22", "7/8"), _usual("30", "1 1/4")),
    ArtworkKind.SOLID_PANEL: (_usual("22", "7/8"), _usual("30", "1 1/4")),
    ArtworkKind.PANEL: (_usual("10", "3/8"), _usual("20", "3/4")),
    ArtworkKind.OBJECT: (_usual("12", "1/2"), _usual("50", "2")),
}
_USUAL_DEPTHS = (_usual("12", "1/2"), _usual("20", "3/4"))
"""Rabbet depth and thickness: the package and 3 mm for points behind it, a lip of 6 mm or more over it."""

_USUAL_RABBET_WIDTH = _usual("6", "1/4")
_RABBET_WIDTHS = {ArtworkKind.CANVAS: _usual("12", "1/2"), ArtworkKind.SOLID_PANEL: _usual("12", "1/2")}
"""Wider where the clearance is: a stretcher is keyed out, a panel grows, and the lip must still cover its edge."""

USUAL_DOWELS = 2
"""In a mitre: one alone lets it turn. Common practice, no source."""

MATTED = frozenset({ArtworkKind.PAPER, ArtworkKind.PHOTOGRAPH, ArtworkKind.FRIABLE})


class FirstNumbers(Record):
    """The first typed values; lengths as text with their unit. A blank clearance is the usual one."""

    name: str
    unit: Unit
    kind: ArtworkKind
    across: str
    up: str
    face_width: str
    clearance: str = ""
    words: Words = Words.US
    saw_kind: SawKind = SawKind.UNSAID


def beginning(
    first: FirstNumbers, *, shop: ReadDocument, step: Step, kerf_is_assumed: bool, new_id: Callable[[], str]
) -> Document:
    """The document of a new project with one frame.

    Args:
        first: the typed values.
        shop: the shop's values as a document, copied into the project.
        step: the step that a usual clearance is rounded to.
        kerf_is_assumed: whether nobody has confirmed the kerf in the shop profile yet.
        new_id: makes the ids of frame and layers.
    Raises:
        UnreadableLength: a length cannot be read.
    Source: common practice, no source.
    """
    frame = first_frame(first, step=step, new_id=new_id)
    document: Document = {
        "schema": SCHEMA,
        "name": first.name,
        "note": "",
        "unit": first.unit.value,
        "shop": dict(shop),
        "frames": [frame],
    }
    assumed = [*assumed_paths(frame), *(["shop.kerf"] if kerf_is_assumed else [])]
    return _filled(document, usual_values(Project, first.unit)) | {"assumed": assumed}


def first_frame(first: FirstNumbers, *, step: Step, new_id: Callable[[], str]) -> Document:
    """The document of a frame for three numbers. Args, Raises: as `beginning`. Source: common practice, no source."""
    frame: Document = {
        "id": new_id(),
        "name": first.name,
        "count": 1,
        "species": "",
        "start": {"given": "artwork", "stock": "", "stock_turned": False, "stick_solves": "face width"},
        "artwork": {"kind": first.kind.value, "across": first.across, "up": first.up},
        "package": _package(first, step, new_id),
        "section": _section(first, step),
        "known": {},
        "corner": {"joint": {"dowel_count": USUAL_DOWELS}, "saw_kind": first.saw_kind.value},
        "fitting": {},
        "look": {},
    }
    return _filled(frame, usual_values(Frame, first.unit))


def usual_values(model: type[Model], unit: Unit) -> Document:
    """The usual sizes in a model and in the models inside it, as they would be typed in a unit.

    What may be left out, and the items of a list, have none before they are there. Source: as each field says.

    >>> usual_values(Mat, Unit.INCH)["border"], usual_values(Frame, Unit.MM)["corner"]["joint"]["wall"]
    ('2 1/2 in', '3 mm')
    """
    values: Document = {}
    for name, part in parts_of(model).items():
        if part.labels[0].inch or (part.labels[0].imperial and unit is Unit.INCH):
            values[name] = part.labels[0].usual(unit, default=_text(part.default))
        elif part.model and not part.is_list and not part.may_be_missing:
            values |= {name: inside} if (inside := usual_values(part.model, unit)) else {}
    return values


def inch_parts_filled(document: ReadDocument) -> ReadDocument:
    """A document in inches, with round inches in the parts that are younger than its file; any other as it is.

    What hangs, packs and labels a frame came last, and has usual values in millimetres where nothing is said.
    Source: as each field says.

    >>> filled = inch_parts_filled({"unit": "in", "frames": [{"hand_over": {"packing": {"block": "40 mm"}}}]})
    >>> filled["frames"][0]["hand_over"]["packing"]["block"], filled["frames"][0]["hand_over"]["packing"]["wall"]
    ('40 mm', '1/4 in')
    """
    frames = document.get("frames")
    if document.get("unit") != Unit.INCH or not isinstance(frames, list):
        return document
    young = {"hanging": usual_values(Hanging, Unit.INCH), "hand_over": usual_values(HandOver, Unit.INCH)}
    filled = [_filled(frame, young) if isinstance(frame, dict) else frame for frame in frames]
    return _filled({**document, "frames": filled}, {"wall": usual_values(Wall, Unit.INCH)})


def layer_from_shelf(name: str, *, words: Words, new_id: Callable[[], str]) -> dict[str, str]:
    """A ready-made layer as a document, named in the words of the shop: from now on its name is the user's own.

    Raises:
        KeyError: there is none of this name.
    Source: as `shelf.ready_made`.
    """
    layer = ready_made()[name]
    document = {
        "id": new_id(),
        "name": say(layer.name, words),
        "kind": layer.kind.value,
        "thickness": layer.thickness,
        "tolerance": layer.tolerance,
        "thinner": layer.thinner,
        "material": layer.material,
    }
    return {field: text for field, text in document.items() if text}


def _text(default: object) -> str:
    return default.text if isinstance(default, Length) else ""


def _filled(document: Document, usual: ReadDocument) -> Document:
    """A document whose missing values are filled with usual ones."""
    filled = {**document, **{name: value for name, value in usual.items() if name not in document}}
    for name, value in usual.items():
        there = filled[name]
        if isinstance(value, dict) and isinstance(there, dict):
            filled[name] = _filled(there, value)
    return filled


def clearance_text(kind: ArtworkKind, *, across_mm: float, up_mm: float, step: Step) -> str:
    """The usual clearance of a kind of artwork, as it would be typed: the sum of its items, to the nearest step.

    Source: `artwork.usual_clearance`.
    """
    amount_mm = sum(allowance.amount_mm for allowance in usual_clearance(kind, across_mm=across_mm, up_mm=up_mm))
    return step_text(amount_mm, step)


def step_text(length_mm: float, step: Step) -> str:
    """A length as it would be typed, to the nearest step. Source: `units.format_length`.

    >>> step_text(38.1, Step.SIXTEENTH)
    '1 1/2 in'
    """
    written = format_length(length_mm, step=step, rounding=Rounding.NEAREST)
    return f"{written.text} {written.unit}".replace("−", "-")


def assumed_paths(frame: ReadDocument) -> list[str]:
    """The paths of a frame's document that hold first values nobody has confirmed. Source: derived."""
    fields = fields_under({"frames": [frame]}, f"frames.{frame['id']}")
    return [path for path, field in fields.items() if field.to_confirm]


def _package(first: FirstNumbers, step: Step, new_id: Callable[[], str]) -> Document:
    across_mm, up_mm = (parse_length(text, bare=first.unit).mm for text in (first.across, first.up))
    clearance = first.clearance or clearance_text(first.kind, across_mm=across_mm, up_mm=up_mm, step=step)
    package = {"clearance_across": clearance, "clearance_up": clearance, **usual_values(Package, first.unit)}
    if first.kind in MATTED:
        package["mat"] = usual_values(Mat, first.unit)
    package["layers"] = [layer_from_shelf(name, words=first.words, new_id=new_id) for name in _PACKAGES[first.kind]]
    return package


def _section(first: FirstNumbers, step: Step) -> Document:
    depth, thickness = _DEPTHS.get(first.kind, _USUAL_DEPTHS)
    return {
        "kind": "tray" if first.kind is ArtworkKind.OBJECT else "rabbet",
        "face_width": first.face_width,
        "thickness": thickness.text(first.unit),
        "rabbet_depth": depth.text(first.unit),
        "face": FaceShape.FLAT.value,
        "sight_edge": {"shape": EdgeShape.SQUARE.value},
        "back_edge": {"shape": EdgeShape.SQUARE.value},
        "moulding": {"sale": (Sale.FOOT if first.unit is Unit.INCH else Sale.METRE).value},
        "rabbet_width": _rabbet_width(first, step),
    }


def _rabbet_width(first: FirstNumbers, step: Step) -> str:
    """The usual width of the rabbet; half the face, where that one would leave no land beside it."""
    usual = _RABBET_WIDTHS.get(first.kind, _USUAL_RABBET_WIDTH).text(first.unit)
    face_mm = parse_length(first.face_width, bare=first.unit).mm
    return usual if parse_length(usual, bare=first.unit).mm < face_mm else step_text(face_mm / 2, step)
