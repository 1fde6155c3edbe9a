"""What changes in a document that becomes another job: a copy, a demo that is taken, a file that is taken in."""

from copy import deepcopy

from framecalc.project import items_at, part_of
from framecalc.project.document import Document


def taken_over(document: Document) -> Document:
    """The document at the start of its way, with every test cut marked as taken over: read for another job, and perhaps
    on another saw. Pieces cut and all else ticked off, glue-ups begun, sides cut again and hours written down are the
    other job's alone.
    """
    document = deepcopy({name: value for name, value in document.items() if name != "way"})
    bench = part_of(document, "bench") if "bench" in document else {}
    for name in ("glued", "glue_day", "cut_again", "hours", "running", "running_since", "finish_day"):
        bench.pop(name, None)
    for name in ("cut", "as_cut", "done"):
        (part_of(document, "timber") if "timber" in document else {}).pop(name, None)
    for frame in items_at(document, "frames"):
        mark_test_cuts(frame)
    return document


def mark_test_cuts(frame: Document) -> None:
    """Mark the test cuts of a frame as taken over, in place."""
    for cut in items_at(frame, "corner.tests"):
        cut["taken_over"] = True
