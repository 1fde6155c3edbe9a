"""What the address of a page of templates asks for, as typed, beside what the shop says of its machines."""

from urllib.parse import urlencode

from framecalc.drawing.sheet import usual_paper
from framecalc.drawing.templates.tiles import PAPER_WORDS, Paper, paper_called
from framecalc.project import Project
from framecalc.records import Record
from framecalc.templates.template import TemplateStep
from framecalc.units import parse_length
from webapp.data.machines import Printer
from webapp.data.shop import ShopProfile
from webapp.live.papers.files import NoSuchDrawing
from webapp.pages.templates.files import Choice, Wish

NO_PRINTER = "none"
"""Any printer, of which nothing is known."""


class TemplatesQuery(Record):
    """What is asked for, as typed; blanks are what the shop says, and all templates."""

    kerf: str = ""
    paper: str = ""
    printer: str = ""
    step: str = ""
    frame: str = ""
    picked: tuple[str, ...] = ()

    def printer_of(self, shop: ShopProfile) -> Printer | None:
        """The printer; None for any other.

        Raises:
            NoSuchDrawing: the shop has none of this id.
        """
        if self.printer == NO_PRINTER or not (self.printer or shop.printers):
            return None
        printer = shop.printer(self.printer)
        if printer is None:
            raise NoSuchDrawing("Choose a printer of the Shop page.")
        return printer

    def on(self, project: Project, shop: ShopProfile) -> Paper:
        """The paper: as asked for, or what is in the printer, or what is at hand.

        Raises:
            NoSuchDrawing: there is none of this name.
            FrameCalcError: it leaves no room for the bars.
        """
        if self.paper and self.paper not in PAPER_WORDS:
            raise NoSuchDrawing(f"Choose a paper: {', '.join(PAPER_WORDS)}")
        printer = self.printer_of(shop)
        return printer.on(self.paper) if printer else paper_called(self.paper or usual_paper(project.unit))

    def kerf_mm(self, project: Project, shop: ShopProfile) -> float:
        """The kerf: as typed, or that of the shop's laser.

        Raises:
            FrameCalcError: it is no length.
        """
        if not self.kerf.strip():
            return shop.laser.kerf_mm
        return float(parse_length(self.kerf, bare=project.unit, comma=project.shop.comma).mm)

    def wish(self, project: Project, shop: ShopProfile) -> Wish:
        """What files are made for.

        Raises:
            NoSuchDrawing, FrameCalcError: a paper or printer that is none, a kerf that is no length, machines whose
                values do not go together.
        """
        printer = self.printer_of(shop)
        return Wish(
            kerf_mm=self.kerf_mm(project, shop),
            kerfs={} if self.kerf.strip() else shop.laser.kerfs,
            paper=self.on(project, shop),
            strokes=shop.laser.strokes,
            bed=shop.laser.bed,
            printer=printer.used if printer else None,
        )

    @property
    def choice(self) -> Choice:
        """Which templates.

        Raises:
            NoSuchDrawing: there is no such step.
        """
        if self.step and self.step not in set(TemplateStep):
            raise NoSuchDrawing(f"Choose a step: {', '.join(TemplateStep)}")
        return Choice(
            step=TemplateStep(self.step) if self.step else None, frame=self.frame, picked=frozenset(self.picked)
        )

    def address(self, path: str) -> str:
        """An address of a file that is made for the same."""
        query = {"kerf": self.kerf, "paper": self.paper, "printer": self.printer}
        return f"{path}?{urlencode({name: text for name, text in query.items() if text})}".removesuffix("?")
