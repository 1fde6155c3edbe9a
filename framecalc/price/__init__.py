"""The price of a job: its quantities, its costs and its selling price.

A quantity typed by hand replaces a count, a count replaces an estimate. Waste is added to estimates by length and area;
the counts of a cutting plan include it.
"""
