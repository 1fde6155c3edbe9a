"""Mats: borders and windows, bridges between windows, how a mat cutter is set."""
