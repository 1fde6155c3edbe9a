"""The size chain: package, rabbet size, sight size, outside size.

The *package* is all that sits in the rabbet. *Clearance* is its total looseness in one direction, both sides together.
The *rabbet size* is measured wall to wall; the *sight size* is what stays in view; the *outside size* is the long edge
of the members. A tray enters the same chain with a rabbet width of zero and twice its gap for a clearance: its rabbet
size and its sight size are then the inside of its walls. The sizes of a polygon are those across its flats, across and
up alike. Of sides that *slope*, widths are measured in the face, and the rabbet is cut level with the wall, so that the
package lies flat in it; every width takes ``cos S`` of itself from the sizes.
"""

from collections.abc import Mapping

from framecalc.errors import ImpossibleSize
from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.limits import require_not_negative, require_positive
from framecalc.records import Record
from framecalc.sizes.shape import RECTANGLE, Shape
from framecalc.units import TOLERANCE_MM, whole_steps_mm

USUAL_CLEARANCE_MM = 3.0
"""Both sides together, for a package of ordinary size (1/8 in). Source: common practice, no source."""

TIGHT_CLEARANCE_MM = 1.0
"""Under this, both sides together, a package may bind when the air turns damp. Source: common practice, no source."""


class Sizes(Record):
    """All sizes of a frame, across and up; of a polygon both are across its flats. The widths are those in the face."""

    package_across_mm: float
    package_up_mm: float
    clearance_across_mm: float
    clearance_up_mm: float
    rabbet_across_mm: float
    rabbet_up_mm: float
    sight_across_mm: float
    sight_up_mm: float
    outside_across_mm: float
    outside_up_mm: float
    rabbet_width_mm: float
    face_width_mm: float
    shape: Shape = RECTANGLE

    @property
    def perimeter_mm(self) -> float:
        """The long edges of all members together."""
        return sum(self.shape.edges_mm(self.outside_across_mm, self.outside_up_mm))


def sizes_around(
    *,
    package_across_mm: float,
    package_up_mm: float,
    clearance_across_mm: float,
    clearance_up_mm: float,
    rabbet_width_mm: float,
    face_width_mm: float,
    shape: Shape = RECTANGLE,
) -> Sizes:
    """Size the frame around a package.

    ``rabbet = package + clearance``, ``sight = rabbet - 2 * rabbet width * cos S``,
    ``outside = sight + 2 * face width * cos S``.

    Args:
        package_across_mm, package_up_mm: the package at its largest [mm], > 0.
        clearance_across_mm, clearance_up_mm: total looseness [mm]; zero or negative is a finding, not an error.
        rabbet_width_mm: rabbet wall to sight edge, each side [mm], >= 0; 0 in a tray.
        face_width_mm: outside to sight edge, each side [mm], more than the rabbet width.
        shape: the frame's; S is the slope of its sides.
    Raises:
        OutOfRange: a length is out of its range.
        ImpossibleSize: nothing stays in view, or the rabbet is as wide as the member.
    Source: plane geometry; the terms are common practice, no source.

    >>> sizes = sizes_around(package_across_mm=297, package_up_mm=420, clearance_across_mm=3, clearance_up_mm=3,
    ...                      rabbet_width_mm=6, face_width_mm=30)
    >>> sizes.sight_across_mm, sizes.sight_up_mm, sizes.outside_across_mm, sizes.outside_up_mm
    (288.0, 411.0, 348.0, 471.0)
    """
    require_positive(package_across_mm=package_across_mm, package_up_mm=package_up_mm)
    require_land(rabbet_width_mm=rabbet_width_mm, face_width_mm=face_width_mm)
    rabbet_across_mm, rabbet_up_mm = package_across_mm + clearance_across_mm, package_up_mm + clearance_up_mm
    laps_mm, faces_mm = 2 * rabbet_width_mm * shape.flat_ratio, 2 * face_width_mm * shape.flat_ratio
    sight_across_mm, sight_up_mm = rabbet_across_mm - laps_mm, rabbet_up_mm - laps_mm
    _require_sight(min(sight_across_mm, sight_up_mm), rabbet_width_mm=rabbet_width_mm, shape=shape)
    return Sizes(
        package_across_mm=package_across_mm,
        package_up_mm=package_up_mm,
        clearance_across_mm=clearance_across_mm,
        clearance_up_mm=clearance_up_mm,
        rabbet_across_mm=rabbet_across_mm,
        rabbet_up_mm=rabbet_up_mm,
        sight_across_mm=sight_across_mm,
        sight_up_mm=sight_up_mm,
        outside_across_mm=sight_across_mm + faces_mm,
        outside_up_mm=sight_up_mm + faces_mm,
        rabbet_width_mm=rabbet_width_mm,
        face_width_mm=face_width_mm,
        shape=shape,
    )


def sizes_within(
    *,
    outside_across_mm: float,
    outside_up_mm: float,
    clearance_across_mm: float,
    clearance_up_mm: float,
    rabbet_width_mm: float,
    face_width_mm: float,
    shape: Shape = RECTANGLE,
) -> Sizes:
    """Size the frame inside a space on the wall: the package is what remains.

    ``package = outside - 2 * (face width - rabbet width) - clearance``.

    Args:
        outside_across_mm, outside_up_mm: the space that the frame fills [mm], > 0.
        clearance_across_mm, clearance_up_mm, rabbet_width_mm, face_width_mm, shape: as in `sizes_around`.
    Raises:
        ImpossibleSize: the members and the clearance use up the space; the sentence names the border.
    Source: plane geometry, the chain of `sizes_around` read from its other end.

    >>> sizes_within(outside_across_mm=348, outside_up_mm=471, clearance_across_mm=3, clearance_up_mm=3,
    ...              rabbet_width_mm=6, face_width_mm=30).package_up_mm
    420.0
    """
    require_positive(wall_across_mm=outside_across_mm, wall_up_mm=outside_up_mm)
    require_land(rabbet_width_mm=rabbet_width_mm, face_width_mm=face_width_mm)
    wall = {"wall_across_mm": (outside_across_mm, clearance_across_mm), "wall_up_mm": (outside_up_mm, clearance_up_mm)}
    _require_room(wall, rabbet_width_mm=rabbet_width_mm, face_width_mm=face_width_mm, shape=shape)
    lands_mm = 2 * (face_width_mm - rabbet_width_mm) * shape.flat_ratio
    package_across_mm = outside_across_mm - lands_mm - clearance_across_mm
    package_up_mm = outside_up_mm - lands_mm - clearance_up_mm
    return sizes_around(
        package_across_mm=package_across_mm,
        package_up_mm=package_up_mm,
        clearance_across_mm=clearance_across_mm,
        clearance_up_mm=clearance_up_mm,
        rabbet_width_mm=rabbet_width_mm,
        face_width_mm=face_width_mm,
        shape=shape,
    )


def fit_to_the_tape(sizes: Sizes, *, step_mm: float) -> Sizes:
    """Bring every set-up number to whole steps; the clearance takes up the difference.

    The widths go to the nearest step and the rabbet size up to the next one, so that the package never has less
    clearance than asked for; sight and outside of flat sides are then whole steps too. The package stays as measured.

    Args:
        sizes: the frame as computed.
        step_mm: what the tape is read to [mm], > 0.
    Raises:
        ImpossibleSize: in whole steps of this size the frame cannot be made.
    Source: derived.

    >>> exact = sizes_around(package_across_mm=297.3, package_up_mm=420, clearance_across_mm=3, clearance_up_mm=3,
    ...                      rabbet_width_mm=6.2, face_width_mm=30)
    >>> fitted = fit_to_the_tape(exact, step_mm=1)
    >>> fitted.rabbet_across_mm, fitted.outside_across_mm, round(fitted.clearance_across_mm, 3)
    (301.0, 349.0, 3.7)
    """
    require_positive(step_mm=step_mm)
    across_mm = whole_steps_mm(sizes.rabbet_across_mm, step_mm=step_mm, rounding=Rounding.UP)
    up_mm = whole_steps_mm(sizes.rabbet_up_mm, step_mm=step_mm, rounding=Rounding.UP)
    return sizes_around(
        package_across_mm=sizes.package_across_mm,
        package_up_mm=sizes.package_up_mm,
        clearance_across_mm=across_mm - sizes.package_across_mm,
        clearance_up_mm=up_mm - sizes.package_up_mm,
        rabbet_width_mm=whole_steps_mm(sizes.rabbet_width_mm, step_mm=step_mm, rounding=Rounding.NEAREST),
        face_width_mm=whole_steps_mm(sizes.face_width_mm, step_mm=step_mm, rounding=Rounding.NEAREST),
        shape=sizes.shape,
    )


def sizes_findings(sizes: Sizes, *, usual_clearance_mm: float = USUAL_CLEARANCE_MM) -> tuple[Finding, ...]:
    """Report where the package has no clearance, or little.

    Args:
        sizes: the frame.
        usual_clearance_mm: what this kind of artwork usually gets, both sides together [mm], > 0.
    Source: common practice, no source.

    >>> tight = sizes_around(package_across_mm=297, package_up_mm=420, clearance_across_mm=0, clearance_up_mm=3,
    ...                      rabbet_width_mm=6, face_width_mm=30)
    >>> [(finding.code, finding.argument) for finding in sizes_findings(tight)]
    [('sizes.no-clearance', 'clearance_across_mm')]
    """
    clearances = {"across": sizes.clearance_across_mm, "up": sizes.clearance_up_mm}
    return tuple(
        _clearance_finding(direction, clearance_mm, usual_clearance_mm)
        for direction, clearance_mm in clearances.items()
        if clearance_mm < TIGHT_CLEARANCE_MM - TOLERANCE_MM
    )


def known_outside_findings(
    sizes: Sizes, *, known_across_mm: float | None = None, known_up_mm: float | None = None, step_mm: float = 0.0
) -> tuple[Finding, ...]:
    """Report where a known outside size contradicts the chain, by how much, and what reconciles them.

    Up to half a step the tape reads the same, and up to a step apart is only noted. A difference in one direction can
    be taken by the clearance of that direction. The face width moves both directions alike, so it is a way out only
    where it leaves no other contradiction. The outside of a polygon is that of the upright rectangle round it.

    Args:
        sizes: the frame as computed.
        known_across_mm, known_up_mm: the outside size as known from elsewhere [mm]; None where it is not.
        step_mm: what the tape is read to [mm], >= 0.
    Source: plane geometry; what a tape can tell is common practice, no source.

    >>> frame = sizes_around(package_across_mm=297, package_up_mm=420, clearance_across_mm=3, clearance_up_mm=3,
    ...                      rabbet_width_mm=6, face_width_mm=30)
    >>> finding, = known_outside_findings(frame, known_across_mm=350)
    >>> [(way.argument, way.value_mm) for way in finding.ways]
    [('clearance_across_mm', 5.0), ('face_width_mm', 31.0), ('known_outside_across_mm', 348.0)]
    """
    differences, outside = {}, sizes.shape.extent(sizes.outside_across_mm, sizes.outside_up_mm)
    if known_across_mm is not None:
        differences["across"] = known_across_mm - outside.across_mm
    if known_up_mm is not None:
        differences["up"] = known_up_mm - outside.up_mm
    ways = _face_width_ways(sizes, tuple(differences.values()))
    return tuple(
        _known_outside_finding(sizes, direction, more_mm, ways, is_near=abs(more_mm) <= step_mm + TOLERANCE_MM)
        for direction, more_mm in differences.items()
        if abs(more_mm) > step_mm / 2 + TOLERANCE_MM
    )


def require_land(*, rabbet_width_mm: float, face_width_mm: float) -> None:
    """Refuse a rabbet as wide as its member.

    Raises:
        OutOfRange: a width is out of range.
        ImpossibleSize: no land is left.
    Source: derived.

    >>> require_land(rabbet_width_mm=6, face_width_mm=30)
    """
    require_positive(face_width_mm=face_width_mm)
    require_not_negative(rabbet_width_mm=rabbet_width_mm)
    if face_width_mm - rabbet_width_mm <= TOLERANCE_MM:
        raise ImpossibleSize(
            "No land left: enter a rabbet width under {face}.",
            field="rabbet_width_mm",
            lengths={"face": face_width_mm},
        )


def _require_sight(sight_mm: float, *, rabbet_width_mm: float, shape: Shape) -> None:
    if sight_mm <= TOLERANCE_MM:
        more_mm = sight_mm / 2 / shape.flat_ratio if shape.flat_ratio else 0.0
        raise ImpossibleSize(
            "Nothing left in view: enter a rabbet width under {half}, not {rabbet}.",
            field="rabbet_width_mm",
            lengths={"rabbet": rabbet_width_mm, "half": rabbet_width_mm + more_mm},
        )


def _require_room(
    wall: Mapping[str, tuple[float, float]], *, rabbet_width_mm: float, face_width_mm: float, shape: Shape
) -> None:
    """Refuse a space that is used up: by its members, or, where no member would do, by being too small.

    Of each space, by its argument, the size and the clearance are given. The faces and what clearance is more than the
    rabbets have to go into it, with something to spare.
    """
    faces_mm, rabbets_mm = (2 * width_mm * shape.flat_ratio for width_mm in (face_width_mm, rabbet_width_mm))
    rooms = {name: outside_mm - max(loose_mm - rabbets_mm, 0) for name, (outside_mm, loose_mm) in wall.items()}
    argument, room_mm = min(rooms.items(), key=lambda room: room[1])
    if room_mm - faces_mm > TOLERANCE_MM:
        return
    space_mm, widest_mm = wall[argument][0], room_mm / 2 / shape.flat_ratio if shape.flat_ratio else 0.0
    if widest_mm - rabbet_width_mm > TOLERANCE_MM:
        raise ImpossibleSize(
            "No room left in {space}: enter members narrower than {face}.",
            field="face_width_mm",
            lengths={"face": widest_mm, "space": space_mm},
        )
    raise ImpossibleSize(
        "No room left in {space}: enter more than {least}.",
        field=argument,
        lengths={"space": space_mm, "least": space_mm + faces_mm - room_mm},
    )


def _clearance_finding(direction: str, clearance_mm: float, usual_mm: float) -> Finding:
    none = clearance_mm <= TOLERANCE_MM
    argument = f"clearance_{direction}_mm"
    return Finding(
        code="sizes.no-clearance" if none else "sizes.tight-clearance",
        severity=Severity.STOP if none else Severity.WARN,
        sentence=f"The package has {{clearance}} of clearance {direction}; {{usual}} is usual.",
        why="A package as large as its rabbet does not go in, and one that binds pushes the mitres apart in damp air.",
        source="usual practice",
        argument=argument,
        lengths={"clearance": clearance_mm, "usual": usual_mm},
        ways=(Way(argument=argument, value_mm=usual_mm, says="give the usual clearance", rounding=Rounding.UP),),
    )


def _face_width_ways(sizes: Sizes, differences_mm: tuple[float, ...]) -> tuple[Way, ...]:
    """The face width as a way out, if it makes good every difference and stays wider than the rabbet.

    A polygon has none: its outside in one direction moves by more than its widths.
    """
    if not differences_mm or not sizes.shape.flat_ratio or not sizes.shape.is_rectangle:
        return ()
    if max(differences_mm) - min(differences_mm) > TOLERANCE_MM:
        return ()
    face_width_mm = sizes.face_width_mm + differences_mm[0] / 2 / sizes.shape.flat_ratio
    if face_width_mm - sizes.rabbet_width_mm <= TOLERANCE_MM:
        return ()
    return (Way(argument="face_width_mm", value_mm=face_width_mm, says="change the face width"),)


def _known_outside_finding(
    sizes: Sizes, direction: str, more_mm: float, face_width_ways: tuple[Way, ...], *, is_near: bool
) -> Finding:
    across = direction == "across"
    outside = sizes.shape.extent(sizes.outside_across_mm, sizes.outside_up_mm)
    argument, outside_mm = f"known_outside_{direction}_mm", outside.across_mm if across else outside.up_mm
    clearance_mm = more_mm + (sizes.clearance_across_mm if across else sizes.clearance_up_mm)
    clearance_way = Way(argument=f"clearance_{direction}_mm", value_mm=clearance_mm, says="change the clearance")
    return Finding(
        code=f"sizes.known-outside-{direction}",
        severity=Severity.NOTE if is_near else Severity.STOP,
        sentence=f"The outside {direction} is known as {{known}}, but the other sizes make it {{outside}}: "
        "{difference} apart.",
        why="Package, clearance, rabbet width and face width settle the outside; one of them is not what it says.",
        source="plane geometry",
        argument=argument,
        lengths={"known": outside_mm + more_mm, "outside": outside_mm, "difference": abs(more_mm)},
        ways=(
            *((clearance_way,) if clearance_mm > TOLERANCE_MM and sizes.shape.is_rectangle else ()),
            *face_width_ways,
            Way(argument=argument, value_mm=outside_mm, says="take the outside size as computed"),
        ),
    )
