"""The sizes of a frame: the size chain, what it is worked out from, its members, a tray, one stick."""
