"""Solver runs beside the pages: one at a time, stoppable, each belonging to the hash of its problem.

A *job* is waiting, running, done, stopped or failed. Its answer is kept under the hash of its problem, in memory and in
the data folder, so a plan once worked out is there again after a restart and is shown only for the problem it answers:
when the input changes, the hash changes, and the page has no answer for it yet. While it runs it says how far it is.
"""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cache
from pathlib import Path
from threading import Event, Lock
from typing import Any

from pydantic import TypeAdapter, ValidationError

from framecalc.errors import FrameCalcError
from webapp.data.disk import write_safely
from webapp.data.errors import NotWritten

_BROKE_DOWN = "the search broke down; the numbers typed are untouched"


class JobState(StrEnum):
    """How far a job has come."""

    WAITING = "waiting"
    RUNNING = "running"
    DONE = "done"
    STOPPED = "stopped"
    FAILED = "failed"


@dataclass(slots=True, kw_only=True)
class Job:
    """One run: its state, the answer when there is one, or the refusal that says why there is none.

    `so_far` is what the search last said of itself while it went on.
    """

    key: str
    state: JobState = JobState.WAITING
    answer: Any = None
    so_far: Any = None
    refusal: FrameCalcError | None = None
    called_off: Event = field(default_factory=Event)

    def __call__(self) -> bool:
        """Whether somebody has called it off: what a search asks now and then."""
        return self.called_off.is_set()

    @property
    def is_going(self) -> bool:
        """Whether there is something to wait for."""
        return self.state in (JobState.WAITING, JobState.RUNNING)

    @property
    def sentence(self) -> str:
        """Why there is no answer; nothing where there is one."""
        return self.refusal.sentence if self.refusal else ""

    def report(self, so_far: Any) -> None:
        """Take what the search says of itself."""
        self.so_far = so_far


Work = Callable[[Job], Any]
"""A search: it is handed its job, asks it now and then whether it is called off, tells it how far it is, and returns
the best that it found."""


def _nothing() -> None:
    """Nothing follows."""


@cache
def _adapter(answer_type: Any) -> TypeAdapter[Any]:
    """What writes and reads answers of a type; there are two or three types, and each takes long to make."""
    return TypeAdapter(answer_type)


class Jobs:
    """The jobs of one data folder. Answers are frozen records that pydantic can write and read."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._jobs: dict[str, Job] = {}
        self._lock = Lock()
        self._is_closed = False
        self._worker = ThreadPoolExecutor(max_workers=1, thread_name_prefix="job")

    def find(self, key: str, answer_type: Any) -> Job | None:
        """The job of a problem, as it stands, or None if nobody has asked for it yet."""
        with self._lock:
            if key not in self._jobs:
                answer = self._read(key, answer_type)
                if answer is None:
                    return None
                self._jobs[key] = Job(key=key, state=JobState.DONE, answer=answer)
            return self._jobs[key]

    def start(self, key: str, answer_type: Any, work: Work, *, then: Callable[[], None] = _nothing) -> Job:
        """Ask for an answer; asking again while it is being worked out, or after it is there, changes nothing.

        `then` is called from the worker when the answer is there, or the refusal; the job is going until that is done,
        so whoever waits for it sees what follows.
        """
        job = self.find(key, answer_type)
        with self._lock:
            if job is None or job.state in (JobState.STOPPED, JobState.FAILED):
                job = self._jobs[key] = Job(key=key)
                if not self._is_closed:
                    self._worker.submit(self._run, job, answer_type, work, then)
            return job

    def stop(self, key: str) -> None:
        """Call a job off; what it has found by then is kept as its answer."""
        with self._lock:
            if key in self._jobs:
                self._jobs[key].called_off.set()

    def close(self) -> None:
        """Call everything off and wait for it to end."""
        with self._lock:
            self._is_closed = True
        for job in list(self._jobs.values()):
            job.called_off.set()
        self._worker.shutdown(wait=True, cancel_futures=True)

    def _run(self, job: Job, answer_type: Any, work: Work, then: Callable[[], None]) -> None:
        job.state, state = JobState.RUNNING, JobState.FAILED
        try:
            job.answer = work(job)
            state = JobState.STOPPED if job.called_off.is_set() else JobState.DONE
        except FrameCalcError as refusal:
            job.refusal = refusal
        except Exception:
            job.refusal = FrameCalcError(_BROKE_DOWN)
            raise
        finally:
            self._write(job, answer_type, state)
            then()
            job.state = state

    def _path(self, key: str) -> Path:
        return self._folder / f"{key}.json"

    def _read(self, key: str, answer_type: Any) -> Any:
        try:
            return _adapter(answer_type).validate_json(self._path(key).read_bytes())
        except (OSError, ValidationError, ValueError):
            return None  # nobody asked yet, or an older version wrote it: it is worked out again

    def _write(self, job: Job, answer_type: Any, state: JobState) -> None:
        if state is not JobState.DONE:
            return
        try:
            self._folder.mkdir(exist_ok=True)
            write_safely(self._path(job.key), _adapter(answer_type).dump_json(job.answer).decode())
        except (OSError, NotWritten):
            return  # the answer is still in memory, and can be worked out again
