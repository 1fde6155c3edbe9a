"""What is handed over with a frame: its label, its back, its box."""
