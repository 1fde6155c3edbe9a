"""The jobs that two checkouts are compared by: the demos' frames varied, so that every kind of thing is there once."""

from copy import deepcopy
from dataclasses import dataclass, field
from typing import Any, TypeAlias

Changes: TypeAlias = dict[str, Any]
"""What is typed, by its path in the document of a frame or of a project."""

PLANNED = ("ash-relief", "cafe-prints", "maple-canvas", "polygons", "trays", "canvases", "priced")
"""The projects of which cutting plans and layouts are worked out."""

DEMOS = ("ash-relief", "cafe-prints", "maple-canvas")


QUICK = ("mats", "trays", "priced")
"""The jobs that a quick look does with; the last one has prices and a photo, and a link for its client."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A project made of the first frame of a demo: one frame for each set of changes."""

    demo: str
    frames: tuple[Changes, ...]
    project: Changes = field(default_factory=dict)


def each(path: str, *values: Any, **also: Any) -> tuple[Changes, ...]:
    """One set of changes for each value of a path; `also` holds for all, `__` for a dot."""
    return tuple({path: value} | {name.replace("__", "."): one for name, one in also.items()} for value in values)


def mat(**more: Any) -> Changes:
    """Three pictures behind one mat."""
    usual = {"overlap": "3 mm", "border": "60 mm", "bottom": "70 mm", "in_view": False, "reveal": "5 mm"}
    pictures = [{"id": f"pic{n}", "across": f"{80 + 10 * n} mm", "up": f"{120 - 5 * n} mm"} for n in range(3)]
    placed = [one | {"left": f"{450 + 150 * n} mm", "below": f"{70 + 12 * n} mm"} for n, one in enumerate(pictures)]
    return {"package.mat": usual | {"windows": placed} | more}


IMPERIAL = {"unit": "in", "shop.words": "US", "shop.inch_step": "1/32 in"}
BRITISH_INCHES = IMPERIAL | {"shop.words": "UK"}
BRITISH = {"unit": "mm", "shop.words": "UK", "shop.mm_step": "0.1 mm"}

TERMS = {"margin": "41.5", "overhead": "13.7", "tax": "8", "tax_name": "sales tax", "deposit": "50"}
ITEMS = [
    {
        "id": "it0",
        "name": "wood",
        "group": "wood",
        "measure": "metre of stick",
        "price": "9.5",
        "priced_on": "2026-03-01",
    },
    {"id": "it1", "name": "glass", "group": "glass, boards and sheets", "measure": "square metre", "price": "38"},
    {"id": "it2", "name": "wire", "group": "hardware", "measure": "each frame", "amount": "2", "price": "1.25"},
    {"id": "it3", "name": "oil", "group": "finish", "measure": "square metre of face", "price": "14"},
    {"id": "it4", "name": "hours", "group": "work", "measure": "hour, each frame", "amount": "1.5", "price": "61.37"},
    {"id": "it5", "name": "crate", "group": "other", "measure": "the job", "price": "20"},
]

JOBS = {
    "joints": Job(
        demo="cafe-prints",
        frames=each("corner.joint.kind", "none", "loose tenon", "biscuit", "dowel", "spline", "half-lap", "bridle")
        + each("corner.joint.also_pin", True, corner__joint__also_wedge=True, corner__joint__also_spline=True),
    ),
    "joints-inch": Job(
        demo="maple-canvas",
        frames=each("corner.joint.kind", "loose tenon", "dowel", "spline", "half-lap", "bridle"),
        project=BRITISH_INCHES,
    ),
    "polygons": Job(
        demo="cafe-prints",
        frames=each("shape.sides", 3, 5, 6, 8, 12, shape__size="300 mm", species="cherry")
        + each("shape.slope", "10", "30")
        + each("shape.given", "the package, one of its sides", shape__sides=7, shape__size="9 in"),
        project=BRITISH,
    ),
    "artworks": Job(
        demo="cafe-prints",
        frames=each("artwork.kind", "photograph", "friable", "canvas", "panel", "solid panel", "textile", "object"),
        project=IMPERIAL,
    ),
    "sections": Job(
        demo="cafe-prints",
        frames=each("section.sight_edge.shape", "square", "arris", "chamfer", "round-over", "cove", "step", "bead")
        + each("section.face", "bevelled toward the picture", "bevelled away from the picture")
        + each("section.rabbet_depth", "3 mm", "17 mm"),
        project=BRITISH,
    ),
    "retainers": Job(
        demo="maple-canvas",
        frames=each(
            "fitting.held.by",
            *("turn buttons", "points", "offset clips"),
            *("a shim, and turn buttons over it", "a build-up strip, and turn buttons over it"),
        ),
    ),
    "starts": Job(
        demo="cafe-prints",
        frames=each("start.given", "wall", start__wall_across="500 mm", start__wall_up="24 in")
        + each("start.given", "stick", start__stick_length="2400 mm")
        + each("start.stick_solves", "picture", start__given="stick", start__stick_length="8 ft")
        + each("start.given", "stock", start__stock="A2"),
    ),
    "mats": Job(
        demo="cafe-prints",
        frames=(
            *(mat(arrangement=way) for way in ("row", "column", "grid", "placed by hand")),
            mat(in_view=True, bevel="60", from_behind=False),
            mat(shows="4 mm", windows=[]),
        ),
        project=IMPERIAL,
    ),
    "trays": Job(
        demo="ash-relief",
        frames=each("section.ledge", "solid", "strip") + each("section.tray_gap", "3 mm", "1/2 in"),
        project=BRITISH_INCHES,
    ),
    "canvases": Job(
        demo="maple-canvas",
        frames=each("section.kind", "rabbet", "tray") + each("fitting.canvas.folds", "on the top and bottom"),
        project=BRITISH,
    ),
    "refused": Job(
        demo="cafe-prints",
        frames=each("section.rabbet_depth", "30 mm") + each("start.given", "stock"),
    ),
    "priced": Job(
        demo="cafe-prints",
        frames=each("count", 1, 4),
        project={"quote": {"terms": TERMS, "items": ITEMS, "note": "Ready in three weeks."}},
    ),
}


def frames_made(document: Changes, name: str, job: Job) -> Changes:
    """The project file of a job, made of the one that a demo hands out."""
    first = document["frames"][0]
    frames = [deepcopy(first) | {"id": f"v{n}of", "name": f"{name} {n}"} for n in range(1, len(job.frames) + 1)]
    for frame, changes in zip(frames, job.frames, strict=True):
        _change(frame, changes)
    _change(document, job.project)
    return document | {"name": f"Job of {name}", "frames": frames, "assumed": []}


def _change(document: Changes, changes: Changes) -> None:
    for path, value in changes.items():
        *way, last = path.split(".")
        inner = document
        for step in way:
            inner = inner[step]
        inner[last] = value
