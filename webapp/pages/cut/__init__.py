"""Mark a cutting plan as cut."""
