"""The sheets of a project: stock, layouts, lists."""
