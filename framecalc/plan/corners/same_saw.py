"""Which frames are cut on one saw: a saw is known by its typed name, its last change, and the way its ends are cut."""

from framecalc.project.corners import Corner

Saw = tuple[str, str, str]


def saw_of(corner: Corner) -> Saw:
    """The values that identify a saw; frames without a name share the shop's one.

    Source: derived.
    """
    return corner.saw.casefold(), corner.since.casefold(), corner.cutting.value
