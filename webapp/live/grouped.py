"""The groups of the pages that show one group at a time: which fields each holds, and its address.

A group's address is that of its page, then its name. What leads to a field or to an answer leads to its group.
"""

from collections.abc import Mapping

from webapp.live.addresses import CORNERS, HAND_OVER, PACKAGE, SHEETS, TIMBER, WALL, Address

GROUPED: Mapping[Address, Mapping[str, tuple[str, ...]]] = {
    PACKAGE: {
        "layers": ("package.layers.", "package.fillet_shows", "package.clearance_", "fitting.artwork_weight"),
        "mat": ("package.mat.",),
        "gap": (),
        "handling": ("fitting.stiffening.",),
        "growth": ("fitting.room.", "fitting.panel."),
        "held": ("fitting.held.",),
        "canvas": ("fitting.canvas.",),
        "box": ("fitting.box.",),
        "steps": (),
    },
    CORNERS: {
        "angles": (
            "corner.cutting",
            "corner.saw",
            "corner.saw_kind",
            "corner.since",
            "corner.fence",
            "corner.lean",
            "corner.blade_ends",
        ),
        "tolerance": ("corner.gap",),
        "joint": ("corner.joint.",),
        "tests": ("corner.tests.",),
        "parts": ("corner.sides.", "corner.numbered.", "corner.batch."),
        "clamps": ("corner.clamps.", "shop.strap."),
        "seasons": ("corner.seasons.",),
    },
    TIMBER: {"stock": (), "mill": (), "stops": (), "pieces": (), "off-cuts": ()},
    SHEETS: {"stock": (), "parts": (), "off-cuts": ()},
    WALL: {
        "hangers": ("hanging.",),
        "nails": (
            *("wall.across", "wall.up", "wall.kind", "wall.anchor", "wall.factor", "wall.is_", "wall.has_children"),
            *("wall.line", "wall.level", "wall.from_right", "wall.things."),
        ),
        "group": ("wall.",),
        "strip": (),
    },
    HAND_OVER: {
        "intake": ("hand_over.intake.",),
        "label": ("hand_over.label.",),
        "back": ("hanging.bumper",),
        "packing": ("hand_over.packing.",),
        "again": ("hand_over.said",),
    },
}
"""The groups of each page in the order of the work, and how the paths of their fields begin within a frame.

On a page of the whole job the groups are its lists; its fields stand beside each of them.
"""


def group_of(path: str, *, page: Address) -> str:
    """The group of a page in which a field stands; blank where it has none.

    >>> group_of("frames.k3f.package.mat.border", page=PACKAGE), group_of("shop.kerf", page=PACKAGE)
    ('mat', '')
    """
    within = path.split(".", 2)[-1] if path.startswith("frames.") else path
    return next((name for name, starts in GROUPED.get(page, {}).items() if within.startswith(starts)), "")


def at_group(page: Address, name: str) -> Address:
    """The address of a group of a page; of the page itself where it has no such group.

    >>> at_group(PACKAGE, "mat").removeprefix(PACKAGE), at_group(PACKAGE, "").removeprefix(PACKAGE)
    ('/mat', '')
    """
    return page + f"/{name}" if name in GROUPED.get(page, {}) else page


def at_field(page: Address, path: str) -> Address:
    """The address at which a field of a page is typed: that of its group, if the page has groups."""
    return at_group(page, group_of(path, page=page))
