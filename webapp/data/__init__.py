"""What lies on the disk: projects and their revisions, the rack, the shop, photos.

A project that reads is saved even if it cannot be drawn: the error stands beside its field. A revision is a whole file,
`r000014.json`, a project by itself, with every value in it, so that a later change of a usual value changes no old
project. The rack is the shop's: a project names by tag what it took over, and nothing is set aside. A cut of a plan
changes the rack in one write; its plan, problem and drawings are written before it, so a crash leaves at worst a record
without a cut. A cut belongs to the hash of its problem, and can be undone while all that came of it is there.
"""
