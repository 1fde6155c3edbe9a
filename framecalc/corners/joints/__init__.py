"""Corner joints: what each needs, what walls it leaves, whether it is sound, and what it clashes with.

A joint is a footprint in the section: what is cut into a prismatic member shows there as a rectangle, so walls are
measured in the section as milled, and clashes between joints are distances between upright prisms. A tray is jointed
in its wall, as a member without a rabbet: leaving the ledge out errs on the safe side.
"""
