"""Templates of a job at their true size: for the laser, for other programs, for the printer."""
