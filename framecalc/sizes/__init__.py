"""The sizes of a frame: the size chain, what it is worked out from, its members, a tray, one stick.

A tray is a rabbet that laps over nothing: the same chain with a rabbet width of 0 and the gap on both sides. Outside,
rabbet size and long points are written up, package and cover down, the sight size to the nearest step.
"""
