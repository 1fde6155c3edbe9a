"""The package of one frame as planned: mats, weight, growth, retainers, canvas and box."""
