"""Saves that meet: several hands on one project at the same moment, and what is on the disk afterwards."""

from collections.abc import Callable, Iterable
from functools import partial
from threading import Barrier, Thread

from pages import Browser, sent_by

TICKS = 6
WIDTH, THICKNESS = "section.face_width", "section.thickness"


def at_once(jobs: Iterable[Callable[[], object]]) -> None:
    """Do everything at the same moment, and wait for all of it."""
    waiting = list(jobs)
    barrier = Barrier(len(waiting))

    def run(job: Callable[[], object]) -> None:
        barrier.wait()
        job()

    threads = [Thread(target=run, args=(job,)) for job in waiting]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()


def lost_of_pairs(browsers: tuple[Browser, Browser], address: str, *, pairs: int) -> list[str]:
    """Save two fields of one page at once, from one tab, again and again; the acknowledged saves that are not kept."""
    lost = []
    for number in range(pairs):
        page = sent_by(browsers[0].get(address)) | {"tab": "browser", "do": "save"}
        typed = {_path(page, WIDTH): f"{30 + number % 10}", _path(page, THICKNESS): f"{20 + number % 7}"}
        forms = [page | {path: text} for path, text in typed.items()]
        at_once(partial(_save, browser, address, form) for browser, form in zip(browsers, forms, strict=True))
        kept = sent_by(browsers[0].get(address))
        lost += [f"pair {number}: {path}" for path, text in typed.items() if kept[path] != text]
    return lost


def lost_of_ticks(browsers: tuple[Browser, Browser], project_id: str, *, rounds: int) -> list[str]:
    """Tick lines off at once, every other one from another tablet, again and again; the ticks that are not kept."""
    lost = []
    for number in range(rounds):
        keys = [f"{number:010x}-cuts-{line}" for line in range(TICKS)]
        ticked = [f"/projects/{project_id}/timber/tick/{key}" for key in keys]
        at_once(
            partial(_save, browsers[line % 2], address, {"done": "yes", "tab": f"tablet{line % 2}"})
            for line, address in enumerate(ticked)
        )
        kept = browsers[0].document(project_id)["timber"].get("done", ())
        lost += [f"round {number}: {key}" for key in keys if key not in kept]
    return lost


def _save(browser: Browser, address: str, form: dict[str, str]) -> None:
    assert browser.post(address, form).status_code == 303


def _path(page: dict[str, str], ending: str) -> str:
    (path,) = [name for name in page if name.endswith(f".{ending}")]
    return path
