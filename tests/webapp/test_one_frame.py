"""One frame: every page, drawing, list and paper of a job says the same sizes, mass, count, price and light.

`PLACES` says where each fact is read, and how. A fact that is not found there fails the test, so that it never goes
blind. What is right is taken from the plan of the exported project, which is what `plan.json` holds.
"""

import csv
import json
import re
from collections import Counter
from collections.abc import Callable
from copy import deepcopy
from dataclasses import dataclass
from functools import cached_property
from io import StringIO
from time import sleep
from typing import Any
from urllib.parse import urlsplit

import httpx
import pytest
from grouped import each_group, whole
from pages import Browser, Element, read, sent_by
from panel import PANEL_IN_INCHES
from svg_reading import Drawn

from framecalc.money import money_text
from framecalc.plan import FramePlan, Plan
from framecalc.plan.price.price import price_job
from framecalc.project import Quote, read_project
from framecalc.tables.wood import wood_species
from framecalc.weights import KG_PER_POUND
from webapp.pages.projects.demos import demo

N = r"(\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?)"
SIZE = rf"{N} × {N}"
FLATS = rf"{N} (?:mm|in) across the flats"
MASS = re.compile(r"(?:Weight|weighs)\D{0,4}?(\d[\d.]*) (kg|g|lb|oz)")
KG = {"kg": 1.0, "g": 0.001, "lb": float(KG_PER_POUND), "oz": float(KG_PER_POUND) / 16}

QUOTE = {
    "items": [
        {
            "id": "w1",
            "name": "Wood",
            "group": "wood",
            "measure": "each frame",
            "price": "12",
            "priced_on": "2026-11-20",
        },
        {"id": "h1", "name": "Work", "group": "work", "measure": "hour, each frame", "price": "40", "amount": "1.5"},
    ],
    "terms": {"margin": "30", "stale_after": 3000},
}

Document = dict[str, Any]


def inch_job(**changes: Any) -> Document:
    """A panel in inches, its frame changed."""
    document = deepcopy(PANEL_IN_INCHES) | {"quote": QUOTE}
    document["frames"][0] |= changes
    return document


def matted(**changes: Any) -> Document:
    """A print behind a mat and glass, its frame changed."""
    document = demo("cafe-prints.demo") | {"quote": QUOTE}
    document["frames"][0] |= changes
    return document


def layered(**first: Any) -> Document:
    """The print without its mat, its glazing changed."""
    document = matted()
    package = document["frames"][0]["package"]
    package.pop("mat")
    package["layers"] = [layer for layer in package["layers"] if layer["kind"] != "mat"]
    package["layers"][0] |= first
    return document


def out_of_square() -> Document:
    """A print of which both ends and both diagonals are measured."""
    more = {"across_bottom": "281 mm", "up_right": "201 mm", "diagonal_rising": "345 mm", "diagonal_falling": "344 mm"}
    document = layered()
    document["frames"][0]["artwork"] |= more
    return document


def tight() -> Document:
    """A panel tight in its rabbet, a joint in a wood whose moisture nobody has measured, a thin board."""
    corner = {"joint": {"kind": "half-lap"}, "seasons": {"species": wood_species()[0].species_id}}
    document = inch_job(corner=corner)
    document["frames"][0]["package"] |= {"clearance_up": "1/64 in"}
    board = {"id": "s1", "name": "Thin oak", "length": "8 ft", "width": "8 in", "thickness": "1/2 in"}
    return document | {"timber": {"stock": [board]}}


def shaped(**shape: str | int) -> Document:
    """The matted print in a frame of another shape."""
    return matted(shape=shape)


def unmatted() -> Document:
    """The print whose mat is typed and not planned."""
    document = matted()
    document["frames"][0]["package"]["mat"]["is_planned"] = False
    return document


def bought() -> Document:
    """The print in a bought moulding, sold by the length."""
    document = matted()
    moulding = {"name": "No. 7", "price": "14", "stick_length": "3000 mm"}
    document["frames"][0]["section"] |= {"source": "bought", "moulding": moulding}
    return document


def several() -> Document:
    """A job of three frames in two sizes."""
    document = matted(count=2)
    second = deepcopy(document["frames"][0]) | {"id": "second", "name": "Second print", "count": 3}
    second["artwork"] |= {"across": "400 mm", "up": "300 mm"}
    return document | {"frames": [*document["frames"], second]}


STATES: dict[str, Callable[[], Document]] = {
    "plain": layered,
    "matted print": matted,
    "canvas": lambda: demo("maple-canvas.demo") | {"quote": QUOTE},
    "tray and box": lambda: demo("ash-relief.demo") | {"quote": QUOTE},
    "acrylic": lambda: layered(name="acrylic", material="acrylic"),
    "out of square": out_of_square,
    "inch job": inch_job,
    "five in inches": lambda: inch_job(count=5),
    "several frames": several,
    "hexagon": lambda: shaped(sides=6, size="400 mm"),
    "sloping pentagon": lambda: shaped(sides=5, size="16 in", slope="12"),
    "sloping sides": lambda: shaped(slope="20"),
    "without its mat": unmatted,
    "bought moulding": bought,
    "stopped": lambda: inch_job(corner={"joint": {"kind": "loose tenon", "size": "tenon 10 x 50"}}),
    "to be checked": tight,
}
"""Every kind of job that the pages may speak of differently."""


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
        self._pages: dict[str, Element] = {}

    def page(self, tail: str) -> Element:
        """A page of the job, read once."""
        if tail not in self._pages:
            self._pages[tail] = whole(self.browser, self.project_at + tail)
        return self._pages[tail]

    def text(self, tail: str, element_id: str = "main") -> str:
        """The text of a part of a page, its pieces apart."""
        return flat(self.page(tail).by_id(element_id))

    def drawing(self, frame_id: str, name: str) -> Drawn:
        return Drawn(self.file(f"/frames/{frame_id}/drawings/{name}.svg"))

    def file(self, tail: str) -> str:
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


def of_client(pattern: str) -> Reads:
    """Read a fact off what a client would be shown."""

    def reads(job: Opened, frame_id: str) -> str:
        name = job.frames[frame_id].plan.frame.name
        articles = [one for one in job.page("/client/preview?price=yes").all("section") if name in flat(one)]
        return found(pattern, flat(articles[0]))

    return reads


def count_for_client(job: Opened, frame_id: str) -> str:
    name = job.frames[frame_id].plan.frame.name
    text = next(flat(one) for one in job.page("/client/preview?price=yes").all("section") if name in flat(one))
    match = re.search(r"How many (\d+)", text)
    return match[1] if match else "1"


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
        "Setting-out, table": on_page("setting-out", rf"Mat window, across {N}.*?Mat window, up {N}", "figures"),
        "client": of_client(rf"in the mat's window {SIZE}"),
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


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture(params=STATES)
def job(request: pytest.FixtureRequest, browser: Browser) -> Opened:
    return Opened(browser, STATES[request.param]())


def test_every_place_says_the_same_of_every_frame(job: Opened) -> None:
    assert job.frames
    for frame_id, truth in job.frames.items():
        for fact, right in truth.facts.items():
            besides = PLACES_OF_RECTANGLE.get(fact, {}) if truth.plan.shape.is_rectangle else {}
            _is_said_everywhere(job, frame_id, right, PLACES[fact] | besides)
        for fact, right in truth.facts_of_polygon.items():
            _is_said_everywhere(job, frame_id, right, PLACES_OF_POLYGON[fact])
        assert of_client(rf"[Ii]n view.*? {SIZE} (?:mm|in)")(job, frame_id) == truth.in_view
    _lists_say_the_same(job)
    _masses_are_the_same(job)
    _the_price_is_the_same(job)
    _the_light_is_the_same(job)
    _every_box_is_counted(job)


def _is_said_everywhere(job: Opened, frame_id: str, right: str, places: dict[str, Reads]) -> None:
    said = {place: reads(job, frame_id) for place, reads in places.items()}
    assert said == dict.fromkeys(said, right), (job.frames[frame_id].plan.frame.name, right)
    assert len(said) >= 3


@pytest.mark.parametrize("name", ["five in inches", "tray and box"])
def test_the_lists_of_a_plan_that_is_worked_out_count_the_same_pieces(browser: Browser, name: str) -> None:
    job = Opened(browser, STATES[name]())
    timber = f"{job.project_at}/timber"
    browser.post(timber, sent_by(browser.get(timber)) | {"do": "work"})
    while browser.get(timber).by_id("plans").attributes.get("hx-get"):
        sleep(0.05)
    pieces = Counter(cells[-1].rsplit(" ", 1)[0] for cells in job.rows("/timber/lists/pieces.csv"))
    assert pieces == _long_points(job)
    stops = job.rows("/timber/lists/stops.csv")
    assert Counter({cells[1].rsplit(" ", 1)[0]: int(cells[3]) for cells in stops}) == pieces
    _the_light_is_the_same(job)


def _lists_say_the_same(job: Opened) -> None:
    """The wood is as many long points of every length as the frames have sides; each sheet is counted once a frame."""
    unit = job.plan.project.unit
    listed: Counter[str] = Counter()
    for count, length in re.findall(rf"(\d+) × {N} {unit}", " ".join(_needs(job))):
        listed[length] += int(count)
    assert listed == _long_points(job)
    for frame_id, truth in job.frames.items():
        if truth.has_sheets:
            assert count_in_list(job, frame_id) == str(truth.plan.frame.count)


def _long_points(job: Opened) -> Counter[str]:
    """How many sides of every length the frames of a job have, loose ledges too."""
    wanted: Counter[str] = Counter()
    for truth in job.frames.values():
        if not truth.plan.shape.is_rectangle:
            wanted[truth.plan.figures["member_long"].text] += truth.plan.shape.sides * truth.plan.frame.count
            continue
        for name in ("outside", *(("ledge_long",) if truth.plan.has_loose_ledge else ())):
            for way in ("across", "up"):
                wanted[truth.plan.figures[f"{name}_{way}"].text] += 2 * truth.plan.frame.count
    return wanted


def _needs(job: Opened) -> list[str]:
    groups = [one for one in job.page("/timber").by_id("plans").all("section")]
    return [found(r"Long point to long point: (.*?)\.(?: |$)", flat(group)) for group in groups]


def _masses_are_the_same(job: Opened) -> None:
    for frame_id, truth in job.frames.items():
        if truth.mass_kg == 0:
            continue
        for place, tail in MASSES.items():
            text = flat(job.page(f"/frames/{frame_id}/{tail}"))
            masses = [float(number) * KG[unit] for number, unit in MASS.findall(text)]
            assert any(mass == pytest.approx(truth.mass_kg, rel=0.01, abs=0.005) for mass in masses), (place, masses)


def _the_price_is_the_same(job: Opened) -> None:
    for place, reads in PRICES.items():
        assert f"Total {job.price}" in reads(job), place


def _the_light_is_the_same(job: Opened) -> None:
    """The pages of the job have one light; that of a frame, where it is the only one, is the same."""
    of_job = {flat(job.page(tail).by_id("verdict")) for tail in LIGHTS_OF_JOB}
    assert len(of_job) == 1
    record = job.record
    for frame in record["frames"]:
        of_frame = {flat(job.page(f"/frames/{frame['id']}/{tail}").by_id("verdict")) for tail in LIGHTS}
        assert len(of_frame) == 1
        light = of_frame.copy().pop()
        assert light.startswith("Not yet") is not frame["ready_to_cut"]
        _counts_what_is_found(light, [*frame["findings"], *record["findings"]])
        if len(record["frames"]) == 1:
            assert of_frame == of_job


def _counts_what_is_found(light: str, findings: list[dict[str, str]]) -> None:
    """The light counts what the file of the plan lists, stage by stage."""
    counted = Counter((one["stage"], one["severity"]) for one in findings)
    for stage in ("cutting", "gluing", "fitting", "hanging"):
        part = re.search(rf"[Bb]efore {stage}: ([^;.]*)", light)
        for severity, word in (("stop", "stop"), ("warn", "warning")):
            said = re.search(rf"(\d+) {word}", part[1] if part else "")
            assert int(said[1] if said else 0) == counted[stage, severity], (stage, severity, light)


def _every_box_is_counted(job: Opened) -> None:
    """What stands in a box on any page is what the light speaks of, and the other way round."""
    pages = [job.page(f"/frames/{frame_id}/{tail}") for frame_id in job.frames for tail in LIGHTS]
    seen = set().union(*map(_boxes, [*pages, *map(job.page, LIGHTS_OF_JOB)]))
    record = job.record
    findings = [*record["findings"], *(one for frame in record["frames"] for one in frame["findings"])]
    refused = [one["sentence"] for one in findings if one["code"].endswith(".refused")]
    right = {(one["severity"], _plain(one["sentence"])) for one in findings if one["severity"] != "note"}
    assert seen == {one for one in right if one[1] not in map(_plain, refused)}
    answers = [flat(one) for page in pages for one in page.all(".answer.refuses")]
    assert len(answers) == len(refused)
    assert all(any(_plain(sentence) in answer for answer in answers) for sentence in refused)


def _boxes(page: Element) -> set[tuple[str, str]]:
    """The stops and warnings of a page, without the word before each."""
    boxes = set()
    for one in page.all(".finding"):
        (severity,) = {"stop", "warn", "note"} & set(one.attributes["class"].split())
        sentence = flat(one.all(".sentence")[0])
        boxes.add((severity, re.sub(r"^(Stop|Check) ", "", sentence)))
    return {box for box in boxes if box[0] != "note"}


def _plain(text: str) -> str:
    return text.replace("\u00a0", " ")
