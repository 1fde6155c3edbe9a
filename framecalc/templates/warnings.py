"""What goes wrong with a template on a machine although it can be made: too large for the bed, too thin to hold.

A *web* is what stays between two cuts; one that is too thin burns through or breaks as the sheet is lifted.
"""

from collections.abc import Iterator
from itertools import combinations
from math import inf

from framecalc.geometry.outline import Outline, bounds, distance_mm, flatten
from framecalc.records import Record
from framecalc.templates.template import Template
from framecalc.units import TOLERANCE_MM

_SAGITTA_MM = 0.05
"""How finely an arc is looked at. Ours, no source."""

USUAL_GAP_MM, USUAL_WEB_MM = 3.0, 2.0
"""What stays between two parts on a bed, and between two cuts. Common practice, no source."""


class Bed(Record):
    """The bed of a machine and the gap between parts on it; the thinnest web that its material takes."""

    across_mm: float = inf
    up_mm: float = inf
    gap_mm: float = USUAL_GAP_MM
    web_mm: float = USUAL_WEB_MM

    @property
    def is_known(self) -> bool:
        """Whether its size was typed."""
        return max(self.across_mm, self.up_mm) < inf

    def holds(self, across_mm: float, up_mm: float) -> bool:
        """Whether a part lies on it, either way."""
        part, bed = sorted((across_mm, up_mm)), sorted((self.across_mm, self.up_mm))
        return all(one <= other + TOLERANCE_MM for one, other in zip(part, bed, strict=True))


NO_BED = Bed()
"""A machine of which nothing is known."""


class Warned(Record):
    """A sentence with the lengths that it names in braces."""

    wording: str
    lengths: tuple[tuple[str, float], ...]


def warnings_of(template: Template, *, bed: Bed) -> tuple[Warned, ...]:
    """Say what goes wrong with a template on a bed.

    Source: plane geometry; the thinnest web is the shop's.

    >>> from framecalc.templates.shapes import box
    >>> from framecalc.templates.template import Side, TemplateStep
    >>> part = Template(name="x", title="", purpose="", side=Side.EITHER, step=TemplateStep.MAT,
    ...                 outlines=(box(0, 0, 30, 20),), holes=(box(1, 5, 9, 9),))
    >>> [one.lengths for one in warnings_of(part, bed=Bed(across_mm=25, up_mm=25))]
    [(('across', 30), ('up', 20)), (('web', 1.0), ('least', 2.0))]
    """
    return tuple((*_too_large(template, bed), *_too_thin(template, bed)))


def thinnest_web_mm(template: Template) -> float:
    """The least distance between two cuts, infinite where there is but one in each part.

    Source: plane geometry.
    """
    pairs = [*combinations(template.holes, 2), *((hole, part) for hole in template.holes for part in template.outlines)]
    return min((_apart_mm(one, other) for one, other in pairs), default=inf)


def _too_large(template: Template, bed: Bed) -> Iterator[Warned]:
    for part in template.outlines:
        box = bounds(part.segments)
        across_mm, up_mm = box.right_mm - box.left_mm, box.top_mm - box.bottom_mm
        if not bed.holds(across_mm, up_mm):
            lengths = (("across", across_mm), ("up", up_mm))
            yield Warned(wording="Larger than the bed: {across} × {up}. Print it, and cut by hand.", lengths=lengths)
            return


def _too_thin(template: Template, bed: Bed) -> Iterator[Warned]:
    web_mm = thinnest_web_mm(template)
    if web_mm < bed.web_mm - TOLERANCE_MM:
        lengths = (("web", web_mm), ("least", bed.web_mm))
        yield Warned(wording="Thin web: {web} between two cuts, {least} wanted. Move one.", lengths=lengths)


def _apart_mm(one: Outline, other: Outline) -> float:
    ways = ((one, other), (other, one))
    return min(distance_mm(to.segments, point) for of, to in ways for point in flatten(of, tolerance_mm=_SAGITTA_MM))
