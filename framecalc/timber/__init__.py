"""Timber: boards and sticks, milling, the cutting plan, stops and lists, the rack.

A board that is too thin to lie flat is ripped on edge; lying flat comes first, since the face of the member is then a
face of the board. Bow is taken at its worst: bow, twist and clean-up add up. A bowed board is crosscut in equal parts
as long as the thickness allows, and no piece lies across such a cut. Unused strips stay one board.
Only the cutting plan decides which sticks on the rack can be used.
"""
