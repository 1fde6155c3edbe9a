"""Hanging: from the finished frame to the nail in the wall.

Across is measured from the middle of a frame to the right as seen from the front, up from its middle, out from its back
toward the room. *Down* is counted from its top edge. The *drop* is how far the point that rests on the hook lies under
the top edge while the frame hangs. Load figures are statics and what the user has typed; none is an approval.
"""
