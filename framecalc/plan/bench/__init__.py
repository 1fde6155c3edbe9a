"""The bench of a job: cards made of what is planned, and what came out beside what was planned.

Cards read the plan and the cutting plans beside it; they compute no size. What was measured gives a plan of its own,
the *plan as cut*: everything still to be done is worked out again by the whole program, and the plan itself stays.
"""
