"""The client's view of a link."""
