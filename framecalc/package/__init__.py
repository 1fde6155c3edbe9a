"""What sits in the rabbet: layers, glazing, weight, how it grows, how it is held, canvas and box.

A layer names its material; without one, its name and kind decide (`shelf.usual_material`), so layers of old files have
a weight and a growth too. A dust cover is a layer outside the rabbet: it is in the list for its order, and in no sum.
How much thinner a layer may be is separate from its tolerance: the bands of glass are uneven.
"""
