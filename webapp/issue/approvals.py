"""The one thing that a client's page writes: a yes to exactly what was shown, once for each revision."""

from contextlib import suppress
from dataclasses import replace
from datetime import UTC

from framecalc.project import project_text
from framecalc.project.fields import printable
from webapp.data.disk import make_folder, write_safely
from webapp.data.errors import NotWritten, StoreError
from webapp.issue.issued import SHARE, Approval, NoSuchShare, Share, Shelf, content_hash

LONGEST_NAME, LONGEST_NOTE = 120, 500


class AlreadyApproved(StoreError):
    """This revision has been approved; a yes is given once."""


class UnusableAnswer(StoreError):
    """A name or a note that cannot be taken."""


class UnknownAnswer(UnusableAnswer):
    """Nobody can tell whether this revision has been approved: the record of a link is damaged."""


def approve(shelf: Shelf, secret: str, *, name: str, note: str) -> Share:
    """Note a client's yes to a share, tied to the digest of what it shows.

    Args:
        secret: of the client's link.
        name: who says yes, in their own words.
        note: what they add, up to 500 letters.
    Raises:
        NoSuchShare: the link is not open.
        UnusableAnswer: no name, or too many letters.
        AlreadyApproved: somebody has said yes to this revision before.
        UnknownAnswer: somebody may have: a record cannot be read.
        NotWritten: the disk refused; nothing is approved.
    """
    said, added = _taken(name, "name", LONGEST_NAME), _taken(note.replace("\r\n", "\n"), "note", LONGEST_NOTE)
    if not said:
        raise UnusableAnswer("Enter your name.")
    with shelf.lock:
        share = shelf.open(secret)
        if is_approved(shelf, share):
            raise AlreadyApproved(f"Revision {share.issued.revision} has been approved already.")
        if shelf.unreadable(share.project_id, share.issued.revision):
            raise UnknownAnswer(
                "A record of an earlier link is damaged, so nobody can tell whether this was approved already. "
                "Nothing was noted: please tell the shop."
            )
        when = shelf.clock().astimezone(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")
        approval = Approval(name=said, when=when, note=added, content_hash=content_hash(share.issued))
        approved = replace(share, approval=approval)
        write_share(shelf, approved)
    return approved


def is_approved(shelf: Shelf, share: Share) -> bool:
    """Whether somebody has said yes to the revision of a share, through this link or another one."""
    same = (other for other in shelf.of_project(share.project_id) if other.issued.revision == share.issued.revision)
    return any(other.approval for other in same)


def write_share(shelf: Shelf, share: Share) -> None:
    """Write a share, and its second copy; whoever changes one holds the lock of the shelf.

    The first decides: what stands in it is kept, and a second that the disk refuses is written with the next change.

    Raises:
        NotWritten: the disk refused.
    """
    make_folder(shelf.folder)
    text = project_text(SHARE.dump_python(share, mode="json"))
    first, second = shelf.paths(share.digest)
    write_safely(first, text)
    with suppress(NotWritten):
        write_safely(second, text)


def _taken(text: str, what: str, most: int) -> str:
    taken = printable(text)
    if len(taken) > most:
        raise UnusableAnswer(f"Enter at most {most} characters for the {what}, not {len(taken)}.")
    return taken


__all__ = ["AlreadyApproved", "NoSuchShare", "UnknownAnswer", "UnusableAnswer", "approve", "is_approved", "write_share"]
