"""The files of templates: what each kind is called, and all of them in one zip."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from io import BytesIO
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from framecalc.drawing.templates.dxf import template_dxf
from framecalc.drawing.templates.laser import laser_svg
from framecalc.drawing.templates.pdf import template_pdf
from framecalc.drawing.templates.tiles import Paper
from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan, Plan
from framecalc.plan.templates import TemplateStamp, templates_of
from framecalc.templates.template import Template
from webapp.data.errors import StoreError
from webapp.live.papers import frame_file

EARLIEST = (1980, 1, 1, 0, 0, 0)
"""The time of everything in a zip, so that equal templates make equal files."""


class NoSuchTemplate(StoreError):
    """The frame has no template of this name, or no file of this kind."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What the files are made for: a kerf, a paper."""

    kerf_mm: float
    paper: Paper


@dataclass(frozen=True, slots=True, kw_only=True)
class FileKind:
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
        write=lambda template, stamp, wish: laser_svg(template, kerf_mm=wish.kerf_mm),
    ),
    "cuts": FileKind(
        label="Laser, cuts only",
        ending="-cuts.svg",
        media_type="image/svg+xml",
        write=lambda template, stamp, wish: laser_svg(template, kerf_mm=wish.kerf_mm, only_cuts=True),
    ),
    "dxf": FileKind(
        label="DXF",
        ending=".dxf",
        media_type="image/vnd.dxf",
        write=lambda template, stamp, wish: template_dxf(template, kerf_mm=wish.kerf_mm),
    ),
    "pdf": FileKind(
        label="PDF",
        ending=".pdf",
        media_type="application/pdf",
        write=lambda template, stamp, wish: template_pdf(template, stamp=stamp, paper=wish.paper),
    ),
}
"""Every kind of file of a template, by its name in addresses."""


def file_of(plan: FramePlan, *, name: str, kind: str, wish: Wish) -> tuple[str, str | bytes, str]:
    """One file of one template: its name, its content, its media type.

    Raises:
        NoSuchTemplate: there is none.
        FrameCalcError: it cannot be made for this kerf or paper.
    """
    made = templates_of(plan)
    template, wanted = made.named(name), KINDS.get(kind)
    if template is None or wanted is None:
        raise NoSuchTemplate("Choose a template from the list.")
    content = wanted.write(template, made.stamp, wish)
    return _called(plan, template, wanted), content, wanted.media_type


def all_files(plan: Plan, wish: Wish) -> bytes:
    """Every file that can be made, as a zip; what cannot be made is left out, and the page says why."""
    packed = BytesIO()
    with ZipFile(packed, "w") as archive:
        for name, content in every_file(plan, wish):
            archive.writestr(ZipInfo(name, EARLIEST), content, compress_type=ZIP_DEFLATED)
    return packed.getvalue()


def every_file(plan: Plan, wish: Wish) -> Iterator[tuple[str, str | bytes]]:
    """Every file that can be made of a job, with its name."""
    for frame in plan.frames.values():
        try:
            made = templates_of(frame)
        except FrameCalcError:
            continue
        for template in made.templates:
            for kind in KINDS.values():
                try:
                    yield _called(frame, template, kind), kind.write(template, made.stamp, wish)
                except FrameCalcError:
                    continue


def _called(plan: FramePlan, template: Template, kind: FileKind) -> str:
    return frame_file(plan.project, plan.frame, template.name) + kind.ending
