"""The solver behind cutting plans and closing corners keeps to itself."""

import subprocess
import sys

SOLVE = """
from framecalc.corners.small_motions import Ring, best_motions, gaps_and_steps
from framecalc.search.solver import Condition, Programme, solve
from framecalc.search.watch import Watch

row = Condition(terms=((0, 1), (1, 1)), least=4)
programme = Programme(costs=(3, 2), floors=(0, 0), limits=(None, None), rows=(row,))
for whole in (False, True):
    found = solve(programme, whole=whole, watch=Watch(clock=lambda: 0.0, until_s=9.0))
    assert found.counts == (0, 4), found
ring = Ring(half_across_mm=250, half_up_mm=175, too_long_mm=(1, 0, 0, 0), wedges_rad=(0, 0, 0, 0), mitre_length_mm=56)
assert len(best_motions(gaps_and_steps(ring))) == 12
"""


def test_a_solve_writes_nothing_of_its_own() -> None:
    said = subprocess.run([sys.executable, "-c", SOLVE], capture_output=True, text=True, check=False)
    assert (said.returncode, said.stdout, said.stderr) == (0, "", "")
