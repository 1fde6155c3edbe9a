"""Which projects the list shows, and in which order: found by typing, late ones first, so many a page."""

from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from enum import StrEnum
from itertools import groupby

from framecalc.records import Record
from webapp.data.summaries import Summary

A_PAGE = 20
"""As many projects as a page of the list shows."""

SOON = timedelta(days=7)


class Due(StrEnum):
    """The parts of the list, in their order."""

    LATE = "Late"
    SOON = "Due this week"
    LATER = "Later"
    NO_DAY = "No due day"
    OVER = "Handed over"


_PLACES = {due: place for place, due in enumerate(Due)}


class PageOfList(Record):
    """One page of the list: its parts, and which page of how many it is. `found` counts the projects of all pages."""

    parts: tuple[tuple[Due, tuple[Summary, ...]], ...]
    number: int
    pages: int
    found: int


def page_of_list(summaries: Iterable[Summary], *, find: str, number: int, today: date) -> PageOfList:
    """One page of the projects that are found, the late ones first; a page that is not there is the nearest."""
    found = in_order((one for one in summaries if is_found(one, find)), today=today)
    pages = max(1, -(-len(found) // A_PAGE))
    number = min(max(number, 1), pages)
    shown = found[(number - 1) * A_PAGE : number * A_PAGE]
    parts = groupby(shown, key=lambda one: due_of(one, today=today))
    return PageOfList(
        parts=tuple((due, tuple(part)) for due, part in parts), number=number, pages=pages, found=len(found)
    )


def is_found(one: Summary, find: str) -> bool:
    """Whether every word that was typed stands in the name, the client or the woods of a project."""
    words = find.casefold().split()
    text = " ".join((one.name, one.client, *one.woods)).casefold() if words else ""
    return all(word in text for word in words)


def due_of(one: Summary, *, today: date) -> Due:
    """The part of the list that a project stands in."""
    if one.is_over:
        return Due.OVER
    if one.due is None:
        return Due.NO_DAY
    if one.due < today:
        return Due.LATE
    return Due.SOON if one.due <= today + SOON else Due.LATER


def in_order(summaries: Iterable[Summary], *, today: date) -> tuple[Summary, ...]:
    """Projects by their part, in it by the day they are due; of one day, or of none, the one changed last first."""
    newest_first = sorted(summaries, key=lambda one: one.when, reverse=True)
    return tuple(sorted(newest_first, key=lambda one: _place(one, today)))


def _place(one: Summary, today: date) -> tuple[int, date]:
    return _PLACES[due_of(one, today=today)], (one.due or today) if not one.is_over else today


def pages_around(page: PageOfList) -> Iterator[tuple[int, str]]:
    """The page before, and the page after, with what each is called."""
    if page.number > 1:
        yield page.number - 1, "Earlier in the list"
    if page.number < page.pages:
        yield page.number + 1, "Further down the list"
