"""What the setting-out page shows beside its fields, as strings: sizes, table, findings, hints, drawings.

Templates take these records as they are; nothing is computed or formatted there.
"""

from collections import Counter
from collections.abc import Iterable, Mapping
from typing import ClassVar

from markupsafe import Markup

from framecalc.drawing.registry import PANELS, draw_panel
from framecalc.errors import FrameCalcError
from framecalc.findings import Rounding, Severity
from framecalc.package.layers import LayerKind
from framecalc.plan import FramePlan
from framecalc.plan.advice import WayOut
from framecalc.plan.figures import Figure
from framecalc.plan.inputs import UNDER_A_LIP
from framecalc.project import Frame, part_of
from framecalc.project.package import Layer
from framecalc.records import Record, cached_property
from framecalc.units import MM_PER_INCH, Unit
from webapp.data.shop import differences
from webapp.live.addresses import PACKAGE
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.grouped import at_group
from webapp.live.render import drawing
from webapp.live.shown import FrameShown
from webapp.live.typed.answer import FrameAnswer
from webapp.live.typed.texts import without_unit
from webapp.live.work.price_list import PriceNote, moulding_prices, offers_of
from webapp.pages.setting_out.cards import CardSummary, cards_of, first_to_open
from webapp.pages.setting_out.hints import NO_HINTS, hints_of, is_measured_twice

LOOK_BACK = 60
"""How many revisions are looked through for the last one that can be drawn."""


class BigSize(Record):
    """One of the main sizes: its label, its figures, and a word under them."""

    label: str
    lines: tuple[str, ...]
    says: str
    is_list: bool = False


class SizeRow(Record):
    """One line of the sizes table."""

    label: str
    text: str
    exact: str
    direction: str


class DrawingPanel(Record):
    """One drawing on the page."""

    name: str
    title: str
    svg: Markup


class Button(Record):
    """A way out: the value of the button, the field to fill, its text, and the words on the button."""

    do: str
    path: str
    text: str
    says: str


class FindingView(Record):
    """A finding as listed."""

    severity: Severity
    sentence: str
    why: str
    source: str
    path: str
    ways: tuple[Button, ...]
    take_out: str = ""


DIRECTIONS = {Rounding.UP: "up", Rounding.DOWN: "down", Rounding.NEAREST: "nearest"}


def big_sizes(plan: FramePlan) -> tuple[BigSize, ...]:
    """The main sizes."""
    inner = (
        (_big(plan, "rabbet", "Inside", "wall to wall"), _big(plan, "artwork", "Artwork", "on the ledge"))
        if plan.is_tray
        else (_big(plan, "sight", "Sight", "stays in view"), _big(plan, "rabbet", "Rabbet size", "wall to wall"))
    )
    ledges = (_pieces(plan, "Ledge strips", "ledge_long"),) if plan.has_loose_ledge else ()
    return (_big(plan, "outside", "Outside", "edge to edge"), *inner, _pieces(plan, "Members", "outside"), *ledges)


def _big(plan: FramePlan, name: str, label: str, says: str) -> BigSize:
    across, up = plan.figures[f"{name}_across"], plan.figures[f"{name}_up"]
    return BigSize(label=label, lines=(across.text, f"× {up.text}"), says=says)


def _pieces(plan: FramePlan, label: str, size: str) -> BigSize:
    """The strips round the long edges of a size: in pairs, or all alike."""
    pairs, figures = 2 * plan.frame.count, plan.figures
    lines = tuple(f"{pairs} of {figures[f'{size}_{way}'].text}" for way in ("across", "up"))
    if not plan.shape.is_rectangle:
        edge = figures["ledge_long_across" if size == "ledge_long" else "member_long"]
        lines = (f"{plan.shape.sides * plan.frame.count} of {edge.text}",)
    return BigSize(label=label, lines=lines, says="long points", is_list=True)


def rows_of(plan: FramePlan) -> tuple[SizeRow, ...]:
    """The sizes table: every figure, what it is exactly, its direction; the inside of a tray is there once."""
    return tuple(
        SizeRow(
            label=figure.label[:1].upper() + figure.label[1:],
            text=figure.text,
            exact=_exact(figure) if figure.remainder else "",
            direction=DIRECTIONS[figure.rounding],
        )
        for figure in plan.figures.values()
        if not (plan.is_tray and figure.name.startswith("rabbet_"))
    )


def _exact(figure: Figure) -> str:
    """The size to the tenth of a millimetre, or to the thousandth of an inch."""
    if figure.written.unit is Unit.INCH:
        return f"{figure.exact_mm / MM_PER_INCH:.3f} in"
    return f"{figure.exact_mm:.1f} mm"


def findings_of(answer: FrameAnswer) -> Iterable[FindingView]:
    """The findings, the worst first, each with its buttons; findings with the same code are numbered."""
    numbers: Counter[str] = Counter()
    for advice in answer.advice:
        yield FindingView(
            severity=advice.severity,
            sentence=advice.sentence,
            why=advice.why,
            source=advice.source,
            path=advice.path if advice.path in answer.fields else "",
            ways=tuple(_button(advice.code, way, numbers, answer.project.unit) for way in advice.ways),
            take_out=advice.take_out,
        )


def _button(code: str, way: WayOut, numbers: Counter[str], unit: Unit) -> Button:
    numbers[code] += 1
    do = f"fix:{code}:{numbers[code] - 1}"
    return Button(
        do=do,
        path=way.path,
        text=without_unit(way.text, unit),
        says=f"{way.says[:1].upper()}{way.says[1:]}: {way.text}",
    )


def panels_of(plan: FramePlan) -> tuple[DrawingPanel, ...]:
    """The drawings of the page, as fragments."""
    return tuple(
        DrawingPanel(name=name, title=title, svg=drawing(draw_panel(name, plan))) for name, title in PANELS.items()
    )


class SettingOutParts(FrameShown, dict=True):
    """What the parts of the page show that change while a person types.

    `kept` names the state of the sizes and drawings, if it is not the typed one.
    """

    sizes: tuple[BigSize, ...] = ()
    rows: tuple[SizeRow, ...] = ()
    panels: tuple[DrawingPanel, ...] = ()
    kept: str = ""
    offers: tuple[PriceNote, ...] = ()

    @cached_property
    def hints(self) -> Mapping[str, tuple[str, ...]]:
        """The lines under groups of fields."""
        return hints_of(self.answer.plan) if self.answer.is_good else NO_HINTS

    @cached_property
    def cards(self) -> tuple[CardSummary, ...]:
        """The lines of the cards."""
        return cards_of(self.answer, self.fields)

    @cached_property
    def findings(self) -> tuple[FindingView, ...]:
        """The findings with their buttons."""
        return tuple(findings_of(self.answer))


class SettingOutShown(SettingOutParts):
    """What the whole page shows: the parts, the layers, where the shop profile differs."""

    shop_differs: tuple[tuple[str, str, str], ...]
    titles: ClassVar[Mapping[str, str]] = PANELS
    has_sketches: ClassVar[bool] = True

    @property
    def layers(self) -> tuple[Layer, ...]:
        """The layers of the package; boards of a mat that is not planned are left out of the form, and kept."""
        layers = self.frame.package.layers
        return layers if self.mat else tuple(layer for layer in layers if layer.kind is not LayerKind.MAT)

    @property
    def under_a_lip(self) -> tuple[LayerKind, ...]:
        """Kinds of layers that a tray has none of."""
        return UNDER_A_LIP

    @property
    def opens(self) -> str:
        """The card that is open at first."""
        return first_to_open(self.cards)

    @property
    def package_at(self) -> str:
        """Where layers are added, named and put in order."""
        return at_group(PACKAGE, "layers")(project_id=self.answer.project_id, frame_id=self.frame.id)

    @property
    def measured_twice(self) -> bool:
        """Whether the artwork is measured on its opposite sides too."""
        return is_measured_twice(self.frame)


def parts_shown(desk: Desk, opened: ProjectAtRevision, answer: FrameAnswer) -> SettingOutParts:
    """What the changing parts show; if nothing can be drawn, they stay as before."""
    if not answer.is_good:
        return SettingOutParts(answer=answer, kept="Drawings and sizes as before")
    plan = answer.plan
    return SettingOutParts(
        answer=answer,
        sizes=big_sizes(plan),
        rows=rows_of(plan),
        panels=panels_of(plan),
        offers=_offers(desk, answer),
    )


def page_shown(desk: Desk, opened: ProjectAtRevision, answer: FrameAnswer) -> SettingOutShown:
    """What the whole page shows; if the present state cannot be drawn, sizes and drawings are older."""
    differs = tuple(differences(part_of(answer.document, "shop"), desk.shop()))
    plan, kept = (answer.plan, "") if answer.is_good else _older(desk, opened, answer.frame)
    if plan is None:
        return SettingOutShown(answer=answer, shop_differs=differs, kept=kept, offers=_offers(desk, answer))
    return SettingOutShown(
        answer=answer,
        shop_differs=differs,
        sizes=big_sizes(plan),
        rows=rows_of(plan),
        panels=panels_of(plan),
        kept=kept,
        offers=_offers(desk, answer),
    )


def _offers(desk: Desk, answer: FrameAnswer) -> tuple[PriceNote, ...]:
    """What the shop's price list says of the bought moulding."""
    return offers_of(desk, answer.project, moulding_prices(answer.frame))


def _older(desk: Desk, opened: ProjectAtRevision, frame: Frame) -> tuple[FramePlan | None, str]:
    """The plan of the last revision that can be drawn, and its number."""
    for number, plan in _earlier_plans(desk, opened, frame.id):
        return plan, f"Drawings and sizes as saved in revision {number}"
    return None, "No drawings yet"


def _earlier_plans(desk: Desk, opened: ProjectAtRevision, frame_id: str) -> Iterable[tuple[int, FramePlan]]:
    for revision in desk.earlier(opened, most=LOOK_BACK):
        plan = _drawable(revision, frame_id)
        if plan:
            yield revision.revision.number, plan


def _drawable(opened: ProjectAtRevision, frame_id: str) -> FramePlan | None:
    try:
        plan = opened.plan.frames[frame_id]
        plan.compute_all()
    except (FrameCalcError, KeyError):
        return None
    return plan
