"""The pages, a folder each: its record and routes, its fields, its actions, what it shows."""
