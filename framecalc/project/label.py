"""The label of a field: the one statement of its words for pages, lists and the JSON Schema.

A label stands in the annotation of the field, beside its type:

    clean_up: Annotated[Slack, Label("Clean-up takes", "Of both faces together.", inch="1/16")] = parse_length("1.5 mm")

Words are ours; they are turned into the shop's trade words where they are shown.
"""

import re
from collections.abc import Iterable
from dataclasses import KW_ONLY, dataclass
from enum import StrEnum
from typing import Any, TypeAlias

from pydantic import GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue

from framecalc.records import Record
from framecalc.units import Unit

Choices: TypeAlias = tuple[tuple[str, str], ...]
"""Pairs of a value of the file and what is shown for it."""

_WITHIN = re.compile(r"(?: (?:of|in) )?\{within\}(?:, )?")

YES_NO: Choices = (("no", "No"), ("yes", "Yes"))


class Control(StrEnum):
    """The control that fills a field, which also decides how its text becomes a value. It follows from the type.

    A type whose values look like those of another one states its control itself: `Annotated[str, …, Control.COLOUR]`.
    """

    LENGTH = "length"
    CHOICE = "choice"
    YES_NO = "yes or no"
    COUNT = "count"
    NUMBER = "number"
    WEIGHT = "weight"
    MEASURED = "measured"
    MONEY = "money"
    DAY = "day"
    COLOUR = "colour"
    WORDS = "words"


@dataclass(frozen=True, slots=True)
class Label:
    """The words of a field: its label, its explanation, its usual value, and the words for its values.

    Args:
        text: the words beside the field; `{within}` in it stands for the label of the part that the field is in.
        explain: help for filling it.
        choices: words for its values, if they are not the values themselves with a capital letter.
        blank: words for no choice.
        drawing: the drawing of the setting-out page that shows its effect; for a part, of all fields in it.
        mm, inch: the usual value in round numbers of either unit. Without `mm` that is the default of the field.
        imperial: the usual value of what is no length, as an inch project has it: 68 °F.
        case: a second label serves this case only: a page, the name of the part that it is in, a kind of item.
        arguments: its names in the topics; findings about them stand at this field.
        figure: the figure of the plan that it becomes where the starting point solves it.
        of: the list of the project whose items are the choices, by their id.
        is_required: whether a blank is refused although the file may leave it out.
        is_typed: whether a form has it; else a button sets it.
        measured_anew: fields beside it whose values count as assumed once it has changed.
        to_confirm: whether its first value counts as assumed until somebody has measured or chosen it.
    """

    text: str
    explain: str = ""
    _: KW_ONLY
    choices: Choices = ()
    blank: str = ""
    drawing: str = ""
    mm: str = ""
    inch: str = ""
    imperial: str = ""
    case: str = ""
    arguments: tuple[str, ...] = ()
    figure: str = ""
    of: str = ""
    is_required: bool = False
    is_typed: bool = True
    to_confirm: bool = False
    measured_anew: tuple[str, ...] = ()

    def usual(self, unit: Unit, default: str) -> str:
        """The usual value as it would be typed in a unit; `default` is what the file has where it says nothing."""
        if unit is Unit.INCH:
            return f"{self.inch} in" if self.inch else self.imperial
        return f"{self.mm} mm" if self.mm else default

    def __get_pydantic_json_schema__(self, core: Any, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        """Put the words into the JSON Schema, before what the type says of unit and range."""
        schema = handler(core)
        if self.case:
            return schema
        title, says = _capital(_WITHIN.sub("", self.text)), _capital(schema.get("description", ""))
        words = {"title": title, "description": f"{self.explain} {says}".strip(), "examples": self._usual_texts()}
        return schema | {name: text for name, text in words.items() if text}

    def _usual_texts(self) -> list[str]:
        return [text for text in (self.usual(unit, "") for unit in Unit) if text]


class NumberUnit(Record):
    """The unit of a number, in the annotation of its type."""

    name: str


def named(values: Iterable[str]) -> Choices:
    """Values shown as they are, with a capital letter.

    >>> named(["half-lap"])
    (('half-lap', 'Half-lap'),)
    """
    return tuple((str(value), _capital(value)) for value in values)


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"
