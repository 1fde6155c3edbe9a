"""The saw of one frame: its tolerance, its test cuts, and the correction of a fence."""

from collections.abc import Iterable, Sequence

from framecalc.corners.closing import chance_of_closing_ratio
from framecalc.corners.fences import Ends, FenceErrors, find_fences
from framecalc.corners.saw import (
    CutMethod,
    EndCorrection,
    Tolerance,
    correct,
    last_joint_shift_mm,
    read_test_cut,
    saw_tolerance,
    wedge_gap_mm,
)
from framecalc.corners.saw_record import SawRecord, read_record
from framecalc.project.corners import Corner, TestCut
from framecalc.records import Record, cached_property
from framecalc.units import Length

FINEST_TURN_DEG = 0.02
"""The finest a fence is turned by hand with a shim of paper (common practice, no source)."""


class CutRead(Record):
    """One test cut as read: its setting, and the error of an end that follows."""

    cut: TestCut
    outside_gap: Length
    inside_gap: Length
    error_deg: float
    is_current: bool


class SawPlan:
    """The plan of the saw, from the allowed gap and the test cuts."""

    def __init__(self, corner: Corner, *, sides: int, mitre_length_mm: float) -> None:
        self._corner = corner
        self._sides = sides
        self._mitre_length_mm = mitre_length_mm

    @property
    def has_two_settings(self) -> bool:
        """Whether left and right ends are cut at settings of their own."""
        return self._corner.cutting is not CutMethod.ONE_SETTING

    @cached_property
    def tolerance(self) -> Tolerance:
        """The tolerance of the saw for the allowed gap."""
        corner = self._corner
        return saw_tolerance(
            cutting=corner.cutting,
            gap_mm=corner.gap.mm,
            mitre_length_mm=self._mitre_length_mm,
            fence_mm=corner.fence.mm,
            sides=self._sides,
        )

    @cached_property
    def cuts(self) -> tuple[CutRead, ...]:
        """Every test cut of which both gaps have been read, in the order typed.

        Raises:
            OutOfRange: the gaps of a cut mean an error that no set saw has.
        """
        return tuple(read for cut in self._corner.tests if (read := self._read(cut)))

    @property
    def unread(self) -> int:
        """How many test cuts have no reading yet, or only one of the two."""
        return sum(cut.outside_gap is None or cut.inside_gap is None for cut in self._corner.tests)

    @property
    def taken_over(self) -> int:
        """How many came with a copy, a demo or a file."""
        return sum(cut.taken_over for cut in self._corner.tests)

    @cached_property
    def settings_deg(self) -> tuple[tuple[float, ...], ...]:
        """The errors of each setting and kind of joint apart; the spread of this saw is pooled from them.

        Cuts from before the saw was changed are not of this saw.
        """
        kinds = dict.fromkeys((read.cut.setting, self._ends(read.cut)) for read in self.cuts if self._counts(read.cut))
        return tuple(tuple(self._errors(setting, ends)) for setting, ends in kinds)

    @cached_property
    def current_deg(self) -> tuple[float, ...]:
        """The errors of the cuts at the present setting that a frame's own corners would have."""
        return tuple(self._errors(self._corner.settings, Ends.EACH))

    def record(self, elsewhere_deg: Sequence[Sequence[float]] = ()) -> SawRecord | None:
        """The record of the test cuts at the present setting, with the spread of all cuts of this saw.

        Args:
            elsewhere_deg: settings of the same saw known from elsewhere [°].
        """
        if not self.current_deg:
            return None
        here = [errors_deg for errors_deg in self.settings_deg if errors_deg != self.current_deg]
        return read_record(
            self.current_deg,
            tolerance_deg=self.tolerance.each_end_deg,
            finest_deg=FINEST_TURN_DEG,
            earlier_deg=(*here, *elsewhere_deg),
        )

    def correction(self, record: SawRecord) -> EndCorrection:
        """The correction of the gauge, or of one fence, by the mean of a record."""
        corner = self._corner
        return correct(record.mean_deg, cutting=corner.cutting, fence_mm=corner.fence.mm)

    @cached_property
    def fences(self) -> FenceErrors | None:
        """The error of each fence, once the record holds joints of two kinds."""
        kinds = {ends: tuple(self._errors(self._corner.settings, ends)) for ends in Ends}
        if not self.has_two_settings or sum(map(bool, kinds.values())) < 2:
            return None
        return find_fences(each_deg=kinds[Ends.EACH], left_only_deg=kinds[Ends.LEFT], right_only_deg=kinds[Ends.RIGHT])

    def chance_ratio(self, record: SawRecord) -> float:
        """The share of frames from this saw that close within the allowed gap."""
        return chance_of_closing_ratio(
            mean_deg=record.mean_deg,
            spread_deg=record.spread_deg,
            mitre_length_mm=self._mitre_length_mm,
            gap_mm=self._corner.gap.mm,
            sides=self._sides,
        )

    def shift_mm(self, record: SawRecord, *, outside_across_mm: float, outside_up_mm: float) -> float:
        """How far the last joint of a rectangle stands apart beside its wedge; negative where its ends overlap."""
        return last_joint_shift_mm(record.mean_deg, outside_across_mm=outside_across_mm, outside_up_mm=outside_up_mm)

    def last_wedge_mm(self, record: SawRecord) -> float:
        """How far the last joint would stand open as a wedge, were every other one held tight [mm]."""
        wedge_deg = 2 * self._sides * record.mean_deg
        return abs(wedge_gap_mm(self._mitre_length_mm, wedge_deg=wedge_deg))

    def _read(self, cut: TestCut) -> CutRead | None:
        if cut.outside_gap is None or cut.inside_gap is None:
            return None
        error_deg = read_test_cut(
            outside_gap_mm=cut.outside_gap.mm,
            inside_gap_mm=cut.inside_gap.mm,
            mitre_length_mm=self._mitre_length_mm,
            tried=cut.tried,
            sides=self._sides,
        )
        return CutRead(
            cut=cut,
            outside_gap=cut.outside_gap,
            inside_gap=cut.inside_gap,
            error_deg=error_deg,
            is_current=self._is_current(cut),
        )

    def _errors(self, setting: int, ends: Ends) -> Iterable[float]:
        counting = (read for read in self.cuts if self._counts(read.cut))
        return (read.error_deg for read in counting if read.cut.setting == setting and self._ends(read.cut) is ends)

    def _counts(self, cut: TestCut) -> bool:
        """Whether this was cut on this saw, and the saw is still what it was then."""
        return not cut.taken_over and cut.since.casefold() == self._corner.since.casefold()

    def _is_current(self, cut: TestCut) -> bool:
        return self._counts(cut) and cut.setting == self._corner.settings

    def _ends(self, cut: TestCut) -> Ends:
        """From one setting every joint is of one kind, whatever was chosen while there were two."""
        return cut.ends if self.has_two_settings else Ends.EACH
