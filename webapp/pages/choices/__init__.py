"""Other ways that a job may be made, side by side, to be offered to its client."""
