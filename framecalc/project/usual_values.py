"""How a project begins: three numbers are typed, everything else is a usual value, and marked as assumed.

A *beginning* is a plain document, as `project.read_project` takes it. What goes into a package depends on the kind of
artwork. All usual values here are common practice, no source; each is there to be measured and confirmed.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from framecalc.artwork.measuring import ArtworkKind, usual_clearance
from framecalc.findings import Rounding
from framecalc.package.shelf import ready_made
from framecalc.section.profile import EdgeShape, FaceShape
from framecalc.units import Step, Unit, format_length, parse_length


@dataclass(frozen=True, slots=True, kw_only=True)
class UsualLength:
    """A usual value in round numbers of either unit."""

    mm: str
    inch: str

    def text(self, unit: Unit) -> str:
        """The value as it would be typed in this unit."""
        return f"{self.mm} mm" if unit is Unit.MM else f"{self.inch} in"


def _usual(mm: str, inch: str) -> UsualLength:
    return UsualLength(mm=mm, inch=inch)


_PAPER = ("glass", "mat", "print", "backing")
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

_RABBET_WIDTHS = {ArtworkKind.CANVAS: _usual("12", "1/2"), ArtworkKind.SOLID_PANEL: _usual("12", "1/2")}
"""Wider where the clearance is: a stretcher is keyed out, a panel grows, and the lip must still cover its edge."""

MATTED = frozenset({ArtworkKind.PAPER, ArtworkKind.PHOTOGRAPH, ArtworkKind.FRIABLE})
MAT = {"overlap": _usual("3", "1/8"), "border": _usual("60", "2 1/2"), "bottom": _usual("70", "2 3/4")}
SECTION = {
    "rabbet_width": _usual("6", "1/4"),
    "face_drop": _usual("3", "1/8"),
    "tray_gap": _usual("6", "1/4"),
    "ledge_width": _usual("20", "3/4"),
    "ledge_thickness": _usual("6", "1/4"),
}
CORNER = {
    "": {"fence": _usual("450", "18"), "gap": _usual("0.2", "0.008")},
    "clamps": {"member_wind": _usual("0", "0"), "front_gap": _usual("0", "0")},
    "joint": {
        "width": _usual("20", "3/4"),
        "wall": _usual("3", "1/8"),
        "pin_diameter": _usual("1.2", "0.048"),
        "pin_length": _usual("25", "1"),
        "pin_from": _usual("12", "1/2"),
        "pin_height": _usual("6", "1/4"),
        "wedge_height": _usual("7", "1/4"),
        "wedge_leg": _usual("6", "1/4"),
        "wedge_from_tip": _usual("12", "1/2"),
        "spline_depth": _usual("15", "5/8"),
        "spline_kerf": _usual("3.2", "1/8"),
        "cradle": _usual("20", "3/4"),
    },
}
WINDOWS = {"gap": _usual("25", "1"), "least_bridge": _usual("12", "1/2")}
FILLET_SHOWS = _usual("5", "3/16")
FITTING = {
    "panel": {"screw": _usual("4", "5/32"), "from_edge": _usual("20", "3/4")},
    "held": {"foot": _usual("12", "1/2"), "from_corner": _usual("50", "2")},
    "canvas": {"cloth": _usual("0.7", "1/32")},
    "box": {"air": _usual("6", "1/4"), "wall": _usual("6", "1/4"), "margin": _usual("20", "3/4")},
}
LOOK = {"eye_line": _usual("1500", "59")}
TIMBER = {
    "test_length": _usual("250", "10"),
    "shortest_useful": _usual("300", "12"),
    "edge": _usual("5", "3/16"),
    "width_allowance": _usual("3", "1/8"),
    "thickness_allowance": _usual("3", "1/8"),
    "clean_up": _usual("1.5", "1/16"),
    "sanding": _usual("0.3", "1/64"),
    "part_trim": _usual("25", "1"),
    "planer_pass": _usual("1.5", "1/16"),
    "shortest_machined": _usual("300", "12"),
}
SHEETS = {"glass": {"least_strip": _usual("12", "1/2")}}
EDGE_SIZE = _usual("2", "1/16")
_CONFIRMED_BY_NOBODY = ("thickness", "rabbet_width", "rabbet_depth", "tray_gap", "ledge_width", "ledge_thickness")


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstNumbers:
    """What is typed to begin with; the lengths as text with their unit. A blank clearance is the usual one."""

    name: str
    unit: Unit
    kind: ArtworkKind
    across: str
    up: str
    face_width: str
    clearance: str = ""


def beginning(
    first: FirstNumbers, *, shop: Mapping[str, Any], step: Step, kerf_is_assumed: bool, new_id: Callable[[], str]
) -> dict[str, Any]:
    """The document of a new project with one frame.

    Args:
        first: what was typed.
        shop: the shop's values as a document, copied into the project.
        step: what a usual clearance is written to.
        kerf_is_assumed: whether nobody has confirmed the kerf in the shop profile yet.
        new_id: makes the ids of frame and layers.
    Raises:
        UnreadableLength: a length cannot be read.
    Source: common practice, no source.
    """
    frame = first_frame(first, step=step, new_id=new_id)
    assumed = [*assumed_paths(frame), *(["shop.kerf"] if kerf_is_assumed else [])]
    return {
        "schema": 1,
        "name": first.name,
        "note": "",
        "unit": first.unit.value,
        "shop": dict(shop),
        "frames": [frame],
        "timber": _texts(TIMBER, first.unit),
        "sheets": {part: _texts(sizes, first.unit) for part, sizes in SHEETS.items()},
        "assumed": assumed,
    }


def first_frame(first: FirstNumbers, *, step: Step, new_id: Callable[[], str]) -> dict[str, Any]:
    """The document of a frame for three numbers. Args, Raises: as `beginning`. Source: common practice, no source."""
    return {
        "id": new_id(),
        "name": first.name,
        "count": 1,
        "species": "",
        "start": {"given": "artwork", "stock": "", "stock_turned": False, "stick_solves": "face width"},
        "artwork": {"kind": first.kind.value, "across": first.across, "up": first.up},
        "package": _package(first, step, new_id),
        "section": _section(first),
        "known": {},
        "corner": usual_corner(first.unit),
        "fitting": {part: _texts(sizes, first.unit) for part, sizes in FITTING.items()},
        "look": _texts(LOOK, first.unit),
    }


def usual_corner(unit: Unit) -> dict[str, Any]:
    """The usual sizes about corners, in the unit of the project. Source: common practice, no source.

    >>> usual_corner(Unit.INCH)["fence"], usual_corner(Unit.MM)["joint"]["wall"]
    ('18 in', '3 mm')
    """
    written = {part: _texts(sizes, unit) for part, sizes in CORNER.items()}
    return {**written.pop(""), **written}


def usual_mat(unit: Unit) -> dict[str, str]:
    """The usual borders and overlap of a mat, and the spaces between its windows. Source: common practice, no source.

    >>> usual_mat(Unit.INCH)["border"]
    '2 1/2 in'
    """
    return _texts(MAT | WINDOWS, unit)


def layer_from_shelf(name: str, *, new_id: Callable[[], str]) -> dict[str, str]:
    """A ready-made layer as a document. Raises: KeyError, there is none of this name. Source: as `shelf.ready_made`."""
    layer = ready_made()[name]
    document = {
        "id": new_id(),
        "name": layer.name,
        "kind": layer.kind.value,
        "thickness": layer.thickness,
        "tolerance": layer.tolerance,
        "thinner": layer.thinner,
        "material": layer.material,
    }
    return {field: text for field, text in document.items() if text}


def _texts(sizes: Mapping[str, UsualLength], unit: Unit) -> dict[str, str]:
    return {name: usual.text(unit) for name, usual in sizes.items()}


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


def assumed_paths(frame: Mapping[str, Any]) -> list[str]:
    """The paths of a frame's document that hold usual values nobody has confirmed. Source: derived."""
    here = f"frames.{frame['id']}"
    package = frame["package"]
    paths = [f"{here}.package.clearance_across", f"{here}.package.clearance_up"]
    paths += [f"{here}.package.mat.{name}" for name in MAT if package.get("mat")]
    paths += [f"{here}.package.layers.{layer['id']}.thickness" for layer in package["layers"]]
    return paths + [f"{here}.section.{name}" for name in _CONFIRMED_BY_NOBODY]


def _package(first: FirstNumbers, step: Step, new_id: Callable[[], str]) -> dict[str, Any]:
    across_mm, up_mm = (parse_length(text, bare=first.unit).mm for text in (first.across, first.up))
    clearance = first.clearance or clearance_text(first.kind, across_mm=across_mm, up_mm=up_mm, step=step)
    package: dict[str, Any] = {"clearance_across": clearance, "clearance_up": clearance}
    package["fillet_shows"] = FILLET_SHOWS.text(first.unit)
    if first.kind in MATTED:
        package["mat"] = usual_mat(first.unit)
    package["layers"] = [layer_from_shelf(name, new_id=new_id) for name in _PACKAGES[first.kind]]
    return package


def _section(first: FirstNumbers) -> dict[str, Any]:
    depth, thickness = _DEPTHS.get(first.kind, _USUAL_DEPTHS)
    edge = {"shape": EdgeShape.SQUARE.value, "size": EDGE_SIZE.text(first.unit)}
    return {
        "kind": "tray" if first.kind is ArtworkKind.OBJECT else "rabbet",
        "face_width": first.face_width,
        "thickness": thickness.text(first.unit),
        "rabbet_depth": depth.text(first.unit),
        "face": FaceShape.FLAT.value,
        "sight_edge": edge,
        "back_edge": dict(edge),
        **{name: usual.text(first.unit) for name, usual in (SECTION | _own_widths(first.kind)).items()},
    }


def _own_widths(kind: ArtworkKind) -> dict[str, UsualLength]:
    return {"rabbet_width": _RABBET_WIDTHS[kind]} if kind in _RABBET_WIDTHS else {}
