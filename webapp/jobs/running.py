"""Solver runs beside the pages: one at a time, in turn between projects, each belonging to the hash of its problem.

A *job* is waiting, running, done, stopped or failed. Its answer is kept under the hash of its problem, in memory and in
the data folder, so a plan once worked out is there again after a restart and is shown only for the problem it answers:
when the input changes, the hash changes, and the page has no answer for it yet. While it runs it says how far it is.

A newer search of a page calls the older one off. What is called off before its turn is answered at once, in a lane of
its own, with the best that is found without searching.
"""

from collections.abc import Callable, Collection
from concurrent.futures import ThreadPoolExecutor
from enum import StrEnum
from pathlib import Path
from threading import Event, Lock
from typing import Any

from framecalc.errors import FrameCalcError
from framecalc.records import Mutable, Record, field, replace
from webapp.data.disk import write_safely
from webapp.data.errors import NotWritten
from webapp.data.plan_file import file_text, read_answer
from webapp.jobs.turns import Search, Turns

TIME_LIMIT_S = 20.0
"""How long is searched before the best that was found is shown, with what it could still be beaten by."""

MOST_KEPT = 300
"""Jobs that are remembered: answers beyond these are read from their files, what was stopped is asked for anew. As many
searches are."""

_BROKE_DOWN = "the search broke down; the numbers typed are untouched"


class JobState(StrEnum):
    """How far a job has come."""

    WAITING = "waiting"
    RUNNING = "running"
    DONE = "done"
    STOPPED = "stopped"
    FAILED = "failed"


class Look(Mutable):
    """The answer that an independent check has found no fault with."""

    at: Any = None


class Job(Mutable):
    """One run: its state, the answer when there is one, or the refusal that says why there is none.

    `so_far` is what the search last said of itself while it went on; `follows`, what each search that asked for it does
    next; `last_look` is shared by all that see the job.
    """

    key: str
    state: JobState = JobState.WAITING
    answer: Any = None
    last_look: Look = field(default_factory=Look)
    so_far: Any = None
    refusal: FrameCalcError | None = None
    called_off: Event = field(default_factory=Event)
    follows: list[tuple[Search, Callable[[], None]]] = field(default_factory=list)

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


class _Run(Record):
    """What is to be done for a job."""

    job: Job
    answer_type: Any
    work: Work


class Jobs:
    """The jobs of one data folder. Answers are records, which files can hold.

    `changes` counts what has come, gone or ended: as long as it stays, every answer and refusal stays.
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._jobs: dict[str, Job] = {}
        self._searches: dict[tuple[str, str], Search] = {}
        self._turns: Turns[_Run] = Turns()
        self._lock = Lock()
        self._is_closed = False
        self.changes = 0
        self._worker = ThreadPoolExecutor(max_workers=1, thread_name_prefix="job")
        self._at_once = ThreadPoolExecutor(max_workers=1, thread_name_prefix="job called off")

    def find(self, key: str, answer_type: Any) -> Job | None:
        """The job of a problem as it stands now, or None if nobody has asked for it yet.

        What comes later does not change it: a page that says that a search is over has its answer too.
        """
        with self._lock:
            job = self._found(key, answer_type)
        return replace(job) if job else None

    def search(self, project: str, *, page: str, keys: Collection[str]) -> Search:
        """Begin a search; what an older one of the page has asked for is called off, unless it is asked for again.

        Args:
            keys: the problems that are known to be asked for.
        """
        new = Search(project=project, page=page, keys=set(keys))
        with self._lock:
            old = self._searches.get((project, page), Search())
            old.is_outdated = True
            self._remember(new)
            wanted = {key for search in self._searches.values() for key in search.keys}
            for key in old.keys - wanted:
                self._drop(key)
        return new

    def start(
        self,
        key: str,
        answer_type: Any,
        work: Work,
        *,
        then: Callable[[], None] = _nothing,
        search: Search | None = None,
    ) -> Job:
        """Ask for an answer; asking again while it is being worked out, or after it is there, changes nothing.

        `then` is called from the worker when the answer is there, or the refusal; the job is going until that is done,
        so whoever waits for it sees what follows. An outdated search starts nothing, and nothing follows it.
        """
        search = search or Search()
        with self._lock:
            job = self._found(key, answer_type)
            if search.is_outdated:
                return job or Job(key=key, state=JobState.STOPPED)
            search.keys.add(key)
            if job is None or job.state in (JobState.STOPPED, JobState.FAILED) or (job.is_going and job()):
                job = self._keep(Job(key=key))
                self._line_up(_Run(job=job, answer_type=answer_type, work=work), search)
            if job.is_going:
                job.follows.append((search, then))
            return job

    def stop(self, key: str) -> None:
        """Call a job off; what it has found by then is kept as its answer."""
        with self._lock:
            self._call_off(key)

    def stop_search(self, project: str, *, page: str) -> None:
        """Call off all that a page has asked for, and what was to follow."""
        with self._lock:
            search = self._searches.get((project, page), Search())
            search.is_called_off = True
            for key in search.keys:
                self._call_off(key)

    def close(self) -> None:
        """Call everything off and wait for it to end."""
        with self._lock:
            self._is_closed = True
        for job in list(self._jobs.values()):
            job.called_off.set()
        for lane in (self._worker, self._at_once):
            lane.shutdown(wait=True, cancel_futures=True)

    def _found(self, key: str, answer_type: Any) -> Job | None:
        if key not in self._jobs:
            answer = self._read(key, answer_type)
            if answer is None:
                return None
            self._keep(Job(key=key, state=JobState.DONE, answer=answer))
        return self._jobs[key]

    def _line_up(self, run: _Run, search: Search) -> None:
        if self._is_closed:
            return
        if search.is_called_off:
            run.job.called_off.set()
            self._at_once.submit(self._run, run)
        else:
            self._turns.put(run, project=search.project)
            self._worker.submit(self._run_next)

    def _call_off(self, key: str) -> None:
        if key in self._jobs:
            self._jobs[key].called_off.set()
        run = self._turns.take_out(lambda run: run.job.key == key)
        if run and not self._is_closed:
            self._at_once.submit(self._run, run)

    def _drop(self, key: str) -> None:
        """Call a job off that nobody wants any more."""
        if self._turns.take_out(lambda run: run.job.key == key):
            self._jobs.pop(key).state = JobState.STOPPED
            self.changes += 1
        elif key in self._jobs:
            self._jobs[key].called_off.set()

    def _remember(self, new: Search) -> None:
        """Put a search in the place of the older one of its page, and forget the oldest that is over if many are."""
        self._searches[new.project, new.page] = new
        if len(self._searches) > MOST_KEPT:
            going = {key for key, job in self._jobs.items() if job.is_going}
            over = [at for at, one in self._searches.items() if one is not new and not one.keys & going]
            for at in over[:1]:
                del self._searches[at]

    def _keep(self, job: Job) -> Job:
        """Remember a job, and forget the oldest that is over where there are many."""
        self._jobs.pop(job.key, None)
        self._jobs[job.key] = job
        self.changes += 1
        if len(self._jobs) > MOST_KEPT:
            over = next((one.key for one in self._jobs.values() if not one.is_going and one is not job), None)
            self._jobs.pop(over or "", None)
        return job

    def _run_next(self) -> None:
        """Work out what is next; what was taken out of the line has left its turn to nobody."""
        with self._lock:
            run = self._turns.next()
        if run:
            self._run(run)

    def _run(self, run: _Run) -> None:
        job, state = run.job, JobState.FAILED
        job.state = JobState.RUNNING
        try:
            job.answer = run.work(job)
            state = JobState.STOPPED if job.called_off.is_set() else JobState.DONE
        except FrameCalcError as refusal:
            job.refusal = refusal
        except Exception:
            job.refusal = FrameCalcError(_BROKE_DOWN)
            raise
        finally:
            with self._lock:
                self.changes += 1
            try:
                self._write(job, state)
                while not self._ends(job, state):
                    self._follow(job)
            finally:
                job.state = state  # even where writing, or what follows, breaks down

    def _ends(self, job: Job, state: JobState) -> bool:
        """End a job if nothing follows any more."""
        with self._lock:
            if not job.follows:
                job.state = state
            return not job.follows

    def _follow(self, job: Job) -> None:
        with self._lock:
            search, then = job.follows.pop(0)
            is_outdated = search.is_outdated
        if not is_outdated:
            then()

    def _path(self, key: str) -> Path:
        return self._folder / f"{key}.json"

    def _read(self, key: str, answer_type: Any) -> Any:
        try:
            return read_answer(answer_type, self._path(key).read_bytes())
        except (OSError, ValueError):
            return None  # nobody asked yet, or an older version wrote it: it is worked out again

    def _write(self, job: Job, state: JobState) -> None:
        if state is not JobState.DONE:
            return
        try:
            self._folder.mkdir(exist_ok=True)
            write_safely(self._path(job.key), file_text(job.answer))
        except (OSError, NotWritten, ValueError):
            return  # the answer is still in memory, and can be worked out again
