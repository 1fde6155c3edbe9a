"""From a new job to its end: Next is followed again and again, and what each page asks for is done by its forms."""

import time
from collections.abc import Callable, Mapping
from urllib.parse import urlsplit

import httpx
import pytest
from pages import Browser, Element, read, sent_by

from framecalc.project.way import JobStep

MOST_STEPS = 120


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


class Walker:
    """A person who does whatever is next."""

    def __init__(self, browser: Browser, project_id: str) -> None:
        self.browser, self.at = browser, f"/projects/{project_id}"
        self.walked: list[str] = []
        self.does: Mapping[str, Callable[[str], None]] = {
            JobStep.SHOW: self._show,
            JobStep.PRICE: self._price,
            JobStep.STOCK: self._plan_sticks,
            JobStep.SHEETS: self._lay_out_sheets,
            JobStep.TEST_CUT: self._try_a_joint,
            JobStep.CUT: self._cut,
        }

    def walk(self) -> Element:
        """Follow Next until nothing is left; the job page as it is then."""
        for _ in range(MOST_STEPS):
            page = self.browser.get(self.at)
            if not page.by_id("next").all("a"):
                return page
            self._follow(page)
        raise AssertionError(f"no end: {self.walked[-8:]}")

    def _follow(self, page: Element) -> None:
        (step,) = [one for one in page.by_id("way").all("li") if "is-next" in one.attributes["class"]]
        (link,) = page.by_id("next").all("a")
        name, href = step.attributes["id"].removeprefix("step-"), link.attributes["href"]
        self.walked.append(name)
        self._arrive(href)
        if "check" in step.attributes["class"].split() and "#field-" in href:
            self._confirm(href)
        elif name in self.does:
            self.does[name](href)
        else:
            self._tick(page)

    def _arrive(self, href: str) -> Element:
        """The page that a link leads to; the place on it is there."""
        page, anchor = self.browser.get(href), urlsplit(href).fragment
        return page.by_id(anchor) if anchor else page

    def _confirm(self, href: str) -> None:
        field = self._arrive(href)
        (button,) = [one for one in field.all("button") if one.attributes.get("value", "").startswith("confirm:")]
        answer = self.browser.type(_without_anchor(href), {}, do=button.attributes["value"])
        assert answer.status_code == 303

    def _tick(self, page: Element) -> None:
        (form,) = page.by_id("next").all("form")
        assert "done" in [one.attributes["value"] for one in form.all("button")], self.walked[-1]
        assert self.browser.post(form.attributes["action"], sent_by(page, form) | {"do": "done"}).status_code == 303

    def _show(self, href: str) -> None:
        page = self.browser.get(href)
        sent = {name: text for name, text in sent_by(page, "wish").items() if name != "price"}
        made = read(self.browser.post(f"{self.at}/shares", sent).text)
        view = urlsplit(made.by_id("link").attributes["value"]).path
        assert self.browser.post(f"{view}/approve", {"name": "Nora Ellis"}).status_code == 303

    def _price(self, href: str) -> None:
        assert self.browser.type(_without_anchor(href), {}, do="add-item").status_code == 303
        (path,) = [name for name in sent_by(self.browser.get(href)) if name.endswith(".price")]
        assert self.browser.type(_without_anchor(href), {path: "120"}).status_code == 303

    def _plan_sticks(self, href: str) -> None:
        if not [name for name in sent_by(self.browser.get(href)) if name.startswith("timber.stock.")]:
            self.browser.type(_without_anchor(href), {}, do="add-stock:stick")
        self._worked_out(href)

    def _lay_out_sheets(self, href: str) -> None:
        buttons = [one.attributes.get("value", "") for one in self.browser.get(href).all("button")]
        stock = [name for name in sent_by(self.browser.get(href)) if name.startswith("sheets.stock.")]
        for do in [] if stock else [one for one in buttons if one.startswith("add-sheet:")]:
            self.browser.type(_without_anchor(href), {}, do=do)
        self._worked_out(href)

    def _worked_out(self, href: str) -> None:
        """Ask for the plans, and wait for the searches to end."""
        self.browser.type(_without_anchor(href), {}, do="work")
        for _ in range(400):
            if "No " not in self.browser.get(self.at).by_id(f"step-{self.walked[-1]}").text:
                return
            time.sleep(0.05)

    def _try_a_joint(self, href: str) -> None:
        self.browser.type(_without_anchor(href), {}, do="add-test")
        gaps = [name for name in sent_by(self.browser.get(href)) if ".tests." in name and name.endswith("_gap")]
        assert self.browser.type(_without_anchor(href), dict.fromkeys(gaps, "0")).status_code == 303

    def _cut(self, href: str) -> None:
        page = self.browser.get(href)
        (form,) = [one for one in page.all("form") if one.attributes.get("action", "") == href]
        assert self.browser.post(href, sent_by(page, form) | {"do": "cut"}).status_code == 303


def _without_anchor(href: str) -> str:
    return href.partition("#")[0]


@pytest.mark.parametrize(
    "job",
    [
        {"unit": "in", "kind": "photograph", "across": "8", "up": "10", "face_width": "1 1/4"},
        {"unit": "mm", "kind": "canvas", "across": "612", "up": "918", "face_width": "40"},
    ],
    ids=["photograph", "canvas"],
)
def test_next_leads_from_a_new_job_to_handing_it_over(browser: Browser, job: dict[str, str]) -> None:
    walker = Walker(browser, browser.new(**job))
    page = walker.walk()
    assert "Handed over" in page.by_id("next").text
    assert walker.walked[-1] == JobStep.HAND_OVER
    firsts = list(dict.fromkeys(walker.walked))
    assert firsts == [step.value for step in JobStep if step.value in firsts]  # in the order of work
    assert {JobStep.SHOW, JobStep.PRICE, JobStep.STOCK, JobStep.CUT, JobStep.JOIN} <= set(firsts)
    states = {one.attributes["class"].split()[1] for one in page.by_id("way").all("li")}
    assert states <= {"done", "not-needed"}


def test_a_change_after_the_yes_and_the_cut_is_to_be_looked_at_again(browser: Browser) -> None:
    project_id = browser.new(unit="in", kind="photograph", across="8", up="10", face_width="1 1/4")
    walker = Walker(browser, project_id)
    walker.walk()
    browser.post(f"{walker.at}/way/hand-over", {"do": "open"})
    browser.type(browser.setting_out(project_id), {"artwork.across": "9"})
    page = browser.get(walker.at)
    asked = {one.attributes["id"] for one in page.by_id("way").all("li") if "check" in one.attributes["class"].split()}
    assert asked == {"step-show", "step-cut"}
    assert page.by_id("next").all("a")[0].attributes["href"].startswith(f"{walker.at}/client")
