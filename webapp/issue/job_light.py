"""What the light says of a whole job beyond its plan: searches that have ended, prices, changes since a client's yes.

Nothing is searched for here: a search that nobody has asked for, or that goes on, says nothing yet.
"""

from collections import OrderedDict
from collections.abc import Callable, Iterator
from contextlib import suppress
from datetime import date
from threading import Lock
from typing import TypeAlias

from framecalc.client.difference import differences
from framecalc.errors import FrameCalcError
from framecalc.findings import Severity
from framecalc.plan.client import client_facts, tells_weight
from framecalc.plan.job_light import (
    JobPage,
    Obstacle,
    found_in_job,
    obstacles_of_bench,
    obstacles_of_covers,
    obstacles_of_sheets,
    obstacles_of_sticks,
    obstacles_of_timber,
    obstacles_of_wall,
)
from framecalc.plan.light import Stage
from framecalc.words import capitalised, joined, typed, worded
from webapp.data.errors import StoreError
from webapp.issue.issued import Yes
from webapp.issue.job_facts import JobFacts
from webapp.issue.pricing import price_changes, total_of
from webapp.live.days import day
from webapp.live.work.other_wood import rack_of

MOST_SAID, MOST_QUOTED = 3, 80
"""Changes since a yes that are said one by one, and letters of a client's note; the client page has them all."""


MOST_LIGHTS = 64
"""Jobs of which it is remembered what the light says: a few short records each."""

Finder: TypeAlias = Callable[[JobFacts], Iterator[Obstacle]]
"""What finds something about a job."""


class Lights:
    """What the light says of jobs, kept for as long as all that it follows from stays; for any thread.

    What a client has said is looked at each time.
    """

    def __init__(self, *, most: int = MOST_LIGHTS) -> None:
        self._most = most
        self._kept: OrderedDict[tuple[str, object], tuple[tuple[object, ...], tuple[Obstacle, ...]]] = OrderedDict()
        self._lock = Lock()

    def of(self, facts: JobFacts) -> tuple[Obstacle, ...]:
        """Everything that the light says of a job. What cannot be worked out says so in its own place."""
        beside, key = _beside(facts), (facts.project_id, facts.plan.content)
        with self._lock:
            known = self._kept.get(key)
        if known is None or known[0] != beside:
            known = beside, _found(facts, _of_bench, _of_wall, _of_timber, _of_sheets, _of_costs)
            self._keep(key, known)
        return (*known[1], *_found(facts, _of_client))

    def _keep(self, key: tuple[str, object], known: tuple[tuple[object, ...], tuple[Obstacle, ...]]) -> None:
        with self._lock:
            self._kept[key] = known
            self._kept.move_to_end(key)
            if len(self._kept) > self._most:
                self._kept.popitem(last=False)


def _beside(facts: JobFacts) -> tuple[object, ...]:
    """What the light follows from beside the plan: searches, the rack, the shop's prices, the day."""
    desk = facts.desk
    return desk.jobs.changes, rack_of(desk), desk.shop(), date.today()


def _found(facts: JobFacts, *finders: Finder) -> tuple[Obstacle, ...]:
    found: list[Obstacle] = []
    for find in finders:
        with suppress(FrameCalcError, StoreError):
            found += find(facts)
    return tuple(found)


def _of_bench(facts: JobFacts) -> Iterator[Obstacle]:
    yield from obstacles_of_bench(facts.plan.project, frames=facts.plan.frames.values())


def _of_wall(facts: JobFacts) -> Iterator[Obstacle]:
    yield from obstacles_of_wall(facts.plan.wall, project=facts.plan.project)


def _of_timber(facts: JobFacts) -> Iterator[Obstacle]:
    works = [(work.group, work.refusal) for work in facts.timber]
    yield from obstacles_of_timber(works, project=facts.plan.project)
    cut = {one.problem for one in rack_of(facts.desk).cuts_of(facts.project_id)}
    planned = [(work.group, work.plan) for work in facts.timber if work.plan and work.group.key not in cut]
    yield from obstacles_of_sticks(planned, project=facts.plan.project)


def _of_sheets(facts: JobFacts) -> Iterator[Obstacle]:
    works = [(work.group, work.refusal) for work in facts.sheets]
    yield from obstacles_of_sheets(works, project=facts.plan.project)
    yield from obstacles_of_covers(facts.plan.project, frames=facts.plan.frames.values())


def _of_costs(facts: JobFacts) -> Iterator[Obstacle]:
    """What makes an offer premature; nothing where nothing is paid for yet."""
    job, project = facts.price, facts.plan.project
    for finding in job.findings(today=date.today()):
        yield found_in_job(finding, project=project, page=JobPage.COSTS, stage=Stage.CUTTING, anchor="findings")
    for path, sentence in job.problems.items():
        yield Obstacle(
            stage=Stage.CUTTING,
            page=JobPage.COSTS,
            code="costs.not-counted",
            severity=Severity.WARN,
            sentence=typed(sentence),
            field=path,
            anchor="items",
        )


def _of_client(facts: JobFacts) -> Iterator[Obstacle]:
    """What a client asks for; and what one who has said yes would see changed, or has chosen and does not have yet."""
    yes, link = facts.shelf.yes_of(facts.project_id), facts.shelf.shown_of(facts.project_id)
    if link and link.asked and not (yes and yes.when > link.asked.when):
        note = link.asked.note if len(link.asked.note) <= MOST_QUOTED else link.asked.note[:MOST_QUOTED] + "…"
        said = worded("{name} asks: “{note}” Send a new link, or call.", name=link.asked.name, note=note)
        yield _with_client("client.asked", said)
    seen = _changed(facts, yes) if yes else ()
    if yes and yes.choice and seen:
        yield _with_client("client.chose", worded("{choice} was chosen. Take it over.", choice=yes.choice))
    elif yes and (seen or _price_since(facts, yes)):
        more = [f"{len(seen) - MOST_SAID} more"] if len(seen) > MOST_SAID else []
        said = capitalised(joined("; ", [*seen[:MOST_SAID], *more, *_price_since(facts, yes)]))
        yield _with_client("client.changed", said + worded(" since the yes of {day}.", day=day(yes.when)))


def _changed(facts: JobFacts, yes: Yes) -> tuple[str, ...]:
    plans, shows_weight = facts.plan.frames.values(), tells_weight(yes.told)
    after = [client_facts(plan, shows_photo=yes.shows_photo, shows_weight=shows_weight) for plan in plans]
    return differences(yes.told, after, step=yes.step)


def _with_client(code: str, sentence: str) -> Obstacle:
    return Obstacle(
        stage=Stage.CUTTING,
        page=JobPage.CLIENT,
        code=code,
        severity=Severity.WARN,
        sentence=sentence,
        anchor="links",
    )


def _price_since(facts: JobFacts, yes: Yes) -> tuple[str, ...]:
    """How the total has changed since a yes; a price that is not complete is said by the costs themselves."""
    if not yes.total or not facts.price.is_complete or yes.total == total_of(facts.price):
        return ()
    return price_changes(yes.total, before=facts.price_at(yes.revision), after=facts.price)
