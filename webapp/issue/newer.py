"""What has changed for a client who has said yes: by what was issued since, never by an edit still in hand."""

from collections.abc import Iterable

from framecalc.client.difference import ClientFacts, differences
from webapp.issue.issued import Share, Shelf
from webapp.issue.offer import price_change, total_in


def since_shown(shelf: Shelf, share: Share) -> tuple[str, ...]:
    """How the newest link of the job differs from this one; nothing where none was made since."""
    issued = (other for other in shelf.of_project(share.project_id) if not other.revoked)
    newest = max(issued, key=lambda other: (other.issued.revision, other.issued.made), default=share)
    if newest.issued.revision <= share.issued.revision:
        return ()
    told, total = _of_same_choice(share, newest)
    changed = differences(share.told, told, step=share.issued.step)
    return (*changed, *_price_changes(share.total, total))


def _of_same_choice(share: Share, newest: Share) -> tuple[tuple[ClientFacts, ...], str]:
    """What the newest link tells, and its total: of the choice that was made, where that is on offer again."""
    same = newest.issued.choice(share.chosen.id) if share.chosen and not newest.chosen else None
    return (same.told, total_in(same.prices)) if same else (newest.told, newest.total)


def _price_changes(old: str, new: str) -> Iterable[str]:
    """The total, where both links show one."""
    return [price_change(old, new)] if old and new and old != new else []
