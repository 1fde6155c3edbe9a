"""Templates: what is laid on the material, or cut out of it, at its true size.

A *template* is one record in millimetres: closed outlines with true arcs, the holes in them, marks that are drawn on,
and words, with what it is for and which side is up. Paper, laser file and DXF are made from it and from nothing else.
"""
