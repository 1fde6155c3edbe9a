"""One frame: every page, drawing, list and paper of a job says the same sizes, mass, count, price and light."""

import re
from collections import Counter
from time import sleep

import httpx
import pytest
from frame_jobs import STATES
from frame_said import (
    KG,
    LIGHTS,
    LIGHTS_OF_JOB,
    MASS,
    MASSES,
    PLACES,
    PLACES_OF_POLYGON,
    PLACES_OF_RECTANGLE,
    PRICES,
    SIZE,
    N,
    Opened,
    Reads,
    count_in_list,
    flat,
    found,
    of_client,
)
from pages import Browser, Element, sent_by


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
    plans = job.page("/timber").by_id("plans")
    groups = [*plans.all("section"), *plans.all("div.group")]
    return [found(r"[Ll]ong point to long point:? (.*?)\.(?: |$)", flat(group)) for group in groups]


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
    """The pages of the job have one light, but none leads to itself; that of an only frame is the same."""
    of_job = {re.sub(r" Go to \w+$", "", flat(job.page(tail).by_id("verdict"))) for tail in LIGHTS_OF_JOB}
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
    alone = re.match(r"Ready to cut · (\d+) warnings? (?:Before (\w+): (?!\d))?(?!Before)", light)
    if alone:
        light = f"Before {alone[2] or 'cutting'}: {alone[1]} warnings."
    for stage in ("cutting", "gluing", "fitting", "hanging"):
        part = re.search(rf"[Bb]efore {stage}: ([^;.]*)", light)
        for severity, named in (("stop", "stop"), ("warn", "warning")):
            said = re.search(rf"(\d+) {named}", part[1] if part else "")
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
