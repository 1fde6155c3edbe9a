"""The shop's cutters for profiles, as typed once on its page."""

from typing import Annotated

from framecalc.bench.cutters import Cutter, CutterKind
from framecalc.project.fields import Id, Model, Part
from framecalc.project.label import Label, named

MOST_CUTTERS = 40


class OwnCutter(Model):
    """One cutter."""

    id: Id
    kind: Annotated[CutterKind, Label("Cutter", choices=named(CutterKind))] = CutterKind.ROUND_OVER
    size: Annotated[Part, Label("Size")]
    has_bearing: Annotated[bool, Label("Bearing", choices=(("no", "None"), ("yes", "With bearing")))] = False

    @property
    def owned(self) -> Cutter:
        """As the bench takes it."""
        return Cutter(kind=self.kind, size_mm=self.size.mm, has_bearing=self.has_bearing)
