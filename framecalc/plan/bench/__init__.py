"""The bench of a job: cards made of what is planned, and what came out beside what was planned.

Cards read the plan and the cutting plans beside it; they compute no size. What was measured gives a plan of its own,
the *plan as cut*: everything still to be done is worked out again by the whole program, and the plan itself stays.

What takes numbers: thickness, face width, rabbet and package of any shape, side by side (a polygon's by their numbers);
long points and angles on Corners, of a polygon too. A ledge or a strip that is glued on takes none: it is cut into the
frame that came out, so its long points follow the members, and one that does not fit is cut again. Ways out for a
piece that went wrong are ranked for flat rectangles; of any other shape all sides are alike, so that trimming one trims
them all, and the piece is cut again, by its tick in the list of every piece.
"""
