"""The artwork as measured: its true size, how crooked it is, what it needs around it, what turning it does.

The package takes the largest measured size. Out of square uses up clearance; what remains is the play that is shown.
"""
