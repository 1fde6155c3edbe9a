"""Where a job says the facts of a frame: `PLACES` says where each is read, and how.

A fact that is not found there fails the test, so that it never goes blind. What is right is taken from the plan of the
exported project, which is what `plan.json` holds.
"""

import csv
import json
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache, cached_property
from io import StringIO
from typing import Any
from urllib.parse import urlsplit

from frame_jobs import Document
from grouped import each_group, whole
from pages import Browser, Element, read
from svg_reading import Drawn

from framecalc.money import money_text
from framecalc.plan import FramePlan, Plan
from framecalc.plan.price.price import price_job
from framecalc.project import Quote, read_project
from framecalc.weights import KG_PER_POUND

N = r"(\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?)"
SIZE = rf"{N} × {N}"
FLATS = rf"{N} (?:mm|in) across the flats"
MASS = re.compile(r"(?:Weight|weighs)\D{0,4}?(\d[\d.]*) (kg|g|lb|oz)")
KG = {"kg": 1.0, "g": 0.001, "lb": float(KG_PER_POUND), "oz": float(KG_PER_POUND) / 16}


@dataclass(frozen=True)
class Truth:
    """What the plan says of one frame."""

    plan: FramePlan

    def size(self, name: str) -> str:
        across, up = (self.plan.figures[f"{name}_{way}"].text for way in ("across", "up"))
        return f"{across} × {up}"

    @cached_property
    def facts(self) -> dict[str, str]:
        inside = {"rabbet": self.size("rabbet")} | ({} if self.plan.is_tray else {"sight": self.size("sight")})
        if self.plan.mat:
            inside["window"] = self.size("window")
        sheets = {"glass": self.size("package")} if self.has_sheets else {}
        return {"outside": self.size("outside"), "count": str(self.plan.frame.count), **inside, **sheets}

    @cached_property
    def facts_of_polygon(self) -> dict[str, str]:
        """What a polygon has besides: its members, and its measures across the flats."""
        if self.plan.shape.is_rectangle:
            return {}
        flats = {name: self.plan.figures[f"{name}_flats"].text for name in ("package", "outside", "rabbet")}
        return {"members": f"{self.plan.shape.sides} × {self.plan.figures['member_long'].text}", **flats}

    @property
    def has_sheets(self) -> bool:
        return any(layer.kind.is_sheet for layer in self.plan.frame.package.layers)

    @property
    def mass_kg(self) -> float:
        return self.plan.package.weights.weighed.mass_kg

    @property
    def in_view(self) -> str:
        """What a client is told is in view."""
        return self.size("window" if self.plan.mat else "artwork" if self.plan.is_tray else "sight")


class Opened:
    """A job that is imported into a running server, and what its pages say."""

    def __init__(self, browser: Browser, document: Document) -> None:
        answer = browser.post("/projects/import", {"pasted": json.dumps(document)})
        assert answer.status_code == 303, read(answer.text).by_id("main").text[:400]
        self.browser = browser
        self.project_at = f"/projects/{urlsplit(answer.headers['location']).path.rsplit('/', 1)[1]}"
        project = read_project(browser.document(self.project_at.rsplit("/", 1)[1]))
        self.plan = Plan(project)
        self.frames = {frame_id: Truth(plan) for frame_id, plan in self.plan.frames.items()}
        self.page = cache(self._page)
        self.text = cache(self._text)
        self.drawing = cache(self._drawing)
        self.file = cache(self._file)

    def _page(self, tail: str) -> Element:
        """A page of the job, read once."""
        return whole(self.browser, self.project_at + tail)

    def _text(self, tail: str, element_id: str = "main") -> str:
        """The text of a part of a page, its pieces apart."""
        return flat(self.page(tail).by_id(element_id))

    def _drawing(self, frame_id: str, name: str) -> Drawn:
        return Drawn(self.file(f"/frames/{frame_id}/drawings/{name}.svg"))

    def _file(self, tail: str) -> str:
        answer = self.browser.client.get(self.project_at + tail)
        assert answer.status_code == 200, tail
        return answer.text

    def rows(self, tail: str) -> list[list[str]]:
        return list(csv.reader(StringIO(self.file(tail))))[1:]

    @cached_property
    def record(self) -> dict[str, Any]:
        """The file of the plan."""
        return self.plan.record()

    def figure(self, frame_id: str, name: str) -> str:
        """A figure in the file of the plan."""
        (frame,) = (one for one in self.record["frames"] if one["id"] == frame_id)
        return str(frame["figures"][name]["written"])

    @cached_property
    def price(self) -> str:
        job = price_job(self.plan.project, quote=self.plan.project.quote or Quote(), plan=self.plan)
        return money_text(job.offer.total, currency=job.terms.currency)


def flat(element: Element) -> str:
    return " ".join(str(element.node.text(separator=" ")).replace("\u00a0", " ").split())


def found(pattern: str, text: str) -> str:
    """What a pattern finds: its groups, as a size."""
    match = re.search(pattern, text)
    assert match, f"{pattern} is not in: {text[:300]}"
    return " × ".join(match.groups())


Reads = Callable[[Opened, str], str]


def on_page(tail: str, pattern: str, element_id: str = "main") -> Reads:
    """Read a fact off a page of a frame."""
    return lambda job, frame_id: found(pattern, job.text(f"/frames/{frame_id}/{tail}", element_id))


def on_drawing(name: str, figure: str) -> Reads:
    """Read a size off a drawing: by what its dimensions stand for."""

    def reads(job: Opened, frame_id: str) -> str:
        figures = job.drawing(frame_id, name).figures()
        return " × ".join(found(rf"{N}$", figures[f"{figure}_{way}"][0]) for way in ("across", "up"))

    return reads


def inside_on_front(job: Opened, frame_id: str) -> str:
    """The rabbet size on the front; in a tray that is its inside, which is in sight."""
    name = "sight" if job.frames[frame_id].plan.is_tray else "rabbet"
    return on_drawing("front", name)(job, frame_id)


def in_record(name: str) -> Reads:
    """Read a size off the file of the plan."""
    return lambda job, frame_id: " × ".join(job.figure(frame_id, f"{name}_{way}") for way in ("across", "up"))


def in_polygon(name: str) -> Reads:
    """Read a length off the drawing of a polygon, after the number of its sides."""

    def reads(job: Opened, frame_id: str) -> str:
        drawn = job.drawing(frame_id, "polygon")
        sides, length = found(r"of (\d+) sides", drawn.title), found(rf"{N}$", drawn.figures()[name][0])
        return f"{sides} × {length}"

    return reads


def members_of_polygon(job: Opened, frame_id: str) -> str:
    count, length = on_page("setting-out", rf"Members (\d+) of {N} long points", "sizes")(job, frame_id).split(" × ")
    return f"{int(count) // job.frames[frame_id].plan.frame.count} × {length}"


def in_title(name: str, pattern: str) -> Reads:
    """Read a fact off what a drawing is called."""
    return lambda job, frame_id: found(pattern, job.drawing(frame_id, name).title)


def each_side(reads: Reads) -> Reads:
    """A count of sides as one of frames: a rectangle has two that are alike, a polygon all of them."""

    def frames(job: Opened, frame_id: str) -> str:
        shape = job.frames[frame_id].plan.shape
        return str(int(reads(job, frame_id)) // (2 if shape.is_rectangle else shape.sides))

    return frames


def on_card(pattern: str) -> Reads:
    return lambda job, frame_id: found(pattern, flat(job.page(f"/frames/{frame_id}/package/fitting")))


def count_on_card(job: Opened, frame_id: str) -> str:
    match = re.search(r" × (\d+)$", flat(job.page(f"/frames/{frame_id}/package/fitting").all("h1")[0]).split(" · ")[0])
    return match[1] if match else "1"


def sheet_in_table(job: Opened, frame_id: str) -> str:
    """The size that each sheet of the package is cut to, by the table of its layers."""
    rows = [row.all("td") for row in job.page(f"/frames/{frame_id}/package").by_id("more-layers").all("tr")]
    sizes = {
        match.group(1) for row in rows for cell in row if (match := re.fullmatch(rf"({SIZE}) (mm|in)", flat(cell)))
    }
    assert len(sizes) == 1, sizes
    return sizes.pop()


def sheet_in_list(job: Opened, frame_id: str) -> str:
    """The size of a frame's parts in the list of the sheets, as a table for a spreadsheet."""
    name = job.frames[frame_id].plan.frame.name
    sizes = {cells[2].rsplit(" ", 1)[0] for cells in job.rows("/sheets/lists/parts.csv") if cells[1] == name}
    assert len(sizes) == 1, sizes
    return sizes.pop()


def flats_in_list(job: Opened, frame_id: str) -> str:
    """What a frame's parts are cut to across their flats, in the list of the sheets."""
    name = job.frames[frame_id].plan.frame.name
    sizes = {found(FLATS, cells[4]) for cells in job.rows("/sheets/lists/parts.csv") if cells[1] == name}
    assert len(sizes) == 1, sizes
    return sizes.pop()


def count_in_list(job: Opened, frame_id: str) -> str:
    name = job.frames[frame_id].plan.frame.name
    counts = {cells[3] for cells in job.rows("/sheets/lists/parts.csv") if cells[1] == name}
    assert len(counts) == 1, counts
    return counts.pop()


def on_quote(column: int, pattern: str) -> Reads:
    """Read a cell of a frame's line in the quote."""

    def reads(job: Opened, frame_id: str) -> str:
        number = list(job.frames).index(frame_id)
        row = job.page("/quote").all("tbody")[0].all("tr")[number]
        return found(pattern, flat([*row.all("th"), *row.all("td")][column]))

    return reads


def told_to_client(job: Opened, frame_id: str) -> str:
    """What a client would be shown of a frame: its section where there are several, else all of the page."""
    page, name = job.page("/client/preview?price=yes"), job.frames[frame_id].plan.frame.name
    sections = [flat(one) for one in page.all("section") if "one-of" in one.attributes.get("class", "")]
    return next((text for text in sections if name in text), flat(page.by_id("main")))


def of_client(pattern: str) -> Reads:
    """Read a fact off what a client would be shown."""
    return lambda job, frame_id: found(pattern, told_to_client(job, frame_id))


def count_for_client(job: Opened, frame_id: str) -> str:
    match = re.search(r"How many (\d+)", told_to_client(job, frame_id))
    return match[1] if match else "1"


WINDOW = "(?:Mat window|Mount aperture)"
INSIDE = rf"(?:Rabbet size|Rebate size|Inside) {SIZE}"

PLACES: dict[str, dict[str, Reads]] = {
    "outside": {
        "Setting-out": on_page("setting-out", rf"Outside {SIZE}", "sizes"),
        "Setting-out, table": on_page("setting-out", rf"Outside, across {N}.*?Outside, up {N}", "figures"),
        "front": on_drawing("front", "outside"),
        "front, title": in_title("front", rf": {SIZE} (?:mm|in) outside"),
        "Look": on_page("look", rf": {SIZE} (?:mm|in) outside"),
        "quote": on_quote(1, SIZE),
        "client": of_client(rf"Outside {SIZE}"),
    },
    "sight": {
        "Setting-out": on_page("setting-out", rf"Sight {SIZE}", "sizes"),
        "front": on_drawing("front", "sight"),
        "plan.json": in_record("sight"),
    },
    "rabbet": {
        "Setting-out": on_page("setting-out", INSIDE, "sizes"),
        "front": inside_on_front,
        "card": on_card(INSIDE),
    },
    "window": {
        "Setting-out, table": on_page("setting-out", rf"{WINDOW}, across {N}.*?{WINDOW}, up {N}", "figures"),
        "client": of_client(rf"in the (?:mat's window|mount's aperture) {SIZE}"),
        "plan.json": in_record("window"),
    },
    "glass": {
        "Setting-out, table": on_page("setting-out", rf"Package, across {N}.*?Package, up {N}", "figures"),
        "card": on_card(rf"Package {SIZE}"),
        "plan.json": in_record("package"),
    },
    "count": {
        "Setting-out": each_side(on_page("setting-out", r"Members (\d+) of", "sizes")),
        "members": each_side(in_title("members", r": (\d+) of A")),
        "card": count_on_card,
        "quote": on_quote(2, r"(\d+)"),
        "client": count_for_client,
    },
}
"""Where each fact about a frame is read, by the name of the place."""

PLACES_OF_RECTANGLE: dict[str, dict[str, Reads]] = {
    "outside": {
        "members": on_drawing("members", "outside"),
        "Corners": on_page("corners", rf"two of {N} (?:mm|in) and two of {N}"),
    },
    "sight": {"members": on_drawing("members", "sight")},
    "glass": {"Package": sheet_in_table, "list of parts": sheet_in_list},
}
"""Where the facts about a rectangle are read besides."""

PLACES_OF_POLYGON: dict[str, dict[str, Reads]] = {
    "members": {
        "Setting-out": members_of_polygon,
        "Corners": on_page("corners", rf"(\d+) members of {N} (?:mm|in) long points"),
        "drawing of the polygon": in_polygon("member_long"),
    },
    "package": {
        "Setting-out, table": on_page("setting-out", rf"Package, across the flats {N}", "figures"),
        "Package": on_page("package", FLATS, "says-layers"),
        "card": on_card(rf"Package, \d+ sides {FLATS}"),
        "list of parts": flats_in_list,
    },
    "outside": {
        "Setting-out, table": on_page("setting-out", rf"Outside, across the flats {N}", "figures"),
        "Corners": on_page("corners", rf"outside {FLATS}"),
        "drawing of the polygon": in_title("polygon", FLATS),
    },
    "rabbet": {
        "Setting-out, table": on_page("setting-out", rf"(?:Rabbet size|Inside), across the flats {N}", "figures"),
        "Corners": on_page("corners", rf"(?:Rabbet size|Inside) {N} (?:mm|in), outside"),
        "plan.json": lambda job, frame_id: job.figure(frame_id, "rabbet_flats"),
    },
}
"""Where the facts about a polygon are read, across its flats and of its members."""

MASSES: dict[str, str] = {"Package": "package", "card": "package/fitting"}
"""The pages that weigh the package."""

PRICES: dict[str, Callable[[Opened], str]] = {
    "Costs": lambda job: job.text("/costs", "price"),
    "quote": lambda job: flat(job.page("/quote")),
    "client": lambda job: flat(job.page("/client/preview?price=yes")),
}

LIGHTS = ("setting-out", *each_group("package"), *each_group("corners"), "look")
LIGHTS_OF_JOB = ("/timber", "/timber/reach", "/sheets", "/costs", "/client")
