"""All cards on paper, one a leaf; a card with more than a leaf holds goes on with a setting on a numbered one.

How high a setting stands on paper is estimated, on the high side: a browser lays it out.
"""

from collections.abc import Iterator, Sequence
from math import ceil

from markupsafe import Markup

from framecalc.bench.cards import Card, SectionState, Setting, StopState
from framecalc.project import Project
from framecalc.records import Record
from webapp.live.addresses import BENCH
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.of_project import OfProject
from webapp.pages.bench.card_shown import sections_of, stop_of
from webapp.pages.bench.cards import opened_cards

LEAF_PX, WIDE_PX = 980, 700
"""What a leaf of Letter is high, and one of A4 is wide, between margins of 10 mm."""

_HEAD_PX, _HEADING_PX, _STOP_PX, _TEXT_PX, _MIND_PX, _CAUTION_PX, _MEASURED_PX = 90, 32, 96, 22, 34, 18, 38
_LETTERS_A_LINE, _EM, _GAP_PX, _SECTION_PX = 95, 0.5, 28, 170
_SECTION_HIGH_PX = 160
"""A small true section is drawn no higher, however tall its member is."""

FEW = 2
"""A card of more settings than a few is set smaller, with its lines in columns."""


class _Set(Record):
    """How a card is set: the letters of its large number and of the facts beside it, its lines and their columns, and
    how wide a small section is.
    """

    big_px: int
    fact_px: int
    row_px: int
    columns: int
    cell_letters: int
    section_px: int


_WIDE = _Set(big_px=72, fact_px=54, row_px=28, columns=2, cell_letters=45, section_px=150)
_CLOSE = _Set(big_px=54, fact_px=26, row_px=23, columns=3, cell_letters=28, section_px=74)
_WORDY_PX, _WORDY_FROM, _UNDER_PX, _LABEL_PX, _ROW_GAP_PX = 30, 13, 18, 14, 6


class SettingOnPaper(Record):
    """A setting with its small true sections; its sentences and its stop where they are not those of the one before."""

    setting: Setting
    says: tuple[str, ...]
    sections: tuple[Markup, ...]
    stop: Markup


class CardLeaf(Record):
    """One leaf: a card, or its settings of that number of so many; how it is done stands on the first."""

    card: Card
    settings: tuple[SettingOnPaper, ...]
    number: int
    of: int

    @property
    def is_close(self) -> bool:
        """Whether its card has many settings."""
        return len(self.card.settings) > FEW

    @property
    def is_last(self) -> bool:
        """Whether the card ends on it."""
        return self.number == self.of


class PrintShown(OfProject, Record):
    """Every card of a job, one a leaf."""

    project: Project
    back: str
    leaves: tuple[CardLeaf, ...]


def print_shown(desk: Desk, opened: ProjectAtRevision) -> PrintShown:
    """Every card of a job for the printer."""
    return PrintShown(
        project=opened.project,
        back=BENCH(project_id=opened.project_id),
        leaves=tuple(leaf for card in opened_cards(desk, opened) for leaf in _leaves(card)),
    )


def _leaves(card: Card) -> Iterator[CardLeaf]:
    parts = tuple(split(card))
    start = 1
    for number, part in enumerate(parts, start=1):
        yield CardLeaf(card=card, settings=tuple(_drawn(card, part, start)), number=number, of=len(parts))
        start += len(part)


def split(card: Card) -> Iterator[tuple[Setting, ...]]:
    """The settings of a card, leaf by leaf."""
    type_set = _CLOSE if len(card.settings) > FEW else _WIDE
    room_px, part = LEAF_PX - _around_px(card) - sum(map(_text_px, card.says)), list[Setting]()
    for setting in card.settings:
        more_px = _setting_px(setting, part[-1] if part else None, type_set)
        if part and more_px > room_px:
            yield tuple(part)
            room_px, part, more_px = LEAF_PX - _around_px(card), [], _setting_px(setting, None, type_set)
        room_px -= more_px
        part.append(setting)
    yield tuple(part)


def _drawn(card: Card, settings: Sequence[Setting], start: int) -> Iterator[SettingOnPaper]:
    name = f"leaf-{card.machine.value}"
    for number, (setting, before) in enumerate(zip(settings, (None, *settings), strict=False), start=start):
        stop, says = _seen(before)
        yield SettingOnPaper(
            setting=setting,
            says=setting.says if setting.says != says else (),
            sections=sections_of(setting, name=f"{name}-{number}"),
            stop=stop_of(setting, name=f"{name}-stop-{number}") if setting.stop != stop else Markup(),
        )


def _seen(before: Setting | None) -> tuple[StopState | None, tuple[str, ...]]:
    """The stop and the sentences that stand on a leaf already, from the setting before."""
    return (before.stop, before.says) if before else (None, ())


def _around_px(card: Card) -> int:
    """What stands on every leaf of a card."""
    cautions_px = sum(_lines(one) * _CAUTION_PX for one in card.cautions)
    return _HEAD_PX + _MIND_PX + cautions_px + (_MEASURED_PX if card.measured else 0)


def _setting_px(setting: Setting, before: Setting | None, type_set: _Set) -> int:
    stop, says = _seen(before)
    has_stop = setting.stop not in (None, stop)
    says_px = sum(map(_text_px, setting.says)) if setting.says != says else 0
    rows = ceil(len(setting.lines) / type_set.columns)
    tall = max((ceil(len(line.text + line.says) / type_set.cell_letters) for line in setting.lines), default=0)
    lines_px = rows * tall * type_set.row_px
    return _HEADING_PX + _numbers_px(setting, type_set) + has_stop * _STOP_PX + lines_px + says_px


def _numbers_px(setting: Setting, type_set: _Set) -> int:
    """How high the numbers of a setting stand, in as many rows as they take."""
    room_px = WIDE_PX - _SECTION_PX * len(setting.sections)
    numbers = [(len(setting.big) * _EM * type_set.big_px, type_set.big_px), *_facts_px(setting, type_set)]
    rows_px, at_px = [0.0], 0.0
    for wide_px, high_px in numbers:
        if at_px and at_px + wide_px > room_px:
            rows_px.append(0.0)
            at_px = 0.0
        at_px += wide_px + _GAP_PX
        rows_px[-1] = max(rows_px[-1], high_px * ceil(wide_px / room_px) + _UNDER_PX)
    high_px = ceil(sum(rows_px)) + _ROW_GAP_PX * (len(rows_px) - 1)
    return max([high_px, *(_section_px(state, type_set) for state in setting.sections)])


def _section_px(state: SectionState, type_set: _Set) -> int:
    """How high a small section stands; it is no wider than its place."""
    across_mm, up_mm = (max(point[axis] for point in (*state.before, *state.after)) for axis in (0, 1))
    return min(_SECTION_HIGH_PX, ceil(type_set.section_px * up_mm / across_mm))


def _facts_px(setting: Setting, type_set: _Set) -> Iterator[tuple[float, float]]:
    """How wide and how high each fact is; a wordy one is smaller, with more room between its lines."""
    for one in setting.facts:
        is_wordy = len(one.text) >= _WORDY_FROM
        size_px = _WORDY_PX if is_wordy else type_set.fact_px
        yield max(len(one.text) * size_px, len(one.label) * _LABEL_PX) * _EM, size_px * (1.3 if is_wordy else 1.05)


def _text_px(text: str) -> int:
    return _lines(text) * _TEXT_PX


def _lines(text: str) -> int:
    return ceil(len(text) / _LETTERS_A_LINE)
