"""Drawings of a whole job: its frames beside one another, true to each other."""
