"""Corners: the saw and its test cuts, compound angles, whether four sides close, square, flat and pressed."""
