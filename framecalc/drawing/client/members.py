"""The members of a frame as the client sees them: grain along each, every facet of the profile in its own light.

Each member is drawn in units of its own, along and across, and laid on the sheet by a matrix; its grain is whole
numbers of those units, so that a picture stays small. How fine it is follows the pixels that it is seen at, and a
picture that would still weigh too much is drawn a little coarser.
"""

from collections.abc import Iterator, Sequence
from random import Random

from framecalc.drawing.client.seen import ClientFront, SeenWood, SideSeen, sides_on
from framecalc.drawing.pen import Pen
from framecalc.drawing.ring import mitres
from framecalc.drawing.sheet import Area, View
from framecalc.geometry.outline import Point
from framecalc.look.grain import DrawnGrain, DrawnStretch, grain_of
from framecalc.look.light import falling_on, stops_across
from framecalc.look.rings import wave
from framecalc.look.tones import mixed
from framecalc.records import Record
from framecalc.timber.sticks.problem import Grain

MOST_POINTS = 12500
"""How many points the grain of one picture has at most: some 60 kB."""

PX_PER_SHEET_MM = 9.0
"""How finely a panel is seen: the pixels of a large telephone or a screen to a millimetre of the sheet."""

TRIES, NEXT_RATIO = 6, 0.85
"""How often a picture that weighs too much is drawn anew, each time at most so fine beside the time before."""

SHADE, SHINE = "#140a03", "#fff0d6"
PAINT_SHADE, PAINT_SHINE = "#000000", "#fffaf0"
"""What darkens and brightens wood, and a paint. Our own, set by eye, no source."""

SHINE_RATIO, PAINT_SHINE_RATIO = 1.2, 0.62
STREAK_DARK, STREAK_PALE = "#1c0f05", "#ffe9c4"
RAY_PALE = "#fff3d8"


class MemberSeen(Record):
    """One member, the part of it that is on the sheet, and its grain; without grain where a paint hides it."""

    side: SideSeen
    from_mm: float
    to_mm: float
    start_mm: float
    grain: DrawnGrain | None
    number: int


def draw_members(front: ClientFront, view: View, pen: Pen, *, sheet: Area) -> None:
    """Draw the members over their ground, which is there already, and the mitres."""
    if not front.wood.facets or front.face_mm <= 0:
        return
    px_per_mm = view.scale * PX_PER_SHEET_MM
    for member in _members(front, view, sheet, px_per_mm):
        _draw_member(front, member, view, pen, px_per_mm)
    for mitre in mitres(view, front.shape, front.outside_mm, front.sight_mm):
        pen.stroke(mitre, "#170d05", wide=0.045, opacity=0.28 if front.wood.finish.hides else 0.55)


def _members(front: ClientFront, view: View, sheet: Area, px_per_mm: float) -> list[MemberSeen]:
    """The members that are on the sheet, as fine as their picture may be."""
    found = list(_seen(front, view, sheet, px_per_mm))
    for _ in range(TRIES):
        count = sum(one.grain.points_count for one in found if one.grain)
        if count <= MOST_POINTS:
            break
        px_per_mm *= min(NEXT_RATIO, MOST_POINTS / count)
        found = list(_seen(front, view, sheet, px_per_mm))
    return found


def _seen(front: ClientFront, view: View, sheet: Area, px_per_mm: float) -> Iterator[MemberSeen]:
    starts = _starts(front.wood, [side.long_mm for side in sides_on(front, view)])
    for number, side in enumerate(sides_on(front, view)):
        from_mm, to_mm = _on_sheet(side, view, sheet)
        if to_mm <= from_mm:
            continue
        seed, start_mm = starts[number]
        stretch = DrawnStretch(
            wood=front.wood.figure,
            sawn=front.wood.sawn,
            seed=seed,
            start_mm=start_mm,
            from_mm=from_mm,
            to_mm=to_mm,
            face_mm=front.face_mm,
            facets=front.wood.facets,
            px_per_mm=px_per_mm,
        )
        grain = None if front.wood.finish.hides else grain_of(stretch)
        yield MemberSeen(side=side, from_mm=from_mm, to_mm=to_mm, start_mm=start_mm, grain=grain, number=number)


def _starts(wood: SeenWood, lengths: Sequence[float]) -> list[tuple[str, float]]:
    """From which board each member is, and where on it: as the cutting plan wants the grain to run."""
    count, first = len(lengths), wood.breaks_at % len(lengths)
    found = []
    for number in range(count):
        turn = (number - first) % count
        before = sum(lengths[(first + step) % count] for step in range(turn))
        if wood.runs is Grain.ROUND:
            found.append((wood.seed, 40 + before))
        elif wood.runs is Grain.MATES and count % 2 == 0:
            pair, is_second = number % (count // 2), number >= count // 2
            found.append((f"{wood.seed}/{pair}", 40 + is_second * lengths[pair]))
        else:
            found.append((f"{wood.seed}/{number}", 40.0))
    return found


def _on_sheet(side: SideSeen, view: View, sheet: Area) -> tuple[float, float]:
    """The part of a member that can be on the sheet, from where to where along it."""
    corners = [(x, y) for x in (sheet.left_mm, sheet.right_mm) for y in (sheet.top_mm, sheet.bottom_mm)]
    (x, y), (right, down) = side.start, side.along
    places = [((cx - x) * right + (cy - y) * down) / view.scale for cx, cy in corners]
    return max(0.0, min(places)) - 1, min(side.long_mm, max(places)) + 1


def _draw_member(front: ClientFront, member: MemberSeen, view: View, pen: Pen, px_per_mm: float) -> None:
    """In units of its own, clipped to its mitres: the wood, then the light over it."""
    units = max(2, round(px_per_mm * 5))
    side, face_mm = member.side, front.face_mm
    ends = ((0.0, 0.0), (side.long_mm, 0.0), (side.inner_to_mm, face_mm), (side.inner_from_mm, face_mm))
    clip = pen.clip(_path(ends, units, closed=True))
    scale, (right, down), (x, y) = view.scale / units, side.along, side.start
    matrix = (right * scale, down * scale, -down * scale, right * scale, x, y)
    corners = ((member.from_mm, 0.0), (member.to_mm, 0.0), (member.to_mm, face_mm), (member.from_mm, face_mm))
    box = _path(corners, units, closed=True)
    with pen.within(matrix=matrix), pen.within(clip=clip):
        if member.grain:
            _draw_wood(front.wood, member, pen, box=box, units=units, face_mm=face_mm, px_per_mm=px_per_mm)
        _draw_light(front.wood, member, pen, box=box, far=face_mm * units, face_mm=face_mm)


def _draw_wood(
    wood: SeenWood, member: MemberSeen, pen: Pen, *, box: str, units: int, face_mm: float, px_per_mm: float
) -> None:
    if member.grain is None:
        return
    _draw_streaks(wood, member, pen, box=box, units=units, face_mm=face_mm)
    for band in member.grain.bands:
        if band.loops:
            path = "".join(_path(loop, units, closed=True) for loop in band.loops)
            pen.tint(path, wood.late, opacity=band.tint_ratio, even_odd=True)
    _draw_lines(wood, member.grain, pen, Random(f"{wood.seed}/{member.number}"), units, px_per_mm)
    if member.grain.rays:
        path = "".join(_lens(ray, units) for ray in member.grain.rays)
        pen.tint(path, mixed(wood.early, RAY_PALE, by_ratio=0.5), opacity=0.2)


def _draw_streaks(wood: SeenWood, member: MemberSeen, pen: Pen, *, box: str, units: int, face_mm: float) -> None:
    """Slow changes of tone along the board and across it, and the curl of some woods."""
    strength, side = wood.figure.streak_ratio, member.side
    tone, across = wave(Random(f"{wood.seed}/tone"), (0.7, 260), (0.5, 97)), Random(f"{wood.seed}/across")
    along = [tone.at(member.start_mm + side.long_mm * step / 14) * strength * 0.5 for step in range(15)]
    pen.tint(box, pen.fade((0, 0), (side.long_mm * units, 0), _tones(along)))
    streaks = [across.gauss(0, 0.5) * strength for _ in range(10)]
    pen.tint(box, pen.fade((0, 0), (0, face_mm * units), _tones(streaks)))
    if wood.figure.curl_ratio:
        curl = Random(f"{wood.seed}/{member.number}/curl")
        count = min(90, max(2, int(side.long_mm / 13)))
        curls = [curl.uniform(0, 1.2) * wood.figure.curl_ratio * (1 if step % 2 else -1) for step in range(count)]
        pen.tint(box, pen.fade((0, 0), (side.long_mm * units, side.long_mm * units * 0.04), _tones(curls)))


def _tones(changes: Sequence[float]) -> Iterator[tuple[float, str, float]]:
    """Stops that darken and brighten, evenly spread."""
    for number, change in enumerate(changes):
        yield number / (len(changes) - 1), STREAK_DARK if change < 0 else STREAK_PALE, min(abs(change), 0.4)


def _draw_lines(wood: SeenWood, grain: DrawnGrain, pen: Pen, random: Random, units: int, px_per_mm: float) -> None:
    """Fibres and pores: thin dashed lines."""
    dark, pale = mixed(wood.late, "#1d120a", by_ratio=0.45), mixed(wood.early, RAY_PALE, by_ratio=0.4)
    finer, figure = max(0.4, px_per_mm / 4) ** 0.5, wood.figure
    for number, (colour, strength, wide) in enumerate(((dark, 1.0, 0.22), (pale, 1.3, 0.4), (dark, 0.7, 0.55))):
        lines = "".join(_path(one, units) for one in grain.fibres[number::3])
        if lines:
            dash = _dashes(random, units, (9, 46), (5, 40), 8)
            pen.stroke(lines, colour, wide=units * wide / finer, opacity=figure.fibre_ratio * strength, dash=dash)
    for number, (strength, wide) in enumerate(((0.8, 0.24), (0.55, 0.17))):
        rows, size = "".join(_path(one, units) for one in grain.pores[number::2]), figure.pore_mm
        if rows:
            dash = _dashes(random, units, (size * 0.3, size * 1.6), (size * 0.4, size * 2.4), 22)
            pen.stroke(rows, dark, wide=units * wide / finer**0.6, opacity=figure.pores_ratio * strength, dash=dash)


def _dashes(random: Random, units: int, marks: Point, gaps: Point, count: int) -> list[float]:
    return [max(1, round(units * random.uniform(*(gaps if step % 2 else marks)))) for step in range(count)]


def _draw_light(wood: SeenWood, member: MemberSeen, pen: Pen, *, box: str, far: float, face_mm: float) -> None:
    """One fade across the member: darker or brighter by what each facet gets."""
    shade, shine, ratio = (
        (PAINT_SHADE, PAINT_SHINE, PAINT_SHINE_RATIO) if wood.finish.hides else (SHADE, SHINE, SHINE_RATIO)
    )
    lamp = falling_on((member.side.inward[0], member.side.inward[1]))
    stops = (
        (stop.at_mm / face_mm, shade if stop.change_ratio < 0 else shine, _strength(stop.change_ratio, ratio))
        for stop in stops_across(wood.facets, lamp=lamp, finish=wood.finish)
    )
    pen.tint(box, pen.fade((0, 0), (0, far), stops))


def _strength(change: float, shine_ratio: float) -> float:
    return min(0.9, -change if change < 0 else change * shine_ratio)


def _path(points: Sequence[Point], units: int, *, closed: bool = False) -> str:
    """Path data in whole units, each step from the last point: short to write."""
    first, *rest = ((round(x * units), round(y * units)) for x, y in points)
    (x, y), steps = first, list[int]()
    for to_x, to_y in rest:
        steps += (to_x - x, to_y - y)
        x, y = to_x, to_y
    return f"M{first[0]} {first[1]}l{_signed(steps)}" + ("z" if closed else "")


def _lens(ray: tuple[Point, ...], units: int) -> str:
    """A ray: two bows from tip to tip."""
    tip, side, end, other = ((round(x * units), round(y * units)) for x, y in ray)
    bows = _signed([*side, *end]), _signed([*other, *tip])
    return f"M{tip[0]} {tip[1]}Q{bows[0]}Q{bows[1]}z"


def _signed(numbers: Sequence[int]) -> str:
    """Numbers with no more space between them than is needed: a space or the minus sign before each."""
    return ("% d" * len(numbers) % tuple(numbers)).lstrip()
