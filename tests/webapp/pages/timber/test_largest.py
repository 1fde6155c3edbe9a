"""The largest list of boards that a project may hold: its page shows and saves them all."""

import json
from pathlib import Path

import httpx
from pages import Browser, sent_by

from framecalc.project.timber import Stock, Timber
from webapp.data.revisions import file_name


def most(model: type[Stock] | type[Timber], name: str) -> int:
    """How many items a list of the file may hold."""
    (limit,) = [one.max_length for one in model.model_fields[name].metadata if hasattr(one, "max_length")]
    return int(limit)


def test_the_most_boards_with_the_most_defects_are_shown_and_saved(client: httpx.Client, data_dir: Path) -> None:
    browser = Browser(client)
    project_id = browser.new()
    file = data_dir / "projects" / project_id / file_name(1)
    document = json.loads(file.read_text("utf-8"))
    defects = [
        {"id": f"d{at}", "start": f"{100 * at + 10} mm", "end": f"{100 * at + 20} mm"}
        for at in range(most(Stock, "defects"))
    ]
    board = {"length": "2400 mm", "width": "150 mm", "defects": defects}
    boards = [board | {"id": f"b{at}", "name": f"Board {at}"} for at in range(most(Timber, "stock"))]
    file.write_text(json.dumps(document | {"timber": {"stock": boards}}), "utf-8")
    address = f"/projects/{project_id}/timber"
    assert len(sent_by(browser.get(address))) > 3000
    assert browser.type(address, {"timber.stock.b59.defects.d19.end": "1990"}).status_code == 303
    assert browser.document(project_id)["timber"]["stock"][59]["defects"][19]["end"] == "1990 mm"
