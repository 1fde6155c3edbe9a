"""The record of a saw: the result of all its test cuts together, and when they are enough.

Each test cut gives the error of an end. Their mean is the error of the setting; their *spread* (standard deviation) is
how well the saw repeats itself, which no setting can improve. The true error of the setting lies between *least* and
*most* with 95 % confidence. Cuts at *earlier* settings of the same saw count for the spread, not for the mean.

A verdict that enough cuts have given is kept while the cuts that follow *agree* with it: each lies where one more cut
was to be expected, and the mean stays on its side. Without that, one cut more could take a clear verdict back.
"""

from collections.abc import Sequence
from enum import StrEnum
from math import sqrt
from statistics import fmean

from framecalc.corners.saw import MOST_ERROR_DEG
from framecalc.errors import OutOfRange
from framecalc.limits import require_between, require_positive
from framecalc.records import Record

ENOUGH_CUTS = 50
"""More test cuts make no sense: the saw does not repeat itself well enough (common practice, no source)."""

FEWEST_TO_BLAME_THE_SAW = 5
"""Fewer test cuts than this measure the spread too badly to call a saw unsteady (common practice, no source)."""

_STUDENT_95 = (
    12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228,
    2.201, 2.179, 2.160, 2.145, 2.131, 2.120, 2.110, 2.101, 2.093, 2.086,
    2.080, 2.074, 2.069, 2.064, 2.060, 2.056, 2.052, 2.048, 2.045, 2.042,
)  # fmt: skip
"""Student's t for 95 % confidence, both sides, 1 to 30 degrees of freedom.

Source: NIST/SEMATECH e-Handbook of Statistical Methods, table 1.3.6.7.2, from memory, not re-read."""

_NORMAL_95 = 1.959964


class SawVerdict(StrEnum):
    """What to do next, by the record."""

    ANOTHER_CUT = "not enough yet: one more test cut"
    LEAVE = "enough: leave the saw as it is"
    TURN = "enough: turn the fence by the mean"
    UNSTEADY = "the saw does not repeat itself well enough for any setting"


class SawRecord(Record):
    """The result of all test cuts of one saw.

    One cut alone, with none at earlier settings, has no spread; least and most are then the limits for cuts at a
    setting that is not plainly wrong.
    """

    count: int
    earlier_count: int
    mean_deg: float
    spread_deg: float
    least_deg: float
    most_deg: float
    verdict: SawVerdict


class _Estimate(Record):
    """What the first few cuts of a record tell: mean, spread, the degrees of freedom behind it, reach of the mean."""

    count: int
    mean_deg: float
    spread_deg: float
    freedom: int

    @property
    def reach_deg(self) -> float:
        return _reach_deg(self.spread_deg, self.count, self.freedom) if self.freedom else MOST_ERROR_DEG

    def expects(self, error_deg: float) -> bool:
        """Whether one more cut was to be expected there: within mean ± t · s · √(1 + 1/k)."""
        if not self.freedom:
            return False
        reach_deg = student_95_ratio(self.freedom) * self.spread_deg * sqrt(1 + 1 / self.count)
        return abs(error_deg - self.mean_deg) <= reach_deg


def read_record(
    errors_deg: Sequence[float],
    *,
    tolerance_deg: float,
    finest_deg: float,
    earlier_deg: Sequence[Sequence[float]] = (),
) -> SawRecord:
    """Judge the test cuts that one saw has made at its present setting.

    ``mean ± t · s/√k``: the saw is left alone when the whole range lies within the tolerance, and turned when the range
    leaves out zero and the mean is past the tolerance. In between one more cut is needed, until the spread of five
    or more shows that `ENOUGH_CUTS` would not settle it. The spread is pooled, each setting about its own mean:
    ``s² = ΣΣ(δ − mean)² / Σ(k − 1)``, which is also how many degrees of freedom t has. A verdict once given is kept
    while further cuts agree: each within ``mean ± t · s · √(1 + 1/k)`` of those before it.

    Args:
        errors_deg: error of an end by each test cut, oldest first [°], −5 to 5; at least one.
        tolerance_deg: what an end may be off by [°], > 0.
        finest_deg: the least error that the feeler can tell [°], > 0; readings that agree prove no more than that.
        earlier_deg: the same, for each setting that the saw has had before [°].
    Raises:
        OutOfRange: no test cut, or one that is none.
    Source: Student's confidence interval for a mean, pooled variance, any textbook of statistics, from memory, not
        re-read. A reading rounded to steps has a spread of at least step/√12, derived.

    >>> read_record([0.16, 0.18, 0.17], tolerance_deg=0.06, finest_deg=0.03).verdict.value
    'enough: turn the fence by the mean'
    """
    settings = [errors_deg, *(setting for setting in earlier_deg if setting)]
    _refuse_no_record(settings)
    require_positive(tolerance_deg=tolerance_deg, finest_deg=finest_deg)
    growing = [_estimate(errors_deg[:count], settings[1:], finest_deg) for count, _ in enumerate(errors_deg, 1)]
    estimate = growing[-1]
    return SawRecord(
        count=estimate.count,
        earlier_count=sum(len(setting) for setting in settings[1:]),
        mean_deg=estimate.mean_deg,
        spread_deg=estimate.spread_deg,
        least_deg=estimate.mean_deg - estimate.reach_deg,
        most_deg=estimate.mean_deg + estimate.reach_deg,
        verdict=_verdict_kept(growing, errors_deg, tolerance_deg),
    )


def cuts_needed(spread_deg: float, *, tolerance_deg: float) -> int:
    """Find how many test cuts give the mean to within the tolerance, at a known spread.

    The least k with ``t · s/√k ≤ tolerance``; one more than `ENOUGH_CUTS` when that many are not enough.

    Args:
        spread_deg: s [°], 0 to 10.
        tolerance_deg: [°], > 0.
    Raises:
        OutOfRange: angle out of range.
    Source: derived from Student's interval.

    >>> cuts_needed(0.03, tolerance_deg=0.06), cuts_needed(0.0, tolerance_deg=0.06)
    (4, 2)
    """
    require_between(0, 2 * MOST_ERROR_DEG, spread_deg=spread_deg)
    require_positive(tolerance_deg=tolerance_deg)
    counts = range(2, ENOUGH_CUTS + 1)
    enough = (count for count in counts if _reach_deg(spread_deg, count, count - 1) <= tolerance_deg)
    return next(enough, ENOUGH_CUTS + 1)


def student_95_ratio(degrees_of_freedom: int) -> float:
    """Find Student's t for 95 % confidence, both sides.

    From the table up to 30, past it ``z + (z³ + z)/4ν + (5z⁵ + 16z³ + 3z)/96ν²``.

    Args:
        degrees_of_freedom: 1 or more.
    Raises:
        OutOfRange: fewer.
    Source: the table above; the first terms of the Cornish-Fisher expansion, from memory, not re-read.

    >>> student_95_ratio(4), round(student_95_ratio(100), 3)
    (2.776, 1.984)
    """
    require_between(1, 10**6, degrees_of_freedom=degrees_of_freedom)
    if degrees_of_freedom <= len(_STUDENT_95):
        return _STUDENT_95[degrees_of_freedom - 1]
    z, inverse = _NORMAL_95, 1 / degrees_of_freedom
    return z + (z**3 + z) / 4 * inverse + (5 * z**5 + 16 * z**3 + 3 * z) / 96 * inverse**2


def _pooled(settings: Sequence[Sequence[float]]) -> tuple[float, int]:
    """The spread about the means of the settings, and its degrees of freedom; nothing while no setting has two cuts."""
    freedom = sum(len(setting) - 1 for setting in settings)
    squares = sum((error_deg - fmean(setting)) ** 2 for setting in settings for error_deg in setting)
    return (sqrt(squares / freedom) if freedom else 0.0), freedom


def _reach_deg(spread_deg: float, count: int, freedom: int) -> float:
    return student_95_ratio(freedom) * spread_deg / sqrt(count)


def _estimate(errors_deg: Sequence[float], earlier_deg: Sequence[Sequence[float]], finest_deg: float) -> _Estimate:
    pooled_deg, freedom = _pooled([errors_deg, *earlier_deg])
    return _Estimate(
        count=len(errors_deg),
        mean_deg=fmean(errors_deg),
        spread_deg=max(pooled_deg, finest_deg / sqrt(12)),
        freedom=freedom,
    )


def _verdict_kept(growing: Sequence[_Estimate], errors_deg: Sequence[float], tolerance_deg: float) -> SawVerdict:
    """What the record asks for, cut by cut: a verdict given before is kept while the cuts after it agree."""
    kept = _verdict(growing[0], tolerance_deg)
    for before, estimate, error_deg in zip(growing, growing[1:], errors_deg[1:], strict=False):
        now = _verdict(estimate, tolerance_deg)
        is_kept = (
            now is SawVerdict.ANOTHER_CUT and before.expects(error_deg) and _still_holds(kept, estimate, tolerance_deg)
        )
        kept = kept if is_kept else now
    return kept


def _still_holds(kept: SawVerdict, estimate: _Estimate, tolerance_deg: float) -> bool:
    """Whether the mean is still on the side of a verdict, if it was one: clear of zero, or within the tolerance."""
    if kept is SawVerdict.TURN:
        return abs(estimate.mean_deg) > estimate.reach_deg
    return kept is SawVerdict.LEAVE and abs(estimate.mean_deg) <= tolerance_deg


def _verdict(estimate: _Estimate, tolerance_deg: float) -> SawVerdict:
    mean_deg, reach_deg = abs(estimate.mean_deg), estimate.reach_deg
    if mean_deg + reach_deg <= tolerance_deg:
        return SawVerdict.LEAVE
    if mean_deg > max(reach_deg, tolerance_deg):
        return SawVerdict.TURN
    needed = cuts_needed(estimate.spread_deg, tolerance_deg=tolerance_deg)
    hopeless = estimate.freedom + 1 >= FEWEST_TO_BLAME_THE_SAW and needed > ENOUGH_CUTS
    return SawVerdict.UNSTEADY if hopeless else SawVerdict.ANOTHER_CUT


def _refuse_no_record(settings: Sequence[Sequence[float]]) -> None:
    if not settings[0]:
        raise OutOfRange("Enter a test cut first.", field="errors_deg")
    for error_deg in (error_deg for setting in settings for error_deg in setting):
        require_between(-MOST_ERROR_DEG, MOST_ERROR_DEG, error_deg=error_deg)
