"""The card of the mitre saw: test pieces first, then every stop once for the whole job, mates together."""

from collections.abc import Iterable, Iterator, Mapping

from framecalc.bench.cards import Card, CardLine, Fact, Machine, Setting, StopState
from framecalc.bench.rabbet_ways import RabbetWay
from framecalc.corners.angles import flat_on_the_table, write_angle
from framecalc.corners.saw import Turn
from framecalc.corners.saw_kinds import CUTTING_CAUTIONS, SawKind
from framecalc.corners.saw_record import SawVerdict
from framecalc.plan.bench.writing import BenchJob, GroupAtBench, named
from framecalc.plan.corners.same_saw import saw_of
from framecalc.plan.timber.as_cut import TOO_SHORT, cut_again, cut_elsewhere, plan_as_cut, too_short
from framecalc.plan.timber.machine_work import has_rabbet_at_saw
from framecalc.records import Record, replace
from framecalc.sizes.shape import Shape
from framecalc.timber.labels import label_of
from framecalc.timber.sticks.problem import Piece, PieceName, Purpose, name_of
from framecalc.timber.stops import SawHint, Stop, cutting_cautions, hints_at_the_saw, stops_for
from framecalc.units import TOLERANCE_MM, describe_gap
from framecalc.words import Wording, capitalised, joined, typed, worded

_TESTS = "Cut these before any good wood, close a corner dry, and type the gaps on Corners."
_AS_CUT = "Longer or shorter than planned ({planned}): it follows what came out."
_CARRIER = (
    "Short pieces: never by hand. Clamp them in a carrier, a long waste board with a fence, and cut off a long stick."
)
_RIGHT, _BOTH = "right", "both sides of the blade"


class _AtStop(Record):
    """What one group has cut at one stop; `planned_mm` is the long point as it was planned."""

    group: GroupAtBench
    stop: Stop
    planned_mm: float


def saw_card(job: BenchJob) -> Iterator[Card]:
    """The card of the mitre saw; none where the supplier cuts all sides."""
    tests, stops = tuple(_tests(job)), tuple(_stops(job))
    if not stops:
        return
    yield Card(
        machine=Machine.MITRE,
        settings=(*tests, *stops),
        says=(*_too_short(job), *(hint.says for hint in _hints(job, is_tested=bool(tests)))),
        cautions=tuple(_cautions(job)),
        name=_name_of_saw(job),
    )


def _kinds(job: BenchJob) -> list[SawKind]:
    """What the ends of the job are cut with, each kind once."""
    frames = (frame for group in job.at_the_saw for frame in group.frames)
    return list(dict.fromkeys(frame.frame.corner.saw_kind for frame in frames))


def _cautions(job: BenchJob) -> Iterator[str]:
    """The cautions of every kind of saw of the job, each once."""
    yield from dict.fromkeys(caution for kind in _kinds(job) for caution in CUTTING_CAUTIONS[kind])


def _name_of_saw(job: BenchJob) -> str:
    """What the card is called: by the kind of saw, where all ends are cut with one."""
    kinds = _kinds(job)
    return capitalised(kinds[0].value) if len(kinds) == 1 else ""


def _too_short(job: BenchJob) -> Iterator[Wording]:
    """The sticks that no longer hold their pieces as they came out."""
    for group in job.at_the_saw:
        cut = plan_as_cut(group.plan, group=group.group, project=job.project) if group.plan else None
        for one in too_short(cut) if cut else ():
            yield worded(TOO_SHORT, stick=one.label, short=job.said(one.by_mm))


def _hints(job: BenchJob, *, is_tested: bool) -> Iterator[SawHint]:
    is_after = job.project.bench.rabbet_way is RabbetWay.BEARING
    has_rabbet = any(has_rabbet_at_saw(one.group) for one in job.groups) and not is_after
    yield from hints_at_the_saw(milled=has_rabbet, tested=is_tested)


def _tests(job: BenchJob) -> Iterator[Setting]:
    """The test pieces of every group."""
    for group in job.at_the_saw:
        pieces = [(key, piece) for key, piece in _pieces(group) if piece.purpose is Purpose.TEST]
        if pieces:
            yield Setting(
                title="Test pieces first",
                serves=job.title(group.group),
                label="Long point",
                big=group.group.long_point(pieces[0][1].length_mm),
                facts=tuple(_facts(job, group)),
                says=(_TESTS,),
                lines=tuple(CardLine(key=key, text=piece.label) for key, piece in pieces),
                stop=_seen(job, group),
            )


def _stops(job: BenchJob) -> Iterator[Setting]:
    """Every stop once, the longest first; groups that are cut at one angle share it."""
    found: dict[tuple[str, str], list[_AtStop]] = {}
    for group in job.at_the_saw:
        for one in _stops_of(job, group):
            found.setdefault((group.group.long_point(one.stop.long_mm), _angle(group)), []).append(one)
    longest_first = sorted(found.items(), key=lambda item: -item[1][0].stop.long_mm)
    for number, ((big, _), alike) in enumerate(longest_first, start=1):
        yield _stop(job, number, big, alike)


def _stop(job: BenchJob, number: int, big: str, alike: list[_AtStop]) -> Setting:
    group = alike[0].group
    pieces = [(one, piece) for one in alike for piece in one.stop.pieces]
    keys = {name_of(piece): key for one in alike for key, piece in _pieces(one.group)}
    moved = [one for one in alike if abs(one.stop.long_mm - one.planned_mm) > TOLERANCE_MM]
    return Setting(
        title=f"Stop {number}",
        serves=named(piece.frame for _, piece in pieces),
        label="Long point",
        big=big,
        facts=(
            Fact(label="Short point", text=group.group.short_point(alike[0].stop)),
            *_facts(job, group),
            Fact(label="Pieces", text=str(len(pieces))),
        ),
        says=(
            *(worded(_AS_CUT, planned=one.group.group.long_point(one.planned_mm)) for one in moved[:1]),
            *([_CARRIER] if any(map(_has_short_pieces, alike)) else []),
        ),
        lines=tuple(
            _line(keys, one.group, piece, is_one=len({each.frame for _, each in pieces}) == 1) for one, piece in pieces
        ),
        stop=_seen(job, group),
    )


def _has_short_pieces(one: _AtStop) -> bool:
    """Whether a piece is too short to be held by hand at the saw."""
    return bool(cutting_cautions(one.stop.pieces, slope_mm=one.group.group.problem.slope_mm))


def _line(keys: Mapping[PieceName, str], group: GroupAtBench, piece: Piece, *, is_one: bool) -> CardLine:
    """A piece, and which one its mate is: the two are cut one after the other; the only frame is named above."""
    mate = label_of(piece, sides=group.group.section.sides).mate
    of = f"No. {piece.copy}" if is_one else joined("", [typed(piece.frame), f"/{piece.copy}"])
    side = f"Side {piece.side}" if piece.side.isdigit() else piece.side.capitalize()
    extra = "" if piece.purpose is Purpose.MEMBER else f" ({piece.purpose})"
    says = joined(", mate: ", filter(None, (of, mate)))
    wood = next((one.says for one in cut_again(group.group, group.project) if one.piece == piece), "")
    return CardLine(key=keys[name_of(piece)], text=side + extra, says=joined(", from ", filter(None, (says, wood))))


def _stops_of(job: BenchJob, group: GroupAtBench) -> Iterator[_AtStop]:
    """The stops of a group: long points as planned, or as they follow from what came out."""
    gone = cut_elsewhere(group.plan, group=group.group, project=job.project) if group.plan else frozenset()
    planned = {
        name_of(piece): piece
        for _, piece in _pieces(group)
        if piece.purpose is not Purpose.MEMBER or (piece.frame, piece.copy, piece.side) not in gone
    }
    cut = [
        piece if piece.purpose is Purpose.AGAIN else replace(piece, length_mm=piece.length_mm + job.longer_mm(piece))
        for piece in planned.values()
    ]
    for stop in stops_for(cut, problem=group.group.problem, both_sides=group.group.both_sides):
        yield _AtStop(group=group, stop=stop, planned_mm=planned[name_of(stop.pieces[0])].length_mm)


def _pieces(group: GroupAtBench) -> tuple[tuple[str, Piece], ...]:
    """Every piece that was not cut before, with the key of its line; without a cutting plan in a list of their own."""
    name, pieces = "loose", group.group.searched.pieces
    before = group.work.cut_before if group.work else frozenset()
    if group.work:
        name, pieces = "pieces", tuple(piece for *_, piece in group.work.pieces)
    again = (one.piece for one in cut_again(group.group, group.project))
    keyed = (*_keyed(group, name, pieces), *_keyed(group, "again", again))
    return tuple((key, piece) for key, piece in keyed if name_of(piece) not in before)


def _keyed(group: GroupAtBench, name: str, pieces: Iterable[Piece]) -> Iterator[tuple[str, Piece]]:
    for number, piece in enumerate(pieces, start=1):
        yield group.key(name, number), piece


def _facts(job: BenchJob, group: GroupAtBench) -> Iterator[Fact]:
    yield Fact(label="Saw at", text=_angle(group))
    yield from _shim(job, group)
    yield Fact(label="Stop on the", text=_BOTH if group.group.both_sides else _RIGHT)


def _angle(group: GroupAtBench) -> str:
    """The setting of the saw, from a square cut; with the blade's tilt where the sides slope."""
    section = group.group.section
    half_turn_deg = Shape(sides=section.sides).half_turn_deg
    if not section.slope_deg:
        return f"{half_turn_deg:g}°"
    saw = flat_on_the_table(half_turn_deg=half_turn_deg, slope_deg=section.slope_deg)
    return f"{write_angle(saw.mitre_deg)}, blade tilted {write_angle(saw.tilt_deg)}"


def _shim(job: BenchJob, group: GroupAtBench) -> Iterator[Fact]:
    """The shim that the record of this saw asks for: by the test cuts of these frames, or of another at its setting."""
    corner = group.frames[0].frame.corner
    alike = [one for one in job.frames if saw_of(one.frame.corner) == saw_of(corner)]
    for frame in sorted(alike, key=lambda one: not group.group.holds(one)):
        saw = frame.corners.saw
        record = saw.record(job.cuts_elsewhere.get(frame.frame.id, ()))
        if record is None:
            continue
        turn = saw.correction(record) if record.verdict in (SawVerdict.TURN, SawVerdict.ANOTHER_CUT) else None
        if turn and turn.turn is not Turn.NONE:
            yield Fact(label="Shim", text=describe_gap(turn.shim_mm, unit=job.project.unit))
        return


def _seen(job: BenchJob, group: GroupAtBench) -> StopState:
    """What the drawing of a stop shows."""
    section, frame = group.group.section, group.frames[0]
    is_rabbeted = has_rabbet_at_saw(group.group) and job.project.bench.rabbet_way is not RabbetWay.BEARING
    return StopState(
        half_turn_deg=Shape(sides=section.sides).half_turn_deg,
        rabbet_ratio=frame.strip_mm[0] / section.width_mm if is_rabbeted and not frame.is_tray else 0.0,
        shim=any(_shim(job, group)),
    )
