"""Everything as one file, back again, and a backup each day."""
