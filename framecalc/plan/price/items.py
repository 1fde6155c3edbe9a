"""The usual items of a quote: those that the frames need, before anybody types a price."""

from collections.abc import Callable, Iterable, Iterator

from framecalc.bench.hours import WorkStep
from framecalc.package.layers import LayerKind
from framecalc.plan.inputs import is_bought, is_cut_here, layers_of
from framecalc.price.costs import CostGroup
from framecalc.price.quantities import Measure
from framecalc.project import Frame, Item, Project, Quote
from framecalc.units import Unit

HAND_WORK = tuple(step.value for step in WorkStep)
"""Steps that a shop usually keeps its hours by. Common practice, no source."""

CUTTING = "Cutting"
"""What is left of the first step for sticks of a bought moulding."""


def usual_items(project: Project, *, new_id: Callable[[], str]) -> tuple[Item, ...]:
    """The items that the frames of a project need, without prices, which only the shop knows."""
    metric = project.unit is Unit.MM
    area = Measure.AREA_M2 if metric else Measure.AREA_FT2
    wanted = [
        *(
            Item(id=new_id(), name=_begun(name), group=CostGroup.WOOD, measure=_stick(metric), frame=only)
            for name, only in _woods(project)
        ),
        *(
            Item(id=new_id(), name=_begun(name), group=CostGroup.SHEETS, measure=area, layer=kind)
            for kind, name in _layers(project.frames).items()
        ),
        Item(id=new_id(), name="Hangers and wire, one set", group=CostGroup.HARDWARE),
        *(
            Item(id=new_id(), name="Stiffener", group=CostGroup.HARDWARE, frame=frame.id)
            for frame in project.frames
            if frame.fitting.stiffening.by
        ),
        Item(
            id=new_id(), name="Finish", group=CostGroup.FINISH, measure=Measure.FACE_M2 if metric else Measure.FACE_FT2
        ),
        *(Item(id=new_id(), name=name, group=CostGroup.WORK, measure=Measure.HOUR) for name in _hand_work(project)),
    ]
    return tuple(wanted)


def _begun(name: str) -> str:
    """The name of a wood or a layer as a list begins it, beside "Finish" and the steps of the work."""
    return name[:1].upper() + name[1:]


def missing_items(project: Project, quote: Quote, *, new_id: Callable[[], str]) -> tuple[Item, ...]:
    """The usual items that are missing in a quote."""
    known = {_stands_for(item) for item in quote.items}
    return tuple(item for item in usual_items(project, new_id=new_id) if _stands_for(item) not in known)


def _stands_for(item: Item) -> tuple[str, str]:
    """The purpose of an item: a kind of layer, a wood, or its name."""
    return (item.group.value, item.layer or item.frame or ("" if item.group is CostGroup.WOOD else item.name))


def _hand_work(project: Project) -> Iterator[str]:
    """The steps that somebody has to do here; a moulding is not milled, nor cut and joined where the supplier does."""
    milling, gluing, *rest = HAND_WORK
    if not all(map(is_bought, project.frames)):
        yield milling
    elif any(map(is_cut_here, project.frames)):
        yield CUTTING
    if not all(is_bought(frame) and frame.section.moulding.sale.is_joined for frame in project.frames):
        yield gluing
    yield from rest


def _stick(metric: bool) -> Measure:
    return Measure.STICK_M if metric else Measure.STICK_FT


def _woods(project: Project) -> Iterator[tuple[str, str]]:
    """Each wood that is milled here with its frame; a wood that all frames share belongs to all of them."""
    species = {frame.id: frame.species or "Wood" for frame in project.frames if not is_bought(frame)}
    if len(set(species.values())) == 1 and len(species) == len(project.frames):
        yield next(iter(species.values())), ""
    else:
        yield from ((name, frame_id) for frame_id, name in species.items())


def _layers(frames: Iterable[Frame]) -> dict[LayerKind, str]:
    """Bought layers, the first of each kind giving its name; the artwork is the client's."""
    found: dict[LayerKind, str] = {}
    for layer in (layer for frame in frames for layer in layers_of(frame)):
        if layer.kind is not LayerKind.ARTWORK:
            found.setdefault(layer.kind, layer.name)
    return found
