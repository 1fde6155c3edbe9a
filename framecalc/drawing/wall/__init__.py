"""The drawings of the wall page."""
