"""Which part of those studied a number is of, by the passage's words: "in women", "among smokers", a row."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from ..numerals import Lexicon, Token
from ..numerals.late import holds_any, late
from .belonging import owners_among
from .owner import Owners
from .tables import Table
from .wordings import Mention, Name, Names


class Grouping:
    """One way to part those studied."""

    __slots__ = ("_words", "factor", "is_of_people", "may_begin", "names", "words")

    def __init__(self, factor: str, names: Names, *, is_of_people: bool = False, may_begin: bool = False) -> None:
        self.factor = factor
        """Id in the vocabulary; "" for one of every trade."""
        self.names = names
        self.is_of_people = is_of_people
        """True for who somebody is: "in women" is a part whatever else the passage prints."""
        self.may_begin = may_begin
        """Whether its words may begin a clause about them: "Women had ..."; "a lesion was seen" may be a finding."""
        self._words = {name.key: tuple(map(plain, name.wordings)) for name in names}
        self.words = tuple(word for words in self._words.values() for word in words)
        """All of them, as `plain` gives them."""

    def may_stand_in(self, text: str) -> bool:
        """Whether one of its words begins somewhere in a text, as `plain` gives it."""
        return holds_any(text, self.words) and any(_begins_in(text, word) for word in self.words)

    def is_presence(self, key: str, words: str) -> bool:
        """Whether words of this part stand in those of another: "lesion" and "no lesion"."""
        small = f" {plain(words).removesuffix('s')} "
        return any(small in f" {word} " for other, said in self._words.items() if other != key for word in said)

    def stands_in(self, key: str, text: str) -> bool:
        """Whether words of this part do."""
        return any(_begins_in(text, word) for word in self._words[key])

    def others_stand_in(self, key: str, text: str) -> bool:
        """Whether words of another part do."""
        return any(self.stands_in(other, text) for other in self._words if other != key)


def plain(text: str) -> str:
    """In lower case, each hyphen and blank as one blank."""
    return " ".join(text.lower().replace("-", " ").replace("~", " ").split())


def _begins_in(text: str, word: str) -> bool:
    at = text.find(word) if word else -1
    while at > 0 and text[at - 1].isalnum():
        at = text.find(word, at + 1)
    return at >= 0


def _grouping(*names: tuple[str, ...]) -> Grouping:
    return Grouping("", tuple(Name(words[0], words) for words in names), is_of_people=True, may_begin=True)


OF_PEOPLE: tuple[Grouping, ...] = (
    _grouping(
        ("women", "woman", "females", "female patients", "girls"), ("men", "males", "male patients", "boys"),
    ),
    _grouping(
        ("smokers", "current smokers", "smoking patients", "heavy smokers"),
        ("non-smokers", "nonsmokers", "never smokers", "patients who did not smoke", "patients who had never smoked"),
    ),
    _grouping(
        ("diabetics", "diabetic patients", "patients with diabetes"),
        ("non-diabetics", "nondiabetics", "non-diabetic patients", "patients without diabetes"),
    ),
    _grouping(
        ("children", "adolescents", "younger patients"), ("adults", "older patients", "elderly patients", "elderly"),
    ),
)  # fmt: skip
"""Parts of people that reports of every trade print."""


@lru_cache(maxsize=16)
def groupings_of(lexicon: Lexicon) -> tuple[Grouping, ...]:
    """Parts of what is studied in one trade."""
    return tuple(
        Grouping("", tuple(Name(words[0], words) for words in grouping), may_begin=True)
        for grouping in lexicon.groupings
    )


_A_FEW = r"(?:(?!(?:these|our|such|were|was|is|are|had|have|did|that|of|and|or)\b)[a-z-]+\s+){0,3}"
_match_says_in = late(
    rf"\b(?:in|among|amongst|within|restricted to|limited to|confined to)\s+{_A_FEW}$", re.IGNORECASE
).search
_match_says_of = late(rf"\b(?:for|of|with|after|by)\s+{_A_FEW}$", re.IGNORECASE).search
_begins = late(r"(?:^|[.;:|\n,(]|\band)\s*(?:all\s+|only\s+|the\s+)?$", re.IGNORECASE).search
_match_head = late(r"\s*(?:only|alone)?\s*(?:[:(|=]|,?\s*\d)").match
_BEFORE = 50
"""Characters before the words for a part that may lead to them."""
_WHOLE = late(
    r"\b(?:overall|in total|altogether|totals?|as a whole|combined|whole (?:group|sample|series|cohort)|"
    r"all (?:the )?(?:\d+ )?[a-z]+)\b",
    re.IGNORECASE,
)


def is_said_in(text: str, start: int) -> bool:
    """Whether words lead to a part: "in women", "among smokers", and not "in these women"."""
    return _match_says_in(text[max(start - _BEFORE, 0) : start]) is not None


def is_said_of(text: str, start: int) -> bool:
    """The same where they may lead to something else: "of women", "by residents"."""
    return _match_says_of(text[max(start - _BEFORE, 0) : start]) is not None


_opens_with_of = late(r"(?:^|[.;:|\n]\s*)of\s+(?:all\s+)?(?:the\s+|those\s+)?(?:\d+\s+)?$", re.IGNORECASE).search


def is_said_first(text: str, start: int) -> bool:
    """ "Of the women, 12 healed": the words open their clause."""
    return _opens_with_of(text[max(start - _BEFORE, 0) : start]) is not None


def is_head(text: str, start: int, end: int) -> bool:
    """ "Women: 12 of 15", "women 12 of 15"; at the beginning "women, healed: 12 of 15" too."""
    if not begins(text, start):
        return False
    return _match_head(text, end) is not None or (not text[:start].strip() and text[end : end + 1] == ",")


def begins(text: str, start: int) -> bool:
    """Whether a clause begins here: "Women had ..., men ..."."""
    return _begins(text[max(start - _BEFORE, 0) : start]) is not None


_match_leads = late(
    rf"(?:\b(?:in|among|amongst|within)\s+{_A_FEW}|(?:^|[.;:|\n]\s*)(?:out\s+)?of\s+(?:all\s+)?(?:the|those)?\s*(?:\d+\s+)?"
    r"(?:[a-z]+\s+(?:with\s+)?)?|(?:^|[.;\n]\s*)after\s+|\b(?:treated|performed|operated|placed|restored)\s+by\s+(?:the\s+)?)$",
    re.IGNORECASE,
).search
_match_done_in = late(r"\b(?:\w+ed|done|out|finished)\s+in\s+(?:an?\s+)?$", re.IGNORECASE).search
""" "Filled in one visit": how all were treated."""
_match_series = late(r"\s+(?:series|trials?|study|studies|cohort|sample)\b", re.IGNORECASE).match
""" "In the women series": a study of these alone."""
_match_subject = late(
    r"\s*(?::|\s(?:only|alone)\b|\d|(?:had\s+|have\s+)?(?:healed|survived|succeeded|failed|did)\b)", re.IGNORECASE
).match


def is_lone(text: str, start: int, end: int, *, may_head: bool) -> bool:
    """Whether these words alone say that what is counted is a part: "in women", "of the women, ...", "women: 48".

    may_head: whether they may stand before what is counted: a treatment may be what all had.
    """
    if _match_series(text, end) is not None:
        return False
    lead = _match_leads(text[max(start - _BEFORE, 0) : start])
    if lead is not None:
        if not may_head and _match_done_in(lead.string) is not None:
            return False
        return "after" not in lead[0].lower() or _match_head(text, end) is not None
    return may_head and begins(text, start) and _match_subject(text, end) is not None


def is_said_with(text: str, start: int) -> bool:
    """ "Eyes with a cataract", where the words are "cataract" or begin with "with"."""
    return _match_with(text[max(start - _BEFORE, 0) : start + len("with ")]) is not None


_match_with = late(r"\b(?:with|without)\s+(?:an?\s+|the\s+)?.{0,5}$", re.IGNORECASE | re.DOTALL).search


_match_title = late(
    r"\s*(?:(?:Table|Fig(?:ure|\.)?|Panel|Part)\s*\d*[a-z]?[.:]?\s*)?(?P<title>[A-Z][^.:;|\n\d]{2,90})(?:[.:](?=\s)|\n)"
).match
_has_verb = late(r"\b(?:was|were|is|are|had|has|have|did|we|our)\b", re.IGNORECASE).search


def title_of(text: str) -> tuple[int, int] | None:
    """Where the title of a passage stands: words without a verb or a number, before its first sentence or row."""
    found = _match_title(text)
    return None if found is None or _has_verb(found["title"]) else found.span("title")


def has_whole(text: str) -> bool:
    """Whether a passage speaks of all that were studied."""
    return _WHOLE.search(text) is not None


_AGED = late(
    r"\b(?:in|among|for|of)\s+(?:the\s+|those\s+|all\s+)?(?P<words>(?:patients|people|persons|participants|subjects|those|"
    r"individuals|adults)?\s*(?:who were\s+)?(?:aged\s+)?(?:younger than|older than|under|over|below|"
    r"above|at least|up to|aged)\s+(?P<age>\d+)(?:\s+to\s+\d+)?(?:\s+years)?(?:\s+of age|\s+or (?:over|older|more|"
    r"younger|under))?)",
    re.IGNORECASE,
)
AGES = (
    "younger", "older", "aged", "of age", "years old", "patients", "people", "persons", "participants", "subjects",
    "individuals", "adults",
)  # fmt: skip
"""Words of which one stands in whatever passage `of_ages` finds something in."""
_may_be_aged = late(
    r"\b(?:younger|older|aged|of age|years old|(?:patients|people|persons|participants|subjects|individuals|adults)\s+"
    r"(?:over|under|above|below)\s+(?:1[6-9]|[2-9]\d)(?:\s+years|(?!\s*(?:%|[a-z.]*\d|mm|kg|minutes?))))\b",
    re.IGNORECASE,
    holds=("younger", "older", "aged", "of age", "years", "over", "under", "above", "below"),
    also=AGES,
).search  # fmt: skip


_is_on_one_side = late(r"[a-z\s]*?\b(?:younger|older|under|over|below|above)\b[a-z\s]*\d", re.IGNORECASE).match
ALL = "all"


def of_ages(text: str, tokens: Sequence[Token], table: Table, counted: frozenset[str]) -> Owners:
    """For each number the ages of those it is of: "in patients younger than 40 years"; key "all" for all of them.

    counted: what is counted, and what is said of it: "eyes", "healed".
    """
    none: Owners = [None] * len(tokens)
    if _may_be_aged(text) is None:
        return none
    found = [Mention(*each.span("words"), each["age"]) for each in _AGED.finditer(text) if _may_be_aged(each["words"])]
    # "In patients aged 18 to 65 years" may be all of them.
    if not found or (len(found) == 1 and _WHOLE.search(text) is None and not _is_on_one_side(text[found[0].start :])):
        return none
    whole = [Mention(*each.span(), ALL) for each in _WHOLE.finditer(text)]
    return owners_among(text, tokens, sorted([*found, *whole]), table, counted, is_complete=False)
