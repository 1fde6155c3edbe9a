"""Sheet layouts: parts on sheets and off-cuts, cut edge to edge, and the proof that no layout does better.

A sheet material is the layers of one name, thickness and substance. Stock names the layers that it serves; a typed
thickness narrows that down. A count makes a sheet on hand; without one it is for sale, as many as are wanted. How
something is cut belongs to the kind of material, since it hangs on the tool; what may not be turned hangs on the layer.
A layout is shown only if the checker finds no fault in it, also one that is read from the disk.
"""
