"""From a project to what a client is shown of it: drawings with the picture in place, sizes, materials, the price.

What is issued is complete: nothing in it is looked up again. Private notes, costs, rates, the project's name and the
names of files are not in it; what a choice costs more is, for taking it over, and no page shows it.
"""

import base64
from collections.abc import Iterator
from contextlib import suppress
from datetime import UTC, datetime
from decimal import Decimal
from functools import partial

from framecalc.client.difference import differences
from framecalc.drawing.client.framed import draw_client, draw_close_up
from framecalc.drawing.client.on_wall import draw_on_wall, wall_caption
from framecalc.drawing.client.seen import ClientFront, read_client
from framecalc.errors import FrameCalcError
from framecalc.money import money_text, number_text
from framecalc.plan import FramePlan, Plan
from framecalc.plan.choices import AS_IT_IS, ChoiceChange, changes_of, name_as_it_is, with_changes
from framecalc.plan.client import client_facts, materials_said, tells_weight
from framecalc.plan.price.price import JobPrice
from framecalc.project import Quote
from framecalc.project.choices import Choice
from framecalc.project.look import RoomLight
from framecalc.records import Record
from webapp.data.errors import StoreError
from webapp.data.photos import NoSuchPhoto, Photos
from webapp.data.pictures import straight_photo
from webapp.issue.issued import NotReady, Share
from webapp.issue.offer import Issued, IssuedChoice, IssuedFrame, PriceRow
from webapp.issue.pricing import price_changes, price_of, total_of
from webapp.live.desk import Desk, ProjectAtRevision

PHOTO_PX, CORNER_PX, WALL_PX = 900, 600, 300
"""The longer side of a picture on a client's page: what a telephone shows of it in its frame, in the corner, on the
wall."""


class ShareWish(Record):
    """What the owner wants a client to see."""

    for_whom: str = ""
    shows_price: bool = True
    shows_photo: bool = True
    shows_weight: bool = False
    offers_choices: bool = False


def issue(desk: Desk, opened: ProjectAtRevision, wish: ShareWish, *, now: datetime) -> Issued:
    """Put together what a client is shown of a project as it stands.

    Raises:
        NotReady: a price is wanted and some line has none yet.
        FrameCalcError: a frame cannot be computed.
    """
    job = desk.price(opened.project_id, opened.plan)
    if wish.shows_price and not job.is_complete:
        raise NotReady("The price is not complete yet: see Costs, or leave the price out.")
    shop, due = desk.shop(), opened.project.way.due
    return Issued(
        revision=opened.revision.number,
        made=now.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z"),
        for_whom=wish.for_whom,
        shop=shop.called,
        shop_note=shop.client_note,
        note=job.quote.note,
        words=opened.project.shop.words,
        step=opened.project.shop.step(opened.project.unit),
        frames=tuple(_frames(desk, opened, job, wish)),
        prices=tuple(price_rows(job)) if wish.shows_price else (),
        is_estimate=job.is_estimate and wish.shows_price,
        logo=shop.logo,
        contact=shop.contact,
        how_to_pay=shop.how_to_pay,
        after_yes=shop.after_yes,
        ready=due.isoformat() if due else "",
        choices=tuple(_choices(desk, opened, job, wish)) if wish.offers_choices and opened.project.choices else (),
    )


def since_issued(desk: Desk, share: Share) -> tuple[str, ...]:
    """What a client would see changed, were the share made now, for the owner; nothing where it would look the same."""
    try:
        opened = desk.open(share.project_id)
        if opened.revision.number == share.issued.revision:
            return ()
        before = desk.open_revision(share.project_id, share.issued.revision)
        job, priced = (desk.price(share.project_id, one.plan) for one in (opened, before))
    except (FrameCalcError, StoreError):
        return ("the frame is being worked on",)
    after = [
        client_facts(plan, shows_photo=share.shows_photo, shows_weight=tells_weight(share.told)) for plan in job.plans
    ]
    changed = differences(share.told, after, step=share.issued.step)
    return (*changed, *price_changes(share.total, before=priced, after=job))


def price_rows(job: JobPrice) -> Iterator[PriceRow]:
    """The price as a client reads it: frames where they do not say it all, tax, total, deposit."""
    if len(job.plans) > 1 or (job.quote.terms.tax and not job.quote.terms.tax_is_inside):
        for plan, price in zip(job.plans, job.offer.batches, strict=True):
            yield _row(job, _counted(plan), price)
    yield from sum_rows(job)


def sum_rows(job: JobPrice) -> Iterator[PriceRow]:
    """What follows the prices of the frames: tax, total, deposit and balance; no amounts before all is priced."""
    if not job.is_complete:
        yield PriceRow(label="Total", text=total_of(job), is_total=True)
        return
    asked, terms = job.offer, job.quote.terms
    if terms.tax and not terms.tax_is_inside:
        yield _row(job, _tax(job)[:1].upper() + _tax(job)[1:], asked.tax)
    yield _row(job, "Total", asked.total, is_total=True)
    if terms.tax and terms.tax_is_inside:
        yield _row(job, f"of which {_tax(job)}", asked.tax)
    if terms.deposit:
        yield _row(job, f"Deposit, {number_text(terms.deposit)}%", asked.deposit, is_deposit=True)
        yield _row(job, "Balance", asked.balance)


def picture_of(desk: Desk, project_id: str, plan: FramePlan, *, most_px: int = PHOTO_PX) -> str:
    """The straight picture of a frame as a `data:` address, or nothing where there is none to be had."""
    photo = plan.frame.look.photo
    if photo is None:
        return ""
    with suppress(NoSuchPhoto, FrameCalcError):
        ratio = plan.fit.across_mm / plan.fit.up_mm
        content = straight_photo(Photos(desk.store), project_id, photo, aspect_ratio=ratio, most_px=most_px)
        return f"data:image/jpeg;base64,{base64.b64encode(content).decode('ascii')}"
    return ""


class OfferedWay(Record):
    """One way that a client may choose: the job as it stands, or a choice worked into it, with its price."""

    id: str
    name: str
    changes: tuple[ChoiceChange, ...]
    job: JobPrice

    @property
    def fronts(self) -> tuple[ClientFront, ...]:
        """Its frames as a client sees them."""
        return tuple(map(read_client, self.job.plans))


def offered_ways(desk: Desk, opened: ProjectAtRevision, job: JobPrice) -> tuple[OfferedWay, ...]:
    """The job as it stands, then each of its choices.

    Raises:
        FrameCalcError: a frame cannot be made in one of these ways.
    """
    first = OfferedWay(id=AS_IT_IS, name=name_as_it_is(opened.project), changes=(), job=job)
    return (first, *(_way(desk, opened, choice, job.quote) for choice in opened.project.choices))


def _way(desk: Desk, opened: ProjectAtRevision, choice: Choice, quote: Quote) -> OfferedWay:
    changes = changes_of(opened.project, choice)
    document = with_changes(opened.document | {"quote": quote.model_dump(mode="json", exclude_none=True)}, changes)
    project = opened.check(document)
    assert project.quote is not None
    priced = price_of(desk, Plan(project, before=opened.plan), project.quote)
    return OfferedWay(id=choice.id, name=choice.name, changes=changes, job=priced)


def _choices(desk: Desk, opened: ProjectAtRevision, job: JobPrice, wish: ShareWish) -> Iterator[IssuedChoice]:
    ways = offered_ways(desk, opened, job)
    fronts = tuple(front for way in ways for front in way.fronts)
    for way in ways:
        if wish.shows_price and not way.job.is_complete:
            raise NotReady("The price of a choice is not complete yet: see Costs, or leave the price out.")
        yield IssuedChoice(
            id=way.id,
            name=way.name,
            frames=tuple(_frames(desk, opened, way.job, wish, at=f"{way.id}-", beside=fronts)),
            prices=tuple(price_rows(way.job)) if wish.shows_price else (),
            is_estimate=way.job.is_estimate and wish.shows_price,
            changes=way.changes,
        )


def _frames(
    desk: Desk,
    opened: ProjectAtRevision,
    job: JobPrice,
    wish: ShareWish,
    *,
    at: str = "",
    beside: tuple[ClientFront, ...] = (),
) -> Iterator[IssuedFrame]:
    for number, plan in enumerate(job.plans):
        front, frame_id = read_client(plan), f"{at}{plan.frame.id}"
        picture = partial(_picture, desk, opened, plan, wish)
        yield IssuedFrame(
            told=client_facts(plan, shows_photo=wish.shows_photo, shows_weight=wish.shows_weight),
            drawing=draw_client(front, name=f"frame-{frame_id}", picture=picture(PHOTO_PX), beside=beside),
            corner=draw_close_up(front, name=f"corner-{frame_id}", picture=picture(CORNER_PX)),
            wall=draw_on_wall(front, name=f"wall-{frame_id}", picture=picture(WALL_PX)) if front.look.on_wall else "",
            wall_colour=front.look.wall_colour,
            wall_says=wall_caption(front) if front.look.on_wall else "",
            price=_each(job, number) if wish.shows_price else "",
            sentence=materials_said(plan),
            is_evening=front.look.on_wall and front.look.light is RoomLight.EVENING,
        )


def _picture(desk: Desk, opened: ProjectAtRevision, plan: FramePlan, wish: ShareWish, most_px: int) -> str:
    return picture_of(desk, opened.project_id, plan, most_px=most_px) if wish.shows_photo else ""


def _row(job: JobPrice, label: str, amount: Decimal, *, is_total: bool = False, is_deposit: bool = False) -> PriceRow:
    text = money_text(amount, currency=job.terms.currency)
    return PriceRow(label=label, text=text, is_total=is_total, is_deposit=is_deposit)


def _each(job: JobPrice, number: int) -> str:
    currency, count = job.terms.currency, job.plans[number].frame.count
    each = money_text(job.offer.each[number], currency=currency)
    if count == 1:
        return each
    return f"{count} × {each} = {money_text(job.offer.batches[number], currency=currency)}"


def _counted(plan: FramePlan) -> str:
    return plan.frame.name if plan.frame.count == 1 else f"{plan.frame.count} × {plan.frame.name}"


def _tax(job: JobPrice) -> str:
    return f"{job.quote.terms.tax_name or 'tax'}, {number_text(job.quote.terms.tax)}%"
