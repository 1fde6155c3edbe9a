"""Drawings of a frame plan: panels for the screen, papers to take to the bench.

Each drawing is one `Drawing` beside its draw functions; `registry.py` lists them all. Whoever draws one of them by its
name imports the list, and with it all drawings; nobody else does.
"""
