"""The only way to the solver, and the watch over a search: deadline, cancellation, progress."""
