"""The size chain: package, rabbet size, sight size, outside size; and the inside of a tray.

The *package* is all that sits in the rabbet. *Clearance* is its total looseness in one direction, both sides together.
The *rabbet size* is measured wall to wall; the *sight size* is what stays in view; the *outside size* is the long edge
of the members. A *tray* has no rabbet: the artwork lies on a ledge with an even gap around it, and nothing laps over it.

The chain can be entered from the package, from the outside, from a stock size or from the length of one stick.
"""

from dataclasses import dataclass
from math import sqrt

from framecalc.errors import ImpossibleSize
from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.units import TOLERANCE_MM, whole_steps_mm

KERFS_IN_A_STICK = 3
"""Cuts between the four members of one stick; the cuts at its two ends are in the trims."""

TIGHT_CLEARANCE_MM = 1.0
"""Under this, both sides together, a package may bind when the air turns damp. Source: common practice, no source."""

BEARING_MM = 3.0
"""The least strip of ledge that should carry an artwork in a tray. Source: common practice, no source."""

_PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """All sizes of a rectangular frame, across and up."""

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

    @property
    def perimeter_mm(self) -> float:
        """The long edges of the four members together."""
        return 2 * (self.outside_across_mm + self.outside_up_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class TapeFit:
    """Sizes in whole steps, the widths they need, and the clearance that takes up the difference."""

    sizes: Sizes
    rabbet_width_mm: float
    face_width_mm: float


def sizes_around(
    *,
    package_across_mm: float,
    package_up_mm: float,
    clearance_across_mm: float,
    clearance_up_mm: float,
    rabbet_width_mm: float,
    face_width_mm: float,
) -> Sizes:
    """Size the frame around a package.

    ``rabbet = package + clearance``, ``sight = rabbet - 2 * rabbet width``, ``outside = sight + 2 * face width``.

    Args:
        package_across_mm, package_up_mm: the package at its largest [mm], > 0.
        clearance_across_mm, clearance_up_mm: total looseness [mm]; zero or negative is a finding, not an error.
        rabbet_width_mm: rabbet wall to sight edge, each side [mm]; 0 in a tray, where nothing laps over the package.
        face_width_mm: outside to sight edge, each side [mm], more than the rabbet width.
    Raises:
        ImpossibleSize: a length is not above zero, or nothing stays in view, or the rabbet is as wide as the member.
    Source: plane geometry; the terms are common practice, no source.

    >>> sizes = sizes_around(package_across_mm=297, package_up_mm=420, clearance_across_mm=3, clearance_up_mm=3,
    ...                      rabbet_width_mm=6, face_width_mm=30)
    >>> sizes.sight_across_mm, sizes.sight_up_mm, sizes.outside_across_mm, sizes.outside_up_mm
    (288, 411, 348, 471)
    """
    _require_positive(package_across_mm=package_across_mm, package_up_mm=package_up_mm)
    _require_land(rabbet_width_mm, face_width_mm)
    rabbet_across_mm, rabbet_up_mm = package_across_mm + clearance_across_mm, package_up_mm + clearance_up_mm
    sight_across_mm, sight_up_mm = rabbet_across_mm - 2 * rabbet_width_mm, rabbet_up_mm - 2 * rabbet_width_mm
    if min(sight_across_mm, sight_up_mm) <= TOLERANCE_MM:
        _refuse_blind_frame(rabbet_width_mm, narrow_mm=min(rabbet_across_mm, rabbet_up_mm))
    return Sizes(
        package_across_mm=package_across_mm,
        package_up_mm=package_up_mm,
        clearance_across_mm=clearance_across_mm,
        clearance_up_mm=clearance_up_mm,
        rabbet_across_mm=rabbet_across_mm,
        rabbet_up_mm=rabbet_up_mm,
        sight_across_mm=sight_across_mm,
        sight_up_mm=sight_up_mm,
        outside_across_mm=sight_across_mm + 2 * face_width_mm,
        outside_up_mm=sight_up_mm + 2 * face_width_mm,
    )


def sizes_within(
    *,
    outside_across_mm: float,
    outside_up_mm: float,
    clearance_across_mm: float,
    clearance_up_mm: float,
    rabbet_width_mm: float,
    face_width_mm: float,
) -> Sizes:
    """Size the frame inside a space on the wall: the package is what remains.

    ``package = outside - 2 * (face width - rabbet width) - clearance``.

    Args: as `sizes_around`; outside_across_mm, outside_up_mm: the space the frame fills [mm], > 0.
    Raises:
        ImpossibleSize: the members and the clearance use up the space.
    Source: plane geometry, the chain of `sizes_around` read from its other end.

    >>> sizes_within(outside_across_mm=348, outside_up_mm=471, clearance_across_mm=3, clearance_up_mm=3,
    ...              rabbet_width_mm=6, face_width_mm=30).package_up_mm
    420
    """
    _require_land(rabbet_width_mm, face_width_mm)
    lands_mm = 2 * (face_width_mm - rabbet_width_mm)
    package_across_mm = outside_across_mm - lands_mm - clearance_across_mm
    package_up_mm = outside_up_mm - lands_mm - clearance_up_mm
    if min(package_across_mm, package_up_mm) <= TOLERANCE_MM:
        raise ImpossibleSize(
            "members {face} wide leave no room for a package in a space {space} wide: narrower members would do",
            field="face_width_mm",
            lengths={"face": face_width_mm, "space": min(outside_across_mm, outside_up_mm)},
        )
    return sizes_around(
        package_across_mm=package_across_mm,
        package_up_mm=package_up_mm,
        clearance_across_mm=clearance_across_mm,
        clearance_up_mm=clearance_up_mm,
        rabbet_width_mm=rabbet_width_mm,
        face_width_mm=face_width_mm,
    )


def sizes_taking(
    *,
    rabbet_across_mm: float,
    rabbet_up_mm: float,
    package_across_mm: float,
    package_up_mm: float,
    rabbet_width_mm: float,
    face_width_mm: float,
) -> Sizes:
    """Size a frame whose rabbet size is settled, such as one that takes a stock size: the clearance is what remains.

    ``clearance = rabbet - package``.

    Args: as `sizes_around`; rabbet_across_mm, rabbet_up_mm: rabbet wall to rabbet wall [mm].
    Raises: as `sizes_around`.
    Source: plane geometry, the chain of `sizes_around` entered in its middle.

    >>> sizes_taking(rabbet_across_mm=206, rabbet_up_mm=257, package_across_mm=200, package_up_mm=250,
    ...              rabbet_width_mm=6, face_width_mm=30).clearance_up_mm
    7
    """
    return sizes_around(
        package_across_mm=package_across_mm,
        package_up_mm=package_up_mm,
        clearance_across_mm=rabbet_across_mm - package_across_mm,
        clearance_up_mm=rabbet_up_mm - package_up_mm,
        rabbet_width_mm=rabbet_width_mm,
        face_width_mm=face_width_mm,
    )


def fit_to_the_tape(sizes: Sizes, *, rabbet_width_mm: float, face_width_mm: float, step_mm: float) -> TapeFit:
    """Bring every set-up number to whole steps; the clearance takes up the difference.

    The widths go to the nearest step, the rabbet size up to the next one, so that the package never has less
    clearance than was asked; sight and outside then are whole steps too. The package stays as measured.

    Args:
        sizes: the frame as computed.
        rabbet_width_mm, face_width_mm: the widths it was computed with [mm].
        step_mm: what the tape is read to [mm], > 0.
    Raises:
        ImpossibleSize: in whole steps of this size the frame cannot be made.
    Source: derived.

    >>> exact = sizes_around(package_across_mm=297.3, package_up_mm=420, clearance_across_mm=3, clearance_up_mm=3,
    ...                      rabbet_width_mm=6.2, face_width_mm=30)
    >>> fit = fit_to_the_tape(exact, rabbet_width_mm=6.2, face_width_mm=30, step_mm=1)
    >>> fit.sizes.rabbet_across_mm, fit.sizes.outside_across_mm, round(fit.sizes.clearance_across_mm, 3)
    (301.0, 349.0, 3.7)
    """
    _require_positive(step_mm=step_mm)
    rabbet_width_mm = whole_steps_mm(rabbet_width_mm, step_mm=step_mm, rounding=Rounding.NEAREST)
    face_width_mm = whole_steps_mm(face_width_mm, step_mm=step_mm, rounding=Rounding.NEAREST)
    fitted = sizes_taking(
        rabbet_across_mm=whole_steps_mm(sizes.rabbet_across_mm, step_mm=step_mm, rounding=Rounding.UP),
        rabbet_up_mm=whole_steps_mm(sizes.rabbet_up_mm, step_mm=step_mm, rounding=Rounding.UP),
        package_across_mm=sizes.package_across_mm,
        package_up_mm=sizes.package_up_mm,
        rabbet_width_mm=rabbet_width_mm,
        face_width_mm=face_width_mm,
    )
    return TapeFit(sizes=fitted, rabbet_width_mm=rabbet_width_mm, face_width_mm=face_width_mm)


def sizes_findings(sizes: Sizes, *, usual_clearance_mm: float) -> tuple[Finding, ...]:
    """Say where the package has no clearance, or little.

    Args:
        sizes: the frame.
        usual_clearance_mm: what this kind of artwork usually gets, both sides together [mm], > 0.
    Source: common practice, no source.

    >>> tight = sizes_around(package_across_mm=297, package_up_mm=420, clearance_across_mm=0, clearance_up_mm=3,
    ...                      rabbet_width_mm=6, face_width_mm=30)
    >>> [finding.code for finding in sizes_findings(tight, usual_clearance_mm=3)]
    ['sizes.no-clearance']
    """
    clearances = {"across": sizes.clearance_across_mm, "up": sizes.clearance_up_mm}
    return tuple(
        _clearance_finding(direction, clearance_mm, usual_clearance_mm)
        for direction, clearance_mm in clearances.items()
        if clearance_mm < TIGHT_CLEARANCE_MM - TOLERANCE_MM
    )


def known_outside_findings(
    sizes: Sizes,
    *,
    rabbet_width_mm: float,
    face_width_mm: float,
    known_across_mm: float | None = None,
    known_up_mm: float | None = None,
) -> tuple[Finding, ...]:
    """Say where an outside size that is also known contradicts the chain, by how much, and what would reconcile them.

    A difference in one direction can be taken by the clearance of that direction. The face width moves both directions
    alike, so it is a way out only where it leaves no other contradiction.

    Args:
        sizes: the frame as computed.
        rabbet_width_mm, face_width_mm: the widths it was computed with [mm].
        known_across_mm, known_up_mm: the outside size as known from elsewhere [mm]; None where it is not.
    Source: plane geometry.

    >>> frame = sizes_around(package_across_mm=297, package_up_mm=420, clearance_across_mm=3, clearance_up_mm=3,
    ...                      rabbet_width_mm=6, face_width_mm=30)
    >>> finding, = known_outside_findings(frame, rabbet_width_mm=6, face_width_mm=30, known_across_mm=350)
    >>> [(way.argument, way.value_mm) for way in finding.ways]
    [('clearance_across_mm', 5), ('face_width_mm', 31.0), ('known_outside_across_mm', 348)]
    """
    differences = {}
    if known_across_mm is not None:
        differences["across"] = known_across_mm - sizes.outside_across_mm
    if known_up_mm is not None:
        differences["up"] = known_up_mm - sizes.outside_up_mm
    wider_mm = _common_difference(tuple(differences.values()))
    face_mm = None if wider_mm is None else face_width_mm + wider_mm / 2
    if face_mm is not None and face_mm - rabbet_width_mm <= TOLERANCE_MM:
        face_mm = None
    return tuple(
        _known_outside_finding(sizes, direction, more_mm, face_mm)
        for direction, more_mm in differences.items()
        if abs(more_mm) > TOLERANCE_MM
    )


def _clearance_finding(direction: str, clearance_mm: float, usual_mm: float) -> Finding:
    none = clearance_mm <= TOLERANCE_MM
    argument = f"clearance_{direction}_mm"
    return Finding(
        code="sizes.no-clearance" if none else "sizes.tight-clearance",
        severity=Severity.STOP if none else Severity.WARN,
        sentence=f"The package has {{clearance}} of clearance {direction}; {{usual}} is usual",
        why="A package as large as its rabbet does not go in, and one that binds pushes the mitres apart in damp air.",
        source=_PRACTICE,
        argument=argument,
        lengths={"clearance": clearance_mm, "usual": usual_mm},
        ways=(Way(argument=argument, value_mm=usual_mm, says="give the usual clearance", rounding=Rounding.UP),),
    )


def _known_outside_finding(sizes: Sizes, direction: str, more_mm: float, face_mm: float | None) -> Finding:
    across = direction == "across"
    outside_mm = sizes.outside_across_mm if across else sizes.outside_up_mm
    clearance_mm = (sizes.clearance_across_mm if across else sizes.clearance_up_mm) + more_mm
    ways = []
    if clearance_mm > TOLERANCE_MM:
        ways.append(Way(argument=f"clearance_{direction}_mm", value_mm=clearance_mm, says="change the clearance"))
    if face_mm is not None:
        ways.append(Way(argument="face_width_mm", value_mm=face_mm, says="change the face width"))
    known = f"known_outside_{direction}_mm"
    ways.append(Way(argument=known, value_mm=outside_mm, says="take the outside size as computed"))
    return Finding(
        code=f"sizes.known-outside-{direction}",
        severity=Severity.STOP,
        sentence=f"The outside {direction} is known as {{known}}, and the sizes given make it {{outside}}: they differ "
        "by {difference}",
        why="Package, clearance, rabbet width and face width already settle the outside; one of them is not what it says.",
        source="plane geometry",
        argument=known,
        lengths={"known": outside_mm + more_mm, "outside": outside_mm, "difference": abs(more_mm)},
        ways=tuple(ways),
    )


def _common_difference(differences_mm: tuple[float, ...]) -> float | None:
    """The one difference that all share, if they do."""
    if not differences_mm or max(differences_mm) - min(differences_mm) > TOLERANCE_MM:
        return None
    return differences_mm[0]


def _waste_mm(kerf_mm: float, trim_mm: float) -> float:
    return KERFS_IN_A_STICK * kerf_mm * sqrt(2) + 2 * trim_mm


def _require_positive(**lengths_mm: float) -> None:
    for field, length_mm in lengths_mm.items():
        if not length_mm > TOLERANCE_MM:
            word = field.removesuffix("_mm").replace("_", " ")
            raise ImpossibleSize(
                f"the {word} is {{found}}: more than zero would do", field=field, lengths={"found": length_mm}
            )


def _require_land(rabbet_width_mm: float, face_width_mm: float) -> None:
    _require_positive(face_width_mm=face_width_mm)
    if rabbet_width_mm < 0:
        _require_positive(rabbet_width_mm=rabbet_width_mm)
    if face_width_mm - rabbet_width_mm <= TOLERANCE_MM:
        raise ImpossibleSize(
            "a rabbet {rabbet} wide leaves no wood in a member {face} wide: a narrower rabbet would do",
            field="rabbet_width_mm",
            lengths={"rabbet": rabbet_width_mm, "face": face_width_mm},
        )


def _refuse_blind_frame(rabbet_width_mm: float, *, narrow_mm: float) -> None:
    raise ImpossibleSize(
        "rabbets {rabbet} wide leave nothing in view of a rabbet size of {narrow}: less than half of it would do",
        field="rabbet_width_mm",
        lengths={"rabbet": rabbet_width_mm, "narrow": narrow_mm},
    )


def _refuse_short_stick(stick_length_mm: float, least_mm: float) -> None:
    raise ImpossibleSize(
        "a stick of {stick} is too short: it has to be longer than {least}",
        field="stick_length_mm",
        lengths={"stick": stick_length_mm, "least": least_mm},
    )
