"""Fitting: the steps follow the layers in their order, and whatever can hurt is said."""

import pytest

from framecalc.artwork.measuring import ArtworkKind
from framecalc.package.fitting import (
    ACRYLIC_CAUTION,
    GLASS_CAUTION,
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


def steps(
    kind: ArtworkKind = ArtworkKind.PAPER, retainer: Retainer | None = Retainer.POINTS, is_tray: bool = False
) -> list[FittingStep]:
    return list(fitting_steps(EVERY, kind=kind, glazing=Glazing.GLASS, retainer=retainer, is_tray=is_tray))


def test_layers_are_laid_in_from_the_lip_to_the_back_and_the_dust_cover_comes_after_what_holds_them() -> None:
    done = [step.does for step in steps()]
    assert [does for does in done if does.startswith("Lay in")] == [
        f"Lay in the {kind.value}" for kind in LayerKind if kind.is_in_rabbet
    ]
    assert done.index("Clean") < done.index("Lay in the glazing") < done.index("Hold") < done.index("Dust cover")
    assert done[0] == "Check" and done[-1] == "Last look"


@pytest.mark.parametrize("retainer", Retainer)
@pytest.mark.parametrize("kind", ArtworkKind)
def test_every_artwork_and_every_retainer_has_its_words(kind: ArtworkKind, retainer: Retainer) -> None:
    assert all(step.says.endswith((".", "?")) for step in steps(kind, retainer))


def test_a_tray_has_neither_glazing_nor_retainers() -> None:
    done = [step.does for step in steps(is_tray=True, retainer=None)]
    assert "Clean" not in done and "Hold" not in done and "Screw from behind" in done


def test_vapour_is_always_warned_of_and_edges_where_there_are_any() -> None:
    for glazing, wanted in ((Glazing.GLASS, GLASS_CAUTION), (Glazing.ACRYLIC, ACRYLIC_CAUTION), (Glazing.NONE, "")):
        said = fitting_cautions(glazing=glazing)
        assert VAPOUR_CAUTION in said and (not wanted or wanted in said)
    assert GLASS_CAUTION not in fitting_cautions(glazing=Glazing.NONE)
