"""Timber: boards and sticks, milling, the cutting plan, stops and lists, the rack."""
