"""What pages share: forms, fields with their slots, answers to what was typed, conflicts, rendering.

A field that cannot be read keeps its last good value in the file and its typed text on the page. Invisible characters
become spaces when a text arrives, so later code only has to escape. A number typed in another unit (°F, pounds) is
kept with it; in a file a bare one is °C or N. The form for a new item already carries its id, so a button
pressed twice, or in two tabs, adds it once.
"""
