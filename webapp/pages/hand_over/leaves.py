"""Everything of a job as one folder of leaves: drawings, templates, labels, cards to print, the project itself."""

import re
from collections.abc import Iterator
from contextlib import suppress

from framecalc.drawing.registry import draw_paper, papers_of
from framecalc.drawing.sheet import usual_paper
from framecalc.drawing.templates.pdf import labels_pdf, pdf_in_steps
from framecalc.drawing.templates.tiles import Paper, paper_called, tiling_of
from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan
from framecalc.plan.templates.templates import stamp_of, templates_of
from framecalc.project import project_text
from webapp.data.shop import ShopProfile
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.papers.files import frame_file, job_file
from webapp.live.papers.of_wall import nails_table, wall_on_paper
from webapp.live.papers.zipped import zipped
from webapp.live.render import ENVIRONMENT, names_of
from webapp.pages.hand_over.cards import PrintedCard, hanging_card, packing_sheet, receipt
from webapp.pages.hand_over.groups.label import laid_label
from webapp.server.folders import STATIC
from webapp.server.static_files import AT

CARDS = {"receipt": receipt, "packing": packing_sheet, "hanging": hanging_card}
_SHEET = re.compile(rf'<link rel="stylesheet" href="{AT}/([a-z_/]+\.css)">')
_FROM_HERE = re.compile(r'<link rel="icon"[^>]*>|<nav class="back".*?</nav>', re.DOTALL)


def leaves_zip(desk: Desk, opened: ProjectAtRevision) -> Iterator[bytes]:
    """All of it, file by file as each is made; what cannot be worked out is left out, and its page says why."""
    return zipped(_files(desk, opened))


def labels_of(plans: list[FramePlan], *, shop: ShopProfile) -> bytes:
    """The labels of frames, one for each copy, on the paper of the shop's first printer."""
    printer = next(iter(shop.printers), None)
    paper = printer.on("") if printer else paper_called(usual_paper(plans[0].unit))
    labels = [laid_label(plan, shop=shop.called) for plan in plans for _ in range(plan.frame.count)]
    return labels_pdf(labels, stamp=stamp_of(plans[0]), paper=paper, printer=printer.used if printer else None)


def _files(desk: Desk, opened: ProjectAtRevision) -> Iterator[tuple[str, str | bytes]]:
    project, plans = opened.project, list(opened.plan.frames.values())
    yield f"{job_file(project)}.json", project_text(opened.document)
    for plan in plans:
        with suppress(FrameCalcError):
            plan.compute_all()
            yield from _of_frame(desk, opened.project_id, plan)
    with suppress(FrameCalcError):
        paper = usual_paper(project.unit)
        drawn = wall_on_paper(opened.plan, paper, shop=desk.shop().called)
        yield f"{job_file(project, 'wall', paper)}.svg", drawn
        yield f"{job_file(project, 'nails')}.csv", nails_table(opened.plan)
    with suppress(FrameCalcError):
        yield f"{job_file(project, 'labels')}.pdf", labels_of(plans, shop=desk.shop())


def _of_frame(desk: Desk, project_id: str, plan: FramePlan) -> Iterator[tuple[str, str | bytes]]:
    paper, project, frame = usual_paper(plan.unit), plan.project, plan.frame
    for name in papers_of(plan):
        yield f"{frame_file(project, frame, name, paper)}.svg", draw_paper(name, plan, paper, shop=desk.shop().called)
    for name, make in CARDS.items():
        with suppress(FrameCalcError):
            card = make(desk, project_id, frame.id)
            yield f"{frame_file(project, frame, name)}.html", standing_alone(card)
    made, leaf = templates_of(plan), paper_called(paper)
    stamped = [(one, stamp_of(plan)) for one in made.templates if _fits(one.across_mm, one.up_mm, leaf)]
    yield (
        f"{frame_file(project, frame, 'templates')}.pdf",
        b"".join(pdf_in_steps(stamped, title=frame.name, paper=leaf)),
    )


def standing_alone(card: PrintedCard) -> str:
    """A card as a page of its own, which needs no server: its styles stand in it."""
    text = ENVIRONMENT.get_template("hand_over/card.html").render(names_of(card))
    text = _SHEET.sub(lambda match: f"<style>{_style(match[1])}</style>", text)
    return _FROM_HERE.sub("", text)


def _style(name: str) -> str:
    """A stylesheet; fonts stay behind, and a face of the reader's machine takes their place."""
    return "" if name == "fonts.css" else (STATIC / name).read_text("utf-8")


def _fits(across_mm: float, up_mm: float, paper: Paper) -> bool:
    try:
        tiling_of(across_mm, up_mm, paper=paper)
    except FrameCalcError:
        return False
    return True
