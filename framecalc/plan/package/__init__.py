"""The package of one frame as planned: mats, weight, growth, retainers, canvas and box.

A topic speaks of borders as cut; the plan turns its ways out into what stands in the field, and leaves out what cannot
be typed there.
"""
