"""What the package page shows beside its fields: the groups, the layers and windows, the shelf."""

from collections.abc import Iterable, Mapping
from typing import ClassVar

from framecalc.artwork.measuring import ArtworkKind
from framecalc.drawing.sheet import usual_paper
from framecalc.package.layers import LayerKind
from framecalc.package.shelf import ReadyMade, ready_made
from framecalc.plan.inputs import UNDER_A_LIP, is_tray, layers_of
from framecalc.project import Frame
from framecalc.project.package import Layer, Picture
from framecalc.records import replace
from webapp.live.addresses import DRAWING_FILE, PACKAGE, mat_templates_at
from webapp.live.answers import Link
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.grouped_page import GroupedShown
from webapp.live.typed.answer import FrameAnswer
from webapp.pages.package.groups import GROUPS, AnswerGroup, PackageContext, groups_of


class PackageShown(GroupedShown):
    """What the package page shows."""

    shelf: tuple[tuple[str, tuple[tuple[str, str], ...]], ...]
    has_sketches: ClassVar[bool] = True
    titles: ClassVar[Mapping[str, str]] = {name: title for name, (title, _) in GROUPS.items()}

    @property
    def layers(self) -> tuple[Layer, ...]:
        """The layers that are planned, from the front to the back."""
        return layers_of(self.frame)

    @property
    def opens_clearance(self) -> bool:
        """Whether the clearance is to be looked at."""
        return self._is_asked(".package.clearance_")

    @property
    def windows(self) -> tuple[tuple[Picture, str, bool], ...]:
        """The windows beside the artwork's own: the size of each one's picture, and whether to look at it."""
        size = PackageContext(plan=self.answer.plan).size
        pictures = self.mat.windows if self.mat else ()
        return tuple((one, size(one.across.mm, one.up.mm), self._is_asked(f".windows.{one.id}.")) for one in pictures)

    @property
    def stand_is_asked(self) -> bool:
        """Whether the layout of the windows is to be looked at."""
        return self._is_asked(".mat.arrangement", ".mat.gap", ".mat.columns", ".mat.least_bridge")

    @property
    def reveal_is_asked(self) -> bool:
        """Whether the second mat or the bevel is to be looked at."""
        return self._is_asked(".mat.reveal", ".mat.bevel")

    @property
    def cut_is_asked(self) -> bool:
        """Whether to look at what the borders are measured on, and from which side the mat is cut."""
        return self._is_asked(".mat.in_view", ".mat.from_behind")

    def _is_asked(self, *places: str) -> bool:
        """Whether one of these fields is refused or assumed, or something is found about it."""
        slots = (slot for slot in self.slots if any(place in slot.path for place in places))
        return any(slot.assumed or slot.error or slot.found for slot in slots)

    @property
    def has_fillet(self) -> bool:
        """Whether one of the layers is a fillet."""
        return any(layer.kind is LayerKind.FILLET for layer in self.layers)

    @property
    def has_two_mats(self) -> bool:
        """Whether a second mat lies under the first."""
        return sum(layer.kind is LayerKind.MAT for layer in self.layers) > 1

    @property
    def has_panel(self) -> bool:
        """Whether a panel of solid wood may grow."""
        return not self.answer.impossible and self.answer.plan.package.growth.has_panel

    @property
    def is_canvas(self) -> bool:
        """Whether the artwork is a canvas on its stretcher."""
        return self.frame.artwork.kind is ArtworkKind.CANVAS

    @property
    def is_boxed(self) -> bool:
        """Whether an object lies in a box."""
        return self.frame.artwork.kind is ArtworkKind.OBJECT or self.frame.fitting.box.object_depth is not None


def package_shown(desk: Desk, opened: ProjectAtRevision, answer: FrameAnswer) -> PackageShown:
    """What the package page shows."""
    return PackageShown(answer=answer, groups=_groups(answer), shelf=tuple(_shelf(answer.frame)))


def _groups(answer: FrameAnswer) -> dict[str, AnswerGroup]:
    """Every group; a refused field keeps its old value. All are empty if the frame is impossible."""
    names = [name for name in GROUPS if not (is_tray(answer.frame) and name in _UNDER_A_LIP)]
    if answer.impossible:
        return {name: AnswerGroup(name=name) for name in names}
    groups = groups_of(PackageContext(plan=answer.plan))
    return {name: replace(groups[name], links=_links(answer, groups[name])) for name in names}


_UNDER_A_LIP = ("mat", "gap", "box")
"""Groups that a tray has none of."""


def _links(answer: FrameAnswer, group: AnswerGroup) -> tuple[Link, ...]:
    """The links of a group, to print or download."""
    ids = {"project_id": answer.project_id, "frame_id": answer.frame.id}
    if group.name == "held" and group.drawings:
        return (Link(href=DRAWING_FILE(name="held", **ids), says=f"Drawing, {_paper(answer)}"),)
    if group.name == "steps" and not group.refuses:
        return (Link(href=f"{PACKAGE(**ids)}/fitting", says="Fitting card, to print", is_file=False),)
    if group.name != "mat" or not group.drawings:
        return ()
    mats = ("upper", "lower") if len(group.drawings) > 1 else ("lower",)
    drawings = (_mat_link(ids, which, len(mats) > 1, _paper(answer)) for which in mats)
    return (*drawings, Link(href=mat_templates_at(**ids), says="Templates, true size", is_file=False))


def _paper(answer: FrameAnswer) -> str:
    """The paper that a drawing comes on, as it is called."""
    return usual_paper(answer.plan.unit).capitalize()


def _mat_link(ids: dict[str, str], which: str, is_double: bool, paper: str) -> Link:
    of = f", {which} mat" if is_double else ""
    name = "upper-mat" if which == "upper" else "mat"
    return Link(href=DRAWING_FILE(name=name, **ids), says=f"Drawing, {paper}{of}")


def _shelf(frame: Frame) -> Iterable[tuple[str, tuple[tuple[str, str], ...]]]:
    """The layers of the shelf by purpose, each with its thickness; for a tray, those that lie in one."""
    for kind in (kind for kind in LayerKind if not (is_tray(frame) and kind in UNDER_A_LIP)):
        here = tuple((name, _said(layer)) for name, layer in ready_made().items() if layer.kind is kind)
        yield f"{kind.value[:1].upper()}{kind.value[1:]}", here


def _said(layer: ReadyMade) -> str:
    thick = "" if layer.thickness in layer.name else f": {layer.thickness}"
    return f"{layer.name}{thick}{f' ({layer.standard})' if layer.standard else ''}"
