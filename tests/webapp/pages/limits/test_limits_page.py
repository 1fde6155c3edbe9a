"""The page of the limits."""

import httpx
from pages import Browser

from framecalc.project.stated import field_limits


def test_every_limit_stands_on_one_page(client: httpx.Client) -> None:
    page = Browser(client).get("/limits")
    rows = [[cell.text for cell in (*row.all("th"), *row.all("td"))] for row in page.all("tr") if row.all("td")]
    assert ["Sticks and boards on the rack", "500"] in rows and ["Paired devices", "30"] in rows
    assert len(rows) == len(field_limits()) + len(page.by_id("main").all("table")[0].all("tr")) - 1
    assert Browser(client).get("/backup").all("a", href="/limits")
