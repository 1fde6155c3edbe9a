"""What the page of templates shows: each template of each frame, with its files."""

from collections.abc import Iterator
from functools import partial

from markupsafe import Markup

from framecalc.drawing.sheet import usual_paper
from framecalc.drawing.templates.leaf_svg import LESS_MM
from framecalc.drawing.templates.operations import machine_work
from framecalc.drawing.templates.thumbnail import template_thumbnail
from framecalc.drawing.templates.tiles import PAPER_WORDS, Paper, tiling_of
from framecalc.errors import FrameCalcError
from framecalc.findings import Rounding
from framecalc.plan import FramePlan
from framecalc.plan.templates.templates import templates_of
from framecalc.project import Project
from framecalc.records import Record, replace
from framecalc.templates.template import CutFrom, Template, TemplateStep
from framecalc.templates.warnings import warnings_of
from framecalc.units import Unit, describe_length, describe_size, whole_steps_mm
from framecalc.words import ours
from webapp.data.machines import Laser, Printer
from webapp.data.shop import ShopProfile
from webapp.live.addresses import PRINTER_CHECK, SHOP, TEMPLATES
from webapp.live.desk import ProjectAtRevision
from webapp.live.of_project import OfProject
from webapp.live.papers.files import NoSuchDrawing
from webapp.live.render import drawing
from webapp.pages.templates.files import KINDS, Wish, leaves_on_page
from webapp.pages.templates.query import NO_PRINTER, TemplatesQuery

CAUTIONS = (
    "Laser: draw fumes off and lead them outside, keep something to put a fire out within reach, never leave it alone.",
    "Never cut PVC, vinyl or any sheet of unknown make: chlorine comes off it. Ask for its data sheet.",
    "Hold the sheet down flat, small parts too: what lifts is cut at another size, or burns.",
)
OF_PLAN_MOST = 6
"""So many frames are shown at once; of more, one at a time."""


class TemplateFile(Record):
    """One file to download."""

    label: str
    address: str


class TemplateShown(Record):
    """One template: what it is, its small drawing, its files, what to heed, and why some files cannot be made."""

    pick: str
    title: str
    purpose: str
    size: str
    side: str
    leaves: str
    kerf: str
    drawing: Markup
    files: tuple[TemplateFile, ...]
    warnings: tuple[str, ...]
    refusals: tuple[str, ...]


class FrameTemplatesShown(Record):
    """The templates of one frame, or why it has none."""

    frame_id: str
    name: str
    templates: tuple[TemplateShown, ...]
    refusals: tuple[str, ...]


class TemplatesShown(OfProject, Record):
    """Everything that the page shows; `wrong` says why what is typed cannot be taken.

    `every_at` is where the files of all frames are where the page shows one of many.
    """

    project: Project
    query: TemplatesQuery
    kerf: str
    paper: str
    printer: str
    is_true: str
    wrong: str
    at: str
    every_at: str
    chosen_frame: str
    check_at: str
    papers: tuple[tuple[str, str], ...]
    printers: tuple[tuple[str, str], ...]
    names: tuple[tuple[str, str], ...]
    frames: tuple[FrameTemplatesShown, ...]
    steps: tuple[str, ...] = tuple(TemplateStep)
    cautions: tuple[str, ...] = CAUTIONS
    shop_at: str = SHOP

    @property
    def says_how(self) -> str:
        """The printer, the paper and the kerf, in a line."""
        kerf = self.query.kerf or self.kerf
        printer, paper = dict(self.printers)[self.printer], dict(self.papers)[self.paper]
        return f"{printer} · {paper} · {'no kerf' if kerf == 'none' else f'kerf {kerf}'}"


class LeavesShown(OfProject, Record):
    """What the page for printing shows: leaves, each a little smaller than the paper, drawn as they are sent."""

    project: Project
    paper: Paper
    back: str
    leaves: Iterator[Markup]
    less_mm: float = LESS_MM


def templates_shown(
    opened: ProjectAtRevision, query: TemplatesQuery, shop: ShopProfile, *, wrong: str = ""
) -> TemplatesShown:
    """What the page shows.

    Raises:
        NoSuchDrawing, FrameCalcError: a paper that is none, a kerf that is no length.
    """
    project, at = opened.project, TEMPLATES(project_id=opened.project_id)
    printer, wish = query.printer_of(shop), query.wish(project, shop)
    frame = query.frame or (project.frames[0].id if len(project.frames) > OF_PLAN_MOST else "")
    plans = [plan for plan in opened.plan.frames.values() if frame in ("", plan.frame.id)]
    if not plans:
        raise NoSuchDrawing("Choose a frame of this job.")
    return TemplatesShown(
        project=project,
        query=query,
        kerf=describe_length(shop.laser.kerf_mm, unit=Unit.MM) if shop.laser.kerf_mm else "none",
        paper=query.paper or ("" if printer else usual_paper(project.unit)),
        printer=printer.id if printer else NO_PRINTER,
        is_true=wish.printer.says if wish.printer else "",
        wrong=wrong,
        at=at,
        every_at=query.address(f"{at}/all.zip") if len(project.frames) > OF_PLAN_MOST else "",
        chosen_frame=frame,
        check_at=f"{PRINTER_CHECK}?printer={printer.id}" if printer else PRINTER_CHECK,
        papers=((("", f"{wish.paper.name}, in the printer"),) if printer else ()) + tuple(PAPER_WORDS.items()),
        printers=(*((one.id, _called(one)) for one in shop.printers), (NO_PRINTER, "Another, unchecked")),
        names=tuple((one.id, one.name) for one in project.frames),
        frames=tuple(_frame(plan, at, query, wish) for plan in plans),
    )


def leaves_shown(opened: ProjectAtRevision, query: TemplatesQuery, shop: ShopProfile) -> LeavesShown:
    """What the page for printing shows.

    Raises:
        NoSuchTemplate: no template is left.
        NoSuchDrawing, FrameCalcError: a paper that is none, machines whose values do not go together.
    """
    wish = query.wish(opened.project, shop)
    return LeavesShown(
        project=opened.project,
        paper=wish.paper,
        back=TEMPLATES(project_id=opened.project_id),
        leaves=leaves_on_page(opened.plan, wish, query.choice),
    )


def without_machines(
    opened: ProjectAtRevision, query: TemplatesQuery, shop: ShopProfile, *, wrong: str
) -> TemplatesShown:
    """What the page shows where a value of a machine cannot be taken: what is typed, beside templates without it."""
    bare = shop.model_copy(update={"printers": (), "laser": Laser()})
    shown = templates_shown(opened, replace(query, kerf="", printer=""), bare, wrong=wrong)
    return replace(shown, query=query)


def _called(printer: Printer) -> str:
    return printer.name if printer.says.startswith("True") else f"{printer.name}, unchecked"


def _frame(plan: FramePlan, at: str, query: TemplatesQuery, wish: Wish) -> FrameTemplatesShown:
    shown: tuple[TemplateShown, ...] = ()
    choice = query.choice
    try:
        made = templates_of(plan)
        refusals = made.refusals if choice.step is None else ()
        shown = tuple(
            _template(plan, one, f"{at}/{plan.frame.id}/{one.name}", query, wish)
            for one in made.templates
            if choice.step in (None, one.step)
        )
    except FrameCalcError as error:
        refusals = (error.sentence,)
    return FrameTemplatesShown(frame_id=plan.frame.id, name=plan.frame.name, templates=shown, refusals=refusals)


def _size(plan: FramePlan, template: Template) -> str:
    """The rectangle round it; round a polygon's sheet and a dust cover on whole steps, as the sheets say it."""
    across_mm, up_mm = template.across_mm, template.up_mm
    is_cover, is_sheet = template.cut_from is CutFrom.COVERS, template.step in (TemplateStep.MAT, TemplateStep.SHEET)
    if is_cover or (is_sheet and not plan.shape.is_rectangle):
        rounding = Rounding.NEAREST if is_cover else Rounding.UP
        on_step = partial(whole_steps_mm, step_mm=float(plan.step.size_mm), rounding=rounding)
        across_mm, up_mm = on_step(across_mm), on_step(up_mm)
    return describe_size(across_mm, up_mm, unit=plan.unit)


def _template(plan: FramePlan, template: Template, at: str, query: TemplatesQuery, wish: Wish) -> TemplateShown:
    refused = dict(_refused(template, wish))
    return TemplateShown(
        pick=f"{plan.frame.id}.{template.name}",
        title=template.title,
        purpose=template.purpose,
        size=_size(plan, template),
        side=template.side.value,
        leaves="" if "pdf" in refused else _leaves(template, wish),
        kerf="" if "laser" in refused else _kerf(template, wish),
        drawing=drawing(template_thumbnail(template, name=f"template-{plan.frame.id}-{template.name}")),
        files=tuple(_files(template, at, query, wish, refused=set(refused))),
        warnings=tuple(_warnings(template, plan, wish)),
        refusals=tuple(dict.fromkeys(refused.values())),
    )


def _files(
    template: Template, at: str, query: TemplatesQuery, wish: Wish, *, refused: set[str]
) -> Iterator[TemplateFile]:
    for name, kind in KINDS.items():
        if name not in refused:
            yield TemplateFile(label=kind.label, address=query.address(f"{at}/{name}"))
    if wish.bed.is_known and "laser" not in refused and not warnings_of(template, bed=wish.bed):
        yield TemplateFile(label="All copies on the bed", address=query.address(f"{at}/beds"))


def _leaves(template: Template, wish: Wish) -> str:
    tiling = tiling_of(template.across_mm, template.up_mm, paper=wish.paper)
    count = tiling.columns * tiling.rows
    return f"{count} {'leaf' if count == 1 else 'leaves'} of {wish.paper.name}"


def _kerf(template: Template, wish: Wish) -> str:
    """The kerf of what it is cut from, where kerfs differ."""
    return f"kerf {wish.kerf_of(template):.4g} mm" if wish.kerfs else ""


def _warnings(template: Template, plan: FramePlan, wish: Wish) -> Iterator[str]:
    for warned in warnings_of(template, bed=wish.bed):
        lengths = {name: describe_length(length_mm, unit=plan.unit) for name, length_mm in warned.lengths}
        yield ours(warned.wording).format_map(lengths)


def _refused(template: Template, wish: Wish) -> Iterator[tuple[str, str]]:
    """The kinds of files that cannot be made, each with its reason."""
    if template.no_laser:
        yield from ((name, template.no_laser) for name in ("laser", "cuts"))
    try:
        machine_work(template, kerf_mm=wish.kerf_of(template))
    except FrameCalcError as error:
        yield from ((name, error.sentence) for name in KINDS if name != "pdf")
    try:
        tiling_of(template.across_mm, template.up_mm, paper=wish.paper)
    except FrameCalcError as error:
        yield "pdf", error.sentence
