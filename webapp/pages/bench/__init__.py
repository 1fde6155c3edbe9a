"""The bench of a job: one card for each machine, ticked off and printed, and what came out of it."""
