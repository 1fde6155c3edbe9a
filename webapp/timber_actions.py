"""What the buttons of the timber page do to a document: add stock, take it away, tick a stop off."""

from copy import deepcopy
from dataclasses import replace

from framecalc.errors import FrameCalcError
from framecalc.project import read_project
from webapp.desk import new_id
from webapp.forms import Draft

_NEW = {
    "stick": {"name": "Stick", "length": "2400 mm"},
    "board": {"name": "Board", "length": "2400 mm", "width": "150 mm"},
}


def carry_out(draft: Draft, do: str) -> Draft:
    """Do to a draft what the pressed button asks for; anything else asks for nothing more."""
    name, _, argument = do.partition(":")
    document = deepcopy(draft.document)
    timber = document.setdefault("timber", {})
    stock, done = timber.setdefault("stock", []), timber.setdefault("done", [])
    if name == "add-stock":
        stock.append({"id": new_id()} | _NEW.get(argument, _NEW["stick"]))
    elif name == "remove-stock":
        stock[:] = [one for one in stock if one["id"] != argument]
    elif name == "tick":
        done[:] = [key for key in done if key != argument] if argument in done else [*done, argument]
    else:
        return draft
    try:
        return replace(draft, document=document, checked=read_project(document))
    except FrameCalcError as error:
        return replace(draft, messages=draft.messages | {error.field: error.sentence})
