"""Glazing and what lies behind it: the gap that each kind of artwork needs, and what conservators say about materials.

The *gap* is the clear distance from the back of the glazing to the face of the artwork: mats and spacers make it.
"""

from collections.abc import Iterable, Iterator
from enum import StrEnum
from itertools import dropwhile, takewhile

from framecalc.artwork.measuring import ArtworkKind
from framecalc.evidence import PRACTICE, Evidence, Source
from framecalc.findings import Finding, Severity
from framecalc.package.layers import Layer, LayerKind
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM

LEAST_GAP_MM = 1.4
"""A window mat of 4-ply board, the least gap in use. Source: common practice, no source."""

SPACED_GAP_MM = (3.0, 6.0)
"""A spacer without a mat, 1/8 to 1/4 in. Source: common practice, no source."""

LOOSE_GAP_MM = 6.0
"""Loose media and hangings that may sway, 1/4 in. Source: common practice, no source."""

GUIDE = Source(
    evidence=Evidence.PUBLISHED,
    name="Library of Congress, Guide to Preservation Matting and Framing",
)
HANDBOOK = Source(
    evidence=Evidence.PUBLISHED,
    name="reCollections, Heritage Collections Council (Australia)",
)
BOARDS = Source(evidence=Evidence.PUBLISHED, name="NEDCC preservation leaflet 4.10")
LININGS = Source(
    evidence=Evidence.UNCHECKED,
    name="Library of Congress and Canadian Conservation Institute",
)

_KEEP_APART = (LayerKind.MAT, LayerKind.SPACER, LayerKind.FILLET)


class Glazing(StrEnum):
    """What stands in front of the artwork."""

    NONE = "none"
    GLASS = "glass"
    ACRYLIC = "acrylic"


class Gap(Record):
    """The gap that a kind of artwork needs: the least, the usual one, the reason and the source."""

    least_mm: float
    usual_mm: float
    why: str
    source: Source


class Statement(Record):
    """A statement about materials, with its source."""

    says: str
    source: Source


def gap_wanted(kind: ArtworkKind) -> Gap:
    """Find the gap to the glazing that a kind of artwork needs; an object's follows from its box.

    Source: that there is a gap, as each answer says; all figures are common practice, no source.

    >>> gap_wanted(ArtworkKind.PAPER).least_mm, gap_wanted(ArtworkKind.FRIABLE).least_mm
    (1.4, 6.0)
    """
    if kind in (ArtworkKind.FRIABLE, ArtworkKind.TEXTILE):
        return Gap(
            least_mm=LOOSE_GAP_MM,
            usual_mm=LOOSE_GAP_MM,
            why="Loose pigment and threads come off on whatever touches them.",
            source=PRACTICE,
        )
    if kind is ArtworkKind.PHOTOGRAPH:
        return Gap(
            least_mm=LEAST_GAP_MM,
            usual_mm=SPACED_GAP_MM[0],
            why="The emulsion of a photograph sticks to glazing that it touches, and cannot be freed again.",
            source=PRACTICE,
        )
    return Gap(
        least_mm=LEAST_GAP_MM,
        usual_mm=LEAST_GAP_MM,
        why="Damp between glazing and artwork makes them stick, and mould grows there.",
        source=PRACTICE,
    )


def gap_in_front_mm(layers: Iterable[Layer]) -> float:
    """Measure the gap of a package: all that lies between the glazing and the artwork: mats, spacers, a fillet.

    Source: plane geometry.

    >>> glass = Layer(name="glass", kind=LayerKind.GLAZING, thickness_mm=2.5, tolerance_mm=0)
    >>> mat = Layer(name="mat", kind=LayerKind.MAT, thickness_mm=1.45, tolerance_mm=0.1)
    >>> print_ = Layer(name="print", kind=LayerKind.ARTWORK, thickness_mm=0.3, tolerance_mm=0)
    >>> gap_in_front_mm((glass, mat, mat, print_))
    2.9
    """
    from_glazing = dropwhile(lambda layer: layer.kind is not LayerKind.GLAZING, layers)
    between = takewhile(lambda layer: layer.kind is not LayerKind.ARTWORK, from_glazing)
    return sum(layer.thickness_mm for layer in between if layer.kind in _KEEP_APART)


def glazing_findings(kind: ArtworkKind, *, glazing: Glazing, gap_mm: float) -> tuple[Finding, ...]:
    """Report what a kind of artwork and its glazing do to each other.

    Args:
        gap_mm: from the glazing to the artwork [mm], ≥ 0; not looked at where there is no glazing.
    Source: each finding has its own; figures are common practice, no source.

    >>> [finding.code for finding in glazing_findings(ArtworkKind.FRIABLE, glazing=Glazing.ACRYLIC, gap_mm=3)]
    ['glazing.small-gap', 'glazing.acrylic-and-loose-media']
    """
    if glazing is Glazing.NONE:
        return ()
    return tuple(_glazed_findings(kind, glazing, gap_mm))


def materials_statements(kind: ArtworkKind) -> tuple[Statement, ...]:
    """What conservators ask of the boards, the fastening and the frame, for this kind of artwork.

    Source: each statement has its own.

    >>> [statement.source.evidence.value for statement in materials_statements(ArtworkKind.CANVAS)]
    ['unchecked: measure yours', 'published']
    """
    if kind in (ArtworkKind.PAPER, ArtworkKind.FRIABLE, ArtworkKind.PHOTOGRAPH):
        boards = (_PHOTOGRAPH_BOARD,) if kind is ArtworkKind.PHOTOGRAPH else ()
        return (
            _BOARD,
            *boards,
            _BOARD_THICKNESS,
            _HINGES,
            _FREE_TO_MOVE,
            _NOT_CUT,
            _SECOND_BACKING,
            _LINING,
            _ENCLOSURE,
        )
    if kind is ArtworkKind.TEXTILE:
        return (_BOARD, _SECOND_BACKING, _LINING, _ENCLOSURE)
    return (_LINING, _ENCLOSURE)


def _glazed_findings(kind: ArtworkKind, glazing: Glazing, gap_mm: float) -> Iterator[Finding]:
    gap = gap_wanted(kind)
    if gap_mm <= TOLERANCE_MM:
        yield _touching(kind, gap)
    elif gap_mm < gap.least_mm - TOLERANCE_MM:
        yield _small_gap(gap_mm, gap)
    if glazing is Glazing.ACRYLIC and kind is ArtworkKind.FRIABLE:
        yield _ACRYLIC_AND_LOOSE_MEDIA


def _touching(kind: ArtworkKind, gap: Gap) -> Finding:
    cannot = kind in (ArtworkKind.PHOTOGRAPH, ArtworkKind.FRIABLE)
    return Finding(
        code="glazing.touches",
        severity=Severity.STOP if cannot else Severity.WARN,
        sentence="The artwork touches the glazing: add a mat or spacer, {least} or more.",
        why=gap.why,
        source=GUIDE.name,
        argument="layer",
        lengths={"least": gap.least_mm},
    )


def _small_gap(gap_mm: float, gap: Gap) -> Finding:
    return Finding(
        code="glazing.small-gap",
        severity=Severity.WARN,
        sentence="The glazing is {gap} from the artwork: leave {least} or more.",
        why=gap.why,
        source=gap.source.name,
        argument="layer",
        lengths={"gap": gap_mm, "least": gap.least_mm},
    )


_ACRYLIC_AND_LOOSE_MEDIA = Finding(
    code="glazing.acrylic-and-loose-media",
    severity=Severity.WARN,
    sentence="Acrylic in front of loose media: use glass.",
    why="Acrylic charges when it is wiped, and lifts pastel, charcoal, chalk and flaking gouache off the sheet.",
    source=HANDBOOK.name,
    argument="layer",
)
_BOARD = Statement(
    says="Mat and mount board: cotton rag or purified wood pulp, free of lignin, pH 7 to 8.5.",
    source=GUIDE,
)
_PHOTOGRAPH_BOARD = Statement(
    says="Board for photographs: one that has passed the photographic activity test.", source=GUIDE
)
_BOARD_THICKNESS = Statement(says="Board of 4-ply at least; 6- or 8-ply for support or a deeper window.", source=GUIDE)
_HINGES = Statement(
    says="Hang the sheet from hinges of Japanese tissue with starch paste, or in corners or strips of acid-free paper "
    "or polyester; no pressure-sensitive tape, no dry mounting, no glue.",
    source=GUIDE,
)
_FREE_TO_MOVE = Statement(says="Hinges at the top only: the sheet must be free to grow and to shrink.", source=GUIDE)
_NOT_CUT = Statement(says="Never fold or trim an artwork to make it fit.", source=GUIDE)
_SECOND_BACKING = Statement(
    says="Boards that touch the artwork: all cotton. Behind them fluted polypropylene, corrugated board or rag board.",
    source=BOARDS,
)
_LINING = Statement(
    says="Line the rabbet with foil tape or polyester: bare wood gives off acids. Felt under a painting.",
    source=LININGS,
)
_ENCLOSURE = Statement(says="Close the frame at the back, but not airtight.", source=HANDBOOK)
