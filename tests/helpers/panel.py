"""A small project in inches, a panel in a frame, for tests to vary."""

from typing import Any

PANEL_IN_INCHES: dict[str, Any] = {
    "schema": 1,
    "name": "A panel",
    "unit": "in",
    "shop": {"blade": "saw", "kerf": "1/8 in", "end_trim": "1 in", "fence_length": "18 in"},
    "frames": [
        {
            "id": "f1",
            "name": "Panel",
            "artwork": {"kind": "panel", "across": "11 in", "up": "14 in"},
            "package": {
                "clearance_across": "1/8 in",
                "clearance_up": "1/8 in",
                "layers": [
                    {"id": "pa", "name": "panel", "kind": "artwork", "thickness": "1/4 in", "tolerance": "0 mm"}
                ],
            },
            "section": {
                "face_width": "1 1/2 in",
                "thickness": "3/4 in",
                "rabbet_width": "1/2 in",
                "rabbet_depth": "3/8 in",
                "face_drop": "1/8 in",
                "sight_edge": {"shape": "square", "size": "1/8 in"},
                "back_edge": {"shape": "square", "size": "1/8 in"},
                "tray_gap": "1/4 in",
                "ledge_width": "1 in",
                "ledge_thickness": "3/8 in",
            },
        }
    ],
}
