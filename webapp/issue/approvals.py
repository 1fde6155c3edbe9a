"""All that a client's page writes: that it was opened, a wish for a change, and a yes, once for each revision.

The yes is to exactly what was shown, and to one of the choices where there are some.
"""

import re
from contextlib import suppress
from datetime import UTC

from framecalc.project import project_text
from framecalc.project.fields import printable
from framecalc.records import replace
from webapp.data.disk import make_folder, write_safely
from webapp.data.errors import NotWritten, StoreError
from webapp.issue.issued import SIGNS, Approval, ChangeAsked, NoSuchShare, Share, Shelf, content_hash, share_adapter

LONGEST_NAME, LONGEST_NOTE = 120, 500
MOST_ASKED = 12
"""So many changes can be asked for through one link."""

_SIGNS = re.compile(rf"(?<![0-9a-z])[0-9a-f]{{{SIGNS}}}(?![0-9a-z])")


class AlreadyApproved(StoreError):
    """This revision has been approved; a yes is given once."""


class UnusableAnswer(StoreError):
    """A name or a note that cannot be taken."""


class UnknownAnswer(UnusableAnswer):
    """Nobody can tell whether this revision has been approved: the record of a link is damaged."""


def note_opened(shelf: Shelf, secret: str) -> Share:
    """Note when a client first looked; a disk that refuses does not keep the page from them.

    Raises:
        NoSuchShare: the link is not open.
    """
    with shelf.lock:
        share = shelf.open(secret)
        if share.opened:
            return share
        opened = replace(share, opened=_now(shelf))
        with suppress(NotWritten):
            write_share(shelf, opened)
        return opened


def ask_for_change(shelf: Shelf, secret: str, *, name: str, note: str) -> Share:
    """Note what a client would have otherwise, instead of a yes.

    Args:
        secret: of the client's link.
        name: who asks, in their own words.
        note: what they ask for, up to 500 letters.
    Raises:
        NoSuchShare: the link is not open.
        UnusableAnswer: no name, nothing asked for, too many letters, or asked too often.
        AlreadyApproved: somebody has said yes to this revision before.
        UnknownAnswer: somebody may have: a record cannot be read.
        NotWritten: the disk refused; nothing is noted.
    """
    said, wished = _taken(name, "name", LONGEST_NAME), _taken(note.replace("\r\n", "\n"), "note", LONGEST_NOTE)
    if not said:
        raise UnusableAnswer("Enter your name.")
    if not wished:
        raise UnusableAnswer("Enter what to change.")
    with shelf.lock:
        share = shelf.open(secret)
        _require_open_question(shelf, share)
        if len(share.asked) >= MOST_ASKED:
            raise UnusableAnswer("That is a lot to change by notes. Please call the shop.")
        asked = replace(share, asked=(*share.asked, ChangeAsked(name=said, when=_now(shelf), note=wished)))
        write_share(shelf, asked)
    return asked


def approve(shelf: Shelf, secret: str, *, name: str, note: str, choice: str = "") -> Share:
    """Note a client's yes to a share, tied to the digest of what it shows.

    Args:
        secret: of the client's link.
        name: who says yes, in their own words.
        note: what they add, up to 500 letters.
        choice: the id of what they choose, where they can.
    Raises:
        NoSuchShare: the link is not open.
        UnusableAnswer: no name, no choice, or too many letters.
        AlreadyApproved: somebody has said yes to this revision before.
        UnknownAnswer: somebody may have: a record cannot be read.
        NotWritten: the disk refused; nothing is approved.
    """
    said, added = _taken(name, "name", LONGEST_NAME), _taken(note.replace("\r\n", "\n"), "note", LONGEST_NOTE)
    if not said:
        raise UnusableAnswer("Enter your name.")
    with shelf.lock:
        return _noted(shelf, shelf.open(secret), name=said, note=added, by_mail=False, choice=choice)


def approve_by_signs(shelf: Shelf, project_id: str, *, signs: str, name: str, choice: str = "") -> Share:
    """Note the yes of a client who has answered a mailed page, by the signs under it.

    The link need not be open: a page that has been mailed cannot be revoked. It is the shop that types.

    Args:
        signs: as they stand under the page, with whatever stands around them in the answer.
        name: who says yes.
        choice: the name of what they choose, where they can.
    Raises:
        UnusableAnswer: no name, no choice, or no page of this project has these signs.
        AlreadyApproved, UnknownAnswer, NotWritten: as for `approve`.
    """
    said = _taken(name, "name", LONGEST_NAME)
    found = set(_SIGNS.findall(signs.lower()))
    if not found:
        raise UnusableAnswer(f"Enter the {SIGNS} signs under the page: digits, and letters from a to f.")
    if not said:
        raise UnusableAnswer("Enter the client's name.")
    with shelf.lock:
        share = next((one for one in shelf.of_project(project_id) if one.signs in found), None)
        if share is None:
            raise UnusableAnswer("No page of this project has these signs. Look for a slip.")
        if content_hash(share.issued) != share.content_hash:
            raise UnusableAnswer("The record of this page was changed by hand: it is not what was mailed.")
        ids = {one.name.casefold(): one.id for one in share.issued.choices}
        return _noted(shelf, share, name=said, note="", by_mail=True, choice=ids.get(choice.strip().casefold(), ""))


def _noted(shelf: Shelf, share: Share, *, name: str, note: str, by_mail: bool, choice: str) -> Share:
    """Note a yes; whoever calls holds the lock of the shelf."""
    _require_open_question(shelf, share)
    _require_choice(share, choice)
    approval = Approval(
        name=name,
        when=_now(shelf),
        note=note,
        content_hash=content_hash(share.issued),
        by_mail=by_mail,
        choice=choice if share.issued.choices else "",
    )
    approved = replace(share, approval=approval)
    write_share(shelf, approved)
    return approved


def _require_open_question(shelf: Shelf, share: Share) -> None:
    if is_approved(shelf, share):
        raise AlreadyApproved(f"Revision {share.issued.revision} has been approved already.")
    if shelf.unreadable(share.project_id, share.issued.revision):
        raise UnknownAnswer(
            "A record of a link is damaged, so nobody can tell whether this was approved already. "
            "Nothing was noted: please tell the shop."
        )


def _require_choice(share: Share, choice: str) -> None:
    names = [one.name for one in share.issued.choices]
    if names and share.issued.choice(choice) is None:
        raise UnusableAnswer(f"Choose one: {', '.join(names)}.")


def _now(shelf: Shelf) -> str:
    return shelf.clock().astimezone(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")


def is_approved(shelf: Shelf, share: Share) -> bool:
    """Whether somebody has said yes to the revision of a share, through this link or another one."""
    same = (other for other in shelf.of_project(share.project_id) if other.issued.revision == share.issued.revision)
    return any(other.approval for other in same)


def write_share(shelf: Shelf, share: Share) -> None:
    """Write a share, and its second copy; whoever changes one holds the lock of the shelf.

    The first decides: what stands in it is kept, and a second that the disk refuses is written with the next change.
    A damaged first that may hold a yes is left as it is: only the second is written, which can say that it is revoked.

    Raises:
        NotWritten: the disk refused.
    """
    make_folder(shelf.folder)
    text = project_text(share_adapter().dump_python(share, mode="json"))
    first, second = shelf.paths(share.digest)
    if shelf.is_doubtful(share.digest):
        return write_safely(second, text)
    write_safely(first, text)
    with suppress(NotWritten):
        write_safely(second, text)


def _taken(text: str, what: str, most: int) -> str:
    taken = printable(text)
    if len(taken) > most:
        raise UnusableAnswer(f"Enter at most {most} characters for the {what}, not {len(taken)}.")
    return taken


__all__ = [
    "AlreadyApproved",
    "NoSuchShare",
    "UnknownAnswer",
    "UnusableAnswer",
    "approve",
    "approve_by_signs",
    "ask_for_change",
    "is_approved",
    "note_opened",
    "write_share",
]
