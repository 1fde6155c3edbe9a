"""How wood, mat and wall look from the front, as numbers: tones, the figure of a board, light on a section."""
