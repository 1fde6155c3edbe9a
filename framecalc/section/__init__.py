"""The section of a member: rabbet or tray, face profile, how it is milled, what is wrong with it."""
