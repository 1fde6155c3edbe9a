"""The pages, a folder each: what it shows, its fields, what its buttons do, its addresses."""
