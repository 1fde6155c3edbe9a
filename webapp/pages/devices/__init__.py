"""Devices that may open the shop's pages."""
