"""Plane geometry without a word of the trade: points, outlines, four-sided figures, perspective."""
