"""The lists at the machines, from rough boards to long lengths with their rabbet: crosscut, joint, rip, plane, mill."""

from collections import Counter
from collections.abc import Iterator, Sequence

from framecalc.plan.timber.profiles import Milled
from framecalc.timber.lists import JointLine, RipLine
from framecalc.timber.planing import PlaningRun, RoughPiece
from framecalc.timber.stops import NARROW_MM, ripping_cautions
from framecalc.words import joined, say, typed
from webapp.live.lists import JobList
from webapp.pages.timber.list_maker import ListMaker

_CROSSCUT = (
    "These boards are bowed or twisted: cut them here, square, before the jointer; the parts lose less in flattening.",
)
_JOINTING = (
    "One face flat, then one edge square to it, before any board goes along a fence. Hollow face down, light passes.",
    "A board wider than the jointer: flatten it by hand, or on a sled through the planer.",
)
_RIPPING = "The jointed edge runs along the fence, the jointed face lies down."
_REST = "A rest is what the strips of the members above leave of a board: rip theirs first, then go on."
_PLANING = (
    "The jointed face lies down. All strips go through one setting before it is changed, so that all come out alike.",
    "The first setting is for the thickest place. The machine's manual comes before this list.",
)
_WIDTH = "Ripping frees tensions: joint one edge straight again, then rip the other, or plane strips on edge together."
_MILLING = "Mill the whole strips, before they are cut to length: a long piece is safe to feed, a short one is not."
_LAST = "Mill these pieces after their corners are cut."
_MIXED = "Strips that serve frames with other rabbets: cut them apart first, between these frames."
"""What stands over a list. Source: common practice, no source."""


class MachineLister(ListMaker):
    """Writes the lists of one plan up to the saw that cuts the pieces."""

    def rough(self) -> JobList:
        """Crosscuts of bowed boards, before milling."""
        cells = [(board, ", ".join(map(self.length, cuts_mm))) for board, cuts_mm in self.work.crosscuts]
        trim = self.length(self.project.timber.part_trim.mm)
        notes = (*_CROSSCUT, f"On both sides of each cut {trim} are left over for snipe and squaring.")
        return self.made("rough", ("Board", "Cut at, from the left end"), cells, notes=notes)

    def joint(self) -> JobList:
        """The boards to flatten and to give one straight edge."""
        cells = [
            (_named(line), self.length(line.length_mm), self.length(line.off_mm) if line.off_mm else "flat as typed")
            for line in self.work.jointed
        ]
        return self.made("joint", ("Board", "Length", "Out of flat"), cells, notes=_JOINTING)

    def rip(self) -> JobList:
        """The settings of the fence, board by board."""
        lines, rests = self.work.rips, self.work.rests
        cells = [
            (
                _named(line) + (", rest" if line.board in rests else ""),
                self.length(line.edge_mm),
                self.length(line.fence_mm),
                str(line.strips),
                self.left_over(line.rest_mm),
            )
            for line in lines
        ]
        narrowest_mm = min((line.fence_mm for line in lines), default=NARROW_MM)
        notes = [
            _RIPPING,
            *((_REST,) if rests else ()),
            *(self.plain(caution) for caution in ripping_cautions(strip_mm=narrowest_mm)),
        ]
        return self.made("rip", ("Board", "Off the first edge", "Fence at", "Strips", "Rest"), cells, notes=notes)

    def plane(self) -> JobList:
        """The passes through the planer; all strips of one setting go through together."""
        cells = [self._planed(run) for run in self.work.planing]
        columns = ("Plane from", "To", "First at", "A pass", "Passes", "Last pass", "Pieces")
        notes = (*_PLANING, *self._planed_together())
        lengths = [longer for *_, longer in cells]
        return self.made("plane", columns, [row[:-1] for row in cells], below=("Rough lengths", lengths), notes=notes)

    def width(self) -> JobList:
        """The strips to bring to their finished width."""
        cells = [
            (self.length(line.rough_mm), self.length(line.finished_mm), str(line.strips)) for line in self.work.widths
        ]
        return self.made("width", ("Rough width", "Finished width", "Strips"), cells, notes=(_WIDTH,))

    def mill(self) -> JobList:
        """Rabbet and profile, in the order in which they are milled."""
        names: dict[Milled, list[str]] = {}
        for name, milled in self.group.milled.items():
            names.setdefault(milled, []).append(name)
        cells = [
            (say(what, self.project.shop.words), size, joined(", ", map(typed, names[milled])))
            for milled in names
            for what, size in _steps(milled)
        ]
        if self.group.problem.milled or (self.group.is_milled_long and not self.work.new.sticks):
            cells = []
        notes = (_MILLING, *((_MIXED,) if len(names) > 1 else ()))
        return self.made("mill", ("Mill", "Size", "For"), cells, notes=notes if self.group.is_milled_long else (_LAST,))

    def _planed(self, run: PlaningRun) -> tuple[str, ...]:
        lengths_mm = (run.rough_mm, run.finished_mm, run.first_mm, run.pass_mm)
        last, count = self.length(run.last_mm), str(len(run.pieces))
        return (*map(self.length, lengths_mm), str(run.passes), last, count, self._lengths(run.pieces))

    def _planed_together(self) -> Iterator[str]:
        """The other sections of the job planed to the same thickness."""
        others = [f"{self.length(one.width_mm)} × {self.length(one.thickness_mm)}" for one in self.group.planed_with]
        if others:
            yield (
                f"The boards for {' and '.join(others)} are planed to the same thickness: put them through with these"
                " before the last setting is changed."
            )

    def _lengths(self, pieces: Sequence[RoughPiece]) -> str:
        """The count of pieces of each rough length, the longest first."""
        counts = Counter(self.length(piece.length_mm) for piece in sorted(pieces, key=lambda one: -one.length_mm))
        return ", ".join(f"{count} × {length}" for length, count in counts.items())


def _named(line: RipLine | JointLine) -> str:
    return line.board + f", part {line.part}" if line.part else line.board


def _steps(milled: Milled) -> Iterator[tuple[str, str]]:
    """What is milled, in its order."""
    steps = [("Rabbet", milled.rabbet), ("Strip glued behind", milled.strip), ("Profile", milled.profile)]
    yield from (step for step in (reversed(steps) if milled.profile_first else steps) if step[1])
