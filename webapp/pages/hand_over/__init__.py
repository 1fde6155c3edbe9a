"""Handing over: the piece as taken in, the label, the back, the box, and making the same again."""
