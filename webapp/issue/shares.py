"""The owner's side of clients' links: made, revoked, a damaged one put aside. `issuing.py` makes what a link shows."""

import secrets
from datetime import UTC, datetime, timedelta

from framecalc.project import project_text
from framecalc.project.document import Document
from framecalc.records import Record, replace
from webapp.data.disk import make_folder, move, read_bytes, unused_beside, write_safely
from webapp.issue.approvals import write_share
from webapp.issue.issued import FIRST, Share, Shelf, content_hash, digest_of
from webapp.issue.offer import Issued

SECRET_BYTES = 32


class NewShare(Record):
    """A share just made, and its secret, which is told this once; blank where the same form was sent again."""

    share: Share
    secret: str


def make_share(
    shelf: Shelf,
    *,
    project_id: str,
    inputs: Document,
    issued: Issued,
    shows_price: bool,
    shows_photo: bool,
    days: int,
    once: str,
) -> NewShare:
    """Make a link to one revision, and keep what it shows beside what it was made from.

    Args:
        inputs: the project as it stands; no client sees it.
        issued: what the client sees.
        days: how long the link is open; 0 without an end.
        once: random text of the form: a form that is sent twice makes one link.
    Raises:
        NotWritten: the disk refused; there is no link.
    """
    with shelf.lock:
        made_before = next((share for share in shelf.of_project(project_id) if once and share.once == once), None)
        if made_before:
            return NewShare(share=made_before, secret="")
        secret = secrets.token_urlsafe(SECRET_BYTES)
        share = Share(
            digest=digest_of(secret),
            project_id=project_id,
            once=once,
            issued=issued,
            content_hash=content_hash(issued),
            shows_price=shows_price,
            shows_photo=shows_photo,
            expires=_written(shelf.clock() + timedelta(days=days)) if days else "",
        )
        make_folder(shelf.folder)
        write_safely(shelf.inputs_path(share), project_text(inputs))
        write_share(shelf, share)
    return NewShare(share=share, secret=secret)


def revoke(shelf: Shelf, project_id: str, share_id: str) -> None:
    """Close a link at once; what it showed, and the yes, are kept.

    Raises:
        NoSuchShare: the project has no such link.
        NotWritten: the disk refused; the link is still open.
    """
    with shelf.lock:
        share = shelf.of_owner(project_id, share_id)
        if not share.revoked:
            write_share(shelf, replace(share, revoked=_written(shelf.clock())))


def put_damaged_aside(shelf: Shelf, project_id: str, share_id: str) -> None:
    """Keep what is left of a damaged record under another name, so that its revision can be approved again.

    Where a copy from before the damage is there, the link goes on from it. Nothing happens where none is damaged.

    Raises:
        NotWritten: the disk refused.
    """
    with shelf.lock:
        for path in shelf.unreadable(project_id):
            digest = path.name.removesuffix(FIRST)
            if digest[:16] == share_id:
                before, copies = shelf.read(digest), shelf.paths(digest)
                for copy in copies[:1] if before else copies:
                    if copy.exists():
                        move(copy, unused_beside(copy))
                if before:
                    write_safely(copies[0], read_bytes(copies[1]))


def _written(when: datetime) -> str:
    return when.astimezone(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")
