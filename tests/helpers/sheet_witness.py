"""An independent check of sheet layouts, sharing no code with the search: it cuts the sheets by the cut list."""

from collections import Counter
from itertools import pairwise

from framecalc.sheets.answer import CutSheet, SheetLayout
from framecalc.sheets.problem import SheetProblem

SAME_MM = 0.001

Rectangle = tuple[float, float, float, float]
"""Left, lower, right and upper edge [mm]."""


def complaints(layout: SheetLayout, problem: SheetProblem) -> list[str]:
    """The faults of a layout."""
    found = _count_complaints(layout, problem)
    for number, sheet in enumerate(layout.sheets, start=1):
        rectangles = [(p.x_mm, p.y_mm, p.x_mm + p.across_mm, p.y_mm + p.up_mm) for p in sheet.parts]
        trim = problem.trim_mm
        inside = (trim, trim, sheet.stock.across_mm - trim, sheet.stock.up_mm - trim)
        found += [f"sheet {number}: {r} leaves {inside}" for r in rectangles if not _lies_in(r, inside)]
        if not has_guillotine_sequence(rectangles, kerf=problem.kerf_mm):
            found.append(f"sheet {number}: no sequence of edge-to-edge cuts separates {rectangles}")
        found += [f"sheet {number}: {says}" for says in _saw(sheet, problem)]
    return found


def has_guillotine_sequence(rectangles: list[Rectangle], *, kerf: float) -> bool:
    """Whether cuts from edge to edge, a kerf wide, separate all rectangles; any such cut keeps the rest separable."""
    if len(rectangles) < 2:
        return True
    for low, high in ((0, 2), (1, 3)):
        ordered = sorted(rectangles, key=lambda rectangle: rectangle[low])
        reach = float("-inf")
        for number, (one, following) in enumerate(pairwise(ordered), start=1):
            reach = max(reach, one[high])
            if reach + kerf <= following[low] + SAME_MM:
                parts = ordered[:number], ordered[number:]
                return all(has_guillotine_sequence(part, kerf=kerf) for part in parts)
    return False


def _count_complaints(layout: SheetLayout, problem: SheetProblem) -> list[str]:
    wanted = Counter(
        (part.name, *sorted((part.across_mm, part.up_mm))) for part in problem.parts for _ in range(part.count)
    )
    cut = Counter((part.name, *sorted((part.across_mm, part.up_mm))) for _, part in layout.parts())
    found = [] if wanted == cut else [f"wanted {wanted}, cut {cut}"]
    fixed = {part.name: (part.across_mm, part.up_mm) for part in problem.parts if not part.may_turn}
    for _, part in layout.parts():
        if part.name in fixed and (part.across_mm, part.up_mm) != fixed[part.name]:
            found.append(f"{part.label} is turned")
    for stock in problem.stock:
        taken = sum(sheet.stock is stock and not sheet.is_missing for sheet in layout.sheets)
        if stock.count is not None and taken > stock.count:
            found.append(f"{taken} of {stock.name} are taken")
    return found


def _saw(sheet: CutSheet, problem: SheetProblem) -> list[str]:
    """Cut the sheet as listed; every part must come out at its size, and every cut must be possible."""
    pieces: dict[str, Rectangle] = {"sheet": (0.0, 0.0, sheet.stock.across_mm, sheet.stock.up_mm)}
    if not sheet.cuts:
        pieces[sheet.parts[0].label] = pieces.pop("sheet")
    found = []
    for expected, cut in enumerate(sheet.cuts, start=1):
        low, high = (0, 2) if cut.runs_up else (1, 3)
        piece = pieces.pop(cut.of)
        start, end = cut.start, cut.end
        at = start[low]
        if cut.number != expected or abs(at - end[low]) > SAME_MM:
            found.append(f"cut {cut.number} is out of order or slants")
        across = 1 - low
        if start[across] > piece[across] + SAME_MM or end[across] < piece[across + 2] - SAME_MM:
            found.append(f"cut {cut.number} does not reach from edge to edge of {cut.of} {piece}")
        if cut.gives == "trim":
            pieces["sheet"] = _without_trim(piece, low, at, problem.trim_mm)
            continue
        if abs(at - piece[low] - cut.setting_mm) > SAME_MM:
            found.append(f"cut {cut.number} is set to {cut.setting_mm}, not {at - piece[low]}")
        off, left = list(piece), list(piece)
        off[high], left[low] = at, at + problem.kerf_mm
        for width in (at - piece[low], piece[high] - at - problem.kerf_mm):
            if SAME_MM < width < problem.least_strip_mm - SAME_MM:
                found.append(f"cut {cut.number} breaks off only {width}")
        pieces[cut.gives] = tuple(off)
        remains = {"rest": cut.of, "left-over": f"left-over of {cut.of}", "": f"dust of {cut.of}"}
        pieces[remains.get(cut.leaves, cut.leaves)] = tuple(left)
    return found + _part_complaints(sheet, pieces)


def _without_trim(piece: Rectangle, low: int, at: float, trim: float) -> Rectangle:
    edges = list(piece)
    edges[low if abs(at - piece[low] - trim) < SAME_MM else low + 2] = at
    return tuple(edges)


def _part_complaints(sheet: CutSheet, pieces: dict[str, Rectangle]) -> list[str]:
    found = []
    for part in sheet.parts:
        piece = pieces.get(part.label, (0.0, 0.0, 0.0, 0.0))
        here = (part.x_mm, part.y_mm, part.x_mm + part.across_mm, part.y_mm + part.up_mm)
        if max(abs(one - other) for one, other in zip(piece, here, strict=True)) > SAME_MM:
            found.append(f"{part.label} comes out as {piece}, not as {here}")
    return found


def _lies_in(rectangle: Rectangle, inside: Rectangle) -> bool:
    return (
        rectangle[0] >= inside[0] - SAME_MM
        and rectangle[1] >= inside[1] - SAME_MM
        and rectangle[2] <= inside[2] + SAME_MM
        and rectangle[3] <= inside[3] + SAME_MM
    )
