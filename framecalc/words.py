"""Words that exist twice: one table of the American and the British trade word for each concept.

Code and sentences use one word throughout (rabbet, mat, mitre, timber, molding); this table turns our own sentences
into what the shop says. What a person typed is never turned.
"""

import re
from enum import StrEnum


class Words(StrEnum):
    """Whose trade words the pages and drawings use."""

    US = "US"
    UK = "UK"


TRADE_WORDS: dict[Words, dict[str, str]] = {
    Words.US: {"mitre": "miter", "mitres": "miters", "mitred": "mitered", "timber": "lumber", "centre": "center",
               "centred": "centered", "colour": "color", "moulding": "molding", "grey": "gray"},
    Words.UK: {"rabbet": "rebate", "rabbets": "rebates", "rabbeted": "rebated", "mat": "mount", "mats": "mounts",
               "matted": "mounted", "molding": "moulding"},
}  # fmt: skip
"""Common practice, no source: which side of the Atlantic says which."""

_PATTERNS = {
    words: re.compile(rf"\b({'|'.join(sorted(table, key=len, reverse=True))})\b", re.IGNORECASE)
    for words, table in TRADE_WORDS.items()
}


def localise(text: str, words: Words) -> str:
    """Turn the trade words of one of our own sentences into those of the shop, keeping a capital.

    >>> localise("Rabbet depth, mitre length", Words.UK)
    'Rebate depth, mitre length'
    >>> localise("Rabbet depth, mitre length", Words.US)
    'Rabbet depth, miter length'
    """

    def turn(match: re.Match[str]) -> str:
        word = TRADE_WORDS[words][match[0].lower()]
        return word.capitalize() if match[0][0].isupper() else word

    return _PATTERNS[words].sub(turn, text)
