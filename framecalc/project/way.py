"""The way through a job as far as hands know it: the day it is due, and the steps that somebody has ticked.

A *step* is a piece of work on the way through a job, in the order of work. Most of what is done shows in the plan; that
wood is milled, glued, finished, fitted, hung or handed over only hands know. A step that a job does without is *left
out* by hand as well.
"""

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from framecalc.project.fields import Model
from framecalc.project.label import Label, named
from framecalc.project.numbers import Day


class JobStep(StrEnum):
    """A step on the way through a job, in the order of work."""

    MEASURE = "measure"
    SET_OUT = "set-out"
    PACKAGE = "package"
    JOINT = "joint"
    SHOW = "show"
    PRICE = "price"
    STOCK = "stock"
    SHEETS = "sheets"
    MILL = "mill"
    TEST_CUT = "test-cut"
    CUT = "cut"
    JOIN = "join"
    FINISH = "finish"
    FIT = "fit"
    HANG = "hang"
    HAND_OVER = "hand-over"


TICKED = frozenset(
    {
        JobStep.SHOW,
        JobStep.MILL,
        JobStep.CUT,
        JobStep.JOIN,
        JobStep.FINISH,
        JobStep.FIT,
        JobStep.HANG,
        JobStep.HAND_OVER,
    }
)
"""The steps that can be ticked: a yes may be given by word of mouth, and wood be cut without a cutting plan."""

LEFT_OUT = frozenset(
    {
        JobStep.SHOW,
        JobStep.PRICE,
        JobStep.STOCK,
        JobStep.SHEETS,
        JobStep.MILL,
        JobStep.TEST_CUT,
        JobStep.FINISH,
        JobStep.FIT,
        JobStep.HANG,
    }
)
"""The steps that a job can do without."""

Steps = Annotated[tuple[JobStep, ...], Field(max_length=len(JobStep))]


class JobWay(Model):
    """When the job is due, which steps hands have ticked, and which it does without."""

    due: Annotated[Day | None, Label("Due", "The day it is to be handed over.")] = None
    done: Annotated[Steps, Label("Steps ticked", choices=named(JobStep), is_typed=False)] = ()
    left_out: Annotated[Steps, Label("Steps left out", choices=named(JobStep), is_typed=False)] = ()
