"""What is taken away from a page: drawings at their true size, tables, calendars, papers for a wall or a frame."""
