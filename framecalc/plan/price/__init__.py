"""The price of a project as planned: items, counts, totals, the quote."""
