"""The section of a member: rabbet or tray, face profile, how it is milled, what is wrong with it.

A tray is milled from solid unless its ledge is a strip of its own: then wall and ledge are two runs with one outline.
"""
