"""Drawings of the corners page: settings, test cuts, closing, clamps, joint, seasons.

Figures in them are the true ones; what is magnified says so, and by how much.
"""
