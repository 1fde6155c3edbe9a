"""The finish of a member, as it is seen: what it does to the tone of the wood, and how it shines.

*Sheen* is how bright the lamp shows in a surface, its *sharpness* how narrowly. A *paint* hides the wood.
"""

from framecalc.records import Record


class SeenFinish(Record):
    """How a finish looks: how far it deepens the wood, how much stronger its colour is, its sheen; whether it hides."""

    deeper_ratio: float
    saturation_ratio: float
    sheen_ratio: float
    sharpness_n: float
    hides: bool = False


BARE = SeenFinish(deeper_ratio=0, saturation_ratio=1, sheen_ratio=0.1, sharpness_n=9)
"""Wood of which no finish is told, planed and in its tone. Our own, set by eye, no source."""

FINISHES = {
    "oil": SeenFinish(deeper_ratio=0.1, saturation_ratio=1.12, sheen_ratio=0.14, sharpness_n=9),
    "shellac": SeenFinish(deeper_ratio=0.06, saturation_ratio=1.1, sheen_ratio=0.24, sharpness_n=18),
    "varnish": SeenFinish(deeper_ratio=0.06, saturation_ratio=1.08, sheen_ratio=0.26, sharpness_n=20),
    "lacquer": SeenFinish(deeper_ratio=0.02, saturation_ratio=1.02, sheen_ratio=0.26, sharpness_n=20),
    "polish": SeenFinish(deeper_ratio=0.06, saturation_ratio=1.1, sheen_ratio=0.3, sharpness_n=24),
    "gloss": SeenFinish(deeper_ratio=0.04, saturation_ratio=1.05, sheen_ratio=0.34, sharpness_n=26),
    "wax": SeenFinish(deeper_ratio=0.04, saturation_ratio=1.0, sheen_ratio=0.16, sharpness_n=12),
    "soap": SeenFinish(deeper_ratio=0, saturation_ratio=0.94, sheen_ratio=0.05, sharpness_n=7),
    "paint": SeenFinish(deeper_ratio=0, saturation_ratio=1, sheen_ratio=0.26, sharpness_n=9, hides=True),
    "enamel": SeenFinish(deeper_ratio=0, saturation_ratio=1, sheen_ratio=0.36, sharpness_n=24, hides=True),
    "gesso": SeenFinish(deeper_ratio=0, saturation_ratio=1, sheen_ratio=0.05, sharpness_n=6, hides=True),
    "gild": SeenFinish(deeper_ratio=0, saturation_ratio=1.1, sheen_ratio=0.6, sharpness_n=10, hides=True),
    "gold leaf": SeenFinish(deeper_ratio=0, saturation_ratio=1.1, sheen_ratio=0.6, sharpness_n=10, hides=True),
}
"""By the word that names it. Our own, set by eye, no source."""

PAINTS = {
    "black": "#26241f",
    "white": "#f1eee6",
    "grey": "#9a9a95",
    "gray": "#9a9a95",
    "green": "#56685a",
    "blue": "#41566b",
    "red": "#8a3a2e",
    "gold": "#b8924e",
    "gild": "#b8924e",
    "gesso": "#f1eee6",
}
"""The colour of a paint by a word beside it. Our own, set by eye, no source."""


def seen_finish(words: str) -> SeenFinish:
    """How a finish looks, by the first word in it that the table knows; paint before anything else.

    Source: common practice, no source.

    >>> seen_finish("Hardwax oil, two coats").sheen_ratio, seen_finish("black paint").hides, seen_finish("") == BARE
    (0.14, True, True)
    """
    said = words.casefold()
    found = [finish for word, finish in FINISHES.items() if word in said]
    return next((finish for finish in found if finish.hides), found[0] if found else BARE)


def paint_tone(words: str) -> str:
    """The colour that a finish's words say for a paint; blank where they say none.

    Source: common practice, no source.

    >>> paint_tone("black milk paint"), paint_tone("oil")
    ('#26241f', '')
    """
    said = words.casefold()
    return next((colour for word, colour in PAINTS.items() if word in said), "")
