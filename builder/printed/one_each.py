"""Whether a report says that each of those who were treated had one unit alone: "each patient contributed one eye"."""

from __future__ import annotations

import re
from functools import lru_cache

from ..numerals import Lexicon
from ..numerals.late import late

_may = late(r"\b(?:one|single|1)\b|(\d+)\D{1,60}\b\1\b|as many", re.IGNORECASE).search
_HAD = (
    r"(?:contribut|provid|had|has|having|receiv|present|was represented by|was treated (?:on|for|in)|supplied|gave|"
    r"with|entered|enrolled|was included with|treated)\w*"
)
_ONE = r"(?:only\s+|just\s+|exactly\s+)?(?:one|a\s+single|1)\s+(?:[a-z]+\s+){0,2}?"


@lru_cache(maxsize=32)
def _says(unit: str, holder: str, lexicon: Lexicon) -> re.Pattern[str]:
    unit_words, holder_words = _one_or_many(unit, lexicon), _one_or_many(holder, lexicon)
    return re.compile(
        rf"""\b(?:each|every)\s+(?:[a-z]+\s+)?{holder_words}\s+{_HAD}\s+{_ONE}{unit_words}
        | \b{_ONE}{unit_words}\s+(?:[a-z]+\s+){{0,3}}
          (?:per|(?:for|from|in|of)\s+(?:each|every)(?:\s+of\s+(?:the\s+)?\w+)?)\s+(?:[a-z]+\s+)?{holder_words}
        | \beach\s+{_HAD}\s+{_ONE}{unit_words}
        | \b{_ONE}{unit_words}\s+(?:each|apiece)\b
        | \b(?P<many>\d+)\s+(?:[a-z]+\s+)?{unit_words}\s*(?:in|of|from|\()\s*(?:the\s+)?(?:(?P=many)|as\s+many)\s+
          (?:[a-z]+\s+)?{holder_words}
        | \b(?P<many2>\d+)\s+(?:[a-z]+\s+)?{holder_words}\s*(?:with|and|,|\()\s*(?:a\s+total\s+of\s+)?
          (?:(?P=many2)|as\s+many)\s+(?:[a-z]+\s+)?{unit_words}
        """,
        re.IGNORECASE | re.VERBOSE,
    )


def _one_or_many(unit: str, lexicon: Lexicon) -> str:
    words = {form for word in lexicon.units[unit].words for form in (word, word.removesuffix("s"))}
    return rf"(?:{'|'.join(map(re.escape, sorted(words, key=len, reverse=True)))})\b"


def is_one_each(text: str, unit: str, holder: str, lexicon: Lexicon) -> bool:
    """Whether a passage says that each holder has one unit. unit, holder: ids of the lexicon, "eye" and "patient"."""
    return _may(text) is not None and _says(unit, holder, lexicon).search(text) is not None
