"""The files by which machines are checked: the leaf of a printer, the strip of a laser."""

from collections.abc import Callable

from framecalc.drawing.sheet import usual_paper
from framecalc.drawing.templates.dxf import template_dxf
from framecalc.drawing.templates.laser import laser_svg
from framecalc.drawing.templates.pdf import printer_leaf_pdf
from framecalc.drawing.templates.tiles import PAPER_WORDS, paper_called
from framecalc.records import Record
from framecalc.templates.kerf_strip import kerf_strip
from webapp.data.machines import Laser, Printer
from webapp.data.shop import ShopProfile
from webapp.live.addresses import PRINTER_CHECK
from webapp.live.papers.files import NoSuchDrawing


class PrinterShown(Record):
    """One printer: its id and name, what its measures come to, and its leaves."""

    id: str
    name: str
    says: str
    check_at: str
    proof_at: str


class StripKind(Record):
    """A kind of file of the kerf strip."""

    media_type: str
    write: Callable[[Laser], str]


STRIPS = {
    "svg": StripKind(
        media_type="image/svg+xml",
        write=lambda laser: laser_svg(kerf_strip(), kerf_mm=0, strokes=laser.strokes),
    ),
    "dxf": StripKind(
        media_type="image/vnd.dxf",
        write=lambda laser: template_dxf(kerf_strip(), kerf_mm=0, names=laser.strokes.names),
    ),
}
"""The files of the kerf strip, by their endings."""


def printer_shown(printer: Printer) -> PrinterShown:
    """One printer as the page shows it; a proof only where its measures can be used."""
    at = f"{PRINTER_CHECK}?printer={printer.id}"
    is_checked = "falling" not in dict(printer.troubles()) and printer.used is not None
    return PrinterShown(
        id=printer.id,
        name=printer.name,
        says=printer.says,
        check_at=at,
        proof_at=f"{at}&proof=yes" if is_checked else "",
    )


def check_leaf(shop: ShopProfile, *, printer_id: str, paper: str, proof: bool) -> bytes:
    """The leaf by which a printer is checked, as it comes; as a proof with what makes up for it.

    Raises:
        NoSuchDrawing: there is no such printer or paper.
        FrameCalcError: it cannot be printed on this paper, or the measures do not go together.
    """
    if paper and paper not in PAPER_WORDS:
        raise NoSuchDrawing(f"Choose a paper: {', '.join(PAPER_WORDS)}")
    if not printer_id:
        return printer_leaf_pdf(paper_called(paper or usual_paper(shop.unit)))
    printer = shop.printer(printer_id)
    if printer is None:
        raise NoSuchDrawing("Choose a printer of the Shop page.")
    return printer_leaf_pdf(printer.on(paper), printer=printer.used if proof else None)


def strip_file(shop: ShopProfile, ending: str) -> tuple[str, str]:
    """The kerf strip as a file: its content and media type.

    Raises:
        NoSuchDrawing: there is no such kind.
        OutOfRange: the names or strokes of the laser cannot be used.
    """
    if ending not in STRIPS:
        raise NoSuchDrawing("Choose svg or dxf.")
    return STRIPS[ending].write(shop.laser), STRIPS[ending].media_type
