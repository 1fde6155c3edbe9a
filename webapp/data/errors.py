"""What can go wrong with the data folder. Each error is one sentence for the person at the bench."""


class StoreError(Exception):
    """The root of all trouble with files. `sentence` says what was found and what would do."""

    def __init__(self, sentence: str) -> None:
        super().__init__(sentence)
        self.sentence = sentence


class UnusableFolder(StoreError):
    """The data folder cannot be made, or cannot be written into."""


class FolderInUse(StoreError):
    """Another running copy holds the data folder."""


class NotWritten(StoreError):
    """The disk refused a file; what was there before is still there."""


class UnreadableFile(StoreError):
    """A file in the data folder is damaged."""


class NoSuchProject(StoreError):
    """There is no project of this id."""


class NoSuchRevision(StoreError):
    """There is no readable revision of this number."""


class NothingToUndo(StoreError):
    """There is no step to take back, or none to take again."""


class OnlyHere(StoreError):
    """Something that may be done at the shop's own computer only."""


class UnusablePhoto(StoreError):
    """What was sent is no photo that can be taken in."""
