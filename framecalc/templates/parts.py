"""The parts of a template one by one, and parts laid out beside each other, as a bed holds them."""

from collections.abc import Iterable, Iterator

from framecalc.geometry.outline import Bounds, Line, Outline, Point, bounds, turned_right
from framecalc.records import replace
from framecalc.templates.template import Template, at_origin, moved_by
from framecalc.units import TOLERANCE_MM
from framecalc.words import joined


def parts_of(template: Template) -> tuple[Template, ...]:
    """Take a template apart for a machine: one for each outline, with all that lies in it, from its lower left corner.

    Source: plane geometry.

    >>> from framecalc.templates.shapes import box
    >>> from framecalc.templates.template import Side, TemplateStep
    >>> two = Template(name="x", title="", purpose="", side=Side.EITHER, step=TemplateStep.MAT,
    ...                outlines=(box(0, 0, 30, 20), box(40, 0, 5, 5)), holes=(box(5, 5, 9, 9),))
    >>> [(part.across_mm, len(part.holes)) for part in parts_of(two)]
    [(30, 1), (5, 0)]
    """
    return tuple(map(at_origin, _split(template)))


def alike_once(templates: Iterable[Template]) -> tuple[Template, ...]:
    """Make one of templates that are the same shape: one print serves for all that its title names.

    Source: derived.

    >>> from framecalc.templates.shapes import box
    >>> from framecalc.templates.template import Side, TemplateStep
    >>> glass, back = (
    ...     Template(
    ...         name=name, title=name, purpose="", side=Side.EITHER, step=TemplateStep.SHEET,
    ...         outlines=(box(0, 0, 9, 9),),
    ...     )
    ...     for name in ("Glass", "Back")
    ... )
    >>> [one.title for one in alike_once((glass, back))]
    ['Glass · Back']
    """
    found: dict[object, Template] = {}
    for one in templates:
        drawn = (one.side, one.outlines, one.holes, one.marks, one.zones, one.words, one.notes)
        first = found.get(drawn)
        found[drawn] = replace(first, title=joined(" · ", (first.title, one.title))) if first else one
    return tuple(found.values())


def turned(template: Template) -> Template:
    """Turn a part without words by a quarter, clockwise.

    Source: plane geometry.
    """
    return at_origin(
        replace(
            template,
            outlines=_turned(template.outlines),
            holes=_turned(template.holes),
            zones=_turned(template.zones),
            marks=tuple(Line(start=_quarter(mark.start), end=_quarter(mark.end)) for mark in template.marks),
        )
    )


def together(parts: Iterable[tuple[Template, Point]], *, like: Template) -> Template:
    """Lay parts out, each with its lower left corner at a place, as one template that is called like another one.

    Source: plane geometry.
    """
    laid = [moved_by(part, at) for part, at in parts]
    return replace(
        like,
        outlines=tuple(outline for one in laid for outline in one.outlines),
        holes=tuple(hole for one in laid for hole in one.holes),
        zones=tuple(zone for one in laid for zone in one.zones),
        marks=tuple(mark for one in laid for mark in one.marks),
        words=tuple(word for one in laid for word in one.words),
    )


def _split(template: Template) -> Iterator[Template]:
    for outline in template.outlines:
        part = bounds(outline.segments)
        yield replace(
            template,
            outlines=(outline,),
            holes=tuple(hole for hole in template.holes if _holds(part, hole.segments[0].start)),
            zones=tuple(zone for zone in template.zones if _holds(part, zone.segments[0].start)),
            marks=tuple(mark for mark in template.marks if _holds(part, mark.start)),
            words=tuple(word for word in template.words if _holds(part, word.at)),
            notes=(),
        )


def _holds(part: Bounds, point: Point) -> bool:
    x, y = point
    across = part.left_mm - TOLERANCE_MM <= x <= part.right_mm + TOLERANCE_MM
    return across and part.bottom_mm - TOLERANCE_MM <= y <= part.top_mm + TOLERANCE_MM


def _turned(outlines: Iterable[Outline]) -> tuple[Outline, ...]:
    return tuple(Outline(segments=turned_right(one.segments)) for one in outlines)


def _quarter(point: Point) -> Point:
    return point[1], 0 - point[0]
