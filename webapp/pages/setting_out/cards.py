"""The cards of the setting-out page: one line for each group of fields, with its values and its state.

A line says what is typed, or what the starting point solves in its place, and stays in view while its card is closed.
It is there while a field is at fault, too; what follows from a plan is then left out.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from enum import StrEnum
from functools import lru_cache
from typing import TypeAlias

from framecalc.artwork.measuring import ArtworkFit
from framecalc.findings import Severity
from framecalc.plan import FramePlan
from framecalc.plan.inputs import depth_for_package_mm, is_bought, is_tray, layers_of, mat_of
from framecalc.project import Frame
from framecalc.records import Record, cached_property
from framecalc.sizes.shape import RECTANGLE_SIDES
from framecalc.units import describe_length
from framecalc.words import joined, typed, uncapitalised
from webapp.live.answers import plural
from webapp.live.slots import FieldViews
from webapp.live.typed.answer import FrameAnswer
from webapp.pages.setting_out.hints import is_measured_twice

CARDS: dict[str, tuple[str, tuple[str, ...]]] = {
    "artwork": ("Artwork", ("artwork.", "start.")),
    "section": ("Wood", ("species", "reckoned_as", "section.")),
    "mat": ("Mat", ("package.mat",)),
    "package": ("Package", ("package.layers",)),
    "fit": ("Fit", ("package.clearance_",)),
    "shape": ("Shape", ("shape.",)),
    "saw": ("Saw", ("shop.",)),
    "frame": ("Frame", ("",)),
}
"""The cards in trade order: the title of each, and how the paths of its fields begin; the last one has the rest."""


LEAST_SKEW_DEG = 0.005
"""A smaller angle is written as none."""


class CardState(StrEnum):
    """The state of a card, the best first."""

    DONE = "done"
    ASSUMED = "assumed"
    CHECK = "check"
    STOP = "stop"


STATE_WORDS = {
    CardState.DONE: "",
    CardState.ASSUMED: "Assumed",
    CardState.CHECK: "Check",
    CardState.STOP: "At fault",
}


FaultAt: TypeAlias = tuple[str, Severity]
"""A path within the frame, and how bad it is there."""


class SummaryPiece(Record):
    """A part of a line: words, or a value, which may be only assumed."""

    text: str
    is_value: bool = False
    is_assumed: bool = False


class CardSummary(Record):
    """The line of one card. `fault` says which field stands in the way; `assumed` counts the values to confirm."""

    name: str
    title: str
    state: CardState
    pieces: tuple[SummaryPiece, ...]
    fault: str = ""
    assumed: int = 0

    @property
    def word(self) -> str:
        """The state in a word; none where everything is in order."""
        return STATE_WORDS[self.state]


def cards_of(answer: FrameAnswer, fields: FieldViews) -> tuple[CardSummary, ...]:
    """The cards of a frame, in trade order.

    Args:
        answer: the answer to what is typed.
        fields: the fields of the page, by their paths within the frame.
    """
    lines, faults = _Lines(answer, fields), tuple(_faults(answer))
    assumed = Counter(card_of(path) for path, slot in fields.slots.items() if slot.assumed)
    return tuple(
        _card(name, answer, tuple(_JOINED[name](lines)), faults=faults, assumed=assumed[name]) for name in CARDS
    )


def first_to_open(cards: Iterable[CardSummary]) -> str:
    """The name of the card to open at first: the first one at fault, else the first with something assumed, or none."""
    worst = (CardState.STOP, CardState.ASSUMED)
    found = (card.name for state in worst for card in cards if _is_in(card, state))
    return next(found, "")


def _is_in(card: CardSummary, state: CardState) -> bool:
    return card.state is state or (state is CardState.ASSUMED and card.assumed > 0)


@lru_cache(maxsize=4096)
def card_of(path: str) -> str:
    """The card that a field of the frame is on.

    >>> card_of("package.mat.border"), card_of("shop.kerf"), card_of("count")
    ('mat', 'saw', 'frame')
    """
    return next(name for name, (_, starts) in CARDS.items() if path.startswith(starts))


def _card(
    name: str, answer: FrameAnswer, pieces: tuple[SummaryPiece, ...], *, faults: Sequence[FaultAt], assumed: int
) -> CardSummary:
    here = [(path, severity) for path, severity in faults if card_of(path) == name]
    stops = [path for path, severity in here if severity is Severity.STOP]
    state = CardState.CHECK if here else CardState.ASSUMED if assumed else CardState.DONE
    return CardSummary(
        name=name,
        title=CARDS[name][0],
        state=CardState.STOP if stops else state,
        pieces=pieces,
        fault=joined(", ", _labels(answer, stops)),
        assumed=assumed,
    )


def _labels(answer: FrameAnswer, paths: Iterable[str]) -> Iterable[str]:
    """What the fields at paths are called, each once."""
    full = (path if path in answer.fields else answer.here + path for path in paths)
    return dict.fromkeys(label for path in full if (label := answer.label(path)))


def _faults(answer: FrameAnswer) -> Iterator[FaultAt]:
    """What is at fault or wants a look, by the path within the frame: texts, impossible sizes, findings."""
    yield from ((path.removeprefix(answer.here), Severity.STOP) for path in answer.messages if path)
    for advice in answer.advice:
        if advice.path and advice.severity is not Severity.NOTE:
            yield advice.path.removeprefix(answer.here), advice.severity


class _Lines:
    """The lines of the cards, piece by piece."""

    def __init__(self, answer: FrameAnswer, fields: FieldViews) -> None:
        self._answer, self.fields = answer, fields
        self.frame: Frame = answer.frame

    @cached_property
    def plan(self) -> FramePlan | None:
        """The plan, if everything typed can be planned."""
        return self._answer.plan if self._answer.is_good else None

    def value(self, path: str) -> SummaryPiece:
        """The value of a field: what the starting point solves, else what is typed."""
        view = self.fields[path]
        figure = self.plan.figures.get(view.field.figure) if self.plan and view.slot.solved else None
        text = figure.text if figure else view.text or "–"
        return SummaryPiece(text=text, is_value=True, is_assumed=view.slot.assumed)

    def choice(self, path: str) -> str:
        """What is chosen, in the words of the page; a text that is no choice, as it was typed."""
        view = self.fields[path]
        return uncapitalised(dict(view.field.choices).get(view.text) or typed(view.text))

    def size(self, across: str, up: str) -> Iterator[SummaryPiece]:
        """Two values as one size."""
        yield from (self.value(across), SummaryPiece(text=" × "), self.value(up))

    def said(self, text: str) -> SummaryPiece:
        """Words after what stands before them."""
        return SummaryPiece(text=joined("", [" · ", text]))


def _artwork(lines: _Lines) -> Iterator[SummaryPiece]:
    if lines.frame.shape.sides == len(RECTANGLE_SIDES):
        yield from lines.size("artwork.across", "artwork.up")
    else:
        yield lines.value("shape.size")
    yield lines.said(lines.choice("artwork.kind"))
    if lines.plan and is_measured_twice(lines.frame):
        yield lines.said(_squareness(lines.plan.fit))
    if lines.frame.start.given != "artwork":
        yield lines.said(joined("", ["from ", lines.choice("start.given")]))


def _squareness(fit: ArtworkFit) -> str:
    """How the artwork is out of square, in a few words."""
    if abs(fit.skew_deg) >= LEAST_SKEW_DEG:
        return f"{abs(fit.skew_deg):.2f}° out of square"
    return "opposite sides differ" if fit.taper_across_mm or fit.taper_up_mm else "square"


def _section(lines: _Lines) -> Iterator[SummaryPiece]:
    name = lines.frame.section.moulding.name if is_bought(lines.frame) else lines.frame.species
    yield from (SummaryPiece(text=typed(name)), SummaryPiece(text=" ")) if name else ()
    yield from lines.size("section.face_width", "section.thickness")
    if is_tray(lines.frame):
        yield from (lines.said("gap "), lines.value("section.tray_gap"))


def _mat(lines: _Lines) -> Iterator[SummaryPiece]:
    if mat_of(lines.frame) is None:
        yield SummaryPiece(text="none")
        return
    sides, bottom = lines.value("package.mat.border"), lines.value("package.mat.bottom")
    yield sides
    yield from (
        (SummaryPiece(text=" all round"),) if sides.text == bottom.text else (SummaryPiece(text=", bottom "), bottom)
    )


def _package(lines: _Lines) -> Iterator[SummaryPiece]:
    layers = layers_of(lines.frame)
    if not layers or not lines.plan:
        yield SummaryPiece(text=plural(len(layers), "layer") if layers else "no layers")
        return
    assumed = any(slot.assumed for path, slot in lines.fields.slots.items() if path.startswith("package.layers."))
    deep = lines.plan.figures["stack"].written
    room = describe_length(depth_for_package_mm(lines.plan.frame), unit=deep.unit).removesuffix(f" {deep.unit}")
    yield from (SummaryPiece(text=deep.text, is_value=True, is_assumed=assumed), SummaryPiece(text=f" {deep.unit} of "))
    yield SummaryPiece(text=room, is_value=True)


def _fit(lines: _Lines) -> Iterator[SummaryPiece]:
    across, up = lines.value("package.clearance_across"), lines.value("package.clearance_up")
    if across.text == up.text:
        yield from (across, SummaryPiece(text=" in all"))
    else:
        yield from (across, SummaryPiece(text=" across, "), up, SummaryPiece(text=" up"))


def _shape(lines: _Lines) -> Iterator[SummaryPiece]:
    shape = lines.frame.shape
    yield SummaryPiece(text=f"{shape.sides} sides, {f'slope {shape.slope}°' if shape.slope else 'flat'}")


def _saw(lines: _Lines) -> Iterator[SummaryPiece]:
    yield from (
        SummaryPiece(text="kerf "),
        lines.value("shop.kerf"),
        lines.said("end trim "),
        lines.value("shop.end_trim"),
    )


def _frame(lines: _Lines) -> Iterator[SummaryPiece]:
    yield from (SummaryPiece(text=typed(lines.frame.name)), SummaryPiece(text=f" ×\u00a0{lines.frame.count}"))


_JOINED: dict[str, Callable[[_Lines], Iterable[SummaryPiece]]] = {
    "artwork": _artwork,
    "section": _section,
    "mat": _mat,
    "package": _package,
    "fit": _fit,
    "shape": _shape,
    "saw": _saw,
    "frame": _frame,
}
