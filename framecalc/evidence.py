"""How far a fact can be relied on: it is published, usual practice of the trade, unchecked, or derived here.

Whatever a page states as a fact shows its evidence: a statement by its `Source`, a row of a table by a letter.
"""

from enum import StrEnum

from framecalc.records import Record


class Evidence(StrEnum):
    """The kind of support that a fact has, the most reliable first."""

    PUBLISHED = "published"
    PRACTICE = "usual practice"
    UNCHECKED = "unchecked: measure yours"
    DERIVED = "derived"


class Source(Record):
    """Where a fact comes from: its evidence, and the name of the source as a page writes it."""

    evidence: Evidence
    name: str


USUAL_PRACTICE = Evidence.PRACTICE.value
"""The source of a finding that no book or standard states."""

PRACTICE = Source(evidence=Evidence.PRACTICE, name=USUAL_PRACTICE)
PLANE_GEOMETRY = Source(evidence=Evidence.DERIVED, name="plane geometry")


def evidence_of_status(status: str) -> Evidence:
    """Find the evidence of a table's row by its letter; tables/README.md explains the letters.

    Source: derived.

    >>> evidence_of_status("READ").value, evidence_of_status("C").value, evidence_of_status("M").value
    ('published', 'usual practice', 'unchecked: measure yours')
    """
    letters = {"C": Evidence.PRACTICE, "M": Evidence.UNCHECKED, "S": Evidence.UNCHECKED}
    return letters.get(status.strip(), Evidence.PUBLISHED)
