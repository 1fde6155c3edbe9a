"""Saves that meet, over and over: two at once from one tab, ticks at once from two tablets. Prints what was lost.

    python tests/benchmarks/saves_at_once.py [COUNT]

COUNT pairs of saves and as many rounds of ticks, 200 where nothing is said. Leaves with 1 where anything was lost.
"""

import sys
from pathlib import Path
from tempfile import TemporaryDirectory

sys.path[:0] = [str(Path(__file__).parents[2]), str(Path(__file__).parents[1] / "helpers")]

from pages import Browser  # noqa: E402
from rivals import lost_of_pairs, lost_of_ticks  # noqa: E402
from serving import client_of, serving  # noqa: E402

from webapp.app import create_app  # noqa: E402


def main(count: int) -> int:
    """Save and tick, print what was lost, and return how much that was."""
    with (
        TemporaryDirectory() as folder,
        serving(create_app(data_dir=Path(folder) / "data")) as server,
        client_of(server) as one,
        client_of(server) as other,
    ):
        browsers = Browser(one), Browser(other)
        pairs = lost_of_pairs(browsers, browsers[0].setting_out(browsers[0].new()), pairs=count)
        ticks = lost_of_ticks(browsers, browsers[0].new(), rounds=count)
    print(*pairs, *ticks, sep="\n")
    print(f"{len(pairs)} saves lost of {2 * count}; {len(ticks)} ticks lost of {6 * count}")
    return len(pairs) + len(ticks)


if __name__ == "__main__":
    sys.exit(bool(main(int(sys.argv[1]) if len(sys.argv) > 1 else 200)))
