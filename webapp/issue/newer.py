"""What has changed for a client who has said yes: by what was issued since, never by an edit still in hand."""

from collections.abc import Iterable

from framecalc.client.difference import differences
from webapp.issue.issued import Share, Shelf
from webapp.issue.offer import price_change


def since_shown(shelf: Shelf, share: Share) -> tuple[str, ...]:
    """How the newest link of the job differs from this one; nothing where none was made since."""
    issued = (other for other in shelf.of_project(share.project_id) if not other.revoked)
    newest = max(issued, key=lambda other: (other.issued.revision, other.issued.made), default=share)
    if newest.issued.revision <= share.issued.revision:
        return ()
    changed = differences(share.told, newest.told, step=share.issued.step)
    return (*changed, *_price_changes(share, newest))


def _price_changes(before: Share, after: Share) -> Iterable[str]:
    """The total, where both links show one."""
    old, new = before.total, after.total
    return [price_change(old, new)] if old and new and old != new else []
