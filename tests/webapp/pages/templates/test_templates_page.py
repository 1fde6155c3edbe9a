"""The page of templates: every template with its files, and a sentence where one cannot be made."""

import io
import xml.etree.ElementTree as ET
from zipfile import ZipFile

import ezdxf
import httpx
import pytest
from pages import Browser, Element

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
    assert len(page.by_id("main").all("svg")) * 4 == len(names)


def test_files_are_named_by_job_frame_and_what_they_are(browser: Browser) -> None:
    linked = files(browser.get(of_demo(browser)))
    mat = {label.split(":")[0]: address for label, address in linked.items() if "Mat: mat, Linocut, matted" in label}
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


def test_the_leaf_of_the_printer_check_is_a_pdf(browser: Browser) -> None:
    answer = browser.client.get(f"{of_demo(browser)}/printer-check.pdf", params={"paper": "letter"})
    assert called(answer) == "printer-check.pdf" and answer.content.startswith(b"%PDF-")


@pytest.mark.parametrize("tail", ["?paper=x1", "/printer-check.pdf?paper=x1", "/all.zip?paper=x1", "/x1/mat/pdf"])
def test_what_is_not_there_is_answered_with_a_sentence(browser: Browser, tail: str) -> None:
    assert browser.client.get(of_demo(browser) + tail).status_code in (404, 422)


def test_a_template_or_a_kind_that_is_not_there_is_no_fault_of_the_program(browser: Browser) -> None:
    at = of_demo(browser)
    frame = next(iter(files(browser.get(at)).values())).split("/templates/")[1].split("/")[0]
    for tail in ("x1/pdf", "mat/x1"):
        assert browser.client.get(f"{at}/{frame}/{tail}").status_code == 404


def test_the_page_says_what_a_laser_is_not_left_to(browser: Browser) -> None:
    text = browser.get(of_demo(browser)).by_id("main").text
    assert "never left alone" in text and "PVC" in text and "Hold the sheet down" in text
    assert "Unchecked: measure the bars" in text
