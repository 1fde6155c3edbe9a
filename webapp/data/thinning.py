"""Which revisions can be spared: a rule that a person can read, carried out only when a person asks for it.

Of those older than 30 days the last of each day stays. Always kept are the first and the newest, what undo and redo
lead to, and those that were named, shown to a client, approved or cut. What cannot be read or has lost its date
stays, too. Carried out twice, or broken off by a crash and carried out again, it leaves the same.
"""

from collections.abc import Iterable, Mapping
from datetime import date, datetime, timedelta

from framecalc.project import Saved
from framecalc.records import Record
from webapp.data.names import names_in
from webapp.data.revisions import History

KEPT_DAYS = 30
"""For so long every revision is kept."""


class Used(Record):
    """What something else of the shop refers to: revisions by number, and moments at which the newest one was used."""

    numbers: frozenset[int] = frozenset()
    moments: tuple[datetime, ...] = ()


def superfluous(history: History, *, used: Used, now: datetime) -> tuple[int, ...]:
    """The revisions that the rule removes, the oldest first."""
    numbers, saved = history.numbers(), {one.number: one.saved for one in history.readable()}
    dated = {number: datetime.fromisoformat(saved[number].when) for number in sorted(saved) if saved[number].when}
    old = [number for number, when in dated.items() if now - when > timedelta(days=KEPT_DAYS)]
    last_of_day: dict[date, int] = {dated[number].astimezone().date(): number for number in old}
    kept = {*numbers[:1], *last_of_day.values(), *names_in(history.folder), *used.numbers}
    kept |= {*_newest_at(dated, used.moments), *(saved[max(saved)].redo if saved else ())}
    kept |= set(numbers).difference(old) | set(numbers[-1:])
    kept |= {saved[number].equals for number in kept if number in saved}
    _keep_ways_back(kept, saved)
    return tuple(number for number in old if number not in kept)


def _keep_ways_back(kept: set[int], saved: Mapping[int, Saved]) -> None:
    """Keep what else undo needs: it goes to whatever stands before a revision, which must be what it was made from."""
    numbers = sorted(saved)
    before = dict(zip(numbers[1:], numbers, strict=False))
    for number in reversed(numbers[1:]):
        if number in kept and saved[number].equals == number:
            shown = max((other for other in kept if other < number and other in saved), default=0)
            if not shown or saved[shown].equals != _made_from(number, kept, saved, before):
                kept |= {before[number], saved[before[number]].equals}


def _made_from(number: int, kept: set[int], saved: Mapping[int, Saved], before: Mapping[int, int]) -> int:
    """The nearest kept revision on the way back from one; 0 where there is none."""
    while number in before:
        number = saved[before[number]].equals
        if number in kept:
            return number
    return 0


def _newest_at(dated: dict[int, datetime], moments: Iterable[datetime]) -> Iterable[int]:
    """The revision that was the newest at each moment; all of them where a clock was wrong, so that nobody can say."""
    for moment in moments:
        earlier = [number for number, when in dated.items() if when <= moment]
        yield from [max(earlier)] if earlier else dated
