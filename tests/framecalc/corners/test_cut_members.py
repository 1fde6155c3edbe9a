"""The sides in hand, put in order round the frame."""

import pytest

from framecalc.corners.cut_members import CutMember, in_order
from framecalc.errors import FrameCalcError

MITRE_MM = 56.0
SIDES_MM = {"top": 500.0, "right": 350.0, "bottom": 500.0, "left": 350.0}


@pytest.mark.parametrize(("more_mm", "turn_deg", "is_frame"), [(0, 5, True), (0.1, 0, False), (0, 5.1, False)])
def test_opposite_sides_may_differ_by_half_the_mitre_and_angles_by_five_degrees(
    more_mm: float, turn_deg: float, is_frame: bool
) -> None:
    top, *others = (CutMember(side=side, long_mm=long_mm) for side, long_mm in SIDES_MM.items())
    top = CutMember(side="top", long_mm=top.long_mm + MITRE_MM / 2 + more_mm, start_deg=45 + turn_deg)
    if is_frame:
        assert in_order([top, *others], mitre_length_mm=MITRE_MM) == (top, *others)
    else:
        with pytest.raises(FrameCalcError):
            in_order([top, *others], mitre_length_mm=MITRE_MM)
