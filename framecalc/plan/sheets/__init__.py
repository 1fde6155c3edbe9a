"""The sheets of a project as planned: its parts, and the layout problem of each material."""
