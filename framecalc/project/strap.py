"""The strap clamp as typed, once for all frames: how hard it is pulled, where its ratchet sits, how it slides."""

from typing import Annotated, Literal

from framecalc.corners.clamping import Ratchet
from framecalc.project.fields import Model
from framecalc.project.label import Label
from framecalc.project.numbers import Force


class Strap(Model):
    """The strap of the shop; a frame may have a pull of its own."""

    pull: Annotated[
        Force | None,
        Label(
            "Pull of the strap, N",
            "By a spring scale; newtons and pounds are both understood.",
        ),
    ] = None
    ratchet: Annotated[Ratchet, Label("Ratchet of the strap")] = Ratchet.ON_A_SIDE
    friction: Annotated[Literal["0.2", "0.25", "0.3"], Label("Friction at the corners")] = "0.25"
