"""What makes a drawing legible: no word on a word or on a line, and nothing leaves its sheet."""

from itertools import combinations

from svg_reading import Drawn, Text

LINES = ("outline", "edge", "hidden", "dimension", "leader", "mitre")


def require_legible(drawn: Drawn) -> None:
    on_each_other = [(one.text, other.text) for one, other in combinations(drawn.texts, 2) if one.overlaps(other)]
    assert on_each_other == []
    outside = [text for text in drawn.texts if not _is_on_sheet(drawn, text)]
    assert outside == []
    assert [point for point in drawn.all_points() if not _holds(drawn, point)] == []
    assert [(text.text, role) for text in drawn.texts for role in LINES if _is_struck(drawn, text, role)] == []


def _is_on_sheet(drawn: Drawn, text: Text) -> bool:
    return text.left >= 0 and text.top >= -0.2 and text.right <= drawn.across_mm and text.bottom <= drawn.up_mm + 0.3


def _holds(drawn: Drawn, point: tuple[float, float]) -> bool:
    return -0.25 <= point[0] <= drawn.across_mm + 0.25 and -0.25 <= point[1] <= drawn.up_mm + 0.25


def _is_struck(drawn: Drawn, text: Text, role: str) -> bool:
    """Whether a line goes through the letters, from base line to capital height; a dimension line through a tail."""
    cores = [_core(text)]
    if role == "dimension" and set(text.text) & set("gjpqy"):
        cores.append(_with_tails(text))
    return any(core.is_crossed_by(*segment) for core in cores for segment in drawn.segments(role))


def _with_tails(text: Text) -> Text:
    """The letters down to the lowest tail."""
    upright = text.bottom - text.top > text.right - text.left and len(text.text) > 1
    right, bottom = (-0.1, 0.25) if upright else (0.25, -0.1)
    return Text(text.text, "", text.left + 0.25, text.top + 0.25, text.right - right, text.bottom - bottom)


def _core(text: Text) -> Text:
    upright = text.bottom - text.top > text.right - text.left and len(text.text) > 1
    right, bottom = (0.75, 0.25) if upright else (0.25, 0.75)
    return Text(text.text, "", text.left + 0.25, text.top + 0.25, text.right - right, text.bottom - bottom)
