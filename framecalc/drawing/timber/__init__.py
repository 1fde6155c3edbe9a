"""Drawings of the cutting plan, and of what one stick or board makes."""
