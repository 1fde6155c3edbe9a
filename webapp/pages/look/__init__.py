"""The look of a frame: photo, colours, the wall."""
