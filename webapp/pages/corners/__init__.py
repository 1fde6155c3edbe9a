"""The corners of a frame: saw, test cuts, sides as cut, clamps, joint, seasons."""
