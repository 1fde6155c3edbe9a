"""The one door to the solver, and the watch that ends a search: deadline, cancel, progress."""
