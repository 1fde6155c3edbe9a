"""One setting of a card as it stands at the machine, and what is ticked on it."""

from collections.abc import Iterable, Iterator, Mapping

from markupsafe import Markup

from framecalc.bench.as_cut import ALL_SIDES, Quantity
from framecalc.bench.cards import Card, Machine, Setting
from framecalc.bench.hours import WorkStep
from framecalc.drawing.bench.section_state import draw_section_state
from framecalc.drawing.bench.stop import draw_stop
from framecalc.plan import FramePlan, Plan
from framecalc.plan.bench.timetable import duration_said
from framecalc.project import Project
from framecalc.records import Record
from webapp.data.errors import StoreError
from webapp.live.addresses import BENCH, BENCH_SETTING, CORNERS, PROJECT
from webapp.live.desk import Desk, ProjectAtRevision, new_id
from webapp.live.of_project import OfOpened
from webapp.live.render import drawing
from webapp.live.work.hours import minutes_since
from webapp.pages.bench.actions import ALL_FRAMES
from webapp.pages.bench.came_out import effects_of, side_words
from webapp.pages.bench.cards import opened_cards


class NoSuchCard(StoreError):
    """The job has no card, or no setting, of this name."""


class SettingLink(Record):
    """A press to another setting: what stands there, and its address."""

    says: str
    address: str


class SettingInList(Record):
    """A setting in the list beside the card."""

    number: int
    title: str
    big: str
    address: str
    is_done: bool


class FormChoice(Record):
    """A choice of the form: its value and its words."""

    value: str
    says: str


class CardShown(OfOpened):
    """One setting of a card, as it stands at the machine."""

    card: Card
    place: int
    of: int
    number: int
    setting: Setting
    steps: tuple[SettingInList, ...]
    before: SettingLink | None
    after: SettingLink | None
    ticks: frozenset[str]
    sections: tuple[Markup, ...]
    stop: Markup
    frames: tuple[FormChoice, ...]
    sides: tuple[FormChoice, ...]
    effects: tuple[str, ...]
    once: str
    wrong: str = ""
    typed: Mapping[str, str]

    @property
    def address(self) -> str:
        """The address of the bench."""
        return BENCH(project_id=self.project_id)

    @property
    def lists_at(self) -> str:
        """The start of the addresses of the ticks."""
        return self.address

    @property
    def name(self) -> str:
        """Where a tick comes back to."""
        return f"{self.card.machine.value}/{self.number}"

    @property
    def step(self) -> str:
        """The step that the work at this machine is written down as."""
        is_gluing = self.card.machine in (Machine.DRY_FIT, Machine.SLOTS, Machine.GLUE, Machine.SPLINES)
        return (WorkStep.GLUING if is_gluing else WorkStep.MILLING).value

    @property
    def timed(self) -> str:
        """The step that is being timed, if any, and for how long."""
        bench = self.project.bench
        if bench.running is None:
            return ""
        return f"{bench.running}, {duration_said(minutes_since(bench.running_since))}"

    @property
    def quantities(self) -> tuple[FormChoice, ...]:
        """What can be entered back here."""
        return tuple(FormChoice(value=one.value, says=one.value.capitalize()) for one in self.card.measured)

    @property
    def corners_at(self) -> str:
        """Where long points, angles and test cuts are typed: of the first frame."""
        return CORNERS(project_id=self.project_id, frame_id=self.project.frames[0].id)

    @property
    def project_at(self) -> str:
        """The job."""
        return PROJECT(project_id=self.project_id)


def card_shown(
    desk: Desk, opened: ProjectAtRevision, name: str, number: int, *, wrong: str = "", typed: Mapping[str, str] = {}
) -> CardShown:
    """One setting of a card.

    Raises:
        NoSuchCard: there is no such card, or no such setting.
        FrameCalcError: a frame cannot be computed.
    """
    project, cards = opened.project, opened_cards(desk, opened)
    place = next((place for place, card in enumerate(cards) if card.machine.value == name), -1)
    if place < 0 or not 1 <= number <= len(cards[place].settings):
        raise NoSuchCard("This job has no such card now: go back to the bench")
    card = cards[place]
    setting = card.settings[number - 1]
    turns = [(one, count) for one in cards for count in range(1, len(one.settings) + 1)]
    here = turns.index((card, number))
    return CardShown(
        opened=opened,
        card=card,
        place=place + 1,
        of=len(cards),
        number=number,
        setting=setting,
        steps=tuple(_steps(card, project, opened.project_id)),
        before=_turn(*turns[here - 1], card, opened.project_id) if here else None,
        after=_turn(*turns[here + 1], card, opened.project_id) if here + 1 < len(turns) else None,
        ticks=frozenset(project.timber.done),
        sections=sections_of(setting, name=f"section-{number}"),
        stop=stop_of(setting, name=f"stop-{number}"),
        frames=tuple(_frame_choices(opened.plan, card)),
        sides=tuple(FormChoice(value=side, says=side_words(side)) for side in _sides(opened.plan)),
        effects=tuple(one for plan in opened.plan.frames.values() for one in effects_of(plan)),
        once=new_id(),
        wrong=wrong,
        typed=typed,
    )


def sections_of(setting: Setting, *, name: str) -> tuple[Markup, ...]:
    """The small true sections of a setting."""
    return tuple(
        drawing(draw_section_state(state, name=f"{name}-{number}")) for number, state in enumerate(setting.sections)
    )


def stop_of(setting: Setting, *, name: str) -> Markup:
    """The picture of a stop; nothing where the setting is none."""
    return drawing(draw_stop(setting.stop, name=name)) if setting.stop else Markup()


def _steps(card: Card, project: Project, project_id: str) -> Iterator[SettingInList]:
    ticked = set(project.timber.done)
    for number, setting in enumerate(card.settings, start=1):
        yield SettingInList(
            number=number,
            title=setting.title,
            big=setting.big,
            address=BENCH_SETTING(project_id=project_id, card=card.machine.value, number=number),
            is_done=bool(setting.lines) and all(line.key in ticked for line in setting.lines),
        )


def _turn(card: Card, number: int, here: Card, project_id: str) -> SettingLink:
    setting = card.settings[number - 1]
    says = setting.big if card is here else card.title
    return SettingLink(says=says, address=BENCH_SETTING(project_id=project_id, card=card.machine.value, number=number))


def _frame_choices(plan: Plan, card: Card) -> Iterator[FormChoice]:
    """The frames that a measurement may be of; all of them together where they are planned alike."""
    frames = tuple(plan.frames.values())
    planned = {tuple(_planned_mm(frame, quantity) for quantity in card.measured) for frame in frames}
    if len(frames) > 1 and len(planned) == 1:
        yield FormChoice(value=ALL_FRAMES, says="All frames")
    for frame in frames:
        yield FormChoice(value=frame.frame.id, says=frame.frame.name)


def _sides(plan: Plan) -> Iterable[str]:
    """All sides, and each side that a frame of the job has, once."""
    return dict.fromkeys((ALL_SIDES, *(side for frame in plan.frames.values() for side in frame.shape.names)))


def _planned_mm(frame: FramePlan, quantity: Quantity) -> float:
    return round(frame.as_cut.planned_mm.get(quantity, 0.0), 3)
