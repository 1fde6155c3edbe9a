"""The costs of a job, and the quote."""
