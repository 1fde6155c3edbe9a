"""Read and type on the pages that show one group at a time, as one who opens every group of a page."""

import re

import httpx
from pages import Browser, Element, read, sent_by

from webapp.live.addresses import CORNERS, HAND_OVER, PACKAGE, TIMBER, WALL
from webapp.live.grouped import GROUPED

PAGES = {page.rsplit("/", 1)[1]: tuple(GROUPED[page]) for page in (PACKAGE, CORNERS, WALL, HAND_OVER)}
"""The groups of each page, by the end of its address."""


def each_group(page: str) -> tuple[str, ...]:
    """The ends of the addresses of a page's groups; of any other page, its own."""
    return tuple(f"{page}/{name}" for name in PAGES.get(page, ())) or (page,)


def groups_at(address: str) -> tuple[str, ...]:
    """The addresses of the groups of a page; of any other page, and of a single group, its own."""
    above, _, page = address.rpartition("/")
    return tuple(f"{above}/{one}" for one in each_group(page))


def whole(browser: Browser, address: str) -> Element:
    """A page with the groups of all its addresses on it; any other page as it is."""
    if len(groups_at(address)) == 1:
        return browser.get(address)
    first = browser.client.get(address, follow_redirects=True).text
    found = [_section(browser.client.get(one).text) for one in groups_at(address)]
    return read(
        re.sub(r'<section class="group".*?</section>', lambda _: "".join(dict.fromkeys(found)), first, flags=re.S)
    )


def _section(html: str) -> str:
    match = re.search(r'<section class="group".*?</section>', html, flags=re.S)
    assert match, html[:300]
    return match[0]


def with_every_list(browser: Browser, address: str) -> Element:
    """The timber page with the lists of all its tabs on it."""
    first = browser.client.get(address, follow_redirects=True).text
    found = [_lists(browser.client.get(f"{address}/{tab}").text) for tab in GROUPED[TIMBER]]
    return read(re.sub(_LISTS, lambda _: "".join(dict.fromkeys(found)), first, flags=re.S))


_LISTS = r'<section id="lists".*?</section>'


def _lists(html: str) -> str:
    match = re.search(_LISTS, html, flags=re.S)
    assert match, html[:300]
    return re.sub(r"<nav.*?</nav>", "", match[0], flags=re.S)


def says(page: Element, group: str) -> str:
    """What a group says, folded or not."""
    return f"{page.by_id(f'says-{group}').text} {page.by_id(f'more-{group}').text}"


def said_in(browser: Browser, address: str, group: str) -> str:
    """What a group says at its own address."""
    return says(browser.get(f"{address}/{group}"), group)


class GroupedBrowser(Browser):
    """A browser without scripts that opens the group in which a field or a button stands."""

    def type(self, address: str, typed: dict[str, str], do: str = "save", **more: object) -> httpx.Response:
        """Type each text into the group that has its field, save each of these groups, press the button in its own."""
        if len(groups_at(address)) == 1:
            return super().type(address, typed, do, **more)
        answer, left = None, set(typed)
        for one in groups_at(address):
            page = self.get(one)
            sent = sent_by(page)
            here = {name: text for ending, text in typed.items() for name in sent if _is(name, ending)}
            has_button = do != "save" and any(button.attributes.get("value") == do for button in page.all("button"))
            if here or has_button or (do == "save" and not typed):
                saved = self.post(one, sent | here | {"do": do if has_button else "save"}, **more)
                answer = saved if answer is None or saved.status_code >= 400 else answer
                left -= {ending for ending in left if any(_is(name, ending) for name in here)}
                if not left and (has_button or (typed and do == "save")):
                    break
        assert answer is not None, (typed, do)
        return answer


def _is(name: str, ending: str) -> bool:
    return name == ending or name.endswith(f".{ending}")
