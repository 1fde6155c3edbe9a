"""The mats of one frame: every window, the layers of a double mat, the settings of the cutter, the borders in view."""

from collections.abc import Iterator

from framecalc.findings import Finding, Severity, Way
from framecalc.mats.bridges import Bridge, bridges, window_findings
from framecalc.mats.cutter import Bevel, CutterSetting, bevel, cutter_settings, face_openings, turned_over
from framecalc.mats.mat import VisibleBorders, mat_findings, visible_borders
from framecalc.mats.openings import Opening, larger_than_image_findings
from framecalc.mats.seen import Laps, lap_findings, mat_cover_findings, sheet_place_findings
from framecalc.mats.windows import Window, WindowMat, upper_mat
from framecalc.mats.wished_mat import Image, MatCover, MatWish, WindowArrangement, floats
from framecalc.package.layers import Layer, LayerKind
from framecalc.project import Mat
from framecalc.records import Record, cached_property, replace
from framecalc.sizes.starting_points import SolvedChain
from framecalc.words import uncapitalised, worded

BOARD_MM = 1.45
"""4-ply board, where the package lists no mat yet. Source: tables/sheet_thickness.csv, common practice, no source."""

_BORDERS = ("mat_border_mm", "mat_bottom_mm")


class CutMat(Record):
    """One mat as cut: its layer, its windows as seen and as they lie, its bevel, the cutter's settings."""

    name: str
    thickness_mm: float
    windows: WindowMat
    laid: WindowMat
    bevel: Bevel
    settings: tuple[CutterSetting, ...]


class MatPlan:
    """The plan of the mats."""

    def __init__(
        self,
        mat: Mat,
        wish: MatWish,
        *,
        settled: SolvedChain,
        layers: tuple[Layer, ...],
        covered: MatCover,
        fillet_mm: float,
    ) -> None:
        assert settled.matting is not None
        self._typed = mat
        self._wish = wish
        self._settled = settled
        self._layers = tuple(layer for layer in layers if layer.kind is LayerKind.MAT)
        self._covered = MatCover(across_mm=covered.across_mm + fillet_mm, up_mm=covered.up_mm + fillet_mm)
        self.mat = settled.matting.mat
        self.windows = settled.matting.windows

    @cached_property
    def images(self) -> tuple[Image, ...]:
        """The picture behind each window, that of the artwork first, at the size that the starting point gives it."""
        assert self._settled.matting is not None
        return self._settled.matting.images

    @cached_property
    def laps(self) -> tuple[Laps, ...]:
        """What the mat laps over each picture; negative where its edges show."""
        return tuple(
            image.laps_behind(Opening(across_mm=window.across_mm, up_mm=window.up_mm))
            for image, window in zip(self.images, self.windows.windows, strict=True)
        )

    @property
    def sheet(self) -> Window:
        """Where the sheet of the artwork lies behind the mat."""
        return self.images[0].behind(self.windows.windows[0])

    @property
    def floats(self) -> bool:
        """Whether the artwork floats: its edges show in its window."""
        return floats(self.images[0], self._wish)

    @property
    def reveal_mm(self) -> float:
        """The reveal of the lower of two mats; 0 with one mat, or if all are cut alike."""
        return self._typed.reveal.mm

    @property
    def from_behind(self) -> bool:
        """Whether the mats are cut face down."""
        return self._typed.from_behind

    @cached_property
    def upper(self) -> WindowMat | None:
        """The windows of the upper of two mats."""
        return upper_mat(self.windows, reveal_mm=self.reveal_mm) if self.reveal_mm else None

    @property
    def in_view(self) -> WindowMat:
        """The windows of the mat that is in front."""
        return self.upper or self.windows

    @cached_property
    def bevel(self) -> Bevel:
        """The white line around each window of the lower mat."""
        return self.cut[-1].bevel

    @cached_property
    def cut(self) -> tuple[CutMat, ...]:
        """Every mat as cut, the upper one first; one of usual board if the package lists none yet."""
        boards = [(layer.name, layer.thickness_mm) for layer in self._layers] or [(worded("Mat"), BOARD_MM)]
        if self.upper and len(boards) == 1:
            boards = [boards[0], boards[0]]
        last = len(boards) - 1
        return tuple(
            self._cut(name, thickness_mm, self.upper if self.upper and at < last else self.windows)
            for at, (name, thickness_mm) in enumerate(boards)
        )

    @cached_property
    def visible(self) -> VisibleBorders:
        """The borders of the front mat that stay in view beside the lip and a fillet."""
        borders = visible_borders(
            self.mat, covered_across_mm=self._covered.across_mm, covered_up_mm=self._covered.up_mm
        )
        return VisibleBorders(
            sides_mm=borders.sides_mm - self.reveal_mm,
            top_mm=borders.top_mm - self.reveal_mm,
            bottom_mm=borders.bottom_mm - self.reveal_mm,
        )

    @cached_property
    def bridges(self) -> tuple[Bridge, ...]:
        """The board between every two windows of the mat in front, the narrowest first."""
        return bridges(self.in_view)

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """The findings about the mats."""
        return tuple(self._findings())

    def _cut(self, name: str, thickness_mm: float, windows: WindowMat) -> CutMat:
        """From behind the cuts are measured at the back, next to the artwork; in front at the bevel's outer edge."""
        white = bevel(thickness_mm, bevel_deg=float(self._typed.bevel))
        measured = windows if self.from_behind else face_openings(windows, bevel=white)
        settings = cutter_settings(measured, from_behind=self.from_behind)
        laid = turned_over(measured) if self.from_behind else measured
        return CutMat(name=name, thickness_mm=thickness_mm, windows=windows, laid=laid, bevel=white, settings=settings)

    def _findings(self) -> Iterator[Finding]:
        yield from (self._as_typed(finding) for finding in self._measured())
        for number, (image, window) in enumerate(zip(self.images, self.windows.windows, strict=True), start=1):
            yield from self._larger(number, image, window)
        yield from (self._as_typed(finding) for finding in self._of_the_sheet())
        if self.reveal_mm and len(self._layers) == 1:
            yield _SECOND_MISSING
        if not self.reveal_mm and len(self._layers) > 1:
            yield _NO_REVEAL
        if not self._layers:
            yield _NO_LAYER

    def _of_the_sheet(self) -> Iterator[Finding]:
        """The findings about an image that is smaller than its sheet: it shows, and the sheet has its place."""
        image, window = self.images[0], self.windows.windows[0]
        if image.seen is None:
            return
        yield from mat_cover_findings(Opening(across_mm=window.across_mm, up_mm=window.up_mm), image.seen)
        if not self.floats:
            yield from lap_findings(self.laps[0], asked_mm=self._wish.overlap_mm, shows_mm=self._wish.float_mm)
        yield from sheet_place_findings(self.sheet, self.mat, gap_mm=self._wish.gap_mm, others=self.windows.windows[1:])

    def _measured(self) -> tuple[Finding, ...]:
        """The findings about borders and bridges; a hidden border is not reported as narrow too."""
        of_mat = mat_findings(
            self.mat,
            covered_across_mm=self._covered.across_mm,
            covered_up_mm=self._covered.up_mm,
            reveal_mm=self.reveal_mm,
            floats=self.floats or self._has_larger or self.images[0].seen is not None,
        )
        of_windows = window_findings(
            self.in_view, least_bridge_mm=self._typed.least_bridge.mm, reveal_mm=self.reveal_mm
        )
        if any(finding.code == "mat.border-hidden" for finding in of_mat):
            of_windows = tuple(finding for finding in of_windows if finding.code != "windows.narrow-border")
        return *of_mat, *of_windows

    def _as_typed(self, finding: Finding) -> Finding:
        """A finding with only the ways out that can be typed, in the values of their fields."""
        ways = (self._way_as_typed(way) for way in finding.ways if self._can_be_typed(way, finding))
        return replace(finding, ways=tuple(ways))

    def _can_be_typed(self, way: Way, finding: Finding) -> bool:
        """Windows placed by hand have no gap to type; borders that fill a size only their difference."""
        if way.argument == "window_gap_mm":
            return self._typed.arrangement is not WindowArrangement.FREE
        is_solved = way.argument in self._settled.solved
        return not is_solved or way.argument not in _BORDERS or finding.code == "mat.narrow-bottom"

    def _way_as_typed(self, way: Way) -> Way:
        """Convert a way out: topics work with borders as cut, a field may hold the border in view or a size to fill."""
        if way.argument not in _BORDERS:
            return way
        is_bottom = way.argument == "mat_bottom_mm"
        cut_mm = self.mat.border_bottom_mm if is_bottom else min(self.mat.border_sides_mm, self.mat.border_top_mm)
        typed = self._typed.bottom if is_bottom else self._typed.border
        return replace(way, value_mm=typed.mm + way.value_mm - cut_mm)

    @property
    def _has_larger(self) -> bool:
        """Whether a typed window is larger than its image, which is reported window by window."""
        return not self.floats and any(
            self._larger(number, image, window)
            for number, (image, window) in enumerate(zip(self.images, self.windows.windows, strict=True), start=1)
        )

    def _larger(self, number: int, image: Image, window: Window) -> tuple[Finding, ...]:
        """A typed opening that shows the edges of its image, beside the field of that opening."""
        if image.opening is None or image.seen or self.floats:
            return ()
        found = larger_than_image_findings(image.opening, artwork_across_mm=image.across_mm, artwork_up_mm=image.up_mm)
        return found if len(self.images) == 1 else tuple(self._beside(finding, number) for finding in found)

    def _beside(self, finding: Finding, number: int) -> Finding:
        sentence = f"Window {number}: " + uncapitalised(finding.sentence)
        if number == 1:
            return replace(finding, sentence=sentence)
        direction = "up" if finding.argument.endswith("up_mm") else "across"
        path = f"package.mat.windows.{self._typed.windows[number - 2].id}.opening_{direction}"
        ways = tuple(replace(way, argument=path) for way in finding.ways)
        return replace(finding, sentence=sentence, argument=path, ways=ways)


def _note(code: str, severity: Severity, sentence: str, why: str, **lengths: float) -> Finding:
    return Finding(
        code=f"mat.{code}",
        severity=severity,
        sentence=sentence,
        why=why,
        source="usual practice",
        argument="layer",
        lengths=lengths,
    )


_SECOND_MISSING = _note(
    "second-missing",
    Severity.WARN,
    "A reveal is typed, and only one layer of the package is a mat.",
    "The second mat takes its thickness from the rabbet too: add it to the layers, or take the reveal out.",
)
_NO_REVEAL = _note(
    "no-reveal",
    Severity.NOTE,
    "Two layers are mats, and no reveal is typed: their windows are cut alike.",
    "The lower mat then stays hidden, and two edges cut alike never quite meet; {least} to {most} of reveal is usual.",
    least=5.0,
    most=8.0,
)
_NO_LAYER = _note(
    "no-layer",
    Severity.WARN,
    "There is a mat, and no layer of the package is one.",
    "Its thickness is missing in the rabbet, and between the glazing and the artwork.",
)
