from framecalc.evidence import Evidence, evidence_of_status
from framecalc.tables.sheets import sheet_materials, sold_sheets


def test_every_material_has_a_mass_and_evidence() -> None:
    for material in sheet_materials():
        assert material.density_kg_m3 > 0
        assert material.evidence in (Evidence.PRACTICE, Evidence.UNCHECKED)
        assert material.grows_with_heat or material.growth_per_k == 0


def test_plywood_grows_by_its_published_figure() -> None:
    """0.0002 of its length per 10 % of humidity: panel trade association, read second hand."""
    plywood = next(sheet for sheet in sheet_materials() if sheet.material_id == "plywood_softwood")
    assert plywood.growth_per_pct == 0.00002 and plywood.grows_with_damp


def test_inch_sheets_are_exact_in_inches_and_metric_ones_in_millimetres() -> None:
    sizes = {sheet.sold_as: sheet for sheet in sold_sheets()}
    assert (sizes["32 x 40"].across_mm, sizes["32 x 40"].up_mm) == (812.8, 1016.0)
    assert (sizes["815 x 1120 mm"].across_mm, sizes["815 x 1120 mm"].up_mm) == (815.0, 1120.0)
    assert {sheet.evidence for sheet in sold_sheets()} == {Evidence.PRACTICE}


def test_the_letter_of_a_row_tells_its_evidence() -> None:
    assert evidence_of_status("READ (PWG list)") is Evidence.PUBLISHED
    assert evidence_of_status("S") is Evidence.UNCHECKED
