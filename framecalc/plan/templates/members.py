"""The templates of a frame's members: section, ends, mitre face, spline sled and key, set-up blocks, stick, block."""

from collections.abc import Iterable, Iterator

from framecalc.corners.joints.slots import SlotPlace
from framecalc.corners.joints.splines import Spline
from framecalc.corners.saw import feeler_deg
from framecalc.plan.figures import Figure
from framecalc.plan.frame import FramePlan
from framecalc.templates.members import (
    MOST_MITRE_DEG,
    EndLine,
    EndMarks,
    Mouth,
    key_blank,
    member_end,
    mitre_face,
    section_piece,
    sled_cradle,
)
from framecalc.templates.shapes import NamedLength, reference_block, set_up_blocks, story_stick
from framecalc.templates.template import Template
from framecalc.units import Unit, describe_gap, describe_length
from framecalc.words import Words, say, worded

SECTION_MEASURES = ("rabbet_width", "rabbet_depth", "lip", "land")
"""The figures that a milled section is set up by."""

STICK_MEASURES = ("outside", "sight", "rabbet", "package", "member", "ledge_long")
"""The figures that a story stick carries: those whose names begin so,"""

OFF_STICK = ("_corners", "_width", "_depth")
"""but do not end so: from corner to corner, and of the section."""

FEELERS_MM = {Unit.MM: (0.05, 0.1, 0.2, 0.4), Unit.INCH: (0.0508, 0.1016, 0.2032, 0.4064)}
"""The gaps of the table on a reference block: two, four, eight and sixteen thousandths of an inch in an inch job."""


def blocks(plan: FramePlan) -> Iterator[Template]:
    """Blocks to set a blade, bit or fence by; a bought moulding is not milled."""
    figures = [plan.figures[name] for name in SECTION_MEASURES if name in plan.figures and not plan.is_bought]
    if figures:
        yield set_up_blocks(
            _measures(figures, plan.project.shop.words),
            name="set-up-blocks",
            title="Set-up blocks",
            purpose="Stand the arch over the blade for its height, against the fence for its distance.",
        )


def block(plan: FramePlan) -> Iterator[Template]:
    """A block with the angle of the mitre, and what a feeler tells beside it; sides on edge have none."""
    mitre_deg = plan.shape.mitre_deg
    if mitre_deg < 1:
        return
    angle, words = f"{mitre_deg:.4g}°", plan.project.shop.words
    yield reference_block(
        mitre_deg,
        title=say("Reference block, {angle}", words, angle=angle),
        purpose=say(
            "Set the mitre fence by it, and hold test cuts against it. A gap under a feeler, over the whole mitre: "
            "{read}. At the long point add it to {end}, at the short point take it off; type that at Sides as cut.",
            words,
            read=_feelers(plan),
            end=f"{plan.shape.end_deg:.4g}°",
        ),
        says=angle,
    )


def stick(plan: FramePlan) -> Iterator[Template]:
    """Every length of the frame on one stick."""
    figures = [
        figure
        for name, figure in plan.figures.items()
        if name.startswith(STICK_MEASURES) and not name.endswith(OFF_STICK) and figure.exact_mm > 0
    ]
    yield story_stick(
        _measures(figures, plan.project.shop.words),
        title="Story stick",
        purpose="Every length from the left end: mark stock, set stops and check parts by it.",
    )


def section(plan: FramePlan) -> Iterator[Template]:
    """The section of the member, as milled."""
    says = "Hold it against the end of a member: face above, {edge} on the right."
    yield section_piece(
        plan.section.outline,
        title="Section",
        purpose=say(says, plan.project.shop.words, edge="inside" if plan.is_tray else "sight edge"),
    )


def ends(plan: FramePlan) -> Iterator[Template]:
    """The end of a member from the face and from behind; sides that slope lie in no one plane with it."""
    if plan.shape.slopes or plan.shape.mitre_deg > MOST_MITRE_DEG:
        return
    words, lines = plan.project.shop.words, tuple(_lines(plan))
    width_mm = _width_mm(plan)
    yield member_end(
        width_mm=width_mm,
        mitre_deg=plan.shape.mitre_deg,
        marks=EndMarks(lines=lines),
        from_behind=False,
        title="End, from the face",
        purpose=say("Lay its outer edge on that of the member: cut along the slant.", words),
    )
    yield member_end(
        width_mm=width_mm,
        mitre_deg=plan.shape.mitre_deg,
        marks=EndMarks(lines=lines, on_mitre_mm=_on_mitre(plan), on_edge_mm=_on_edge(plan)),
        from_behind=True,
        title="End, from behind",
        purpose=say("The same, turned over, with the places of the joint on mitre and outer edge.", words),
    )


def face(plan: FramePlan) -> Iterator[Template]:
    """The mitre face with the slots and keys of the joint, where there are any; sides that slope have no joints."""
    if plan.shape.slopes:
        return
    joint = plan.corners.joint
    mouths, keys = [_of_slot(place) for place in joint.slot_places], [_of_key(key) for key in joint.splines]
    if not mouths and not keys:
        return
    yield mitre_face(
        joint.stock.mitre_shape,
        mouths=mouths,
        keys=keys,
        title="Mitre face",
        purpose=say("Tip on the left, back below. Turn it over for the other end.", plan.project.shop.words),
    )


def sled(plan: FramePlan) -> Iterator[Template]:
    """The cradle of the spline sled, and the blank of a key."""
    if plan.shape.slopes:
        return
    joint, words = plan.corners.joint, plan.project.shop.words
    if not joint.splines:
        return
    key = joint.splines[0]
    blade, thick = (describe_length(length_mm, unit=plan.unit) for length_mm in (key.blade_mm, key.kerf_mm))
    yield sled_cradle(
        mitre_deg=plan.shape.mitre_deg,
        cradle_mm=key.blade_mm - key.depth_mm,
        title="Cradle of the spline sled",
        purpose=say("Cut two, a frame's thickness apart. Blade at {blade} above the table.", words, blade=blade),
    )
    yield key_blank(
        length_mm=key.blank.length_mm,
        width_mm=key.blank.width_mm,
        title="Spline blank",
        purpose=say("Of stock {thick} thick, grain along its length; planed flush after glue-up.", words, thick=thick),
    )


def _width_mm(plan: FramePlan) -> float:
    """What a member is wide from behind: of a tray with a ledge that is one with its wall, both."""
    figures = plan.figures
    with_ledge = plan.is_tray and not plan.has_loose_ledge
    return figures["face_width"].exact_mm + (figures["ledge_width"].exact_mm if with_ledge else 0.0)


def _lines(plan: FramePlan) -> Iterator[EndLine]:
    """The lines along a member: the rabbet side, or in a tray the wall over its ledge."""
    words = plan.project.shop.words
    if not plan.is_tray:
        yield EndLine(name=say("rabbet side", words), inset_mm=plan.figures["land"].exact_mm)
    elif not plan.has_loose_ledge:
        yield EndLine(name=say("tray side", words), inset_mm=plan.figures["face_width"].exact_mm)


def _on_mitre(plan: FramePlan) -> tuple[float, ...]:
    """The places of slots on the mitre, from the tip: both ends of each, or the middle of a round one."""
    marks = (place.marks for place in plan.corners.joint.slot_places)
    return tuple(place_mm for one in marks for place_mm in dict.fromkeys((one.near_mm, one.centre_mm, one.far_mm)))


def _on_edge(plan: FramePlan) -> tuple[float, ...]:
    """Where keys end on the outer edge, from the tip."""
    return tuple(dict.fromkeys(key.visible_mm for key in plan.corners.joint.splines))


def _of_slot(place: SlotPlace) -> Mouth:
    marks, half_mm = place.marks, place.slot.thickness_mm / 2
    return Mouth(
        near_mm=marks.near_mm,
        far_mm=marks.far_mm,
        low_mm=place.height_mm - half_mm,
        high_mm=place.height_mm + half_mm,
    )


def _of_key(key: Spline) -> Mouth:
    low_mm, high_mm = key.height_mm - key.kerf_mm / 2, key.height_mm + key.kerf_mm / 2
    return Mouth(near_mm=0.0, far_mm=key.depth_mm, low_mm=low_mm, high_mm=high_mm)


def _feelers(plan: FramePlan) -> str:
    """What a gap at an end of the mitre tells of its angle."""
    mitre_mm = plan.corners.mitre_length_mm
    return ", ".join(
        f"{describe_gap(gap_mm, unit=plan.unit)} is {feeler_deg(gap_mm, mitre_length_mm=mitre_mm):.2f}°"
        for gap_mm in FEELERS_MM[plan.unit]
    )


def _measures(figures: Iterable[Figure], words: Words) -> tuple[NamedLength, ...]:
    """Lengths as they are, with the text that drawings and lists print."""
    return tuple(NamedLength(label=_label(figure, words), length_mm=figure.exact_mm) for figure in figures)


def _label(figure: Figure, words: Words) -> str:
    return say("{what} {size}", words, what=worded(figure.label), size=figure.written.full)
