"""The member's section as typed: rabbet or tray, milled here or bought, with the face and its edges."""

from collections.abc import Mapping
from typing import Annotated, Literal

from pydantic import Field

from framecalc.project.fields import FromEdge, Id, Model, Part, Size
from framecalc.project.label import Label
from framecalc.project.moulding import Moulding
from framecalc.section.profile import EdgeShape, FaceShape
from framecalc.section.typed_points import FIELD, WayToPoint

MOST_POINTS = 24
"""More points than any profile of a member has."""


class Edge(Model):
    """The shape milled on one edge of the face."""

    shape: Annotated[
        EdgeShape,
        Label("{within}", "What is milled on the edge at the picture."),
        Label("{within}", "What is milled on the edge at the wall.", case="back_edge"),
    ] = EdgeShape.SQUARE
    size: Annotated[
        Part,
        Label(
            "Size",
            "Leg, radius or side of the shape on the inner edge.",
            mm="2",
            inch="1/16",
            arguments=("sight_edge_mm",),
        ),
        Label(
            "Size",
            "Leg, radius or side of the shape on the outer edge.",
            mm="2",
            inch="1/16",
            case="back_edge",
            arguments=("back_edge_mm",),
        ),
    ]


class ProfilePoint(Model):
    """One point of a face profile, and the way to it from the point before; a line has no radius."""

    id: Id
    across: Annotated[FromEdge, Label("Across", "From the sight edge across the face.")]
    down: Annotated[FromEdge, Label("Down", "Below the face of the square blank.")]
    way: Annotated[
        WayToPoint,
        Label(
            "Way to it",
            "From the point before. A hollow bends into the wood, a round stands out of it.",
            choices=(
                (WayToPoint.LINE.value, "Line"),
                (WayToPoint.HOLLOW.value, "Hollow"),
                (WayToPoint.ROUND.value, "Round"),
            ),
        ),
    ] = WayToPoint.LINE
    radius: Annotated[Size | None, Label("Radius", "Of a hollow or a round.")] = None


class Section(Model):
    """The member's section. A tray uses the face width as its wall, the thickness as its height, and the ledge.

    `ledge`: milled from one blank with the wall, or a strip of its own that is glued to the wall's inner side.
    """

    @classmethod
    def case_of(cls, document: Mapping[str, object]) -> str:
        """A tray has labels of its own."""
        return str(document.get("kind", ""))

    kind: Annotated[
        Literal["rabbet", "tray"],
        Label(
            "Section",
            "A rabbet laps over the edge of the package. In a tray the artwork lies on a ledge and nothing laps over"
            " it.",
        ),
    ] = "rabbet"
    source: Annotated[
        Literal["own", "bought"],
        Label(
            "Where the section comes from",
            "A bought moulding keeps its own sizes: measure them on the stick.",
            choices=(("own", "Milled here"), ("bought", "Bought moulding")),
            measured_anew=("face_width", "thickness", "rabbet_width", "rabbet_depth"),
        ),
    ] = "own"
    moulding: Annotated[Moulding, Label("Bought moulding")] = Moulding.usual()
    face_width: Annotated[
        Part,
        Label(
            "Face width",
            "From the outer edge of the member to its sight edge. In a tray: the thickness of the wall.",
            arguments=("face_width_mm", "tray_wall_mm"),
            figure="face_width",
        ),
        Label("Wall, thickness", "From the outer side of the wall to the inside.", figure="face_width", case="tray"),
    ]
    thickness: Annotated[
        Part,
        Label(
            "Thickness",
            "From the back of the member to its face. In a tray: the height of the wall.",
            to_confirm=True,
            arguments=("thickness_mm", "tray_height_mm"),
        ),
        Label("Wall, height", "From the back to the top of the wall.", to_confirm=True, case="tray"),
    ]
    rabbet_width: Annotated[
        Part,
        Label(
            "Rabbet width",
            "From the rabbet wall to the sight edge: what laps over.",
            mm="6",
            inch="1/4",
            to_confirm=True,
            arguments=("rabbet_width_mm",),
        ),
    ]
    rabbet_depth: Annotated[
        Part,
        Label(
            "Rabbet depth",
            "From the back of the member to the underside of the lip.",
            to_confirm=True,
            arguments=("rabbet_depth_mm",),
        ),
    ]
    face: Annotated[
        FaceShape,
        Label(
            "Face",
            "Flat, falling toward or away from the picture, or through points that you type.",
            arguments=("face_shape",),
        ),
    ] = FaceShape.FLAT
    points: Annotated[
        tuple[ProfilePoint, ...], Label("Points of the face, from the sight edge outward", arguments=(FIELD,))
    ] = Field(default=(), max_length=MOST_POINTS)
    face_drop: Annotated[
        Part,
        Label(
            "Face drop", "How much lower the face is at its low edge.", mm="3", inch="1/8", arguments=("face_drop_mm",)
        ),
    ]
    sight_edge: Annotated[Edge, Label("Sight edge"), Label("Inner edge", case="tray")]
    back_edge: Annotated[Edge, Label("Outer edge")]
    tray_gap: Annotated[
        Part,
        Label(
            "Gap",
            "The even gap in view between the artwork and the wall, on each side.",
            drawing="front",
            mm="6",
            inch="1/4",
            to_confirm=True,
            arguments=("tray_gap_mm",),
        ),
    ]
    ledge: Annotated[
        Literal["solid", "strip"],
        Label(
            "The ledge is",
            "Milled from one blank with the wall, or a strip of its own, mitred round the inside and glued to the"
            " wall.",
            choices=(("solid", "Milled with the wall"), ("strip", "A strip of its own")),
        ),
    ] = "solid"
    ledge_width: Annotated[
        Part,
        Label(
            "Ledge width",
            "How far the ledge reaches in under the artwork.",
            mm="20",
            inch="3/4",
            to_confirm=True,
            arguments=("tray_ledge_width_mm",),
        ),
    ]
    ledge_thickness: Annotated[
        Part,
        Label(
            "Ledge thickness",
            "The thickness of the ledge, at the back.",
            mm="6",
            inch="1/4",
            to_confirm=True,
            arguments=("tray_ledge_thickness_mm",),
        ),
    ]
