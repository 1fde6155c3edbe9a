"""Mats: borders and windows, bridges between windows, how a mat cutter is set.

Several windows are one mat to the size chain: `wished_mat` sets them out and sees them as one window, from
outermost to outermost. Windows are measured at the back of the board. From behind, the distances of a cutter are those,
mirrored; from in front they are those of the outer edge of the bevel, on the face.
"""
