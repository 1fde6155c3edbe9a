"""Making links for the client, and what they answered."""
