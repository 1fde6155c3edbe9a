"""The bench of a job: its cards, one at a time at its own address, and what is entered back from them."""

import re
from contextlib import suppress
from datetime import datetime

from fastapi import APIRouter, Request, Response

from framecalc.bench.hours import WorkStep
from framecalc.errors import FrameCalcError
from framecalc.project import ProjectErrors, with_value
from framecalc.project.document import Document
from framecalc.project.timber import MOST_TICKS
from webapp.jobs.timber_search import start_jobs
from webapp.live.addresses import BENCH, BENCH_CARD, BENCH_SETTING, TIMBER
from webapp.live.desk import AtDesk
from webapp.live.lists import Ticks
from webapp.live.live_page import ProjectPage
from webapp.live.render import render, see_other
from webapp.live.statuses import CANNOT_TAKE
from webapp.live.typed.forms import Form
from webapp.live.work.glued import begun_of, with_begun, without_begun
from webapp.live.work.hours import started, stopped
from webapp.live.work.pieces_cut import with_pieces_of
from webapp.pages.bench import PAGE
from webapp.pages.bench.actions import carry_out, with_measured
from webapp.pages.bench.card_shown import card_shown
from webapp.pages.bench.fields import bench_fields_in
from webapp.pages.bench.on_paper import print_shown
from webapp.pages.bench.shown import bench_shown

router = APIRouter()

_PLACE = re.compile(r"([a-z-]{1,20})/([1-9][0-9]{0,3})")


def _back(place: str) -> str:
    """The card that a line stands on; the bench for any other place."""
    return f"/{place}" if _PLACE.fullmatch(place) else ""


def _said(error: FrameCalcError) -> str:
    """What is wrong with what was entered, without the path that it would have had."""
    return next(iter(error.sentences.values())) if isinstance(error, ProjectErrors) else error.sentence


class BenchTicks(Ticks):
    """The ticks of the cards: that of a glue-up keeps when it was begun, for the timetable."""

    def ticked(self, document: Document, key: str, *, is_done: bool) -> Document:
        """The document with a tick added or removed."""
        of_glue = begun_of(document, key)
        if of_glue is None:
            return super().ticked(document, key, is_done=is_done)
        if (key in self.ticks(document)) == is_done:
            return document
        return with_begun(document, *of_glue, now=datetime.now()) if is_done else without_begun(document, *of_glue)


TICKS = BenchTicks(path=BENCH, part="timber", most=MOST_TICKS, back=_back, also=with_pieces_of)
"""The lines of cards are those of the lists of the cutting plan, and their ticks are kept with them."""

router.post(BENCH + "/tick/{key}")(TICKS.tick_off)


@router.get(BENCH + "/print")
def printed(request: Request, project_id: str, desk: AtDesk) -> Response:
    """Show every setting for the printer, one a leaf."""
    return render(request, "bench/print", print_shown(desk, desk.open(project_id)))


@router.post(BENCH + "/as-cut")
def measured(request: Request, project_id: str, desk: AtDesk, form: Form) -> Response:
    """Take what was measured; what cannot be read stays on its card, with a sentence."""
    try:
        desk.change(project_id, lambda head: with_measured(head, form), tab=form.tab)
    except FrameCalcError as error:
        place = _PLACE.fullmatch(form.place)
        if place is None:
            raise
        name, number = place.groups()
        shown = card_shown(desk, desk.open(project_id), name, int(number), wrong=_said(error), typed=form.texts)
        return render(request, "bench/card", shown, status=CANNOT_TAKE)
    return see_other(BENCH(project_id=project_id) + _back(form.place), anchor="as-cut")


@router.post(BENCH + "/plan")
def plan_the_cuts(project_id: str, desk: AtDesk) -> Response:
    """Ask for the cutting plans that are missing, as after a change of sizes, and show how far they are."""
    with suppress(FrameCalcError):
        start_jobs(desk.jobs, desk.open(project_id).plan, project=project_id)
    return see_other(TIMBER(project_id=project_id), anchor="plans")


@router.post(BENCH + "/other-wood")
def other_wood(project_id: str, desk: AtDesk, form: Form) -> Response:
    """Plan the long points by what came out, and search again for all that is not cut yet."""
    head = desk.change(project_id, lambda head: with_value(head.document, "timber.as_cut", True), tab=form.tab)
    with suppress(FrameCalcError):
        start_jobs(desk.jobs, head.plan, project=project_id)
    return see_other(TIMBER(project_id=project_id), anchor="plans")


@router.post(BENCH + "/timer")
def timer(project_id: str, desk: AtDesk, form: Form) -> Response:
    """Time a step from now on, or write down how long it took: the form says which."""
    step = next((one for one in WorkStep if one.value == form.texts.get("step")), None)
    if form.texts.get("run") == "no" or step is None:
        desk.change(project_id, stopped, tab=form.tab)
    else:
        desk.change(project_id, lambda head: started(head, step), tab=form.tab)
    return see_other(BENCH(project_id=project_id) + _back(form.place))


@router.get(BENCH_CARD)
def card(request: Request, project_id: str, card: str, desk: AtDesk) -> Response:
    """Show the first setting of a card."""
    return render(request, "bench/card", card_shown(desk, desk.open(project_id), card, 1))


@router.get(BENCH_SETTING)
def setting(request: Request, project_id: str, card: str, number: int, desk: AtDesk) -> Response:
    """Show one setting of a card."""
    return render(request, "bench/card", card_shown(desk, desk.open(project_id), card, number))


VIEW = ProjectPage(
    page=PAGE,
    fields=bench_fields_in,
    act=carry_out,
    shows=bench_shown,
    anchors={"remove-as-cut": "as-cut", "remove-again": "as-cut"},
    has_preview=False,
    router=router,
)
