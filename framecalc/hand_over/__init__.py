"""Handing over: what is packed round a finished frame, and what its label tells whoever opens it.

A *block* is the foam or card over one corner. The *inside* of a box is what the packed frame takes, blocks included.
"""
