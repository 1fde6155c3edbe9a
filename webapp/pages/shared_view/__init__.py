"""What the client sees."""
