"""The rack of the shop, and what of it suits a project."""
