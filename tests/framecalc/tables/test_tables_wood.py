"""The tables about wood: complete, plausible, and agreeing with the formulas that they rest on."""

import pytest

from framecalc.tables.wood import Species, biscuits, corner_wedges, dowels, pin_gauges, tenon_thicknesses, wood_species

SPECIES = wood_species()


def test_there_are_fifty_two_woods_and_no_name_comes_twice() -> None:
    assert len(SPECIES) == 52
    assert len({species.species_id for species in SPECIES}) == 52
    assert {species.group for species in SPECIES} == {"hardwood", "softwood", "imported"}


@pytest.mark.parametrize("species", SPECIES, ids=lambda species: species.species_id)
def test_every_wood_moves_more_along_its_rings_than_across_them(species: Species) -> None:
    assert species.derived_tangential_per_pct > species.derived_radial_per_pct > 0
    assert species.table_tangential_per_pct >= species.table_radial_per_pct >= 0
    assert 300 < species.density_kg_m3 < 1000


@pytest.mark.parametrize("species", SPECIES, ids=lambda species: species.species_id)
def test_a_wood_without_coefficients_says_so(species: Species) -> None:
    assert (species.table_tangential_per_pct == 0) == (species.coefficient_status == "none")


def test_domestic_woods_agree_with_their_shrinkage_but_for_the_commercial_groups() -> None:
    unlike = {
        species.species_id
        for species in SPECIES
        if species.group != "imported"
        and abs(species.table_tangential_per_pct - species.derived_tangential_per_pct) > 0.0000101
    }
    assert unlike == {"northern_red_oak", "white_oak", "true_hickory"}


def test_a_slot_is_deeper_than_half_of_its_plate_and_a_hole_than_half_of_its_dowel() -> None:
    assert all(biscuit.slot_depth_mm > biscuit.width_mm / 2 for biscuit in biscuits())
    assert all(dowel.hole_depth_mm > dowel.length_mm / 2 for dowel in dowels())
    for is_metric in (True, False):
        sizes_mm = [one.thickness_mm for one in tenon_thicknesses() if one.is_metric is is_metric]
        assert sizes_mm == sorted(sizes_mm) and len(sizes_mm) > 3


def test_a_higher_gauge_is_a_thinner_wire() -> None:
    gauges = {int(pin.size.split()[0]): pin.diameter_mm for pin in pin_gauges()}
    assert list(gauges) == sorted(gauges)
    assert list(gauges.values()) == sorted(gauges.values(), reverse=True)
    assert gauges[18] == pytest.approx(0.0475 * 25.4, abs=0.001)  # steel wire gauge 18, from memory


def test_wedges_grow_and_none_is_higher_than_a_frame_is_usually_thick() -> None:
    heights = [wedge.height_mm for wedge in corner_wedges()]
    assert heights == sorted(heights) and heights[-1] < 19
