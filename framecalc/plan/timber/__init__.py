"""The timber of a project as planned: members, stock, strips, the rack, what one stick makes."""
