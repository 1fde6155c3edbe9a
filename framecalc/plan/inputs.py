"""From the fields of one frame to the plain numbers and small records that the topics take.

No size is computed here: optional fields get the value of their opposite, a starting point gets its numbers, and a
missing number that the starting point needs is refused beside its field.
"""

from framecalc.artwork.measuring import ArtworkKind, Measurements
from framecalc.errors import ImpossibleSize
from framecalc.mats.openings import Opening
from framecalc.mats.seen import SeenImage, seen_image
from framecalc.mats.wished_mat import Image, MatWish
from framecalc.package.glazing import Glazing
from framecalc.package.layers import Layer, LayerKind, Stack, stack_layers
from framecalc.package.shelf import GLASSES, SOLID_WOOD, usual_material
from framecalc.project import Frame, Mat, Picture, ShopValues
from framecalc.project import Layer as ProjectLayer
from framecalc.project.section import ProfilePoint as ProjectPoint
from framecalc.section.profile import Edge
from framecalc.section.rabbeted import Section, milled_section
from framecalc.section.tray import TraySection, tray_section
from framecalc.section.typed_points import ProfilePoint
from framecalc.sizes.polygons import package_flats_mm
from framecalc.sizes.shape import Shape
from framecalc.sizes.starting_points import SizeWish, StartingPoint
from framecalc.tables.reading import stock_sizes


def is_tray(frame: Frame) -> bool:
    """Whether the section is a tray: nothing laps over the artwork."""
    return frame.section.kind == "tray"


def is_bought(frame: Frame) -> bool:
    """Whether the section is a bought moulding: nothing is milled, and its sizes stay what they are."""
    return frame.section.source == "bought"


def is_cut_here(frame: Frame) -> bool:
    """Whether the sides are mitred here, and not by the supplier of the moulding."""
    return not is_bought(frame) or frame.section.moulding.sale.is_in_sticks


def repeat_mm(frame: Frame) -> float:
    """How much more of a stick each side may take, so that a bought pattern meets at the corners; 0 without one."""
    repeat = frame.section.moulding.repeat
    return repeat.mm if repeat and is_bought(frame) else 0.0


def shape_of(frame: Frame) -> Shape:
    """The shape of the frame.

    Raises:
        ImpossibleSize: a tray whose walls slope.
    """
    shape = Shape(sides=frame.shape.sides, slope_deg=float(frame.shape.slope))
    if shape.slopes and is_tray(frame):
        raise ImpossibleSize("Enter a slope of 0: the sides of a tray stand upright.", field="slope_deg")
    return shape


def is_unsized(frame: Frame) -> bool:
    """Whether it is a polygon whose measure is not typed yet."""
    return not shape_of(frame).is_rectangle and frame.shape.size is None


def measurements_of(frame: Frame) -> Measurements:
    """The tape measurements; a missing size equals its opposite. A polygon is as large across as up.

    Raises:
        ImpossibleSize: a polygon has no measure yet, or none that leaves an artwork.
    """
    return _measured_rectangle(frame) if shape_of(frame).is_rectangle else _measured_polygon(frame)


def _measured_polygon(frame: Frame) -> Measurements:
    shape, clearance_mm = frame.shape, max(_clearances(frame))
    if shape.size is None:
        wording = f"Enter one measure for a frame of {shape.sides} sides."
        raise ImpossibleSize(wording, field="polygon_flats")
    flats_mm = package_flats_mm(shape.size.mm, given=shape.given, sides=shape.sides, clearance_mm=clearance_mm)
    return Measurements(across_top_mm=flats_mm, across_bottom_mm=flats_mm, up_left_mm=flats_mm, up_right_mm=flats_mm)


def _measured_rectangle(frame: Frame) -> Measurements:
    artwork = frame.artwork
    return Measurements(
        across_top_mm=artwork.across.mm,
        across_bottom_mm=(artwork.across_bottom or artwork.across).mm,
        up_left_mm=artwork.up.mm,
        up_right_mm=(artwork.up_right or artwork.up).mm,
        diagonal_rising_mm=artwork.diagonal_rising.mm if artwork.diagonal_rising else None,
        diagonal_falling_mm=artwork.diagonal_falling.mm if artwork.diagonal_falling else None,
    )


def has_loose_ledge(frame: Frame) -> bool:
    """Whether the ledge of a tray is a strip of its own, glued to the wall."""
    return is_tray(frame) and frame.section.ledge == "strip" and not is_bought(frame)


def blank_width_mm(frame: Frame, *, face_width_mm: float) -> float:
    """The width of a member's blank; for a tray whose ledge is milled with its wall, the width of both."""
    is_wider = is_tray(frame) and not has_loose_ledge(frame)
    return face_width_mm + (frame.section.ledge_width.mm if is_wider else 0.0)


def mat_of(frame: Frame) -> Mat | None:
    """The mat that the frame has; one that is typed and not planned, or in a tray, is none."""
    mat = frame.package.mat
    return mat if mat and mat.is_planned and not is_tray(frame) else None


def layers_of(frame: Frame) -> tuple[ProjectLayer, ...]:
    """The layers that are planned: no mat boards in a frame without a mat, and in a tray nothing before the artwork."""
    unplanned = _unplanned_kinds(frame)
    return tuple(layer for layer in frame.package.layers if layer.kind not in unplanned)


def unplanned_layers(frame: Frame) -> tuple[ProjectLayer, ...]:
    """The layers that are kept as typed and not planned."""
    unplanned = _unplanned_kinds(frame)
    return tuple(layer for layer in frame.package.layers if layer.kind in unplanned)


def _unplanned_kinds(frame: Frame) -> tuple[LayerKind, ...]:
    if is_tray(frame):
        return UNDER_A_LIP
    return () if mat_of(frame) else (LayerKind.MAT,)


UNDER_A_LIP = (LayerKind.FILLET, LayerKind.GLAZING, LayerKind.MAT)
"""Layers that lie under a lip: a tray has none of them."""


def seen_of(frame: Frame, *, artwork_across_mm: float, artwork_up_mm: float) -> SeenImage | None:
    """What of the artwork is to be seen; none where that is all of it, as in a tray, or where it has not four sides.

    Raises:
        ImpossibleSize: the image is typed in one direction only, or does not lie on its sheet.
    """
    typed = frame.artwork
    if is_tray(frame) or not shape_of(frame).is_rectangle or not (typed.image_across or typed.image_up):
        return None
    if typed.image_across is None or typed.image_up is None:
        field = "image_up_mm" if typed.image_across else "image_across_mm"
        raise ImpossibleSize("Type both sizes of the image, across and up, or neither.", field=field)
    return seen_image(
        sheet_across_mm=artwork_across_mm,
        sheet_up_mm=artwork_up_mm,
        across_mm=typed.image_across.mm,
        up_mm=typed.image_up.mm,
        left_mm=typed.image_left.mm if typed.image_left else None,
        below_mm=typed.image_below.mm if typed.image_below else None,
    )


def wish_of(
    frame: Frame, shop: ShopValues, *, artwork_across_mm: float, artwork_up_mm: float, lapped: Opening | None = None
) -> SizeWish:
    """The start of the size chain. A tray is a rabbet that laps over nothing, with its gap on both sides.

    Four repeats of a bought pattern count with the two end trims of a stick.

    Args:
        artwork_across_mm, artwork_up_mm: the artwork at its largest [mm].
        lapped: the artwork at its smallest, where it is crooked.
    Raises:
        ImpossibleSize: the starting point chosen needs a number that is not typed; `field` names its argument.
    """
    opening_across_mm, opening_up_mm = _opening(frame)
    clearance_across_mm, clearance_up_mm = _clearances(frame)
    shape = shape_of(frame)
    if not shape.is_rectangle:
        clearance_across_mm = clearance_up_mm = max(clearance_across_mm, clearance_up_mm)
    return SizeWish(
        given=_given(frame),
        artwork_across_mm=artwork_across_mm,
        artwork_up_mm=artwork_up_mm,
        mat=mat_wish_of(frame),
        clearance_across_mm=clearance_across_mm,
        clearance_up_mm=clearance_up_mm,
        rabbet_width_mm=rabbet_width_mm(frame),
        face_width_mm=frame.section.face_width.mm,
        lapped=lapped,
        seen=seen_of(frame, artwork_across_mm=artwork_across_mm, artwork_up_mm=artwork_up_mm),
        opening_across_mm=opening_across_mm,
        opening_up_mm=opening_up_mm,
        stick_length_mm=frame.start.stick_length.mm if frame.start.stick_length else 0,
        kerf_mm=shop.kerf.mm,
        trim_mm=shop.end_trim.mm + 2 * repeat_mm(frame),
        fillet_mm=fillet_mm(frame) + reveal_mm(frame),
        shape=shape,
    )


def mat_wish_of(frame: Frame) -> MatWish | None:
    """The wished mat, if there is one.

    Raises:
        ImpossibleSize: an opening is typed in one direction only.
    """
    mat = mat_of(frame)
    if mat is None:
        return None
    return MatWish(
        overlap_mm=mat.overlap.mm,
        border_mm=mat.border.mm,
        bottom_mm=mat.bottom.mm,
        float_mm=mat.shows.mm,
        in_view=mat.in_view,
        opening=_opening_of(mat),
        further=tuple(_image(picture) for picture in mat.windows),
        arrangement=mat.arrangement,
        columns=mat.columns,
        gap_mm=mat.gap.mm,
        left_mm=mat.left.mm,
        below_mm=mat.below.mm,
    )


def section_of(frame: Frame, *, face_width_mm: float) -> Section | TraySection:
    """The member's section, milled at the face width that the size chain settled.

    Raises:
        ImpossibleSection: it cannot be milled from its blank.
    """
    return _tray(frame, face_width_mm) if is_tray(frame) else _rabbeted(frame, face_width_mm)


def stack_of(frame: Frame) -> Stack:
    """The layers of the package, from the glazing to the back."""
    return stack_layers(
        tuple(
            Layer(
                name=layer.name,
                kind=layer.kind,
                thickness_mm=layer.thickness.mm,
                tolerance_mm=layer.tolerance.mm,
                thinner_mm=layer.thinner.mm if layer.thinner else None,
            )
            for layer in layers_of(frame)
        )
    )


def material_of(layer: ProjectLayer) -> str:
    """The material of a layer in the table of sheets; if it is not typed, the usual one of its kind."""
    return layer.material or usual_material(layer.kind, name=layer.name, thickness_mm=layer.thickness.mm)


def has_solid_panel(frame: Frame) -> bool:
    """Whether a layer is a panel of solid wood, which moves with the air."""
    return any(is_solid_panel(frame, layer) for layer in layers_of(frame))


def is_solid_panel(frame: Frame, layer: ProjectLayer) -> bool:
    """Whether a layer is of solid wood and as large as the package: a fillet is a strip."""
    if layer.kind is LayerKind.ARTWORK and frame.artwork.kind is ArtworkKind.SOLID_PANEL:
        return layer.material in ("", SOLID_WOOD)
    return layer.kind is not LayerKind.FILLET and layer.material == SOLID_WOOD


def glazing_of(frame: Frame) -> Glazing:
    """The glazing in front of the artwork. All plastics charge as acrylic does."""
    material = next((material_of(layer) for layer in layers_of(frame) if layer.kind is LayerKind.GLAZING), "")
    if not material:
        return Glazing.NONE
    return Glazing.GLASS if material in GLASSES else Glazing.ACRYLIC


def fillet_mm(frame: Frame) -> float:
    """The visible width of a fillet or a liner beside the lip; 0 without one."""
    has_fillet = any(layer.kind is LayerKind.FILLET for layer in layers_of(frame))
    return frame.package.fillet_shows.mm if has_fillet else 0.0


def reveal_mm(frame: Frame) -> float:
    """The reveal of the lower of two mats; 0 with fewer mats."""
    mat = mat_of(frame)
    return mat.reveal.mm if mat else 0.0


def rabbet_width_mm(frame: Frame) -> float:
    """The lap of the lip over the package; 0 for a tray."""
    return 0.0 if is_tray(frame) else frame.section.rabbet_width.mm


def depth_for_package_mm(frame: Frame) -> float:
    """The depth that the package sits in: the rabbet's, or the height of a tray's wall above its ledge."""
    section = frame.section
    return section.thickness.mm - section.ledge_thickness.mm if is_tray(frame) else section.rabbet_depth.mm


def _clearances(frame: Frame) -> tuple[float, float]:
    if is_tray(frame):
        return 2 * frame.section.tray_gap.mm, 2 * frame.section.tray_gap.mm
    return frame.package.clearance_across.mm, frame.package.clearance_up.mm


def _image(picture: Picture) -> Image:
    return Image(
        across_mm=picture.across.mm,
        up_mm=picture.up.mm,
        opening=_opening_of(picture),
        left_mm=picture.left.mm,
        below_mm=picture.below.mm,
    )


def _opening_of(window: Mat | Picture) -> Opening | None:
    """The opening typed for a window; one that is typed in one direction only is refused.

    Raises:
        ImpossibleSize: only one direction is typed.
    """
    across, up = window.opening_across, window.opening_up
    if across and up:
        return Opening(across_mm=across.mm, up_mm=up.mm)
    if across or up:
        field = "window_up_mm" if across else "window_across_mm"
        raise ImpossibleSize("Enter both sizes of the opening, across and up, or neither.", field=field)
    return None


def _given(frame: Frame) -> StartingPoint:
    start = frame.start
    if start.given != "stick":
        return StartingPoint(start.given)
    if start.stick_length is None:
        raise ImpossibleSize("Enter the length of the stick.", field="stick_length_mm")
    if start.stick_solves == "face width" and is_bought(frame):
        says = "A bought moulding has its face width: let the stick settle the scale of the picture."
        raise ImpossibleSize(says, field="stick_solves")
    return StartingPoint.STICK_FOR_WIDTH if start.stick_solves == "face width" else StartingPoint.STICK_FOR_PICTURE


def _opening(frame: Frame) -> tuple[float, float]:
    """The wall space or the stock size to start from; zeros for other starting points."""
    if frame.start.given == "wall":
        return _wall_space(frame)
    return _stock_size(frame) if frame.start.given == "stock" else (0.0, 0.0)


def _wall_space(frame: Frame) -> tuple[float, float]:
    start = frame.start
    if start.wall_across is None:
        raise ImpossibleSize("Enter the wall space across.", field="wall_across_mm")
    if start.wall_up is None:
        raise ImpossibleSize("Enter the wall space up.", field="wall_up_mm")
    return start.wall_across.mm, start.wall_up.mm


def _stock_size(frame: Frame) -> tuple[float, float]:
    size = next((size for size in stock_sizes() if size.name == frame.start.stock), None)
    if size is None:
        raise ImpossibleSize("Choose a stock size.", field="stock")
    return (size.up_mm, size.across_mm) if frame.start.stock_turned else (size.across_mm, size.up_mm)


def _rabbeted(frame: Frame, face_width_mm: float) -> Section:
    section = frame.section
    return milled_section(
        face_width_mm=face_width_mm,
        thickness_mm=section.thickness.mm,
        rabbet_width_mm=section.rabbet_width.mm,
        rabbet_depth_mm=section.rabbet_depth.mm,
        sight_edge=Edge(shape=section.sight_edge.shape, size_mm=section.sight_edge.size.mm),
        back_edge=Edge(shape=section.back_edge.shape, size_mm=section.back_edge.size.mm),
        face=section.face,
        face_drop_mm=section.face_drop.mm,
        points=tuple(map(_profile_point, section.points)),
    )


def _profile_point(point: ProjectPoint) -> ProfilePoint:
    return ProfilePoint(
        id=point.id,
        across_mm=point.across.mm,
        down_mm=point.down.mm,
        way=point.way,
        radius_mm=point.radius.mm if point.radius else None,
    )


def _tray(frame: Frame, face_width_mm: float) -> TraySection:
    section = frame.section
    return tray_section(
        wall_mm=face_width_mm,
        height_mm=section.thickness.mm,
        ledge_width_mm=section.ledge_width.mm,
        ledge_thickness_mm=section.ledge_thickness.mm,
        sight_edge=Edge(shape=section.sight_edge.shape, size_mm=section.sight_edge.size.mm),
        back_edge=Edge(shape=section.back_edge.shape, size_mm=section.back_edge.size.mm),
    )
