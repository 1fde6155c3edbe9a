"""The whole way of a client's link in a real browser, and the file that does without one."""

from collections.abc import Callable
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from clients import link_for, priced, priced_by_hand
from tablet import LANDSCAPE, PHONE, field, press, set_out, settled


def test_from_the_link_to_the_yes_to_the_change_to_the_end(open_page: Callable[..., Any]) -> None:
    owner = open_page(LANDSCAPE)
    here = priced_by_hand(owner)
    link = link_for(owner, here, "Ada")
    assert urlsplit(link).hostname == "shop.test"

    client = open_page(PHONE, scripts=False)
    client.goto(link)
    assert client.locator("h1").inner_text() == "Linocut, matted"
    assert "$600.00" in client.locator(".bar").inner_text()
    assert client.evaluate("document.documentElement.scrollWidth") <= PHONE[0]
    client.get_by_label("Your name").fill("Ada Client")
    client.get_by_text("Add a note to your yes").tap()
    client.get_by_label("Anything to add").fill("Lovely.")
    press(client, client.get_by_role("button", name="Approve"))
    assert "Ada Client" in client.locator("#approved").inner_text()

    owner.goto(f"{here}/client")
    assert "Ada Client" in owner.locator("#links").inner_text()
    owner.goto(here)
    set_out(owner)
    field(owner, "package.mat.border").fill("70")
    field(owner, "package.mat.border").blur()
    settled(owner)

    client.reload()
    assert not client.locator("#since").count()
    assert "433 × 365 mm" in " ".join(client.locator("table.facts").first.text_content().split())
    owner.goto(f"{here}/client")
    assert "outside width +12 mm" in owner.locator("#links").inner_text()
    link_for(owner, here, "Ada, once more")
    client.reload()
    assert "Since then: outside width +12 mm; outside height +6 mm" in client.locator("#since").inner_text()
    owner.goto(f"{here}/client")
    press(owner, owner.get_by_role("button", name="Revoke the link of Ada", exact=True))

    client.reload()
    assert client.locator("h1").inner_text() == "Nothing here"


def test_with_the_link_alone_no_other_page_opens(open_page: Callable[..., Any], address: str) -> None:
    owner = open_page(LANDSCAPE)
    here = priced(owner)
    link = urlsplit(link_for(owner, here, "Ada"))
    client = open_page(PHONE)
    client.goto(link.geturl())
    for path in ("/", here, f"{here}/costs", f"{here}/project.json", f"{here}/client", "/shop", "/devices"):
        answer = client.request.get(f"{address}{path}", headers={"Host": link.netloc})
        assert answer.status == 403, path
    client.goto(f"http://{link.netloc}/pair")
    assert client.get_by_role("heading", name="Pair this device").is_visible()


def test_a_tablet_is_paired_by_its_address_and_then_writes(open_page: Callable[..., Any], address: str) -> None:
    owner = open_page(LANDSCAPE)
    owner.goto("/devices")
    code = owner.locator("#code").inner_text()
    tablet = open_page(LANDSCAPE)
    port = urlsplit(address).port
    tablet.goto(f"http://shop.test:{port}/pair?code={code.replace(' ', '')}")
    tablet.get_by_label("What this device is called").fill("Bench tablet")
    press(tablet, tablet.get_by_role("button", name="Pair"))
    assert urlsplit(tablet.url).path == "/"
    card = tablet.locator("form[action='/projects/demos/maple-canvas.demo']")
    if not card.is_visible():
        tablet.get_by_text("Demo projects to learn from").tap()
    press(tablet, card.get_by_role("button"))
    set_out(tablet)
    field(tablet, "section.face_width").fill("3")
    field(tablet, "section.face_width").blur()
    settled(tablet)
    assert "Revision 2" in tablet.locator("#saved").inner_text()


def test_a_tablet_that_is_forgotten_while_it_types_is_paired_anew_and_loses_nothing(
    open_page: Callable[..., Any], chromium: Any, app: Any, address: str
) -> None:
    """Fault: the way on led away from what was typed, in white letters on white."""
    base = f"http://shop.test:{urlsplit(address).port}"
    here = priced(open_page(LANDSCAPE))
    tablet = chromium.new_context(has_touch=True).new_page()  # its refusals are no complaints of ours

    def pair(page: Any) -> None:
        page.locator("#code").fill(app.state.devices.code())
        page.locator("#device").fill("Tablet")
        press(page, page.get_by_role("button", name="Pair"))

    tablet.goto(f"{base}{urlsplit(here).path}")
    assert urlsplit(tablet.url).path == "/pair"
    pair(tablet)
    tablet.goto(f"{base}{urlsplit(here).path}")
    set_out(tablet)
    app.state.devices.forget(app.state.devices.list()[0].id)
    field(tablet, "section.face_width").fill("31")
    field(tablet, "section.face_width").blur()
    way = tablet.locator("#trouble a")
    way.wait_for()
    letters = way.evaluate("one => getComputedStyle(one).color")
    assert letters != tablet.locator("#trouble").evaluate("one => getComputedStyle(one).backgroundColor")
    with tablet.context.expect_page() as opened:
        way.tap()
    pair(opened.value)
    tablet.locator("#trouble:empty").wait_for(state="attached", timeout=20_000)
    settled(tablet)
    tablet.reload()
    assert field(tablet, "section.face_width").input_value() == "31"
    tablet.context.close()


def test_the_file_opens_without_a_network_and_without_scripts(
    open_page: Callable[..., Any], chromium: Any, tmp_path: Path
) -> None:
    owner = open_page(LANDSCAPE)
    here = priced(owner)
    link_for(owner, here, "Ada")
    with owner.expect_download() as waiting:
        owner.get_by_role("link", name="Download the file for Ada").click()
    path = tmp_path / waiting.value.suggested_filename
    waiting.value.save_as(path)
    context = chromium.new_context(offline=True, java_script_enabled=False, viewport={"width": 390, "height": 844})
    page, asked = context.new_page(), []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(path.as_uri())
    assert [url for url in asked if not url.startswith("data:")] == [path.as_uri()]
    assert page.locator("svg.drawing").first.is_visible() and "$600.00" in page.locator(".bar").inner_text()
    assert page.locator("figure svg").first.evaluate("one => getComputedStyle(one).display") == "block"
    context.close()


def test_on_a_telephone_pictures_are_tapped_through_and_the_yes_stays_in_reach(open_page: Callable[..., Any]) -> None:
    owner = open_page(LANDSCAPE)
    here = priced(owner)
    link = link_for(owner, here, "Ada")
    client = open_page(PHONE, scripts=False)
    client.goto(link)
    for name, kind in (("The corner", ".corner"), ("The frame", ".picture")):
        client.get_by_role("link", name=name).tap()
        client.wait_for_function(f"document.querySelector('{kind}').getBoundingClientRect().left === 0")
        assert client.evaluate("scrollY") == 0
    button = client.get_by_role("button", name="Approve")
    assert button.bounding_box()["y"] + button.bounding_box()["height"] <= PHONE[1]
    client.mouse.wheel(0, 4000)
    assert button.bounding_box()["y"] + button.bounding_box()["height"] <= PHONE[1]
    client.set_viewport_size({"width": PHONE[0] // 2, "height": PHONE[1] // 2})
    assert client.evaluate("document.documentElement.scrollWidth") <= PHONE[0] // 2
    assert client.evaluate("getComputedStyle(document.querySelector('.bar')).position") == "static"
