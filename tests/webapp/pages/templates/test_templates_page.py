"""The page of templates: every template with its files, and a sentence where one cannot be made."""

import io
import re
import xml.etree.ElementTree as ET
from math import cos, hypot, radians, sin
from pathlib import Path
from zipfile import ZipFile

import ezdxf
import httpx
import pdfplumber
import pytest
from pages import Browser, Element

from framecalc.drawing.templates.tiles import paper_called
from framecalc.plan import Plan
from framecalc.project import parse_project
from webapp.pages.templates.files import EVERY_ONE, Choice, NoSuchTemplate, Wish, all_files, leaves_on_page, one_print

CAFE_FILE = next((Path(__file__).parents[4] / "framecalc/demos").glob("cafe-prints.demo.json"))
CAFE = "prints-for-a-cafe-wall"


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


def of_demo(browser: Browser, name: str = "cafe-prints.demo") -> str:
    """Take a demo project; the address of its templates."""
    answer = browser.client.get(browser.post(f"/projects/demos/{name}").headers["location"], follow_redirects=True)
    return str(answer.url.path).split("/frames/")[0] + "/templates"


def files(page: Element) -> dict[str, str]:
    """The addresses of the files on the page, by what a screen reader says of them."""
    links = (link.attributes for link in page.by_id("main").all("a") if "aria-label" in link.attributes)
    return {link["aria-label"]: link["href"] for link in links}


def called(answer: httpx.Response) -> str:
    assert answer.status_code == 200, answer.text[:300]
    return answer.headers["content-disposition"].split('"')[1]


@pytest.mark.parametrize("name", ["cafe-prints.demo", "maple-canvas.demo", "ash-relief.demo"])
def test_every_file_on_the_page_is_there(browser: Browser, name: str) -> None:
    page = browser.get(of_demo(browser, name))
    names = [called(browser.client.get(address)) for address in files(page).values()]
    assert len(names) == len(set(names)) >= 12
    of_glass = page.by_id("main").text.count("No laser cuts glass")
    assert len(page.by_id("main").all("svg")) * 4 == len(names) + 2 * of_glass


def test_glass_has_an_outline_and_no_file_for_a_laser(browser: Browser) -> None:
    at = of_demo(browser)
    linked = {label: address for label, address in files(browser.get(at)).items() if ": Glazing: glass" in label}
    assert {label.split(":")[0] for label in linked} == {"DXF", "PDF"}
    asked = browser.client.get(linked[next(iter(linked))].replace("/dxf", "/laser"))
    assert asked.status_code == 422 and "No laser cuts glass" in asked.text


def test_files_are_named_by_job_frame_and_what_they_are(browser: Browser) -> None:
    linked = files(browser.get(of_demo(browser)))
    mat = {label.split(":")[0]: address for label, address in linked.items() if "Mat, Linocut, matted" in label}
    assert {label: called(browser.client.get(address)) for label, address in mat.items()} == {
        "Laser": f"{CAFE}-linocut-matted-mat.svg",
        "Laser, cuts only": f"{CAFE}-linocut-matted-mat-cuts.svg",
        "DXF": f"{CAFE}-linocut-matted-mat.dxf",
        "PDF": f"{CAFE}-linocut-matted-mat.pdf",
    }
    assert browser.client.get(mat["PDF"]).content.startswith(b"%PDF-")
    assert ezdxf.read(io.StringIO(browser.client.get(mat["DXF"]).text)).units == ezdxf.units.MM
    assert ET.fromstring(browser.client.get(mat["Laser"]).content).attrib["width"] == "406mm"


def test_a_typed_kerf_reaches_the_files(browser: Browser) -> None:
    at = of_demo(browser)
    plain = files(browser.get(at))
    kerfed = files(browser.get(f"{at}?kerf=0.2+mm&paper=letter"))
    label = next(label for label in plain if label.startswith("Laser: Reference block"))
    assert "A4,4" in browser.client.get(plain[label]).text
    assert "A3.9,3.9" in browser.client.get(kerfed[label]).text


@pytest.mark.parametrize(("kerf", "says"), [("wide", "wide"), ("0,1,2", "0,1,2")])
def test_a_kerf_that_is_no_length_stays_as_typed_with_a_sentence(browser: Browser, kerf: str, says: str) -> None:
    answer = browser.client.get(of_demo(browser), params={"kerf": kerf})
    assert answer.status_code == 422
    assert says in answer.text and f'value="{kerf}"' in answer.text


@pytest.mark.parametrize("kerf", ["9 mm", "-1 mm"])
def test_a_kerf_that_no_beam_has_gives_no_machine_file_and_says_why(browser: Browser, kerf: str) -> None:
    at = of_demo(browser)
    answer = browser.client.get(at, params={"kerf": kerf})
    assert answer.status_code in (200, 422)
    assert ("Enter a kerf up to" if kerf == "9 mm" else "kerf") in answer.text
    frame = next(iter(files(browser.get(at)).values())).split("/templates/")[1].split("/")[0]
    assert browser.client.get(f"{at}/{frame}/mat/laser", params={"kerf": kerf}).status_code == 422


def test_one_zip_holds_every_file(browser: Browser) -> None:
    at = of_demo(browser)
    names = {called(browser.client.get(address)) for address in files(browser.get(at)).values()}
    answer = browser.client.get(f"{at}/all.zip")
    assert called(answer) == f"{CAFE}-templates.zip"
    with ZipFile(io.BytesIO(answer.content)) as archive:
        assert set(archive.namelist()) == names
        assert archive.testzip() is None
    assert browser.client.get(f"{at}/all.zip").content == answer.content


def test_a_zip_begins_to_arrive_before_all_of_it_is_made() -> None:
    """Fault: the files of sixty frames were all made before the first byte went out."""
    parts = all_files(Plan(parse_project(CAFE_FILE.read_bytes())), Wish(kerf_mm=0, paper=paper_called("a4")), EVERY_ONE)
    first = next(parts)
    assert first.startswith(b"PK") and sum(name in first for name in (b".svg", b"-cuts.svg")) == 1
    parts.close()  # type: ignore[attr-defined]


def test_a_print_of_many_leaves_is_made_leaf_by_leaf() -> None:
    """Fault: all templates of the largest project, as one PDF or a page, held a worker for 14 s."""
    plan = Plan(parse_project(CAFE_FILE.read_text("utf-8")))
    wish = Wish(kerf_mm=0, paper=paper_called("a4"))
    leaves = list(leaves_on_page(plan, wish, EVERY_ONE))
    *steps, whole = one_print(plan, wish, EVERY_ONE)
    assert steps == [b""] * len(leaves) and whole.startswith(b"%PDF-") and len(leaves) > 20
    with pytest.raises(NoSuchTemplate):
        one_print(plan, wish, Choice(frame="none"))


def test_the_leaf_of_the_printer_check_is_a_pdf(browser: Browser) -> None:
    page = browser.get(of_demo(browser))
    (at,) = (a.attributes["href"] for a in page.by_id("main").all("a") if "Printer check" in a.text)
    answer = browser.client.get(at, params={"paper": "letter"})
    assert called(answer) == "printer-check.pdf" and answer.content.startswith(b"%PDF-")


@pytest.mark.parametrize(
    "tail",
    [
        "?paper=x1",
        "/all.pdf?pick=x1.mat",
        "?printer=x1",
        "?step=x1",
        "?frame=x1",
        "/all.zip?frame=x1",
        "/print?frame=x1",
        "/x1/mat/pdf",
    ],
)
def test_what_is_not_there_is_answered_with_a_sentence(browser: Browser, tail: str) -> None:
    assert browser.client.get(of_demo(browser) + tail).status_code in (404, 422)


def test_a_template_or_a_kind_that_is_not_there_is_no_fault_of_the_program(browser: Browser) -> None:
    at = of_demo(browser)
    frame = next(iter(files(browser.get(at)).values())).split("/templates/")[1].split("/")[0]
    for tail in ("x1/pdf", "mat/x1"):
        assert browser.client.get(f"{at}/{frame}/{tail}").status_code == 404


def test_the_page_says_what_a_laser_is_not_left_to(browser: Browser) -> None:
    text = browser.get(of_demo(browser)).by_id("main").text
    assert "never leave it alone" in text and "PVC" in text and "Hold the sheet down" in text
    assert "Unchecked: measure the bars" in text


def test_ticked_templates_alone_are_packed_and_printed(browser: Browser) -> None:
    at = of_demo(browser)
    picks = [one.attributes["value"] for one in browser.get(at).by_id("main").all("input", type="checkbox")]
    mat, back = (next(one for one in picks if one.endswith(f".{name}")) for name in ("mat", "back"))
    with ZipFile(io.BytesIO(browser.client.get(f"{at}/all.zip", params={"pick": [mat, back]}).content)) as archive:
        assert len(archive.namelist()) == 8
    printed = browser.client.get(f"{at}/all.pdf", params={"pick": [mat, back], "paper": "a3"})
    assert called(printed) == f"{CAFE}-templates.pdf"
    leaves = pdfplumber.open(io.BytesIO(printed.content)).pages
    assert {bool(re.search(r"\bMat\b", one.extract_text())) for one in leaves} == {True, False}


def test_sheets_alike_are_printed_once_for_all_that_are_named(browser: Browser) -> None:
    printed = browser.client.get(f"{of_demo(browser)}/all.pdf", params={"step": "Sheets", "paper": "a3"})
    texts = [one.extract_text() for one in pdfplumber.open(io.BytesIO(printed.content)).pages]
    assert texts and all("Glazing: glass · Backing: backing board · Back: plywood back" in text for text in texts)


def test_a_step_shows_its_own_templates(browser: Browser) -> None:
    at = of_demo(browser)
    titles = [one.text for one in browser.get(f"{at}?step=Mats").by_id("main").all("h3")]
    assert titles and all("Mat" in title for title in titles)


def laser_of(browser: Browser, **fields: str) -> None:
    sent = {f"laser.{name}": text for name, text in fields.items()}
    assert browser.post("/shop", sent | {"do": "save"}).status_code == 303


def test_groups_layers_strokes_and_kerf_are_as_the_shop_types_them(browser: Browser) -> None:
    at = of_demo(browser)
    laser_of(browser, cut_name="through", cut_stroke="#ff0000", kerf="0.2 mm")
    linked = files(browser.get(at))
    label = next(label for label in linked if label.startswith("Laser: Reference block"))
    group = ET.fromstring(browser.client.get(linked[label]).text).find("{*}g[@id='through']")
    assert group is not None and group.attrib["stroke"] == "#ff0000"
    assert "A3.9,3.9" in browser.client.get(linked[label]).text
    dxf = browser.client.get(linked[label.replace("Laser", "DXF")]).text
    assert ezdxf.read(io.StringIO(dxf)).modelspace().query('LWPOLYLINE[layer=="through"]')


def test_a_material_with_a_kerf_of_its_own_gives_it_to_what_is_cut_from_it(browser: Browser) -> None:
    """Mats by their strip (10 pieces of 97.6 mm are a kerf of 0.24 mm), all others by the laser's own kerf."""
    at = of_demo(browser)
    laser_of(browser, kerf="0.2 mm")
    browser.post("/shop", {"do": "add-material"})
    name = next(
        one.attributes["name"] for one in browser.get("/shop").all("select") if "materials" in one.attributes["name"]
    )
    material = name.removesuffix(".cuts")
    sent = {name: "mats", f"{material}.strip": "97.6 mm", f"{material}.name": "Mat board", "do": "save"}
    assert browser.post("/shop", sent).status_code == 303
    mat, stick = "Laser: Mat, Linocut, matted", "Laser: Story stick, Linocut, matted"
    assert "A0.12,0.12" in cut_by(browser, at, mat) and "A0.1,0.1" in cut_by(browser, at, stick)
    assert "A0.2,0.2" in cut_by(browser, f"{at}?kerf=0.4+mm", mat), "what is typed on the page holds for all"
    answer = browser.post("/shop", {f"{material}.strip": "120 mm", "do": "save"})
    assert "90 to 100 mm" in (answer.text if answer.status_code == 422 else browser.get("/shop").by_id("main").text)


def cut_by(browser: Browser, at: str, label: str) -> str:
    """What a laser cuts last of a file: the outside of its part, half a kerf round each corner."""
    svg = ET.fromstring(browser.client.get(files(browser.get(at))[label]).text)
    return svg.findall("{*}g[@id='cut']/{*}path")[-1].attrib["d"]


def test_names_that_no_file_can_bear_are_said_and_make_no_file(browser: Browser) -> None:
    at = of_demo(browser)
    linked = files(browser.get(at))
    laser_of(browser, score_name="cut")
    assert "name of its own" in browser.get("/shop").by_id("slot-laser-score_name").text
    assert browser.client.get(at).status_code == 422
    label = next(label for label in linked if label.startswith("Laser: Reference block"))
    assert browser.client.get(linked[label]).status_code == 422


def test_a_small_bed_warns_and_a_large_one_takes_all_copies(browser: Browser) -> None:
    at = of_demo(browser)
    laser_of(browser, bed_across="300 mm", bed_up="200 mm")
    assert "Larger than the bed: " in browser.get(at).by_id("main").text
    laser_of(browser, bed_across="1300 mm", bed_up="900 mm", kerf="0.2 mm")
    linked = files(browser.get(at))
    label = next(label for label in linked if label.startswith("All copies on the bed: Mat"))
    with ZipFile(io.BytesIO(browser.client.get(linked[label]).content)) as archive:
        cuts = [
            len(ET.fromstring(archive.read(name)).findall("{*}g[@id='cut']/{*}path")) for name in archive.namelist()
        ]
    assert sum(cuts) == 5 * 2, "five mats, each with its window"


def test_a_printer_that_was_measured_is_corrected_and_its_leaves_say_so(browser: Browser) -> None:
    """A printer of 0.994 across, 1.003 up and 0.2° skew, measured to a tenth of a millimetre."""
    at = of_demo(browser)
    browser.post("/shop", {"do": "add-printer"})
    (field,) = (one for one in browser.get("/shop").all("input") if one.attributes.get("name", "").endswith(".across"))
    printer = field.attributes["name"].removesuffix(".across")
    assert "Unchecked" in browser.get(at).by_id("main").text
    measured = {"across": "149.1", "up": "150.5", "rising": "212.2", "falling": "211.4"}
    sent = {f"{printer}.{name}": text for name, text in measured.items()} | {"do": "save"}
    assert browser.post("/shop", sent).status_code == 303
    assert "True on Printer only" in browser.get("/shop").by_id("printers").text
    page = browser.get(at)
    assert "True on Printer only" in page.by_id("main").text
    (block,) = (href for label, href in files(page).items() if label.startswith("PDF: Reference block"))
    leaf = pdfplumber.open(io.BytesIO(browser.client.get(block).content)).pages[0]
    assert "True on Printer only" in leaf.extract_text()
    out_mm = sorted(printed_mm(line) for line in leaf.lines if 98 < printed_mm(line) < 103)
    assert out_mm == pytest.approx([100, 100, 101.6, 101.6], abs=0.2)
    unchecked = browser.client.get(block, params={"printer": "none"})
    assert "Unchecked" in pdfplumber.open(io.BytesIO(unchecked.content)).pages[0].extract_text()


def printed_mm(line: dict[str, list[tuple[float, float]]]) -> float:
    """How long a line comes out on a printer of 0.994 across, 1.003 up, whose upright lines lean by 0.2°."""
    (x, top), (to_x, to_top) = line["pts"]
    across, up, lean = (to_x - x) * 25.4 / 72, (top - to_top) * 25.4 / 72, radians(0.2)
    return hypot(0.994 * across + 1.003 * up * sin(lean), 1.003 * up * cos(lean))


@pytest.mark.parametrize(
    ("measured", "says"),
    [
        ({"across": "134"}, "not fitted to the page"),
        ({"across": "150", "up": "150", "rising": "220", "falling": "218"}, "measure all four again"),
    ],
)
def test_a_square_that_was_fitted_to_the_page_or_misread_corrects_nothing(
    browser: Browser, measured: dict[str, str], says: str
) -> None:
    at = of_demo(browser)
    browser.post("/shop", {"do": "add-printer"})
    (field,) = (one for one in browser.get("/shop").all("input") if one.attributes.get("name", "").endswith(".across"))
    printer = field.attributes["name"].removesuffix(".across")
    answer = browser.post("/shop", {f"{printer}.{name}": text for name, text in measured.items()} | {"do": "save"})
    shown = answer.text if answer.status_code == 422 else browser.get("/shop").by_id("main").text
    assert says in shown
    assert "True on" not in browser.client.get(at).text


def test_of_many_frames_one_is_shown_at_a_time_and_all_are_packed_on_demand(browser: Browser) -> None:
    project_id = browser.new(name="Hall")
    for revision in range(1, 7):
        browser.post(f"/projects/{project_id}/frames", {"base": f"{revision}"})
    at = f"/projects/{project_id}/templates"
    page = browser.get(at).by_id("main")
    assert len([one for one in page.all("h2") if one.attributes["id"].startswith("of-")]) == 1
    (every,) = (link.attributes["href"] for link in page.all("a") if link.text == "All frames, one zip")
    assert every == f"{at}/all.zip"


def test_a_polygons_sheet_is_called_by_the_size_that_the_sheets_say(browser: Browser) -> None:
    """Fault: a template said 18 15/32, and every other page 18 1/2."""
    project_id = browser.new(unit="in", across="16", up="16", face_width="1 1/2")
    browser.type(browser.setting_out(project_id), {"shape.sides": "6", "shape.size": "16"})
    parts = browser.get(f"/projects/{project_id}/sheets/parts").by_id("main").text
    page = browser.get(f"/projects/{project_id}/templates").by_id("main").text
    assert "18 1/2 × 16 in" in parts and page.count("18 1/2 × 16 in") == 4
