"""Marking a cutting plan as cut."""
