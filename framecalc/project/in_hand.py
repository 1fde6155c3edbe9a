"""The stick or board that somebody has in hand and asks about: which frames can it make?"""

from typing import Annotated

from pydantic import Field, StringConstraints

from framecalc.project.fields import Model, Place, Run, Size
from framecalc.project.label import Label

AlikeCount = Annotated[int, Field(ge=1, le=20)]
"""How many sticks or boards alike are in hand."""

FrameId = Annotated[str, StringConstraints(pattern=r"^[a-z0-9]{0,16}$")]


class StickInHand(Model):
    """A stick of the member's section, or a rough board where it has a width. A missing length is the usual stick's.

    `frame` is the id of the frame whose member is meant; blank, or of none there is: the first. `defect_from` and
    `defect_to` are a stretch to avoid, from the left end.
    """

    frame: Annotated[FrameId, Label("Members of", of="frames")] = ""
    length: Annotated[Run | None, Label("Length", "As it lies there, from end to end.")] = None
    width: Annotated[Size | None, Label("Width, if a board", "Blank: a stick of the member's section.")] = None
    count: Annotated[AlikeCount, Label("How many alike")] = 1
    defect_from: Annotated[Place | None, Label("Stretch to avoid, from", "From the left end.")] = None
    defect_to: Annotated[Place | None, Label("Stretch to avoid, to")] = None
