"""The templates of a frame, made from its plan, and their copies on a bed."""
