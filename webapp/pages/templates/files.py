"""The files of templates: what each kind is called, those that were chosen in one zip, or on leaves in one PDF."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import groupby

from markupsafe import Markup

from framecalc.drawing.templates.dxf import template_dxf
from framecalc.drawing.templates.laser import PLAIN, Strokes, laser_svg
from framecalc.drawing.templates.leaf import PrinterUsed
from framecalc.drawing.templates.leaf_svg import SvgLeaf
from framecalc.drawing.templates.on_leaves import leaves_of
from framecalc.drawing.templates.pdf import pdf_in_steps, template_pdf
from framecalc.drawing.templates.tiles import Paper, tiling_of
from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan, Plan
from framecalc.plan.templates.nesting import nested
from framecalc.plan.templates.templates import FrameTemplates, TemplateStamp, templates_of
from framecalc.records import Record, field
from framecalc.templates.parts import alike_once
from framecalc.templates.template import CutFrom, Template, TemplateStep
from framecalc.templates.warnings import NO_BED, Bed
from webapp.data.errors import StoreError
from webapp.live.papers.files import frame_file
from webapp.live.papers.zipped import zipped
from webapp.live.render import drawing


class NoSuchTemplate(StoreError):
    """The frame has no template of this name, or no file of this kind."""


class Wish(Record):
    """What the files are made for: the laser with its kerfs, strokes and bed, and the printer with its paper.

    `kerfs` are those of the materials that have one of their own.
    """

    kerf_mm: float
    paper: Paper
    strokes: Strokes = PLAIN
    bed: Bed = NO_BED
    printer: PrinterUsed | None = None
    kerfs: Mapping[CutFrom, float] = field(default_factory=dict)

    def kerf_of(self, template: Template) -> float:
        """What the beam takes away of what a template is cut from [mm]."""
        return self.kerfs.get(template.cut_from, self.kerf_mm)


class Choice(Record):
    """Which templates are wanted: of a step of the work, of a frame, and those that are picked; blanks are all."""

    step: TemplateStep | None = None
    frame: str = ""
    picked: frozenset[str] = frozenset()

    def takes(self, plan: FramePlan, template: Template) -> bool:
        """Whether a template of a frame is one of them."""
        is_step = self.step in (None, template.step)
        return is_step and (not self.picked or f"{plan.frame.id}.{template.name}" in self.picked)


EVERY_ONE = Choice()


class FileKind(Record):
    """One kind of file: what it is called, how its name ends, and what writes it."""

    label: str
    ending: str
    media_type: str
    write: Callable[[Template, TemplateStamp, Wish], str | bytes]


KINDS = {
    "laser": FileKind(
        label="Laser",
        ending=".svg",
        media_type="image/svg+xml",
        write=lambda template, stamp, wish: laser_svg(template, kerf_mm=wish.kerf_of(template), strokes=wish.strokes),
    ),
    "cuts": FileKind(
        label="Laser, cuts only",
        ending="-cuts.svg",
        media_type="image/svg+xml",
        write=lambda template, stamp, wish: laser_svg(
            template, kerf_mm=wish.kerf_of(template), strokes=wish.strokes, only_cuts=True
        ),
    ),
    "dxf": FileKind(
        label="DXF",
        ending=".dxf",
        media_type="image/vnd.dxf",
        write=lambda template, stamp, wish: template_dxf(
            template, kerf_mm=wish.kerf_of(template), names=wish.strokes.names
        ),
    ),
    "pdf": FileKind(
        label="PDF",
        ending=".pdf",
        media_type="application/pdf",
        write=lambda template, stamp, wish: template_pdf(template, stamp=stamp, paper=wish.paper, printer=wish.printer),
    ),
}
"""Every kind of file of a template, by its name in addresses."""


def file_of(plan: FramePlan, *, name: str, kind: str, wish: Wish) -> tuple[str, str | bytes, str]:
    """One file of one template: its name, its content, its media type.

    Raises:
        NoSuchTemplate: there is none.
        FrameCalcError: it cannot be made for this kerf or paper.
    """
    made, template = _named(plan, name)
    if kind not in KINDS:
        raise NoSuchTemplate("Choose a file from the list.")
    content = KINDS[kind].write(template, made.stamp, wish)
    return _called(plan, template) + KINDS[kind].ending, content, KINDS[kind].media_type


def copies_on_beds(plan: FramePlan, *, name: str, wish: Wish) -> tuple[str, bytes]:
    """As many copies of a template as there are frames, laid out on beds: a laser's file for each bed, as a zip.

    Raises:
        NoSuchTemplate: there is none.
        FrameCalcError: a part is larger than the bed, or the bed has no size.
    """
    _, template = _named(plan, name)
    called = _called(plan, template)
    beds = nested(template, copies=plan.frame.count, bed=wish.bed)
    files = (laser_svg(bed, kerf_mm=wish.kerf_of(template), strokes=wish.strokes) for bed in beds)
    named = ((f"{called}-bed-{number}.svg", svg) for number, svg in enumerate(files, 1))
    return f"{called}-beds.zip", b"".join(zipped(named))


def all_files(plan: Plan, wish: Wish, choice: Choice) -> Iterator[bytes]:
    """Every chosen file that can be made, as a zip; what cannot be made is left out, and the page says why.

    It goes out piece by piece as it is made, so that a large job begins to arrive at once.

    Raises:
        NoSuchTemplate: none is chosen.
    """
    if next(chosen(plan, choice), None) is None:
        raise NoSuchTemplate("Choose a template from the list.")
    return zipped(every_file(plan, wish, choice))


def one_print(plan: Plan, wish: Wish, choice: Choice) -> Iterator[bytes]:
    """Every chosen template on leaves in one PDF; what would take too many leaves is left out, and the page says why.

    It is made leaf by leaf, so that no worker is held by all of them.

    Raises:
        NoSuchTemplate: none is left.
    """
    stamped = _on_paper(plan, wish, choice)
    return pdf_in_steps(stamped, title=plan.project.name, paper=wish.paper, printer=wish.printer)


def leaves_on_page(plan: Plan, wish: Wish, choice: Choice) -> Iterator[Markup]:
    """The same leaves as drawings for a page of the browser, each when it is asked for.

    Raises:
        NoSuchTemplate: none is left.
    """
    return _drawn(_on_paper(plan, wish, choice), wish)


def _drawn(stamped: Sequence[tuple[Template, TemplateStamp]], wish: Wish) -> Iterator[Markup]:
    for number, one in enumerate(leaves_of(stamped, paper=wish.paper, printer=wish.printer), start=1):
        leaf = SvgLeaf(wish.paper, one.correction, name=f"leaf-{number}")
        one.draw_on(leaf)
        yield drawing(leaf.svg(title=one.title))


def chosen(plan: Plan, choice: Choice) -> Iterator[tuple[FramePlan, FrameTemplates, Template]]:
    """The chosen templates, each with its frame; a frame that cannot be computed has none."""
    for frame in plan.frames.values():
        if choice.frame not in ("", frame.frame.id):
            continue
        try:
            made = templates_of(frame)
        except FrameCalcError:
            continue
        yield from ((frame, made, one) for one in made.templates if choice.takes(frame, one))


def every_file(plan: Plan, wish: Wish, choice: Choice = EVERY_ONE) -> Iterator[tuple[str, str | bytes]]:
    """Every file that can be made of a job, with its name."""
    for frame, made, template in chosen(plan, choice):
        for kind in KINDS.values():
            try:
                yield _called(frame, template) + kind.ending, kind.write(template, made.stamp, wish)
            except FrameCalcError:
                continue


def _on_paper(plan: Plan, wish: Wish, choice: Choice) -> list[tuple[Template, TemplateStamp]]:
    """The chosen templates that the paper holds; of the sheets of a frame that are alike, one for all of them."""
    stamped = [
        (one, stamp)
        for stamp, frame in groupby(chosen(plan, choice), key=_stamp_of)
        for one in alike_once(template for _, _, template in frame if _fits(template, wish.paper))
    ]
    if not stamped:
        raise NoSuchTemplate("Choose a template from the list.")
    return stamped


def _stamp_of(found: tuple[FramePlan, FrameTemplates, Template]) -> TemplateStamp:
    return found[1].stamp


def _named(plan: FramePlan, name: str) -> tuple[FrameTemplates, Template]:
    made = templates_of(plan)
    template = made.named(name)
    if template is None:
        raise NoSuchTemplate("Choose a template from the list.")
    return made, template


def _fits(template: Template, paper: Paper) -> bool:
    try:
        tiling_of(template.across_mm, template.up_mm, paper=paper)
    except FrameCalcError:
        return False
    return True


def _called(plan: FramePlan, template: Template) -> str:
    return frame_file(plan.project, plan.frame, template.name)
