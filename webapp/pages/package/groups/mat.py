"""The mats: every window, the settings of the cutter, the borders in view, the white line of the bevel."""

from collections.abc import Iterator, Mapping

from framecalc.artwork.measuring import ArtworkKind
from framecalc.evidence import PLANE_GEOMETRY, USUAL_PRACTICE
from framecalc.findings import Rounding
from framecalc.plan.package.mats import CutMat, MatPlan
from framecalc.units import TOLERANCE_MM
from framecalc.words import joined, typed
from webapp.live.answers import AnswerGroup, Big, Table, plural
from webapp.pages.package.groups.context import PackageContext, source_words

CAUTIONS = (
    "A mat cutter's blade is as sharp as a scalpel: keep the other hand behind it, change it with the holder locked,"
    " and follow the machine's manual.",
)


def mat(context: PackageContext) -> AnswerGroup:
    """The mats with all their windows."""
    mats = context.plan.package.mats
    if mats is None:
        return AnswerGroup(
            name="mat",
            answer="None",
            applies=context.plan.frame.artwork.kind is not ArtworkKind.CANVAS,
            does=(_none(context),),
            findings=context.found("mat"),
        )
    return AnswerGroup(
        name="mat",
        answer=f"{'Window' if len(mats.windows.windows) == 1 else 'Windows'} {_window(context, mats)}",
        bigs=_bigs(context, mats),
        does=tuple(_does(context, mats)),
        lines=tuple(_lines(context, mats)),
        tables=(*_cutters(context, mats), _windows(context, mats)),
        drawings=context.drawn(*(["upper-mat"] if len(_different(mats)) > 1 else []), "mat"),
        findings=context.found("mat", "windows", "openings", "image"),
        sources=(
            source_words(PLANE_GEOMETRY),
            f"Overlap, least bridge and least border: {USUAL_PRACTICE}.",
        ),
        cautions=CAUTIONS,
    )


def _none(context: PackageContext) -> str:
    if context.plan.is_tray:
        return "No mat in a tray: nothing laps over the artwork."
    return "No mat: the lip laps over the artwork itself."


def _bigs(context: PackageContext, mats: MatPlan) -> tuple[Big, ...]:
    windows, visible = mats.windows.windows, mats.visible
    sides, bottom = context.say(visible.sides_mm), context.say(visible.bottom_mm)
    is_even, all_round = not context.plan.shape.is_rectangle, "on every side"
    beside = (
        f"sides and top; bottom {bottom}"
        if visible.top_mm == visible.sides_mm
        else f"sides; top {context.say(visible.top_mm)}, bottom {bottom}"
    )
    outside = context.outline(mats.mat.across_mm, mats.mat.up_mm, rounding=Rounding.DOWN)
    return (
        Big(
            label="Window" if len(windows) == 1 else "Windows",
            text=_window(context, mats),
            says="as cut" if len(windows) == 1 else f"{len(windows)} of them",
        ),
        Big(label="Mat, cut to", text=outside, says=_boards(mats) if len(mats.cut) > 1 else ""),
        Big(label="Borders in view", text=sides, says=all_round if is_even else beside),
    )


def _window(context: PackageContext, mats: MatPlan) -> str:
    windows = mats.windows.windows
    if len({(round(one.across_mm, 3), round(one.up_mm, 3)) for one in windows}) > 1:
        return f"{len(windows)}, of several sizes"
    return context.outline(windows[0].across_mm, windows[0].up_mm)


def _does(context: PackageContext, mats: MatPlan) -> Iterator[str]:
    """Where the windows are marked, and what the cutter is set to."""
    one = len(mats.windows.windows) == 1
    windows = "window" if one else "windows"
    cuts = _different(mats)
    by_table = ", and set the cutter by the table" if len(cuts) > 1 or not one else ""
    yield f"Mark the {windows} on the {'back, face down' if mats.from_behind else 'face'}{by_table}."
    if by_table:
        return
    (setting,) = cuts[0].settings
    sides = {
        "left": setting.left_mm,
        "right": setting.right_mm,
        "top": setting.top_mm,
        "bottom": setting.bottom_mm,
    }
    yield f"Set the cutter to {_by_size(context, sides)}."


def _by_size(context: PackageContext, sides: Mapping[str, float]) -> str:
    """Distances from the edges, those alike together."""
    alike: dict[str, list[str]] = {}
    for name, length_mm in sides.items():
        alike.setdefault(context.tape(length_mm), []).append(name)
    if len(alike) == 1:
        return f"{next(iter(alike))} on every side"
    return ", ".join(f"{size} at the {_listed(names)}" for size, names in alike.items())


def _listed(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


MOST_NAMED = 60
"""As many letters of names as there is room for under a figure."""


def _boards(mats: MatPlan) -> str:
    names = joined(" and ", dict.fromkeys(cut.name for cut in mats.cut))
    return names if len(names) <= MOST_NAMED else typed(names[:MOST_NAMED])


def _different(mats: MatPlan) -> tuple[CutMat, ...]:
    """The different mats: two alike need one setting."""
    found: dict[object, CutMat] = {}
    for cut in mats.cut:
        found.setdefault(cut.laid, cut)
    return tuple(found.values())


def _cutters(context: PackageContext, mats: MatPlan) -> Iterator[Table]:
    """What the cutter is set to: of the first mat, if it has several windows, a line each; all else folded."""
    for place, cut in enumerate(_different(mats)):
        yield _cutter(context, mats, cut, is_folded=place > 0 or len(cut.settings) == 1)


def _cutter(context: PackageContext, mats: MatPlan, cut: CutMat, *, is_folded: bool) -> Table:
    side = "from behind, face down" if mats.from_behind else "from in front"
    caption = cut.name + f": set the cutter, {side}" if len(mats.cut) > 1 else f"Set the cutter, {side}"
    if not context.plan.shape.is_rectangle:
        (setting,) = cut.settings
        sides, distance = context.plan.shape.sides, context.tape(setting.bottom_mm)
        return Table(
            caption=caption, heads=("Cuts", "From every edge"), rows=((str(sides), distance),), is_folded=is_folded
        )
    return Table(
        caption=caption,
        heads=("Window", "From left", "From right", "From top", "From bottom"),
        rows=tuple(
            (
                str(setting.window),
                *(
                    context.tape(length_mm)
                    for length_mm in (setting.left_mm, setting.right_mm, setting.top_mm, setting.bottom_mm)
                ),
            )
            for setting in cut.settings
        ),
        is_folded=is_folded,
    )


def _windows(context: PackageContext, mats: MatPlan) -> Table:
    return Table(
        caption="Windows as seen from the front",
        heads=("Window", "Picture", "Opening", "Laps over" if not mats.floats else "Shows around"),
        rows=tuple(
            (
                str(number),
                context.outline(image.across_mm, image.up_mm),
                context.outline(window.across_mm, window.up_mm),
                context.say(abs(laps.most_mm if mats.floats else laps.least_mm)),
            )
            for number, (image, window, laps) in enumerate(
                zip(mats.images, mats.windows.windows, mats.laps, strict=True), start=1
            )
        ),
        is_folded=True,
    )


def _lines(context: PackageContext, mats: MatPlan) -> Iterator[str]:
    if mats.from_behind:
        over = "left and right are changed over, and the" if context.plan.shape.is_rectangle else "the"
        yield f"Cut face down: {over} distances are those on the back of the board."
    else:
        yield "Cut from in front: the distances are those of the bevel's outer edge, on the face."
    white = mats.bevel
    if white.seen_mm > TOLERANCE_MM:
        yield (
            f"The bevel shows a white line {context.say(white.seen_mm)} wide from the front,"
            f" {context.say(white.slope_mm)} on its slope."
        )
    else:
        yield "A straight cut shows no white line."
    if mats.bridges:
        narrowest = mats.bridges[0]
        one, other = narrowest.between
        yield f"The narrowest bridge, between windows {one} and {other}, is {context.say(narrowest.width_mm)}."
    if mats.upper:
        yield f"The lower mat shows by {context.say(mats.reveal_mm)} inside the upper one."
    drops = plural(len(mats.windows.windows), "drop-out")
    yield f"{drops} of board {'is' if len(mats.windows.windows) == 1 else 'are'} left from the windows."
