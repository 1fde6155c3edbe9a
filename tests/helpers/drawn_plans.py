"""Plans to draw: the demos, as they are and with changed fields."""

import json
from pathlib import Path
from typing import Any

import framecalc
from framecalc.plan import FramePlan, Plan
from framecalc.project import read_project, set_value

DEMOS = Path(framecalc.__file__).parent / "demos"
FRAMES = (("cafe-prints", "oak5"), ("maple-canvas", "map1"), ("ash-relief", "tray1"), ("ash-relief", "box1"))


def demo(name: str) -> Any:
    """The document of a demo."""
    return json.loads((DEMOS / f"{name}.demo.json").read_text("utf-8"))


def plan_of(demo_name: str, frame_id: str, changes: dict[str, Any] | None = None, **project: Any) -> FramePlan:
    """The plan of one frame of a demo, with fields of the frame changed by path and the project's by name."""
    document = demo(demo_name) | project
    frame = next(frame for frame in document["frames"] if frame["id"] == frame_id)
    document["frames"] = [frame]
    for path, value in (changes or {}).items():
        set_value(frame, path, value)
    return Plan(read_project(document)).frames[frame_id]


def plain(across_mm: float, up_mm: float, face_mm: float, *, unit: str = "mm") -> FramePlan:
    """A frame without a mat, of an outside size and a face width, its section in proportion to that."""
    rabbet_mm = min(12.0, face_mm / 3)
    opening = {"across": across_mm, "up": up_mm}
    sizes = {
        f"artwork.{name}": f"{max(outside - 2 * (face_mm - rabbet_mm) - 2, 2 * rabbet_mm + 6):.2f} mm"
        for name, outside in opening.items()
    }
    thickness_mm = max(9.0, min(40.0, face_mm * 0.8))
    section = {
        "section.face_width": f"{face_mm} mm",
        "section.thickness": f"{thickness_mm} mm",
        "section.rabbet_width": f"{rabbet_mm:.2f} mm",
        "section.rabbet_depth": f"{thickness_mm * 0.55:.2f} mm",
        "section.sight_edge.size": "0.5 mm",
        "section.back_edge.size": "0.5 mm",
        "package.clearance_across": "2 mm",
        "package.clearance_up": "2 mm",
        "package.mat": None,
    }
    return plan_of("cafe-prints", "oak5", sizes | section, unit=unit)
