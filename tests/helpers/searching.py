"""Layouts of sheets, which servers of tests search for: each is searched for once in all tests of a process."""

from collections.abc import Callable
from typing import Any

from pytest import MonkeyPatch

from framecalc.sheets.plan import lay_out_sheets
from webapp.jobs import sheet_search


def search_once(patch: MonkeyPatch) -> None:
    """Give a server what another one has found; a search that was called off or ran out of time is not kept."""
    patch.setattr(sheet_search, "lay_out_sheets", _once(lay_out_sheets))


def _once(search: Callable[..., Any]) -> Callable[..., Any]:
    found: dict[str, Any] = {}

    def once(problem: Any, *, watch: Any, **more: Any) -> Any:
        key = problem.fingerprint
        if key not in found:
            answer = search(problem, watch=watch, **more)
            if watch.over:
                return answer
            found[key] = answer
        return found[key]

    return once
