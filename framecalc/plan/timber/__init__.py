"""The timber of a project as planned: members, stock, strips, the rack, what one stick makes.

Sections share stock in order: each wood and section is a cutting problem of its own, the widest first, planned with
what the plans before it have left. So nothing is taken twice, every plan keeps its own proof, and the hash of a problem
names all that its plan depends on. A number of sides is a section too, since it is another setting of the saw. Stock
that cannot be used is left out with a sentence beside its field, and the others are planned.

Of a begun board the strips are planned on that it was ripped into, its other width is not. Other members may have had
strips of it, and a board that is ripped lets go of its tension (common practice, no source): the rest may want a new
edge, and yield a strip less. So the page says that it is for the rack, and from there it is planned on as measured.
"""
