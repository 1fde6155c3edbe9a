"""Common boards: members of several sections out of the same boards, in two stages: rip, then crosscut.

A board is ripped into strips of several widths, each with its jointing allowance and a saw cut beside it; a *rip* is
one way to do that: so many strips for each section. Which strip serves which pieces is then a cutting plan of each
section, from the strips that are allotted to it.
"""
