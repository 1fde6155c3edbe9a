"""What two houses answer, kept and compared: texts, drawings and files, alike differences told together."""

import difflib
import json
import re
import sys
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TypeAlias
from urllib.parse import quote

sys.path.insert(0, str(Path(__file__).parents[1] / "helpers"))
from pages import Element, read

Answers: TypeAlias = dict[str, str]
"""By address: the status and the type on the first line, the body below."""

ADDRESSES = "addresses.json"
OPEN = "searched long: "
"""Where a crawl says of a job that the clock may have ended a search."""

Things: TypeAlias = dict[tuple[str, str], str]
"""What is compared, by its kind and its address."""

LINES_READ = 150
"""From the first line that differs; more would take long and tell nothing."""

INLINE = {"abbr", "b", "em", "i", "small", "span", "strong", "sub", "sup", "tspan"}
SEEN = ("value", "placeholder", "alt", "title", "aria-label")


def words_of(html: str) -> str:
    """The visible text of a page or of parts of one, a line for each block; fields and names count as text."""

    def lines(element: Element) -> Iterator[str]:
        if element.tag in ("script", "style"):
            return
        edge = "" if element.tag in INLINE else "\n"
        yield edge
        yield from (f" [{element.attributes[name]}] " for name in SEEN if element.attributes.get(name))
        for child in element.children:
            yield from [child] if isinstance(child, str) else lines(child)
        yield edge

    found = (" ".join(line.split()) for line in "".join(lines(read(html))).split("\n"))
    return "\n".join(line for line in found if line)


def things_of(answers: Answers, *, same: set[str], html: bool) -> Things:
    """Sort answers by what is compared of them; those that are the `same` to the letter are counted only."""
    things: Things = {}
    for address, kept in answers.items():
        head, body = kept.split("\n", 1)
        kinds = {_kind(address, head): kept}
        if head.endswith("text/html"):
            text = "" if address in same else words_of(body)
            drawings = re.findall(r"<svg\b.*?</svg>", body, re.DOTALL)
            kinds = {"text of a page": f"{head}\n{text}", "drawings in a page": "\n".join(drawings)}
            kinds |= {"html of a page": kept} if html else {}
        things |= {(kind, address): text for kind, text in kinds.items()}
    return things


def _kind(address: str, head: str) -> str:
    file = address.split("?")[0]
    if file.endswith("plan.json"):
        return "plan.json"
    if " to" in head:
        return "way on"
    if "static/" in address:
        return "static file"
    return f"{Path(file).suffix or 'other'} file"


def differences(old: Things, new: Things) -> Iterator[tuple[str, str, str]]:
    """Kind, address and a short diff of everything that is not the same."""
    for kind, address in sorted(old.keys() | new.keys()):
        was, now = old.get((kind, address)), new.get((kind, address))
        if was is None or now is None:
            yield kind, address, "    only in the " + ("new house" if was is None else "old house")
        elif was != now and (kind != "text of a page" or was.split() != now.split()):
            yield kind, address, short_diff(was, now)


def short_diff(was: str, now: str, *, most: int = 8) -> str:
    """The first lines that differ, tags on lines of their own."""
    before, after = (re.sub(r">\s*<", ">\n<", text).split("\n") for text in (was, now))
    alike = _alike(before, after)
    lines = difflib.unified_diff(before[alike:][:LINES_READ], after[alike:][:LINES_READ], n=0, lineterm="")
    changed = [line for line in lines if not line.startswith(("---", "+++", "@@"))]
    start = max(_alike(changed[0][1:], changed[1][1:]) - 80, 0) if len(changed) == 2 else 0
    shown = [f"    {line[0]}{line[1:][start : start + 220]}" for line in changed[:most]]
    return "\n".join([*shown, *["    … and more"] * (len(changed) > most)])


def _alike(one: Sequence[str], other: Sequence[str]) -> int:
    """How many lines, or letters, two texts begin with in common."""
    pairs = enumerate(zip(one, other, strict=False))
    return next((n for n, (a, b) in pairs if a != b), min(len(one), len(other)))


def searched_long(answers: Answers) -> set[str]:
    """The jobs of which a search may have been ended by the clock."""
    return {address.removeprefix(OPEN) for address in answers if address.startswith(OPEN)}


def report(old: Answers, new: Answers, *, html: bool) -> int:
    """Print what is not the same, alike differences together; the exit status."""
    doubtful = searched_long(old) | searched_long(new)
    old, new = ({where: one for where, one in side.items() if not where.startswith(OPEN)} for side in (old, new))
    same = {address for address, kept in old.items() if new.get(address) == kept}
    was, now = (things_of(side, same=same, html=html) for side in (old, new))
    places = re.compile(rf"/projects/(?:{'|'.join(doubtful) or '-'})/(?!frames/)")
    alike: dict[tuple[str, str], list[str]] = defaultdict(list)
    doubted: dict[tuple[str, str], list[str]] = defaultdict(list)
    for kind, address, diff in differences(was, now):
        (doubted if places.search(address) else alike)[kind, diff].append(address)
    if doubtful:
        print(f"Searched for long, may differ by the clock, not judged: plans of {', '.join(sorted(doubtful))}.")
    _tell(doubted, "NOT JUDGED, ")
    _tell(alike, "")
    for kind, count in sorted(Counter(kind for kind, _ in was.keys() | now.keys()).items()):
        differ, left = (sum(len(some) for (one, _), some in found.items() if one == kind) for found in (alike, doubted))
        print(f"{count:6d} {kind}: {differ} differ" + (f", {left} not judged" if left else ""))
    print("The same house." if not alike else f"NOT the same house: {len(alike)} kinds of difference.")
    return 1 if alike else 0


def _tell(found: dict[tuple[str, str], list[str]], before: str) -> None:
    for (kind, diff), addresses in found.items():
        more = f" and {len(addresses) - 3} more" if len(addresses) > 3 else ""
        print(f"{before}{kind}: {', '.join(addresses[:3])}{more}\n{diff}\n")


def keep(answers: Answers, folder: Path) -> None:
    """Keep answers in a folder: a list of addresses, and a file for each."""
    folder.mkdir(parents=True, exist_ok=True)
    names = {address: f"{n:05d}-{quote(address, safe='«» ')[:120]}" for n, address in enumerate(answers)}
    for address, name in names.items():
        (folder / name).write_bytes(answers[address].encode())
    (folder / ADDRESSES).write_text(json.dumps(names, indent=1), "utf-8")


def kept_in(folder: Path) -> Answers:
    """The answers that a folder keeps."""
    names = json.loads((folder / ADDRESSES).read_text("utf-8"))
    return {address: (folder / name).read_bytes().decode() for address, name in names.items()}
