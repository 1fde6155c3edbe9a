"""The gap to the glazing, and what conservators say."""

import pytest

from framecalc.artwork.measuring import ArtworkKind
from framecalc.evidence import Evidence
from framecalc.findings import Severity
from framecalc.package.glazing import (
    GUIDE,
    HANDBOOK,
    SPACED_GAP_MM,
    Glazing,
    gap_in_front_mm,
    gap_wanted,
    glazing_findings,
    materials_statements,
)
from framecalc.package.layers import Layer, LayerKind


@pytest.mark.parametrize("kind", list(ArtworkKind))
@pytest.mark.parametrize("glazing", [Glazing.GLASS, Glazing.ACRYLIC])
def test_an_artwork_is_always_kept_off_the_glazing(kind: ArtworkKind, glazing: Glazing) -> None:
    """Published: Library of Congress, Guide to Preservation Matting and Framing."""
    found = glazing_findings(kind, glazing=glazing, gap_mm=0)
    assert found[0].code == "glazing.touches"
    assert found[0].source == GUIDE.name and GUIDE.evidence is Evidence.PUBLISHED
    assert (found[0].severity is Severity.STOP) == (kind in (ArtworkKind.PHOTOGRAPH, ArtworkKind.FRIABLE))


@pytest.mark.parametrize("kind", list(ArtworkKind))
def test_the_gap_that_is_wanted_leaves_nothing_to_say_behind_glass(kind: ArtworkKind) -> None:
    assert glazing_findings(kind, glazing=Glazing.GLASS, gap_mm=gap_wanted(kind).least_mm) == ()
    codes = [finding.code for finding in glazing_findings(kind, glazing=Glazing.GLASS, gap_mm=1.3)]
    assert codes == ["glazing.small-gap"]
    assert glazing_findings(kind, glazing=Glazing.NONE, gap_mm=0) == ()


def test_acrylic_is_not_put_in_front_of_loose_media() -> None:
    """Published: reCollections: glass for pastel, charcoal, chalk and flaking gouache, because acrylic charges."""
    (finding,) = glazing_findings(ArtworkKind.FRIABLE, glazing=Glazing.ACRYLIC, gap_mm=6)
    assert finding.severity is Severity.WARN and finding.source == HANDBOOK.name
    assert HANDBOOK.evidence is Evidence.PUBLISHED


def layer(kind: LayerKind, thickness_mm: float) -> Layer:
    return Layer(name=kind.value, kind=kind, thickness_mm=thickness_mm, tolerance_mm=0)


def test_mats_and_spacers_make_the_gap_and_what_lies_behind_does_not() -> None:
    glass, art = layer(LayerKind.GLAZING, 2.5), layer(LayerKind.ARTWORK, 0.3)
    mat, spacer, backing = layer(LayerKind.MAT, 1.45), layer(LayerKind.SPACER, 3), layer(LayerKind.BACKING, 4.8)
    assert gap_in_front_mm([glass, art, mat, backing]) == 0
    assert gap_in_front_mm([glass, spacer, mat, art, backing]) == pytest.approx(4.45)


@pytest.mark.parametrize("kind", list(ArtworkKind))
def test_every_statement_has_evidence(kind: ArtworkKind) -> None:
    statements = materials_statements(kind)
    assert statements and all(
        statement.says and statement.source.evidence is not Evidence.DERIVED for statement in statements
    )


def test_a_board_for_photographs_has_passed_its_test() -> None:
    assert any("photographic activity" in statement.says for statement in materials_statements(ArtworkKind.PHOTOGRAPH))
    assert not any("photographic activity" in statement.says for statement in materials_statements(ArtworkKind.PAPER))


def test_a_photograph_is_spaced_by_the_least_spacer_and_what_is_loose_by_more_than_anything() -> None:
    photograph, loose = gap_wanted(ArtworkKind.PHOTOGRAPH), gap_wanted(ArtworkKind.FRIABLE)
    assert photograph.usual_mm == min(SPACED_GAP_MM) > photograph.least_mm
    assert all(gap_wanted(kind).least_mm <= loose.least_mm == loose.usual_mm for kind in ArtworkKind)
