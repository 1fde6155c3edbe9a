"""Wood: its moisture, how it moves, what a year does to a mitre."""
