"""Drawings of the cards for the bench: small true sections, one after each cut."""
