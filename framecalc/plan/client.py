"""What a client reads about a frame, in plain words: sizes, materials, finish. No set-up number, cost or note."""

from collections import Counter
from collections.abc import Iterable, Iterator

from framecalc.client.difference import ClientFact, ClientFacts
from framecalc.look.tones import wood_tone
from framecalc.package.layers import LayerKind
from framecalc.plan.frame import FramePlan
from framecalc.project import Edge
from framecalc.project.section import ProfilePoint
from framecalc.records import replace
from framecalc.section.profile import EdgeShape, FaceShape
from framecalc.words import Wording, joined, say, typed, worded

WEIGHT = "weight"
"""The name of the fact that is told only where the shop chooses to."""

_TOLD_LAYERS = {
    LayerKind.GLAZING: "Glazing",
    LayerKind.BACKING: "Backing",
    LayerKind.BACK: "Back",
}

_EDGES = {
    EdgeShape.SQUARE: "a sharp edge",
    EdgeShape.ARRIS: "an edge just eased",
    EdgeShape.CHAMFER: "a chamfer",
    EdgeShape.ROUND: "a rounding",
    EdgeShape.COVE: "a hollow",
    EdgeShape.STEP: "a step",
    EdgeShape.BEAD: "a bead",
}


def client_facts(plan: FramePlan, *, shows_photo: bool = True, shows_weight: bool = False) -> ClientFacts:
    """The facts about one frame for a client, and what its drawing shows them.

    Args:
        shows_photo: whether they see their picture.
        shows_weight: whether they are told what the whole frame weighs.
    Raises:
        FrameCalcError: the frame cannot be computed.
    """
    facts = tuple(_worded(fact, plan) for fact in (*_facts(plan), *(_weight(plan) if shows_weight else ())))
    seen = tuple(_worded(fact, plan) for fact in _seen_in_drawing(plan, shows_photo))
    return ClientFacts(frame_id=plan.frame.id, frame=plan.frame.name, facts=facts, seen=seen)


def materials_said(plan: FramePlan) -> str:
    """What a frame is made of, in one sentence and in the shop's trade words; typed names stay as typed."""
    section, look = plan.frame.section, plan.frame.look
    wood = (section.moulding.name if plan.is_bought else "") or plan.frame.species or "Wood"
    mat, glazing = look.mat_name, _layer(plan, LayerKind.GLAZING)
    parts = [typed(wood[:1].upper() + wood[1:]), *([typed(look.finish)] if look.finish else [])]
    if plan.is_tray:
        parts.append(worded("an open tray"))
    if plan.mat:
        parts.append(worded("a mat in {mat}", mat=mat) if mat else worded("a mat"))
    if glazing:
        parts.append(worded("behind {glazing}", glazing=glazing))
    sentence: Wording = joined(", ", parts) + "."
    return say(sentence, plan.project.shop.words)


def _facts(plan: FramePlan) -> Iterator[ClientFact]:
    seen, says = _seen(plan)
    yield _size(plan, "outside", "Outside", "outside")
    yield _several(plan) or _size(plan, "picture", says, seen)
    yield _length(plan, "face", "Wall" if plan.is_tray else "Width of the frame's face", "face_width")
    yield _length(plan, "depth", "Depth", "thickness")
    yield from _texts(plan)


def tells_weight(told: Iterable[ClientFacts]) -> bool:
    """Whether a client was told what a frame weighs."""
    return any(fact.name == WEIGHT for facts in told for fact in facts.facts)


def _weight(plan: FramePlan) -> Iterator[ClientFact]:
    mass = plan.package.mass
    yield ClientFact(name=WEIGHT, label="Weighs", text=mass.said(mass.whole_kg, unit=plan.unit))


def _seen_in_drawing(plan: FramePlan, shows_photo: bool) -> Iterator[ClientFact]:
    look = plan.frame.look
    yield ClientFact(name="shape", label="Shape of the frame", text=_shape(plan), in_words=True)
    yield ClientFact(name="wood", label="Wood colour", text=look.wood_colour or wood_tone(plan.frame.species))
    if plan.mat:
        yield ClientFact(name="mat", label="Mat colour", text=look.mat_colour)
    if look.on_wall:
        yield ClientFact(name="wall", label="Wall colour", text=look.wall_colour)
        yield ClientFact(name="light", label="Light on the wall", text=look.light.value, in_words=True)
    if look.photo and shows_photo:
        marks = (look.photo.upper_left, look.photo.upper_right, look.photo.lower_right, look.photo.lower_left)
        places = " ".join(f"{mark.across},{mark.down}" for mark in marks)
        yield ClientFact(name="photo", label="The picture", text=f"{look.photo.id} {places}")


def _shape(plan: FramePlan) -> str:
    """The show side in plain words: its sides, its face, then its edge at the picture and the one at the wall."""
    section = plan.frame.section
    sides = "" if plan.shape.is_rectangle else f"{plan.shape.sides} sides, "
    slope = f"sloping {plan.shape.slope_deg:g}°, " if plan.shape.slopes else ""
    face = "flat face"
    if section.face is FaceShape.POINTS:
        face = _moulded(plan)
    elif section.face is not FaceShape.FLAT:
        face = f"face {section.face}, by {plan.said(section.face_drop.mm)} {plan.unit}"
    sight, back = _edge(plan, "at the picture", section.sight_edge), _edge(plan, "outside", section.back_edge)
    return f"{sides}{slope}{face}, {sight}, {back}"


def _moulded(plan: FramePlan) -> str:
    """A face through typed points, so that any change of one counts."""
    ways = [_to_point(plan, point) for point in plan.frame.section.points]
    return f"moulded face, in {plan.unit} from the picture: {', '.join(ways)}"


def _to_point(plan: FramePlan, point: ProfilePoint) -> str:
    place = f"{plan.said(point.across.mm)} across {plan.said(point.down.mm)} down"
    return place if point.radius is None else f"{point.way} of {plan.said(point.radius.mm)} to {place}"


def _edge(plan: FramePlan, where: str, edge: Edge) -> str:
    size = "" if edge.shape in (EdgeShape.SQUARE, EdgeShape.ARRIS) else f" of {plan.said(edge.size.mm)} {plan.unit}"
    return f"{where} {_EDGES[edge.shape]}{size}"


def _seen(plan: FramePlan) -> tuple[str, str]:
    """Which size of the picture stays in view, and what that is called."""
    if plan.mat:
        return "window", "Picture in view, in the mat's window"
    if plan.is_tray:
        return "artwork", "Picture, all of it in view"
    return ("in_view", "Picture in view") if plan.package.fillet_mm else ("sight", "Picture in view")


def _several(plan: FramePlan) -> ClientFact | None:
    """The windows of a mat that has more than one, those of one size together."""
    mats = plan.package.mats
    if mats is None or len(mats.windows.windows) == 1:
        return None
    sizes = Counter(f"{plan.said(one.across_mm)} × {plan.said(one.up_mm)}" for one in mats.windows.windows)
    text = ", ".join(f"{count} of {size} {plan.unit}" for size, count in sizes.items())
    return ClientFact(name="pictures", label="Pictures in view, in the mat's windows", text=text)


def _size(plan: FramePlan, name: str, label: str, figure: str) -> ClientFact:
    across, up = plan.figures[f"{figure}_across"], plan.figures[f"{figure}_up"]
    return ClientFact(
        name=name,
        label=label,
        text=f"{across.text} × {up.text} {plan.unit}",
        lengths=(("width", across.exact_mm), ("height", up.exact_mm)),
    )


def _length(plan: FramePlan, name: str, label: str, figure: str) -> ClientFact:
    found = plan.figures[figure]
    return ClientFact(name=name, label=label, text=f"{found.text} {plan.unit}", lengths=(("", found.exact_mm),))


def _texts(plan: FramePlan) -> Iterable[ClientFact]:
    """The materials that have a name."""
    look = plan.frame.look
    mat = look.mat_name or next((layer.name for layer in plan.layers if layer.kind is LayerKind.MAT), "")
    named = {
        "moulding": ("Moulding", plan.frame.section.moulding.name if plan.is_bought else ""),
        "wood": ("Wood", plan.frame.species),
        "finish": ("Finish", look.finish),
        "mat": ("Mat", mat if plan.mat else ""),
        **{kind.value: (label, _layer(plan, kind)) for kind, label in _TOLD_LAYERS.items()},
        "count": ("How many", str(plan.frame.count) if plan.frame.count > 1 else ""),
    }
    return [ClientFact(name=name, label=label, text=text) for name, (label, text) in named.items() if text]


def _layer(plan: FramePlan, kind: LayerKind) -> str:
    return ", ".join(layer.name for layer in plan.layers if layer.kind is kind)


def _worded(fact: ClientFact, plan: FramePlan) -> ClientFact:
    """The label in the shop's trade words; typed text stays as typed."""
    return replace(fact, label=say(fact.label, plan.project.shop.words))
