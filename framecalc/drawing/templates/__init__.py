"""Templates as they leave the house: a file for the laser, a DXF, a PDF for the printer, all of one geometry."""
