"""Which wood of the table a person means: "white oak", "Oak, white" and "Quercus alba" are one wood.

A name that fits several woods, such as "ash", means none of them until somebody says which.
"""

import re
from collections.abc import Iterator
from functools import lru_cache

from framecalc.errors import quoted
from framecalc.findings import Finding, Severity
from framecalc.tables.wood import Species, wood_species
from framecalc.words import worded


@lru_cache(maxsize=256)
def woods_called(name: str) -> tuple[Species, ...]:
    """The woods of the table that a name can mean: those whose whole name is in it, else those it is a part of.

    Source: derived.

    >>> [wood.species_id for wood in woods_called("Quartersawn white oak")], len(woods_called("ash"))
    (['white_oak'], 2)
    """
    said = _words(name)
    exact = tuple(wood for wood in wood_species() if said == _all_words(wood))
    if exact:
        return exact
    whole = {wood: max((len(one) for one in _names(wood) if one <= said), default=0) for wood in wood_species()}
    longest = max(whole.values())
    if longest:
        return tuple(wood for wood, count in whole.items() if count == longest)
    return tuple(wood for wood in wood_species() if _noun(wood) in said and said <= _all_words(wood))


def species_of(name: str, *, reckoned_as: str = "") -> Species | None:
    """The wood of a name; one that fits several or none is the wood that it is reckoned as.

    Args:
        name: what the wood is called.
        reckoned_as: the id of a wood of the table, or nothing.
    Source: derived.

    >>> species_of("ash"), getattr(species_of("ash", reckoned_as="white_ash"), "common_name")
    (None, 'Ash, white')
    """
    found = woods_called(name)
    return found[0] if len(found) == 1 else species_by_id(reckoned_as)


def species_by_id(species_id: str) -> Species | None:
    """The wood of an id of the table, if there is one. Source: tables/wood_species.csv."""
    return next((wood for wood in wood_species() if wood.species_id == species_id), None)


def naming_findings(name: str, *, reckoned_as: str) -> tuple[Finding, ...]:
    """Whether a wood is called one thing and reckoned as another: its name counts.

    Source: derived.
    """
    meant, other = species_of(name), species_by_id(reckoned_as)
    if meant is None or other is None or meant == other:
        return ()
    sentence = worded(
        "The wood is called {name}, yet the file also names {other}. {meant} counts everywhere: choose “By its name”, "
        "or name the wood anew.",
        name=quoted(name),
        other=other.common_name,
        meant=meant.common_name,
    )
    return (
        Finding(
            code="wood.two-names",
            severity=Severity.WARN,
            sentence=sentence,
            why="One frame is of one wood: it moves and weighs as that.",
            source="derived",
            argument="reckoned_as",
        ),
    )


def _words(text: str) -> frozenset[str]:
    return frozenset(re.findall(r"[^\W_]+", text.casefold().replace("redcedar", "red cedar")))


@lru_cache(maxsize=256)
def _names(wood: Species) -> tuple[frozenset[str], ...]:
    """Its names, each a set of words: the common one, the one in brackets, the botanical one."""
    return tuple(_words(name) for name in _each_name(wood))


def _each_name(wood: Species) -> Iterator[str]:
    name, _, other = wood.common_name.partition("(")
    yield from (one for one in (name, other) if one.strip())
    if "spp." not in wood.botanical_name:
        yield wood.botanical_name.partition("(")[0]


@lru_cache(maxsize=256)
def _all_words(wood: Species) -> frozenset[str]:
    return _words(wood.common_name)


def _noun(wood: Species) -> str:
    """What kind of wood it is: oak, poplar, fir."""
    kind = re.split("[,(]", wood.common_name.casefold())[0]
    return kind.replace("-", " ").split()[-1]
