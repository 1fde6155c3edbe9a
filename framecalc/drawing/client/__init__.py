"""Drawings for the client: the artwork framed, and on the wall."""
