"""What one stick or board makes."""
