"""A crash between the rack and the project: what was marked as cut is told to its project when the server starts."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import httpx
import pytest
from pages import Browser
from racked import kept, mark, to_mark, worked_out
from serving import client_of, serving

from webapp.app import create_app
from webapp.data.errors import NotWritten
from webapp.live.statuses import NOT_SAVED
from webapp.live.work import cuts_told


def refused(*args: object, **more: object) -> None:
    raise NotWritten("nothing was saved: no space left on device")


def served(data_dir: Path, do: Callable[[Browser], Any]) -> Any:
    """What comes of a visit to a server that starts with this folder, and stops."""
    with serving(create_app(data_dir=data_dir)) as address, client_of(address) as client:
        return do(Browser(client))


def pieces(browser: Browser, project_id: str) -> list[tuple[str, str]]:
    return [(one["side"], one["away"]) for one in browser.document(project_id)["timber"].get("cut", [])]


def cut_short(data_dir: Path, press: Callable[[Browser], httpx.Response]) -> None:
    """Press a button of which nothing comes after the rack is written, and stop the server."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(cuts_told, "_told", refused)
        assert served(data_dir, press).status_code == NOT_SAVED


def test_what_a_crash_left_untold_is_told_once(data_dir: Path) -> None:
    project_id = served(data_dir, lambda browser: browser.new())
    at = f"/projects/{project_id}/timber"
    link = served(data_dir, lambda browser: to_mark(worked_out(browser, at)))
    cut_short(data_dir, lambda browser: mark(browser, link))
    (cut,) = kept(data_dir)["cuts"]
    assert cut["untold"], "the rack has it, the project not"
    told = served(data_dir, lambda browser: pieces(browser, project_id))
    assert sorted(told) == [(side, cut["id"]) for side in ("bottom", "left", "right", "top")]
    assert not kept(data_dir)["cuts"][0]["untold"] and served(data_dir, lambda one: pieces(one, project_id)) == told
    cut_short(data_dir, lambda browser: browser.post(f"/rack/cuts/{cut['id']}/undo"))
    assert {away for _, away in served(data_dir, lambda browser: pieces(browser, project_id))} == {""}
