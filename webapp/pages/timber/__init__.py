"""The timber of a project: stock, the cutting plan, its lists."""
