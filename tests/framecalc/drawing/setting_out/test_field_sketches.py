"""Every length that somebody types has its small drawing of where it is measured."""

from typing import Any, get_args

import pytest
from legible import require_legible
from pydantic import BaseModel
from svg_reading import Drawn

from framecalc.drawing.setting_out.field_sketches import PLACES, draw_field_sketch
from framecalc.project import Artwork, KnownSizes, Package, Section, Start
from framecalc.units import Length


def lengths_of(model: type[BaseModel], above: str = "") -> set[str]:
    """The paths of all lengths in a model of the file, lists by what they hold."""
    found = set()
    for name, field in model.model_fields.items():
        for kind in _kinds(field.annotation):
            if isinstance(kind, type) and issubclass(kind, BaseModel):
                found |= lengths_of(kind, f"{above}{name}.")
            elif kind is Length:
                found.add(f"{above}{name}")
    return found


def _kinds(annotation: Any) -> set[Any]:
    return {annotation} | {kind for part in get_args(annotation) for kind in _kinds(part)}


ON_THE_PACKAGE_PAGE = ("package.mat.", "package.fillet_shows")
ALSO_SET_OUT = {"package.mat.overlap", "package.mat.border", "package.mat.bottom"}


def test_every_length_of_the_setting_out_page_has_its_place() -> None:
    parts = {"artwork": Artwork, "package": Package, "section": Section, "start": Start, "known": KnownSizes}
    every = {path for name, part in parts.items() for path in lengths_of(part, f"{name}.")}
    lengths = {path for path in every if not path.startswith(ON_THE_PACKAGE_PAGE)} | ALSO_SET_OUT
    assert len(lengths) > 25
    assert lengths <= set(PLACES)


@pytest.mark.parametrize("path", PLACES)
def test_a_place_is_picked_out_by_an_arrow_and_a_letter(path: str) -> None:
    drawn = Drawn(draw_field_sketch(path))
    assert len(drawn.runs("given-arrow")) == 2
    assert [text.text for text in drawn.texts] == [PLACES[path].letter]
    assert path.rsplit(".", 1)[-1].replace("_", " ") in drawn.title


@pytest.mark.parametrize("path", PLACES)
def test_a_place_is_legible(path: str) -> None:
    require_legible(Drawn(draw_field_sketch(path)))


def test_where_nothing_is_measured_there_is_no_drawing() -> None:
    with pytest.raises(KeyError):
        draw_field_sketch("artwork.kind")
