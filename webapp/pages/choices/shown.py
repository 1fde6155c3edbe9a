"""What the page of the choices shows: each way in true scale beside the others, with its price."""

from collections.abc import Iterator
from itertools import chain

from markupsafe import Markup

from framecalc.drawing.client.framed import draw_client
from framecalc.drawing.client.seen import read_client
from framecalc.errors import FrameCalcError
from framecalc.money import money_text
from framecalc.plan.client import materials_said
from framecalc.project.choices import MOST_CHOICES, Choice
from framecalc.records import Record
from webapp.issue.issuing import WALL_PX, OfferedWay, offered_ways, picture_of
from webapp.live.addresses import CLIENT
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.render import drawing
from webapp.live.shown import LiveShown
from webapp.live.typed.answer import Answer

DRAWN = 2
"""Frames of a way that are drawn, the first of the job: a picture takes up to 60 kB, and there may be 60 frames."""


class ChoiceShown(Record):
    """One way: its first frames and how many more there are, what it is made of, its price."""

    name: str
    pictures: tuple[Markup, ...]
    more: int
    sentence: str
    price: str


class ChoicesShown(LiveShown):
    """What the page shows; `refused` says why the ways cannot be drawn."""

    ways: tuple[ChoiceShown, ...] = ()
    refused: str = ""

    @property
    def choices(self) -> tuple[Choice, ...]:
        """The choices as typed."""
        return self.project.choices

    @property
    def has_room(self) -> bool:
        """Whether one more can be offered."""
        return len(self.choices) < MOST_CHOICES

    @property
    def client_at(self) -> str:
        """The address of the client page."""
        return CLIENT(project_id=self.answer.project_id)


def choices_shown(desk: Desk, opened: ProjectAtRevision, answer: Answer) -> ChoicesShown:
    """What the page shows of a project as it is saved."""
    try:
        ways = offered_ways(desk, opened, desk.price(opened.project_id, opened.plan))
        return ChoicesShown(answer=answer, ways=tuple(_shown(desk, opened, ways)))
    except FrameCalcError as error:
        return ChoicesShown(answer=answer, refused=error.sentence)


def _shown(desk: Desk, opened: ProjectAtRevision, ways: tuple[OfferedWay, ...]) -> Iterator[ChoiceShown]:
    fronts = {way.id: tuple(map(read_client, way.job.plans[:DRAWN])) for way in ways}
    beside = tuple(chain.from_iterable(fronts.values()))
    for way in ways:
        pictures = (picture_of(desk, opened.project_id, plan, most_px=WALL_PX) for plan in way.job.plans)
        seen = enumerate(zip(fronts[way.id], pictures, strict=False))
        yield ChoiceShown(
            name=way.name,
            pictures=tuple(
                drawing(draw_client(front, name=f"way-{way.id}-{number}", picture=picture, beside=beside))
                for number, (front, picture) in seen
            ),
            more=len(way.job.plans) - len(fronts[way.id]),
            sentence=materials_said(way.job.plans[0]),
            price=_price(way),
        )


def _price(way: OfferedWay) -> str:
    if not way.job.is_complete:
        return "No price yet"
    return money_text(way.job.offer.total, currency=way.job.terms.currency)
