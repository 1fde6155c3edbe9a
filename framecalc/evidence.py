"""How far a fact can be relied on: published by somebody, common practice of the trade, or derived here.

Whatever a page tells a person as a fact shows its standing. Findings carry it in the words of their source, rows of the
tables in a letter.
"""

from enum import StrEnum

_PRACTICE, _DERIVED = "common practice", ("derived", "plane geometry", "physics")


class Evidence(StrEnum):
    """What stands behind a fact."""

    PUBLISHED = "published"
    FROM_MEMORY = "published, from memory"
    SECOND_HAND = "published, read second hand"
    PRACTICE = "common practice"
    DERIVED = "derived"


def standing_of_source(source: str) -> Evidence:
    """Tell the standing from the words of a source, as findings and docstrings give it.

    Source: derived.

    >>> standing_of_source("common practice, no source").value
    'common practice'
    >>> standing_of_source("Library of Congress, Preservation Matting and Framing").value
    'published'
    """
    if source.startswith(_PRACTICE):
        return Evidence.PRACTICE
    if source.startswith(_DERIVED):
        return Evidence.DERIVED
    if "from memory" in source:
        return Evidence.FROM_MEMORY
    return Evidence.SECOND_HAND if "second hand" in source else Evidence.PUBLISHED


def standing_of_status(status: str) -> Evidence:
    """Tell the standing from the letter of a table's row; tables/README.md says what the letters mean.

    Source: derived.

    >>> standing_of_status("READ").value, standing_of_status("C").value, standing_of_status("M").value
    ('published', 'common practice', 'published, from memory')
    """
    letters = {"C": Evidence.PRACTICE, "M": Evidence.FROM_MEMORY, "S": Evidence.SECOND_HAND}
    return letters.get(status.strip(), Evidence.PUBLISHED)
