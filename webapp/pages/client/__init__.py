"""Links for the client, and their answers."""
