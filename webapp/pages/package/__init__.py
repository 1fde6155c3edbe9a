"""The package of a frame: layers, mat, weight, growth, retainers, the fitting card."""
