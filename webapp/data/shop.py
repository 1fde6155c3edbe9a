"""The shop profile: what the shop measures in, reads its tape to, saws with; kept in its own file, `shop.json`.

A project copies the values it uses when it starts (`shop_values`). A later change in the profile is offered there and
never applied behind anyone's back (`differences`).
"""

from collections.abc import Iterable, Mapping
from copy import deepcopy
from functools import cache
from typing import Annotated, Literal

from pydantic import Field, StringConstraints, ValidationError

from framecalc.artwork.measuring import ArtworkKind
from framecalc.corners.saw_kinds import SawKind
from framecalc.errors import UnreadableProject
from framecalc.project import ProjectErrors, Quote, items_at, sentences_of, value_at
from framecalc.project.corners import SAW_KINDS
from framecalc.project.document import Document, ReadDocument
from framecalc.project.fields import ID, Clearance, Id, Model, Name, Note, Part, Run, Slack
from framecalc.project.label import Label
from framecalc.project.model import UNITS
from framecalc.project.own_times import MOST_OWN, OwnFinish, OwnGlue
from framecalc.project.price import Mark, ShortNote
from framecalc.project.strap import Strap
from framecalc.units import Comma, Length, Step, Unit
from framecalc.words import Words
from webapp.data.cutters import MOST_CUTTERS, OwnCutter
from webapp.data.machines import MOST_PRINTERS, Laser, Printer, machine_troubles


class Blade(Model):
    """One saw blade and the width of its cut."""

    id: Id
    name: Annotated[Name, Label("Blade")]
    kerf: Annotated[Part, Label("Kerf", "Measure the cut in a scrap.")]


class Clearances(Model):
    """What this shop gives for clearance, in each direction; blank is the usual for the kind of artwork."""

    paper: Annotated[Clearance | None, Label("Paper")] = None
    photograph: Annotated[Clearance | None, Label("Photograph")] = None
    friable: Annotated[Clearance | None, Label("Pastel, charcoal, chalk")] = None
    canvas: Annotated[Clearance | None, Label("Canvas")] = None
    panel: Annotated[Clearance | None, Label("Panel")] = None
    solid_panel: Annotated[Clearance | None, Label("Solid panel")] = None
    textile: Annotated[Clearance | None, Label("Textile")] = None
    object: Annotated[Clearance | None, Label("Object")] = None


class ShopProfile(Model):
    """Everything the shop says once for all projects."""

    schema_number: Literal[1] = Field(alias="schema")
    unit: Annotated[Unit, Label("New projects are measured in", "A bare number has this unit.", choices=UNITS)]
    inch_step: Step
    mm_step: Step
    comma: Comma
    words: Words
    blades: Annotated[tuple[Blade, ...], Field(min_length=1, max_length=12)]
    blade: Annotated[str, ID, Label("Blade in use", "New projects are started with its kerf.", is_required=True)]
    end_trim: Slack
    fence_length: Run
    saw_kind: Annotated[
        SawKind,
        Label(
            "Kind of saw",
            "New projects begin with it. Its cautions stand beside its settings and on its card.",
            choices=SAW_KINDS,
        ),
    ] = SawKind.UNSAID
    strap: Strap = Strap.usual()
    mark: Mark = ""
    clearances: Clearances = Clearances.usual()
    called: Annotated[ShortNote, Label("Name of the shop", "Clients read it over their frame.")] = ""
    client_note: Annotated[Note, Label("Note to every client", "Clients read it under their frame.")] = ""
    logo: Annotated[
        str,
        StringConstraints(pattern=r"^(data:image/png;base64,[A-Za-z0-9+/]+={0,2})?$", max_length=100_000),
        Label("Mark of the shop", is_typed=False),
    ] = ""
    contact: Annotated[
        ShortNote, Label("How to reach you", "Address, phone, mail, on one line. It stands under every offer.")
    ] = ""
    how_to_pay: Annotated[
        ShortNote, Label("How to pay the deposit", "Clients read it after they approve, beside the amount.")
    ] = ""
    after_yes: Annotated[ShortNote, Label("What happens next", "Clients read it after they approve.")] = ""
    quote: Quote = Quote.usual()
    printers: Annotated[tuple[Printer, ...], Field(max_length=MOST_PRINTERS)] = ()
    laser: Laser = Laser.usual()
    glues: Annotated[tuple[OwnGlue, ...], Field(max_length=MOST_OWN)] = ()
    finishes: Annotated[tuple[OwnFinish, ...], Field(max_length=MOST_OWN)] = ()
    cutters: Annotated[tuple[OwnCutter, ...], Field(max_length=MOST_CUTTERS)] = ()
    confirmed: bool = False

    def printer(self, printer_id: str) -> Printer | None:
        """The printer of an id; without one the first there is."""
        return next((one for one in self.printers if printer_id in ("", one.id)), None)

    @property
    def troubles(self) -> Mapping[str, str]:
        """By path, a sentence for each value that cannot be used together with the others."""
        return machine_troubles(self.printers, self.laser)

    @property
    def blade_in_use(self) -> Blade:
        """The blade that new projects are started with; the first where the chosen one has gone."""
        return next((blade for blade in self.blades if blade.id == self.blade), self.blades[0])

    @property
    def first_quote(self) -> Quote:
        """What the costs of a new job start with: stock and mouldings of the price list are no items of every job."""
        return self.quote.model_copy(update={"items": tuple(item for item in self.quote.items if not item.listed_as)})

    def clearance(self, kind: ArtworkKind) -> str:
        """The shop's own clearance for a kind of artwork as typed, or nothing where it goes by the usual one."""
        length: Length | None = getattr(self.clearances, kind.replace(" ", "_"))
        return length.text if length else ""

    def step(self, unit: Unit) -> Step:
        """What lengths are written to in a unit."""
        return self.inch_step if unit is Unit.INCH else self.mm_step


USUAL_SHOP: Document = {
    "schema": 1,
    "unit": "mm",
    "inch_step": Step.SIXTEENTH.value,
    "mm_step": Step.HALF_MILLIMETRE.value,
    "comma": Comma.ASK.value,
    "words": Words.US.value,
    "blades": [
        {"id": "full", "name": "Full-kerf blade", "kerf": "3.2 mm"},
        {"id": "thin", "name": "Thin-kerf blade", "kerf": "2.4 mm"},
    ],
    "blade": "full",
    "end_trim": "10 mm",
    "fence_length": "1200 mm",
    "strap": {"ratchet": "on a side", "friction": "0.25"},
    "confirmed": False,
}
"""What a shop is taken for until it says otherwise. Kerfs: common practice, no source; measure yours in a scrap."""


def read_shop(document: ReadDocument) -> ShopProfile:
    """Check a shop profile; an empty document is the usual shop.

    Raises:
        ProjectErrors: single values are at fault; one sentence for each path.
        UnreadableProject: it is a profile of a schema that is not known here.
    """
    document = document or USUAL_SHOP
    if document.get("schema") != 1:
        raise UnreadableProject(f"Enter a schema of 1 in the shop profile, not {document.get('schema')!r}")
    try:
        return ShopProfile.model_validate(dict(document))
    except ValidationError as error:
        raise ProjectErrors(sentences_of(error, document)) from error


def profile_document(stored: ReadDocument) -> Document:
    """The profile to show and to change: the stored one, or the usual one where none is stored."""
    shown = stored or USUAL_SHOP
    laser = shown.get("laser")
    whole = _usual_laser() | (laser if isinstance(laser, dict) else {})
    return deepcopy({"strap": USUAL_SHOP["strap"], **shown, "laser": whole})


@cache
def _usual_laser() -> Document:
    """A laser of which nothing is known: groups of plain names, all black."""
    return Laser.usual().model_dump(mode="json", exclude_none=True)


def shop_values(profile: ShopProfile) -> Document:
    """The values that a project carries with it, as a document."""
    blade = profile.blade_in_use
    return {
        "inch_step": profile.inch_step.value,
        "mm_step": profile.mm_step.value,
        "comma": profile.comma.value,
        "words": profile.words.value,
        "blade": blade.name,
        "kerf": blade.kerf.text,
        "end_trim": profile.end_trim.text,
        "fence_length": profile.fence_length.text,
        "mark": profile.mark or profile.quote.terms.mark,
        "mark_follows": profile.quote.terms.mark_follows,
        "decimals": profile.quote.terms.decimals,
        "strap": profile.strap.model_dump(mode="json", exclude_none=True),
        "glues": [one.model_dump(mode="json") for one in profile.glues],
        "finishes": [one.model_dump(mode="json") for one in profile.finishes],
    }


LABELS = {
    "inch_step": "inches are written to",
    "mm_step": "millimetres are written to",
    "comma": "a comma before three digits",
    "words": "trade words",
    "blade": "blade",
    "kerf": "kerf",
    "end_trim": "end trim",
    "fence_length": "fence length",
    "mark": "currency sign",
    "strap.pull": "pull of the strap",
    "strap.ratchet": "ratchet of the strap",
    "strap.friction": "friction at the corners",
}


LISTS = {"glues": "times of glues", "finishes": "times of finishes"}
"""What of the profile is a list, and is compared as a whole."""


def differences(carried: ReadDocument, profile: ShopProfile) -> Iterable[tuple[str, str, str]]:
    """Where a project's shop values differ from the profile: what it is, the project's value, the shop's value.

    A profile that the shop has never saved says nothing against a project.
    """
    if not profile.confirmed:
        return
    values = shop_values(profile)
    for path, label in LABELS.items():
        ours, theirs = value_at(carried, path), value_at(values, path)
        if theirs is not None and ours != theirs:
            yield label, str(ours or ""), str(theirs)
    for path, label in LISTS.items():
        ours, theirs = items_at(carried, path), items_at(values, path)
        if ours != theirs:
            yield label, f"{len(ours)} typed" if ours else "as usual", f"{len(theirs)} typed" if theirs else "as usual"
