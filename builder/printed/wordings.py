"""Where a passage has the wording of a name: in any case, with hyphen or blank, one or many, a bound in any sign."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from decimal import Decimal
from functools import lru_cache

from ..compiled_patterns import compiled
from ..numerals import Token
from ..records import NamedTuple


class Bounds(NamedTuple):
    """Where a measured level begins and ends, whether or not its ends belong to it."""

    low: Decimal | None
    high: Decimal | None
    unit: str


class Name(NamedTuple):
    """One of the things that a number may belong to, and what a passage may call it."""

    key: str
    wordings: tuple[str, ...]
    bounds: Bounds | None = None


Names = tuple[Name, ...]


class Mention(NamedTuple):
    """Where a passage names one of them."""

    start: int
    end: int
    key: str

    def holds(self, at: int) -> bool:
        """True inside the words."""
        return self.start <= at < self.end


class Plain:
    """A text in which only what tells two wordings apart is left, with the place of each character in the text."""

    __slots__ = ("_bounded", "_cuts", "_shifts", "text")

    def __init__(self, text: str) -> None:
        low = text.lower()
        if len(low) != len(text):  # a letter whose small form is two characters
            low = "".join(small if len(small := letter.lower()) == 1 else letter for letter in text)
        self.text = low.translate(_AS_BLANK)
        self._bounded: list[tuple[Bounds, int, int]] | None = None
        self._cuts: list[int] = []
        self._shifts: list[int] = []
        if "  " in self.text:
            parts, at, shift = [], 0, 0
            for found in _BLANKS.finditer(self.text):
                parts.append(self.text[at : found.start() + 1])
                at = found.end()
                shift += found.end() - found.start() - 1
                self._cuts.append(at - shift)
                self._shifts.append(shift)
            self.text = "".join((*parts, self.text[at:]))

    def bounded(self, text: str, tokens: Sequence[Token]) -> list[tuple[Bounds, int, int]]:
        """Every bound in the text as typed, read once whatever names are looked for."""
        if self._bounded is None:
            self._bounded = list(_all_bounds(text, tokens))
        return self._bounded

    def place(self, at: int) -> int:
        """The place in the text as typed."""
        found = bisect_right(self._cuts, at)
        return at + self._shifts[found - 1] if found else at


_AS_BLANK = {ord(sign): " " for sign in "-\u2010\u2011\u2012\u2013\u2014\u2212~\n\t\r\xa0\u202f\u2009"}
_BLANKS = compiled(r" {2,}")


def mentions_of(text: str, plain: Plain, tokens: Sequence[Token], names: Names) -> list[Mention]:
    """Where the names stand, in order; none inside a longer one, none that the passage denies ("without a lesion")."""
    found: list[Mention] = []
    for name in names:
        if name.bounds is not None:
            found += _bounds_in(plain.bounded(text, tokens), name)
    for wording, key in _sought(names):
        found += _wordings_in(text, plain, wording, key, found)
    found += [
        mention for stem, first, key in _elided(names) for mention in _first_words(plain, stem, first, key, found)
    ]
    return sorted(
        _not_denied(mention, plain.text, text, names) for mention in found if not _is_replaced(text, mention.start)
    )


_ends_in_replaced = compiled(
    r"\b(?:rather than|instead of|in place of|other than)\s+(?:with\s+)?(?:the\s+)?$", re.IGNORECASE
).search


def _is_replaced(text: str, start: int) -> bool:
    """ "A rather than B was used in 39 of 47": B is only named."""
    return _ends_in_replaced(text[max(start - 30, 0) : start]) is not None


def _wordings_in(text: str, plain: Plain, wording: str, key: str, taken: list[Mention]) -> list[Mention]:
    found = []
    inside = plain.text
    start = inside.find(wording)
    while start >= 0:
        end = start + len(wording)
        is_whole = not inside[start - 1 : start].isalnum() or start == 0
        plural = _match_plural(inside, end)
        end = plural.end() if plural else end
        is_whole = is_whole and not inside[end : end + 1].isalnum()
        if is_whole:
            first, last = plain.place(start), plain.place(end - 1) + 1
            is_free = not any(mention.start < last and first < mention.end for mention in taken)
            is_named = len(wording) > 2 or _is_label(text, first, last, key) or _is_no(wording, text, first, last)
            if is_free and is_named and _may_name(wording, text, last):
                found.append(Mention(first, last, key))
        start = inside.find(wording, start + 1)
    return found


@lru_cache(maxsize=1024)
def _elided(names: Names) -> tuple[tuple[str, str, str], ...]:
    """Of names that end alike, "partial excision" and "full excision": how these ends begin, what stands before, and
    whose it is. Passages have the end once for both."""
    parted: list[tuple[str, str, str]] = []
    for name in names:
        for wording in name.wordings:
            first, _, last = wording.lower().translate(_AS_BLANK).rpartition(" ")
            if len(last) >= _STEM and (first.isalpha() or first.isdigit()):
                parted.append((last[:_STEM], first, name.key))
    keys: dict[str, set[str]] = {}
    owners: dict[str, set[str]] = {}
    for stem, first, key in parted:
        keys.setdefault(stem, set()).add(key)
        owners.setdefault(first, set()).add(key)
    return tuple(
        dict.fromkeys(
            (stem, first, key)
            for stem, first, key in parted
            if len(keys[stem]) > 1
            and len(owners[first]) == 1
            and first not in _SMALL
            and (len(first) > 3 or first in COUNTING or first.isdigit())
        )
    )


_STEM = 4
_SMALL = frozenset({"with", "without", "under", "over", "from", "more", "less", "after", "before", "than", "never"})


def _is_joined(inside: str, end: int, stem: str) -> bool:
    """ "Between one and two visits"."""
    found = _match_joined(inside, end)
    return found is not None and inside.startswith(stem, found.end())


_match_joined = compiled(r" ?(?:,|and|or|versus|vs|to)(?: and)? (?:[a-z]+|\d+) ").match
_ends_in_preposition = compiled(r"\b(?:after|than|versus|vs|against|with|for) $").search
""" "3 of 148 after two", where one visit was named before."""
_match_elided = compiled(
    r"(?= ?(?:[^\w\s]|\d|$)| (?:and|or|for|in|with|versus|vs|against|than|was|were|had|compared|groups?|arms?)\b)"
).match


def _first_words(plain: Plain, stem: str, first: str, key: str, taken: list[Mention]) -> list[Mention]:
    """ "44 of 47 for partial and 45 of 49 for full excision"."""
    found: list[Mention] = []
    inside = plain.text
    if f" {stem}" not in inside and not inside.startswith(stem):
        return found
    start = inside.find(first)
    while start >= 0:
        end = start + len(first)
        is_whole = (start == 0 or not inside[start - 1].isalnum()) and not inside[end : end + 1].isalnum()
        is_led = first not in COUNTING or _ends_in_preposition(inside[max(start - 12, 0) : start]) is not None
        is_led = is_led or _is_joined(inside, end, stem)
        is_led = is_led and (not first.isdigit() or _is_joined(inside, end, stem))
        if is_whole and is_led and _match_elided(inside, end):
            low, high = plain.place(start), plain.place(end - 1) + 1
            if not any(mention.start < high and low < mention.end for mention in taken):
                found.append(Mention(low, high, key))
        start = inside.find(first, end)
    return found


_match_plural = compiled(r"(?:e?s)(?![a-z0-9])").match


def _is_label(text: str, first: int, last: int, key: str) -> bool:
    """Of one or two letters: as it was typed, "A" and not "a"."""
    return text[first:last] in (key, key.upper())


def _is_no(wording: str, text: str, first: int, last: int) -> bool:
    """ "No" at the head of a row, where a level is called so: no "No. of patients", no "No (%)"."""
    line = text[text.rfind("\n", 0, first) + 1 : first]
    return wording == "no" and not line.rpartition("|")[2].strip() and _heads_a_row(text, last) is not None


_heads_a_row = compiled(r"[^\S\n]*(?:[|:\t]|(?:  |\t)\s*[\d–-])").match
COUNTING = frozenset({
    "one", "two", "three", "four", "five", "six", "none", "yes", "no", "all", "some", "present", "absent",
    "more than one", "two or more", "other", "others", "single", "any",
})  # fmt: skip
"""Words that name a level only where a level can stand: "none: 35 of 39", "two | 12"."""
_match_after_level = compiled(r"\s*(?:[|:(\[,;=\t/]|\d|$|group|arm)", re.IGNORECASE).match


def _may_name(wording: str, text: str, last: int) -> bool:
    return wording not in COUNTING or _match_after_level(text, last) is not None


@lru_cache(maxsize=1024)
def _sought(names: Names) -> list[tuple[str, str]]:
    """What to look for, the longest first: "no suture" before "suture"."""
    sought: dict[str, str] = {}
    for name in names:
        for wording in name.wordings:
            for form in _all_forms(wording):
                sought.setdefault(form, name.key)
    return sorted(sought.items(), key=lambda each: (-len(each[0]), each))


@lru_cache(maxsize=4096)  # the levels of a factor stand in the names of every claim about it
def _all_forms(wording: str) -> tuple[str, ...]:
    return tuple(_forms(wording))


def _forms(wording: str) -> Iterator[str]:
    """A wording as passages have it: without articles, with them, one for many."""
    plain = " ".join(wording.lower().translate(_AS_BLANK).split())
    if not plain:
        return
    bare = _ARTICLES.sub("", plain)
    yield from _SEXES.get(plain, ())
    count, blank, counted = plain.partition(" ")
    if blank and count in _IN_DIGITS:
        yield f"{_IN_DIGITS[count]} {counted.removesuffix('s')}"
    for denial, same in (("without ", "no "), ("no ", "without ")):
        if bare.startswith(denial):
            rest = bare.removeprefix(denial)
            yield from (same + rest, " ".join(("without a", rest)))
    for form in dict.fromkeys((plain, bare, *(f"{found[1]} {a} {found[2]}" for a in ("a", "an", "the")
                                              if (found := _WITH.match(bare))))):  # fmt: skip
        yield form
        if len(form) > 4 and form.endswith("s") and not form.endswith(("ss", "us", "is")):
            yield form[:-1]
        elif form.endswith("y") and len(form) > 4:
            yield f"{form[:-1]}ies"
        for end, other in _FAMILIES:
            if form.endswith(end) and len(form) - len(end) > 2:
                yield form[: -len(end)] + other


_IN_DIGITS = {"one": 1, "single": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
_WOMEN, _MEN = ("women", "woman", "females", "female"), ("men", "man", "males", "male")
_SEXES = {word: words for words in (_WOMEN, _MEN) for word in words}
_ALIKE = (("ary", "a"), ("ular", "le"), ("itic", "itis"), ("otic", "osis"), ("etic", "etes"))
_FAMILIES = (*_ALIKE, *((noun, adjective) for adjective, noun in _ALIKE))
"""Ends by which Latin and Greek make an adjective of a noun: "axillary", "in the axilla"; "cirrhotic", "cirrhosis"."""
_ARTICLES = compiled(r"\b(?:an?|the) ")
_WITH = compiled(r"(with|without|of|in|by|at|after|before) (.+)", re.DOTALL)


# Bounds


def _bounds_in(bounded: Sequence[tuple[Bounds, int, int]], name: Name) -> list[Mention]:
    """Where the numbers of the passage have the bounds of a level, in whatever words or signs."""
    sought = name.bounds
    assert sought is not None
    return [
        Mention(start, end, name.key)
        for bounds, start, end in bounded
        if (bounds.low or None, bounds.high) == (sought.low or None, sought.high)
        and bounds.unit in (sought.unit, "none")
    ]


def _all_bounds(text: str, tokens: Sequence[Token]) -> Iterator[tuple[Bounds, int, int]]:
    """Every bound that a passage prints, with where it starts and ends."""
    for index, token in enumerate(tokens):
        if token.kind not in _NO_BOUND and token.part != "high":
            bounds, last = _bounds_at(text, tokens, index)
            if bounds is not None:
                yield bounds, token.outer_start, last


_NO_BOUND = frozenset({"p", "ratio", "confidence", "interval", "unreadable", "calendar", "percent", "count"})


_ends_in_not = compiled(r"\b(?:not|no|never)\s+$", re.IGNORECASE).search
""" "not larger than 3 mm"."""


def _bounds_at(text: str, tokens: Sequence[Token], index: int) -> tuple[Bounds | None, int]:
    token = tokens[index]
    if token.part == "low":
        other = tokens[token.pair]
        return Bounds(token.value, other.value, other.unit), _end_of_unit(text, other)
    last = _end_of_unit(text, token)
    if token.comparator:
        is_denied = _ends_in_not(text[max(token.outer_start - 8, 0) : token.outer_start]) is not None
        is_low = (token.comparator[0] == ">") != is_denied
        bounds = Bounds(token.value if is_low else None, None if is_low else token.value, token.unit)
        return bounds, last
    behind = _match_bound_behind(text, last)
    if behind is None or token.part:
        return None, last
    is_low = behind["low"] is not None
    return Bounds(token.value if is_low else None, None if is_low else token.value, token.unit), behind.end()


_match_bound_behind = compiled(
    r"(?:[\s~]*(?:or|and)|(?:\s+[a-z]+){1,2}\s+or)\s+(?:(?P<low>more|over|above|larger|greater|longer|wider|bigger|older|deeper|later|upwards?)"
    r"|less|under|below|smaller|shorter|narrower|younger|fewer|earlier)\b",
    re.IGNORECASE,
).match
_match_unit = compiled(r"[\s~\\,-]{0,3}[a-zA-Z]+\b\.?").match


def _end_of_unit(text: str, token: Token) -> int:
    """Behind the unit of a number that has one."""
    if token.unit in ("none", "%"):
        return max(token.end, token.outer_end)
    found = _match_unit(text, token.end)
    return found.end() if found else token.end


# What a passage denies


_find_denial = compiled(
    r"\b(?:no|not|non|without|lacking|absence of|free of|free from|never|neither)(?: (?:an?|any|the|visible|apparent))?"
    r"(?: (?!from |than )[a-z]+)? $"
).search
_match_absence = compiled(r" ?(?:(?:was |were |is )?(?:absent|not (?:present|seen|found))|free|negative)\b").match
_DENIES = ("no ", "not ", "non ", "without ", "un", "absence of ")


def _not_denied(mention: Mention, plain: str, text: str, names: Names) -> Mention:
    """A mention behind "without" is of the level that says so, where there is one; else of nobody."""
    words = text[mention.start : mention.end].lower()
    if words.startswith(_DENIES) or words.endswith((" absent", " free")) or any(map(str.isdigit, words)):
        return mention
    before = text[max(mention.start - 40, 0) : mention.start].lower().translate(_AS_BLANK)
    before = _BLANKS.sub(" ", before)
    behind = text[mention.end : mention.end + 20].lower().translate(_AS_BLANK)
    cut = max(before.rfind(sign) for sign in ".;,:|()")
    if _find_denial(before[cut + 1 :]) is None and _match_absence(behind) is None:
        return mention
    others = [
        name.key
        for name in names
        if name.key != mention.key and any(says_no(wording) for wording in (name.key, *name.wordings))
    ]
    return mention._replace(key=others[0] if len(others) == 1 and len(names) == 2 else "")


def says_no(wording: str) -> bool:
    """Whether a wording denies something: "no lesion", "absent"."""
    return wording.lower().startswith(_DENIES) or wording.lower() in ("none", "absent", "no")
