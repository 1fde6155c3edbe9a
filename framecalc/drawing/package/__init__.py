"""Drawings of the package page: the layers apart, the mats as cut, the back with its retainers."""
