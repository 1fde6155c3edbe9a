"""The figures of all benchmarks that print ratios, in one table: what, measured, aim. Judges nothing.

    python -m tests.benchmarks.ratios [--busy] [--plans]

`--busy` measures beside a neighbour that computes on every core; `--plans` adds the plans of published recipes.
"""

import argparse
import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager, nullcontext

from tests.benchmarks import growth, largest_project, lists, redraw, sheet_classes, start, stick_classes
from tests.benchmarks.figures import print_figures

BENCHMARKS = (redraw, growth, lists, start, largest_project)
PLANS = (sheet_classes, stick_classes)
COMPUTES = "while True: sum(range(10_000))"


@contextmanager
def busy_neighbour() -> Iterator[None]:
    """Beside a process for each core that computes and never waits."""
    processes = [subprocess.Popen([sys.executable, "-c", COMPUTES]) for _ in range(os.cpu_count() or 1)]
    try:
        yield
    finally:
        for process in processes:
            process.kill()
            process.wait()


def main() -> None:
    """Run one benchmark after another."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--busy", action="store_true")
    parser.add_argument("--plans", action="store_true")
    asked = parser.parse_args()
    chosen = BENCHMARKS + PLANS * asked.plans
    with busy_neighbour() if asked.busy else nullcontext():
        print_figures(figure for benchmark in chosen for figure in benchmark.figures())


if __name__ == "__main__":
    main()
