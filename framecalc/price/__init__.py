"""The price of a job: what is counted, what is paid, what is asked.

A quantity by hand goes before a count, a count before an estimate. Waste goes on top of estimates by length and area;
what a cutting plan has counted has it in it.
"""
