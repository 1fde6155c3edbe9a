"""The setting-out of a frame: its fields beside the live drawings."""
