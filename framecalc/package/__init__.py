"""What sits in the rabbet: layers, glazing, weight, how it grows, how it is held, canvas and box."""
