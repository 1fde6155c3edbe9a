"""The package of one frame as planned: mats, weight, growth, retainers, canvas and box.

A topic works with borders as cut; the plan converts its ways out to the value of the field, and drops ways out that
cannot be typed there.
"""
