"""The tables that come with the program, as CSV files with their sources, and their readers."""
