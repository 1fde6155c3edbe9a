"""What lies on the disk: projects and their revisions, the rack, the shop, photos."""
