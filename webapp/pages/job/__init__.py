"""The job: its frames, its client, the day it is due, and the way through it."""
