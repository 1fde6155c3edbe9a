"""The bench as typed: the ways of this shop for a job, and what was measured after machining.

Every measurement is kept as it was typed, with the piece and the time; a later one of the same piece counts instead.
"""

from typing import Annotated

from pydantic import Field, StringConstraints

from framecalc.bench.as_cut import ALL_SIDES, Quantity
from framecalc.bench.gluing import Glue
from framecalc.bench.rabbet_ways import RabbetWay
from framecalc.project.fields import Id, Model, Part, Thin
from framecalc.project.label import Label, named
from framecalc.units import parse_length

MOST_MEASURED = 200
"""Measurements that a frame keeps: older ones give way."""

Minutes = Annotated[int, Field(ge=1, le=999)]


class AsCut(Model):
    """One measurement after machining: of which sides, what, how much, and when."""

    id: Id
    side: Annotated[
        str,
        StringConstraints(pattern=r"^(all sides|top|right|bottom|left|[1-9][0-9]?)$"),
        Label("Piece", is_typed=False),
    ] = ALL_SIDES
    quantity: Annotated[Quantity, Label("Measured", choices=named(Quantity), is_typed=False)]
    size: Annotated[Thin, Label("As cut", is_typed=False)]
    when: Annotated[str, StringConstraints(max_length=40), Label("Measured on", is_typed=False)] = ""


class Bench(Model):
    """How this job is machined and glued."""

    rabbet_way: Annotated[
        RabbetWay,
        Label(
            "Rabbet is cut",
            "The bearing bit cuts after glue-up; with the strip nothing is cut.",
            choices=(
                (RabbetWay.ROUTER_TABLE.value, "On the router table"),
                (RabbetWay.TABLE_SAW.value, "On the table saw, two cuts"),
                (RabbetWay.BEARING.value, "With a bearing bit, after glue-up"),
                (RabbetWay.STRIP.value, "Built up, with a strip"),
            ),
        ),
    ] = RabbetWay.ROUTER_TABLE
    bit: Annotated[
        Part, Label("Straight bit, diameter", "A pass is no deeper than half of it.", mm="19", inch="3/4")
    ] = parse_length("19 mm")
    bearing_bit: Annotated[
        Part, Label("Bearing bit, diameter", "It leaves corners of half of it.", mm="35", inch="1 3/8")
    ] = parse_length("35 mm")
    glue: Annotated[Glue, Label("Glue", choices=named(Glue))] = Glue.YELLOW
    open_minutes: Annotated[
        Minutes | None, Label("Open time, minutes", "As on the bottle. Blank: the usual one of this glue.")
    ] = None
