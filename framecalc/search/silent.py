"""A solver that writes nothing.

HiGHS says who it is as soon as its callbacks are enabled, unless it is hushed before.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from highspy import Highs


def silent_solver() -> "Highs":
    """A fresh HiGHS that keeps to itself; it is imported here so that nobody else waits for it.

    Source: HiGHS, an open solver of linear and integer programmes.
    """
    from highspy import Highs

    class Silent(Highs):
        def enableCallbacks(self) -> None:
            self.setOptionValue("output_flag", False)
            super().enableCallbacks()  # type: ignore[no-untyped-call]

    return Silent()  # type: ignore[no-untyped-call]
