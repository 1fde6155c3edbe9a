"""Corners: the saw and its test cuts, compound angles, whether four sides close, square, flat and pressed.

The error of an end is that of the angle at its long point; a positive one opens the joint at the outside. Sides and
corners go clockwise from the top, seen from the front. Cuts since the fence was last turned show how a saw is set; all
cuts of that saw, each setting about its own mean, show how well it repeats itself. A saw is identified by its name, by
how the ends are cut, and by the note on its last change.
"""
