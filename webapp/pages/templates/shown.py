"""What the page of templates shows: each template of each frame, with its files."""

from collections.abc import Iterator
from dataclasses import dataclass
from urllib.parse import urlencode

from markupsafe import Markup

from framecalc.drawing.sheet import usual_paper
from framecalc.drawing.templates.operations import machine_work
from framecalc.drawing.templates.thumbnail import template_thumbnail
from framecalc.drawing.templates.tiles import PAPER_WORDS, Paper, paper_called, tiling_of
from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan
from framecalc.plan.templates import templates_of
from framecalc.project import Project
from framecalc.templates.template import Template
from framecalc.units import describe_size, parse_length
from framecalc.words import Words
from webapp.live.addresses import TEMPLATES
from webapp.live.desk import ProjectAtRevision
from webapp.live.papers import NoSuchDrawing
from webapp.live.render import drawing
from webapp.pages.templates.files import KINDS, Wish

CAUTIONS = (
    "Laser: fumes drawn off and led outside, something to put a fire out within reach, and never left alone.",
    "Never cut PVC, vinyl or any sheet of unknown make: chlorine comes off it. Ask for its data sheet.",
    "Hold the sheet down flat, small parts too: what lifts is cut at another size, or burns.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class TemplateFile:
    """One file to download."""

    label: str
    address: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TemplateShown:
    """One template: what it is, its small drawing, its files, and why some cannot be made."""

    title: str
    purpose: str
    size: str
    side: str
    drawing: Markup
    files: tuple[TemplateFile, ...]
    refusals: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameTemplatesShown:
    """The templates of one frame, or why it has none."""

    frame_id: str
    name: str
    templates: tuple[TemplateShown, ...]
    refusals: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TemplatesShown:
    """Everything that the page shows; `wrong` says why the kerf as typed cannot be taken."""

    project: Project
    kerf: str
    paper: str
    wrong: str
    zip_at: str
    check_at: str
    frames: tuple[FrameTemplatesShown, ...]
    papers: tuple[tuple[str, str], ...] = tuple(PAPER_WORDS.items())
    cautions: tuple[str, ...] = CAUTIONS

    @property
    def words(self) -> Words:
        """The trade words of the shop."""
        return self.project.shop.words


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What the address asks for, as typed; blanks are no kerf and the paper that is at hand."""

    kerf: str = ""
    paper: str = ""

    def on(self, project: Project) -> Paper:
        """The paper.

        Raises:
            NoSuchDrawing: there is none of this name.
        """
        name = self.paper or usual_paper(project.unit)
        if name not in PAPER_WORDS:
            raise NoSuchDrawing(f"Choose a paper: {', '.join(PAPER_WORDS)}")
        return paper_called(name)

    def kerf_mm(self, project: Project) -> float:
        """The kerf.

        Raises:
            FrameCalcError: it is no length.
        """
        if not self.kerf.strip():
            return 0.0
        return float(parse_length(self.kerf, bare=project.unit, comma=project.shop.comma).mm)

    def wish(self, project: Project) -> Wish:
        """What files are made for.

        Raises:
            NoSuchDrawing, FrameCalcError: a paper that is none, a kerf that is no length.
        """
        return Wish(kerf_mm=self.kerf_mm(project), paper=self.on(project))

    def address(self, path: str) -> str:
        """An address that asks for the same."""
        asked = {name: text for name, text in (("kerf", self.kerf), ("paper", self.paper)) if text}
        return f"{path}?{urlencode(asked)}" if asked else path


def templates_shown(opened: ProjectAtRevision, asked: Asked, *, wrong: str = "") -> TemplatesShown:
    """What the page shows for a kerf and a paper.

    Raises:
        NoSuchDrawing, FrameCalcError: a paper that is none, a kerf that is no length.
    """
    project, at = opened.project, TEMPLATES(project_id=opened.project_id)
    wish = asked.wish(project)
    return TemplatesShown(
        project=project,
        kerf=asked.kerf,
        paper=asked.paper or usual_paper(project.unit),
        wrong=wrong,
        zip_at=asked.address(f"{at}/all.zip"),
        check_at=asked.address(f"{at}/printer-check.pdf"),
        frames=tuple(_frame(plan, at, asked, wish) for plan in opened.plan.frames.values()),
    )


def _frame(plan: FramePlan, at: str, asked: Asked, wish: Wish) -> FrameTemplatesShown:
    shown: tuple[TemplateShown, ...] = ()
    try:
        made = templates_of(plan)
        refusals = made.refusals
        shown = tuple(_template(plan, one, f"{at}/{plan.frame.id}/{one.name}", asked, wish) for one in made.templates)
    except FrameCalcError as error:
        refusals = (error.sentence,)
    return FrameTemplatesShown(frame_id=plan.frame.id, name=plan.frame.name, templates=shown, refusals=refusals)


def _template(plan: FramePlan, template: Template, at: str, asked: Asked, wish: Wish) -> TemplateShown:
    refused = dict(_refused(template, wish))
    return TemplateShown(
        title=template.title,
        purpose=template.purpose,
        size=describe_size(template.across_mm, template.up_mm, unit=plan.unit),
        side=template.side.value,
        drawing=drawing(template_thumbnail(template, name=f"template-{plan.frame.id}-{template.name}")),
        files=tuple(
            TemplateFile(label=kind.label, address=asked.address(f"{at}/{name}"))
            for name, kind in KINDS.items()
            if name not in refused
        ),
        refusals=tuple(dict.fromkeys(refused.values())),
    )


def _refused(template: Template, wish: Wish) -> Iterator[tuple[str, str]]:
    """The kinds of files that cannot be made, each with its reason."""
    try:
        machine_work(template, kerf_mm=wish.kerf_mm)
    except FrameCalcError as error:
        yield from ((name, error.sentence) for name in KINDS if name != "pdf")
    try:
        tiling_of(template.across_mm, template.up_mm, paper=wish.paper)
    except FrameCalcError as error:
        yield "pdf", error.sentence
