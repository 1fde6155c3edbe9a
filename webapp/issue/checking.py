"""Whether what was shown to clients can still be read: a record that cannot may hold a yes."""

from collections.abc import Iterator
from pathlib import Path

from webapp.data.checking import Check, Fault, json_faults, project_faults
from webapp.issue.issued import RECORD, read_record

_LOST = "It may hold a client's yes: put it back from a backup, or open the client page of the job"


def _record_faults(file: Path) -> Iterator[Fault]:
    """What is wrong with a record, or with the project as it was shown; what was put aside is known to be damaged."""
    if not RECORD.fullmatch(file.name):
        if file.name.endswith(".inputs.json"):
            yield from list(json_faults(file)) or project_faults(file)
    elif read_record(file) is None:
        yield Fault(file=file, field="", sentence=_LOST)


SHARE_FILES: dict[str, Check] = {"shares/*.json": _record_faults}
