"""The corners of one frame as planned: joint, saw, sides as cut, clamps, seasons."""
