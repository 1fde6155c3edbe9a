"""The finish of a job, day by day, and the hours that its steps take: written down, and told from past jobs."""
