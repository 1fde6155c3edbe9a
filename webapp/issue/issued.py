"""What has been shown to clients, as issued: read here, and never written from here.

    DATA/shares/<digest of the secret>.json            what the client sees, and the yes
    DATA/shares/<digest of the secret>.copy.json       the same once more: a yes is found twice
    DATA/shares/<digest>.<project>.r<number>.inputs.json   the project as it was, which no client sees

A *share* is one link for one client to one revision. It keeps everything that it shows, drawings and prices included,
so that no later edit changes it. The link holds a secret of 256 bits; the shelf knows only its digest, so a copy of
the data folder opens no link. A record of which neither copy can be read, or only the one that is written last, may
have held a yes, and is never taken for one that held none; of which project and revision it was stands in the name of
the project as it was, too (older versions wrote a shorter name). Unknown, expired and revoked links, and those of a
deleted project, are not told apart.
"""

import hashlib
import hmac
import os
import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cache, lru_cache
from pathlib import Path
from threading import Lock

from pydantic import TypeAdapter, ValidationError

from framecalc.client.difference import ClientFacts
from framecalc.records import Record, field
from framecalc.units import Step
from webapp.data.errors import StoreError
from webapp.data.times import is_day, is_time
from webapp.issue.offer import Issued, IssuedChoice, total_in

SIGNS = 12
"""So many signs of the digest stand under a mailed page, and are enough to find it again."""

SECRET = re.compile(r"[A-Za-z0-9_-]{43}")
"""What 32 random bytes look like in an address."""

MOST_REMEMBERED = 4096
"""Records of which the yes is remembered: more than a shop makes in years."""

FIRST, SECOND = ".json", ".copy.json"
"""How the names of the two copies of a share end."""

RECORD = re.compile(r"[0-9a-f]{64}(?:\.copy)?\.json")
_INPUTS = re.compile(r"[0-9a-f]{64}\.([a-z0-9]{8})\.r([0-9]{6,})\.inputs\.json")
_PROJECT_WITHIN = re.compile(r'"project_id": ?"([a-z0-9]{8})"')
_REVISION_WITHIN = re.compile(r'"revision": ?(\d+)')
_SHARE_ID = re.compile(r"[0-9a-f]{16}")


class NoSuchShare(StoreError):
    """There is no such link, or no longer."""


class NotReady(StoreError):
    """The project cannot be shown to a client as it stands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeAsked:
    """A client's wish for something else, instead of a yes: who, when, in which words."""

    name: str
    when: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Approval:
    """A client's yes: who, when, in which words, to exactly what; `by_mail`: the shop has typed it in for them.

    `choice` is the id of what they chose, where they could.
    """

    name: str
    when: str
    note: str
    content_hash: str
    by_mail: bool = False
    choice: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """One link: what it shows, until when, and what became of it. `opened` is when a client first looked."""

    digest: str
    project_id: str
    once: str
    issued: Issued
    content_hash: str
    shows_price: bool
    shows_photo: bool
    expires: str = ""
    revoked: str = ""
    approval: Approval | None = None
    opened: str = ""
    asked: tuple[ChangeAsked, ...] = ()

    @property
    def times(self) -> tuple[str, ...]:
        """Every time in it."""
        yes = (self.approval.when,) if self.approval else ()
        asked = (one.when for one in self.asked)
        return tuple(filter(None, (self.issued.made, self.expires, self.revoked, self.opened, *yes, *asked)))

    @property
    def chosen(self) -> IssuedChoice | None:
        """What the client chose, where they could."""
        return self.issued.choice(self.approval.choice) if self.approval else None

    @property
    def told(self) -> tuple[ClientFacts, ...]:
        """What is told of each frame: of those chosen, where there was a choice."""
        return self.chosen.told if self.chosen else self.issued.told

    @property
    def total(self) -> str:
        """The total: of what was chosen, where there was a choice; blank where no price was shown."""
        return total_in(self.chosen.prices) if self.chosen else self.issued.total

    @property
    def share_id(self) -> str:
        """How the owner's pages name it; it opens nothing."""
        return self.digest[:16]

    @property
    def link(self) -> "LinkTimes":
        """How long it can be looked at."""
        last = self.asked[-1] if self.asked else None
        return LinkTimes(
            project_id=self.project_id,
            made=self.issued.made,
            expires=self.expires,
            revoked=self.revoked,
            opened=self.opened,
            asked=last,
        )

    @property
    def signs(self) -> str:
        """What a client quotes to say which page they mean."""
        return self.content_hash[:SIGNS]

    def is_open(self, now: datetime) -> bool:
        """Whether the client can still look."""
        return self.link.is_open(now)


class LinkTimes(Record):
    """When a link was made, until when it can be looked at, and what its client did short of a yes."""

    project_id: str
    made: str
    expires: str = ""
    revoked: str = ""
    opened: str = ""
    asked: ChangeAsked | None = None

    def is_open(self, now: datetime) -> bool:
        """Whether the client can still look."""
        return not self.revoked and (not self.expires or now < datetime.fromisoformat(self.expires))


class Yes(Record):
    """What a client has said yes to, and when: what they were told, of which revision, at which total.

    `choice` is the name of what they chose, where they could.
    """

    project_id: str
    when: str
    choice: str
    revision: int
    total: str
    told: tuple[ClientFacts, ...]
    step: Step
    shows_photo: bool


@cache
def share_adapter() -> TypeAdapter[Share]:
    """What writes and reads shares; made when the first is read."""
    return TypeAdapter(Share)


@cache
def _issued_adapter() -> TypeAdapter[Issued]:
    return TypeAdapter(Issued)


def digest_of(secret: str) -> str:
    """The digest under which a share is kept."""
    return hashlib.sha256(secret.encode("utf-8", "surrogatepass")).hexdigest()


def content_hash(issued: Issued) -> str:
    """The digest of everything that a client is shown: what an approval is tied to.

    What has its usual value is left out, so that a part which later versions add changes no digest.
    """
    return hashlib.sha256(_issued_adapter().dump_json(issued, exclude_defaults=True)).hexdigest()


def _utc_now() -> datetime:
    return datetime.now(UTC)


class Shelf(Record):
    """The shares of one data folder, to be read. `has_project` says whether a project is still there."""

    folder: Path
    has_project: Callable[[str], bool]
    clock: Callable[[], datetime] = _utc_now
    lock: Lock = field(default_factory=Lock)

    def open(self, secret: str) -> Share:
        """Open a share by the secret of its link.

        Raises:
            NoSuchShare: there is none, or it was revoked, has expired, or its project was deleted.
        """
        share = self.read(digest_of(secret)) if SECRET.fullmatch(secret) else None
        if share is None or not share.is_open(self.clock()) or not self.has_project(share.project_id):
            raise NoSuchShare("there is nothing at this address, or no longer")
        return share

    def of_project(self, project_id: str) -> tuple[Share, ...]:
        """All shares of a project, the newest first."""
        found = map(self.read, self._digests())
        shares = [share for share in found if share and share.project_id == project_id]
        return tuple(sorted(shares, key=lambda share: (share.issued.made, share.digest), reverse=True))

    def yes_of(self, project_id: str) -> Yes | None:
        """What a client of a project has said yes to last. It is asked at every key, so a record is read once."""
        given = [yes for path in self._records() if (yes := _yes_in(path)) and yes.project_id == project_id]
        return max(given, key=lambda yes: yes.when, default=None)

    def shown_of(self, project_id: str) -> LinkTimes | None:
        """The newest open link of a project, if one is open. A record is read once."""
        now = self.clock()
        links = (link for path in self._records() if (link := _link_in(path)) and link.project_id == project_id)
        return max((link for link in links if link.is_open(now)), key=lambda link: link.made, default=None)

    def of_owner(self, project_id: str, share_id: str) -> Share:
        """A share of a project by the name that the owner's pages use.

        Raises:
            NoSuchShare: the project has none of this name.
        """
        found = [share for share in self.of_project(project_id) if share.share_id == share_id]
        if not _SHARE_ID.fullmatch(share_id) or not found:
            raise NoSuchShare("No such link of this project")
        return found[0]

    def read(self, digest: str) -> Share | None:
        """A share by its digest, open or not; None where there is none that can be read.

        Where its copies differ, the one that holds a yes counts, then the one that was revoked.
        """
        copies = [share for path in self.paths(digest) if (share := read_record(path))]
        whole = [share for share in copies if hmac.compare_digest(share.digest, digest)]
        return max(whole, key=lambda share: (share.approval is not None, share.revoked), default=None)

    def is_doubtful(self, digest: str) -> bool:
        """Whether a yes may be lost: the copy that is written first cannot be read, and no other one holds a yes."""
        share, (first, second) = self.read(digest), self.paths(digest)
        is_lost = read_record(first) is None and (first.exists() or second.exists())
        return is_lost and (share is None or share.approval is None)

    def unreadable(self, project_id: str, revision: int | None = None) -> tuple[Path, ...]:
        """The records in which a yes may be lost, and which may belong to a project, or to one revision of it."""
        lost = (digest for digest in self._digests() if self.is_doubtful(digest))
        return tuple(self.paths(digest)[0] for digest in lost if self._may_belong(digest, project_id, revision))

    def paths(self, digest: str) -> tuple[Path, Path]:
        """Where the two copies of a share lie."""
        return self.folder / f"{digest}{FIRST}", self.folder / f"{digest}{SECOND}"

    def inputs_path(self, share: Share) -> Path:
        """Where the project lies as it was shown; the name says of which project and revision a share is."""
        return self.folder / f"{share.digest}.{share.project_id}.r{share.issued.revision:06d}.inputs.json"

    def _may_belong(self, digest: str, project_id: str, revision: int | None) -> bool:
        """Whether a damaged record may be of a project and a revision: it is, unless what is left says otherwise."""
        left = "".join(_left(path) for path in self.paths(digest))
        names = [name for path in self.folder.glob(f"{digest}.*") if (name := _INPUTS.fullmatch(path.name))]
        projects = {*_PROJECT_WITHIN.findall(left), *(name[1] for name in names)}
        revisions = {*map(int, _REVISION_WITHIN.findall(left)), *(int(name[2]) for name in names)}
        is_other = projects and project_id not in projects
        is_earlier = revision is not None and revisions and revision not in revisions
        return not is_other and not is_earlier

    def _digests(self) -> list[str]:
        return sorted({path.name.partition(".")[0] for path in self._records()})

    def _records(self) -> list[Path]:
        """The files of all shares; none where the folder is not there, or may not be looked at."""
        try:
            names = os.listdir(self.folder)
        except (FileNotFoundError, NotADirectoryError, PermissionError):
            return []
        return [self.folder / name for name in names if RECORD.fullmatch(name)]


def read_record(path: Path) -> Share | None:
    """A share as one of its files has it; None where it cannot be read."""
    try:
        share = share_adapter().validate_json(path.read_bytes())
    except (OSError, ValidationError):
        return None
    is_dated = all(map(is_time, share.times)) and (not share.issued.ready or is_day(share.issued.ready))
    return share if is_dated else None


def _yes_in(path: Path) -> Yes | None:
    try:
        found = path.stat()
    except OSError:
        return None
    return _yes_read(path, found.st_mtime_ns, found.st_size)


def _link_in(path: Path) -> LinkTimes | None:
    try:
        found = path.stat()
    except OSError:
        return None
    return _link_read(path, found.st_mtime_ns, found.st_size)


@lru_cache(maxsize=MOST_REMEMBERED)
def _link_read(path: Path, _changed_ns: int, _size: int) -> LinkTimes | None:
    share = read_record(path)
    return share.link if share else None


@lru_cache(maxsize=MOST_REMEMBERED)
def _yes_read(path: Path, _changed_ns: int, _size: int) -> Yes | None:
    share = read_record(path)
    if share is None or share.approval is None:
        return None
    return Yes(
        project_id=share.project_id,
        when=share.approval.when,
        choice=share.chosen.name if share.chosen else "",
        revision=share.issued.revision,
        total=share.total,
        told=share.told,
        step=share.issued.step,
        shows_photo=share.shows_photo,
    )


def _left(path: Path) -> str:
    try:
        return path.read_bytes().decode("ascii", "replace")
    except OSError:
        return ""
