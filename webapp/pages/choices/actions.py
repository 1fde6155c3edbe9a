"""The buttons of the page: try another way, remove one."""

from framecalc.errors import FrameCalcError
from framecalc.project import items_at, read_project, with_value
from framecalc.project.choices import MOST_CHOICES
from framecalc.records import replace
from webapp.live.desk import Desk, new_id
from webapp.live.typed.forms import Draft, Typed

NAMES = ("Another way", "A third way", "A fourth way")


def carry_out(desk: Desk, draft: Draft, typed: Typed, _: str) -> Draft:
    """Apply the pressed button; `save` changes nothing more."""
    name, _, choice_id = typed.do.partition(":")
    choices = list(items_at(draft.document, "choices"))
    if name == "try-another" and len(choices) < MOST_CHOICES:
        choices.append({"id": new_id(), "name": NAMES[len(choices)]})
    elif name == "remove-choice":
        choices = [one for one in choices if one["id"] != choice_id]
    else:
        return draft
    document = with_value(draft.document, "choices", choices)
    try:
        return replace(draft, document=document, checked=read_project(document))
    except FrameCalcError as error:
        return replace(draft, messages=draft.messages | {error.field: error.sentence})
