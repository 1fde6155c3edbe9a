"""The shop's own values."""
