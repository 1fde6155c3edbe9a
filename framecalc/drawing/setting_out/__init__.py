"""Drawings of the setting-out: front, section, members, corner, crooked artwork, sketches beside fields."""
