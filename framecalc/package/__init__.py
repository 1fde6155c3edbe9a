"""What sits in the rabbet: layers, glazing, weight, how it grows, how it is held, canvas and box.

A layer names its material; one that does not is taken for what its name and kind say (`shelf.usual_material`), so that
old files weigh and grow as they are called. A dust cover is a layer outside the rabbet: it stands in the list for its
order, and in no sum. How much thinner a layer may be stands apart from its tolerance: the bands of glass are uneven.
"""
