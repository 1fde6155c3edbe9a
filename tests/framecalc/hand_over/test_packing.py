"""The box of a frame: laws of its sizes, who carries it, what is never taped."""

import pytest

from framecalc.errors import OutOfRange
from framecalc.hand_over.label import OPENED, label_findings, opening_of
from framecalc.hand_over.packing import TAPE_SAYS, Tape, pack, packing_findings, tape_for
from framecalc.package.glazing import Glazing
from framecalc.package.retainers import Retainer

FRAME = {"across_mm": 500.0, "up_mm": 400.0, "deep_mm": 30.0, "mass_kg": 4.0, "block_mm": 40.0, "wall_mm": 7.0}


@pytest.mark.parametrize("frames", [1, 2, 5])
@pytest.mark.parametrize("between_mm", [0.0, 10.0])
def test_what_lies_in_a_box_and_its_blocks_fill_it(frames: int, between_mm: float) -> None:
    box = pack(**FRAME, frames=frames, between_mm=between_mm)
    across, up, deep = box.inside_mm
    assert (across - 500, up - 400) == (80, 80)
    assert deep == pytest.approx(frames * 30 + (frames - 1) * between_mm + 80)
    assert [outer - inner for outer, inner in zip(box.outside_mm, box.inside_mm, strict=True)] == pytest.approx(
        [14] * 3
    )
    assert box.mass_kg == pytest.approx(4 * frames) and box.is_for_two is (frames == 5)


def test_frames_lie_on_each_other_where_nothing_is_said_to_lie_between() -> None:
    assert pack(**FRAME, frames=2) == pack(**FRAME, frames=2, between_mm=0)


def test_a_frame_of_no_size_is_refused() -> None:
    with pytest.raises(OutOfRange):
        pack(**FRAME | {"deep_mm": 0.0})


def test_acrylic_is_never_taped_and_tape_keeps_off_gilding() -> None:
    assert {tape_for(Glazing.ACRYLIC, is_gilded=gilded) for gilded in (False, True)} == {Tape.NEVER}
    assert "No tape on acrylic" in TAPE_SAYS[Tape.NEVER]
    assert "clear of the frame" in TAPE_SAYS[tape_for(Glazing.GLASS, is_gilded=True)]


def test_thin_blocks_and_a_heavy_box_are_notes() -> None:
    found = packing_findings(pack(**FRAME | {"mass_kg": 15.1}), block_mm=24.9)
    assert [(one.code, one.severity.value) for one in found] == [("packing.block", "note"), ("packing.by-two", "note")]
    assert not list(packing_findings(pack(**FRAME | {"mass_kg": 15.0}), block_mm=25.0))


def test_every_retainer_can_be_opened_again() -> None:
    assert set(OPENED) == set(Retainer)
    assert opening_of(None, has_cover=False) == "Undo the screws behind."


def test_a_label_that_is_too_low_says_how_high_it_must_be() -> None:
    (found,) = label_findings(up_mm=40, needed_mm=52)
    assert found.ways[0].value_mm == 52


@pytest.mark.parametrize(("across_mm", "is_glazed", "is_for_two"), [(1600, True, True), (1600, False, False)])
def test_a_long_pane_is_carried_by_two(across_mm: float, is_glazed: bool, is_for_two: bool) -> None:
    """Fault: a pane three metres long was carried by one person."""
    assert pack(**FRAME | {"across_mm": across_mm}, is_glazed=is_glazed).is_for_two is is_for_two
