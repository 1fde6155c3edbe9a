"""What there is room for."""
