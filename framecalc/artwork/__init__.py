"""The artwork as measured: its true size, how crooked it is, what it needs around it, what turning it does.

The package takes the largest measured size. Out of square uses up clearance; what remains is the play that is shown.
Where a photo beside a known sheet stands in for the tape, its sizes carry an interval: `photo_sizes` finds them from
eight marks, `photo_edges` puts the marks on the corners, `photo_findings` says what makes them doubtful.
"""
