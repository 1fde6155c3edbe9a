"""Rescue: a piece went wrong, and these ways are left, each with its cost."""
