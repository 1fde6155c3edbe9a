"""Drawings of the package page: the layers apart, the mats as they are cut, the back with what holds it."""
