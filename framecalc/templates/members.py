"""The templates of a member: its section, its end from the face or from behind, its mitre face, a sled's cradle, a key.

The *tip* is the long point of a mitre, the *short point* its inner end. An end is laid out with its outer edge below
and its tip on the left; seen from behind it is turned over.
"""

from collections.abc import Sequence
from math import cos, radians, sin, tan

from framecalc.geometry.outline import Line, Outline, Point
from framecalc.limits import require_between, require_positive
from framecalc.records import Record
from framecalc.templates.shapes import box, polygon
from framecalc.templates.template import Side, Template, TemplateStep, Word, at_origin

PAST_MITRE_MM = 70.0
"""How far an end runs on past the short point of its mitre, to lie safe on the member (common practice, no source)."""

TICK_MM = 6.0
"""How long a tick across an edge is. Ours, no source."""

ARM_MM, FOOT_MM = 90.0, 20.0
"""A cradle: how far its V reaches along the frame's edges, and what stands beside it (common practice, no source)."""

MOST_MITRE_DEG = 60.0
"""The mitre of a triangle; the tip of a longer one is no use as a template."""


class EndLine(Record):
    """A line along a member, in from its outer edge, with its name."""

    name: str
    inset_mm: float


class EndMarks(Record):
    """What is marked at an end: lines along it, places on the mitre from the tip, places on the outer edge from it."""

    lines: tuple[EndLine, ...] = ()
    on_mitre_mm: tuple[float, ...] = ()
    on_edge_mm: tuple[float, ...] = ()


class Mouth(Record):
    """A slot on the mitre face: from and to along it from the tip, above the back."""

    near_mm: float
    far_mm: float
    low_mm: float
    high_mm: float


def section_piece(outline: Outline, *, title: str, purpose: str) -> Template:
    """Make the section of a member, arcs as arcs, to be held against its end.

    Source: plane geometry.
    """
    return at_origin(
        Template(
            name="section", title=title, purpose=purpose, side=Side.EITHER, step=TemplateStep.MILL, outlines=(outline,)
        )
    )


def member_end(
    *, width_mm: float, mitre_deg: float, marks: EndMarks, from_behind: bool, title: str, purpose: str
) -> Template:
    """Make the end of a member as it is seen, to be laid on the stock: its mitre, lines along it, places of a joint.

    The short point lies ``width · tan M`` from the tip; a place s on the mitre at ``(s · sin M, s · cos M)``.

    Args:
        width_mm: of the member [mm], > 0.
        mitre_deg: M, from a square cut [degrees], 0 to 60.
        from_behind: the end is turned over, its tip on the right.
    Raises:
        OutOfRange: a member or a mitre that is none.
    Source: plane geometry.

    >>> end = member_end(width_mm=20, mitre_deg=45, marks=EndMarks(lines=(EndLine(name="rabbet wall", inset_mm=14),)),
    ...                  from_behind=False, title="", purpose="")
    >>> round(end.across_mm, 6), end.up_mm, [round(end.marks[0].start[0], 6), end.marks[0].start[1]]
    (90.0, 20, [14.0, 14])
    """
    require_positive(width_mm=width_mm)
    require_between(0, MOST_MITRE_DEG, mitre_deg=mitre_deg)
    slant, long_mm = tan(radians(mitre_deg)), width_mm * tan(radians(mitre_deg)) + PAST_MITRE_MM
    outline = polygon([(0, 0), (long_mm, 0), (long_mm, width_mm), (slant * width_mm, width_mm)])
    drawn = [(Line(start=(slant * one.inset_mm, one.inset_mm), end=(long_mm, one.inset_mm))) for one in marks.lines]
    drawn += [_across_mitre(place_mm, mitre_deg) for place_mm in marks.on_mitre_mm]
    drawn += [Line(start=(place_mm, 0), end=(place_mm, TICK_MM)) for place_mm in marks.on_edge_mm]
    names = [Word(text=one.name, at=(slant * width_mm + 4, one.inset_mm - 4), letter_mm=3) for one in marks.lines]
    return Template(
        name="end-from-behind" if from_behind else "end-from-the-face",
        title=title,
        purpose=purpose,
        side=Side.BACK if from_behind else Side.FACE,
        step=TemplateStep.JOIN,
        outlines=(polygon([_over(point, long_mm) for point in _corners(outline)]) if from_behind else outline,),
        marks=tuple(_line_over(line, long_mm) for line in drawn) if from_behind else tuple(drawn),
        words=tuple(_word_over(word, long_mm) for word in names) if from_behind else tuple(names),
    )


def mitre_face(
    shape: Sequence[Point], *, mouths: Sequence[Mouth], keys: Sequence[Mouth], title: str, purpose: str
) -> Template:
    """Make the mitre face, its slots as holes; a key, which is open at the tip, is only drawn.

    Args:
        shape: the corners of the mitre face, from the tip and above the back.
    Raises:
        ImpossibleSize: a slot breaks out of the face.
    Source: plane geometry.
    """
    return at_origin(
        Template(
            name="mitre-face",
            title=title,
            purpose=purpose,
            side=Side.EITHER,
            step=TemplateStep.JOIN,
            outlines=(polygon(shape),),
            holes=tuple(map(_mouth, mouths)),
            zones=tuple(map(_mouth, keys)),
        )
    )


def sled_cradle(*, mitre_deg: float, cradle_mm: float, title: str, purpose: str) -> Template:
    """Make a side of the cradle that holds a frame on a corner, tip down, over the blade; two are wanted.

    The V opens by the angle of the corner, ``180° − 2M``, half of it on either side.

    Args:
        mitre_deg: M, half the turn of the corner [degrees], 1 to 60.
        cradle_mm: from the table to the bottom of the V [mm], > 0.
    Raises:
        OutOfRange: a corner that is none.
    Source: plane geometry.

    >>> cradle = sled_cradle(mitre_deg=45, cradle_mm=20, title="", purpose="")
    >>> round(cradle.across_mm, 2), round(cradle.up_mm, 2)
    (167.28, 83.64)
    """
    require_between(1, MOST_MITRE_DEG, mitre_deg=mitre_deg)
    require_positive(cradle_mm=cradle_mm)
    half_rad = radians(90 - mitre_deg)
    out_mm, up_mm = ARM_MM * sin(half_rad), ARM_MM * cos(half_rad)
    middle_mm, top_mm = out_mm + FOOT_MM, cradle_mm + up_mm
    v = [(middle_mm + out_mm, top_mm), (middle_mm, cradle_mm), (middle_mm - out_mm, top_mm)]
    corners = [(0.0, 0.0), (2 * middle_mm, 0.0), (2 * middle_mm, top_mm), *v, (0.0, top_mm)]
    return Template(
        name="sled-cradle",
        title=title,
        purpose=purpose,
        side=Side.EITHER,
        step=TemplateStep.JOIN,
        outlines=(polygon(corners),),
        marks=(Line(start=(middle_mm, 0), end=(middle_mm, min(cradle_mm, TICK_MM))),),
    )


def key_blank(*, length_mm: float, width_mm: float, title: str, purpose: str) -> Template:
    """Make the blank of a key, its grain along its length.

    Raises:
        OutOfRange: it has no size.
    Source: plane geometry.
    """
    return Template(
        name="spline-blank",
        title=title,
        purpose=purpose,
        side=Side.EITHER,
        step=TemplateStep.JOIN,
        outlines=(box(0, 0, length_mm, width_mm),),
    )


def _across_mitre(place_mm: float, mitre_deg: float) -> Line:
    """A tick into the member, square to its mitre."""
    s, c = sin(radians(mitre_deg)), cos(radians(mitre_deg))
    x, y = place_mm * s, place_mm * c
    return Line(start=(x, y), end=(x + TICK_MM * c, y - TICK_MM * s))


def _mouth(mouth: Mouth) -> Outline:
    return box(mouth.near_mm, mouth.low_mm, mouth.far_mm - mouth.near_mm, mouth.high_mm - mouth.low_mm)


def _corners(outline: Outline) -> list[Point]:
    return [segment.start for segment in outline.segments]


def _over(point: Point, long_mm: float) -> Point:
    return long_mm - point[0], point[1]


def _line_over(line: Line, long_mm: float) -> Line:
    return Line(start=_over(line.start, long_mm), end=_over(line.end, long_mm))


def _word_over(word: Word, long_mm: float) -> Word:
    return Word(text=word.text, at=(long_mm - word.at[0] - word.across_mm, word.at[1]), letter_mm=word.letter_mm)
