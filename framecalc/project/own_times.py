"""Times of glue and finish as this shop has found them, at 20 °C; what it has not typed goes by usual practice."""

from typing import Annotated

from pydantic import Field

from framecalc.bench.finishing import Finish
from framecalc.bench.gluing import Glue
from framecalc.project.fields import Id, Model
from framecalc.project.label import Label, named
from framecalc.project.numbers import Number

MOST_OWN = 20

GLUES = tuple(one for one in named(Glue))
FINISHED = tuple(one for one in named(Finish) if one[0] != Finish.NONE)


class OwnGlue(Model):
    """A glue of the shop: how long it stays open and in the clamps."""

    id: Id
    glue: Annotated[Glue, Label("Glue", choices=GLUES)] = Glue.YELLOW
    open_minutes: Annotated[Annotated[int, Field(ge=1, le=999)], Label("Open time, minutes", "At 20 °C (68 °F).")]
    clamped_minutes: Annotated[Annotated[int, Field(ge=1, le=999)], Label("In the clamps, minutes")]


class OwnFinish(Model):
    """A finish of the shop: its coats, the wait between them, and until it smells no more."""

    id: Id
    finish: Annotated[Finish, Label("Finish", choices=FINISHED)] = Finish.OIL
    coats: Annotated[Annotated[int, Field(ge=1, le=12)], Label("Coats")]
    recoat_hours: Annotated[Number, Label("Next coat after, hours", "At 20 °C (68 °F) and 50% humidity.")]
    cure_days: Annotated[Annotated[int, Field(ge=0, le=120)], Label("Cured after, days")]
