"""Drawings of a sheet layout: parts, numbered cuts, labels."""
