"""Which wood of the table a name means; a name that fits several means none."""

import pytest

from framecalc.tables.wood import wood_species
from framecalc.wood.naming import naming_findings, species_of, woods_called


@pytest.mark.parametrize(
    ("name", "meant"),
    [
        ("white oak", "white_oak"),
        ("Oak, white", "white_oak"),
        ("quartersawn White Oak", "white_oak"),
        ("Quercus alba", "white_oak"),
        ("hard maple", "sugar_maple"),
        ("cherry", "black_cherry"),
        ("khaya", "khaya"),
        ("western red cedar", "western_redcedar"),
        ("Douglas fir", "douglas_fir_coast"),
    ],
)
def test_a_wood_is_known_by_any_of_its_names(name: str, meant: str) -> None:
    assert [wood.species_id for wood in woods_called(name)] == [meant]


@pytest.mark.parametrize(
    ("name", "count"), [("ash", 2), ("oak", 2), ("maple", 4), ("", 0), ("white", 0), ("limewood", 0), ("{oak}", 2)]
)
def test_what_fits_several_or_none_means_none_until_somebody_says(name: str, count: int) -> None:
    assert len(woods_called(name)) == count
    assert species_of(name) is None
    known = species_of(name, reckoned_as="white_ash")
    assert known is not None and known.species_id == "white_ash"


def test_every_wood_is_known_by_the_name_that_the_table_gives_it() -> None:
    for wood in wood_species():
        assert woods_called(wood.common_name) == (wood,)


def test_a_wood_with_two_names_is_pointed_out_and_the_typed_one_counts() -> None:
    (finding,) = naming_findings("white oak", reckoned_as="black_walnut")
    assert "“white oak”" in finding.sentence and "Walnut, black" in finding.sentence
    assert species_of("white oak", reckoned_as="black_walnut") == woods_called("white oak")[0]
    assert naming_findings("white oak", reckoned_as="white_oak") == naming_findings("ash", reckoned_as="teak") == ()
