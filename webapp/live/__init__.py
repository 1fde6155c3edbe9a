"""What pages share: forms, fields with their slots, answers to what was typed, conflicts, rendering.

A field that cannot be read keeps its last good value in the file and its typed text on the page. Invisible characters
become spaces where a text comes in; everything after that only has to escape. A number typed in another unit (°F,
pounds) is turned into the unit of its field: a file knows °C and N. The form of something new carries the id that it
will have, so a button pressed twice, or in two tabs, does its work once.
"""
