"""Fitting: a package is built outside, and looked at before it is held; a card speaks of its own frame alone."""

import pytest

from framecalc.artwork.measuring import ArtworkKind
from framecalc.package.fitting import (
    ACRYLIC_CAUTION,
    CURE_CAUTION,
    GLASS_CAUTION,
    LIFT_CAUTION,
    POINTS_CAUTION,
    SCREWS_CAUTION,
    VAPOUR_CAUTION,
    FittedLayer,
    FittingStep,
    fitting_cautions,
    fitting_steps,
)
from framecalc.package.glazing import Glazing
from framecalc.package.layers import LayerKind
from framecalc.package.retainers import Retainer

EVERY = tuple(FittedLayer(kind=kind, name=f"the {kind.value}") for kind in LayerKind)


def named(*names: tuple[LayerKind, str]) -> tuple[FittedLayer, ...]:
    return tuple(FittedLayer(kind=kind, name=name) for kind, name in names)


PRINT = named(
    (LayerKind.GLAZING, "pane"),
    (LayerKind.MAT, "mat board"),
    (LayerKind.ARTWORK, "print"),
    (LayerKind.BACKING, "rag board"),
    (LayerKind.BACK, "foam board"),
    (LayerKind.DUST_COVER, "paper"),
)


def steps(
    layers: tuple[FittedLayer, ...] = PRINT,
    kind: ArtworkKind = ArtworkKind.PAPER,
    glazing: Glazing = Glazing.GLASS,
    retainer: Retainer | None = Retainer.POINTS,
    is_tray: bool = False,
) -> list[FittingStep]:
    return list(fitting_steps(layers, kind=kind, glazing=glazing, retainer=retainer, is_tray=is_tray))


def test_a_print_is_hinged_to_its_board_and_built_outside_before_frame_and_package_meet() -> None:
    assert [step.does for step in steps()] == [
        "Check",
        "Line",
        "Clean pane",
        "Hinge print",
        "Hinge mat board",
        "Build outside",
        "Bring together",
        "Look from the front",
        "Hold",
        "Cover",
        "Bumpers",
        "Label",
    ]
    said = {step.does: step.says for step in steps()}
    assert said["Hinge print"].startswith("To rag board, at its top") and "to rag board" in said["Hinge mat board"]
    assert "foam board; rag board; print; mat board; pane." in said["Build outside"]


def test_the_lower_of_two_mats_is_fixed_to_the_upper_before_that_is_hinged() -> None:
    double = named(*((layer.kind, layer.name) for layer in PRINT[:2]), (LayerKind.MAT, "lower mat")) + PRINT[2:]
    done = [step.does for step in steps(double)]
    assert done.index("Fix lower mat") + 1 == done.index("Hinge mat board")


def test_a_canvas_has_neither_pane_nor_mat_nor_bench() -> None:
    canvas = named((LayerKind.ARTWORK, "canvas"))
    said = steps(canvas, ArtworkKind.CANVAS, Glazing.NONE, Retainer.CLIPS)
    assert [step.does for step in said][1:5] == ["Line", "Lay in canvas", "Look from the front", "Hold"]
    words = " ".join(f"{step.does} {step.says}" for step in said).casefold()
    assert not any(other in words for other in ("glass", "glazing", "mat ", "mat's", "hinge", "points"))


@pytest.mark.parametrize(("glazing", "own", "other"), [
    (Glazing.GLASS, "against the light", "film"),
    (Glazing.ACRYLIC, "film", "against the light"),
])  # fmt: skip
def test_glass_and_acrylic_are_each_cleaned_in_their_own_way(glazing: Glazing, own: str, other: str) -> None:
    said = next(step.says for step in steps(glazing=glazing) if step.does == "Clean pane")
    assert own in said and other not in said


def test_without_a_mat_nothing_speaks_of_a_window() -> None:
    bare = tuple(layer for layer in PRINT if layer.kind is not LayerKind.MAT)
    words = " ".join(f"{step.does} {step.says}" for step in steps(bare))
    assert "window" not in words and "mat" not in words.split()


@pytest.mark.parametrize("glazing", Glazing)
@pytest.mark.parametrize("retainer", Retainer)
@pytest.mark.parametrize("kind", ArtworkKind)
def test_every_artwork_and_every_retainer_has_its_words(
    kind: ArtworkKind, retainer: Retainer, glazing: Glazing
) -> None:
    for step in steps(EVERY, kind, glazing, retainer):
        assert step.says.endswith((".", "?")) and step.says[:1].isupper() and "{" not in step.says + step.does


def test_a_tray_has_neither_glazing_nor_retainers() -> None:
    done = [step.does for step in steps(is_tray=True, retainer=None)]
    assert done[1:3] == ["Lay on the ledge", "Screw from behind"]
    assert not any(does.startswith(("Clean", "Hold", "Hinge")) for does in done)


def test_cautions_are_those_of_this_frame() -> None:
    glass = fitting_cautions(glazing=Glazing.GLASS, retainer=Retainer.POINTS)
    assert {GLASS_CAUTION, VAPOUR_CAUTION, POINTS_CAUTION} <= set(glass)
    assert not {ACRYLIC_CAUTION, CURE_CAUTION, SCREWS_CAUTION, LIFT_CAUTION} & set(glass)
    acrylic = fitting_cautions(glazing=Glazing.ACRYLIC, retainer=Retainer.CLIPS, is_for_two=True)
    assert {ACRYLIC_CAUTION, VAPOUR_CAUTION, SCREWS_CAUTION, LIFT_CAUTION} <= set(acrylic)
    assert not {GLASS_CAUTION, POINTS_CAUTION} & set(acrylic)
    bare = fitting_cautions(glazing=Glazing.NONE, retainer=None)
    assert CURE_CAUTION in bare and VAPOUR_CAUTION not in bare and SCREWS_CAUTION in bare


@pytest.mark.parametrize("glazing", Glazing)
@pytest.mark.parametrize("kind", ArtworkKind)
def test_felt_lies_in_the_rabbet_only_where_bare_paint_lies_in_it(kind: ArtworkKind, glazing: Glazing) -> None:
    """Behind glass no paint touches the rabbet, and no other artwork is painted."""
    (line,) = [one for one in steps(EVERY, kind, glazing, Retainer.CLIPS) if one.does == "Line"]
    is_bare_paint = kind in (ArtworkKind.CANVAS, ArtworkKind.PANEL, ArtworkKind.SOLID_PANEL) and glazing is Glazing.NONE
    assert line.says.startswith("Felt") is is_bare_paint


def test_what_is_stacked_is_what_lies_in_the_rabbet_from_the_back_up() -> None:
    """A fillet is fixed to the lip, and what covers the back comes last: neither is in the stack."""
    (stacked,) = [step.says for step in steps(EVERY) if "from the back:" in step.says]
    assert [kind for kind in LayerKind if f"the {kind.value}" in stacked] == [
        kind for kind in LayerKind if kind.is_in_rabbet and kind is not LayerKind.FILLET
    ]
