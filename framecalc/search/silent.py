"""A solver that writes nothing.

HiGHS prints its banner as soon as its callbacks are enabled, unless its output is switched off first.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from highspy import Highs


def silent_solver() -> "Highs":
    """A new HiGHS without output. It loads slowly, so it is imported only here.

    Source: HiGHS, an open solver of linear and integer programmes.
    """
    from highspy import Highs

    class Silent(Highs):
        def enableCallbacks(self) -> None:
            self.setOptionValue("output_flag", False)
            super().enableCallbacks()  # type: ignore[no-untyped-call]

    return Silent()  # type: ignore[no-untyped-call]
