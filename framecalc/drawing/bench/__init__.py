"""Drawings of the bench: small true sections, one after each cut, and the days of the glue-up."""
