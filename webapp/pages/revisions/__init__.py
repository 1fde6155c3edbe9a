"""The revisions of a project."""
