"""What a passage itself calls its names elsewhere: a short form, "group A", "the former", "the second group"."""

from __future__ import annotations

import re
from itertools import pairwise

from ..compiled_patterns import compiled
from ..numerals.late import in_small, late
from .clauses import sentences
from .legends import may_have_legend, mentions_by_legend
from .wordings import Mention, Names, says_no

_SHORT = late(r"\s*[(\[]\s*(?P<short>[A-Z][A-Za-z0-9-]{1,7})\s*[)\],;]")
_LABEL = late(r"\b(?:group|arm|cohort)\s+(?P<label>[A-Z]|\d|I{1,3}|IV)\b", re.IGNORECASE)
_BARE_LABEL = late(
    r"(?:\b(?:in|of|for|from|than|versus|and|with)\s+|[:,;(|\n]\s*(?=[A-HJ-Z]\s*[:=(|]?\s*\d))"
    r"(?P<label>[B-HJ-Z]|A(?=\s*(?:[,.;:)(|=\d]|and\b|versus\b)))(?![\w-])"
)
""" "26 in A and 37 in B", where the passage says before what group A and group B are."""
_BETWEEN = late(
    r"\s*[(:=,]?\s*(?:received|had|with|was|were|is|treated|repaired|sealed|using|by|means?|the|an?|\s)*", re.IGNORECASE
)
_ORDER = late(
    r"\b(?P<which>former|latter|first|second|third)\b(?:\s+(?:group|arm|cohort|material|one|technique|cement)\b)?",
    re.IGNORECASE,
)
_IN_ORDER = ("first", "second", "third")
_BARE = late(
    r"\b(?P<said>(?:in )?its (?:presence|(?P<absence>absence))\b|(?:present|(?P<absent>absent))(?=\s+in\b)"
    r"|(?:when|if|where)\s+(?:(?:it|there)\s+(?:was|is)\s+)?(?:present|(?P<away>absent|none))\b"
    r"|those (?:that|who|which) (?:had|have|did|were|was) (?P<had_not>not)\b"
    r"|without(?P<no_more>)(?=\s+\d)"
    r"|with (?:one|it)(?=\s*(?:[(,.:;)\d]|(?:and|in|did|had|were|was|healed|survived|failed)\b|$))"
    r"|(?:with|(?P<no>without))"
    r"(?=\s*(?:[(,.:;)]|(?:and|in|did|had|were|was|healed|survived|failed)\b(?! (?:vitro|vivo|situ))|$))"
    r"|(?P<none>without (?:one|it|them))\b)",
    re.IGNORECASE,
)
_ALONE = late(
    r"(?:(?:^|[|;:,\n(])\s*(?P<said>(?P<no>no|absent|negative|none)|yes|present|positive)(?=\s*(?:[|:(,;=\d]|\n|$)))",
    re.IGNORECASE | re.MULTILINE,
)
"""Behind the name of what is there or not: "lesion: yes 41/55, no 33/36"."""
_SIDE = late(
    r"\b(?:(?P<low>larger|bigger|wider|longer|greater|older)|smaller|shorter|narrower|younger)\s+ones\b"
    r"|\bthe (?:(?P<low2>larger|bigger|wider|longer|greater|older)|smaller|shorter|narrower|younger)\b(?!\s+than)",
    re.IGNORECASE,
)
_OTHERS = late(r"\bthe other (?:group|arm)\b", re.IGNORECASE)
_may_hold = compiled(
    r"[(\[]\s*[a-z]|group|arm|cohort|former|latter|without|no|absen|present|ones|those|the (?:small|large|wide|other)"
).search
"""Of small letters: most passages hold none of it."""
_may = in_small(
    r"[(\[]\s*[a-z]|\bgroup|\barm\b|\bcohort|former|latter|\bwithout\b|\bno\b|absen|present|\bones\b|those"
    r"|\bthe (?:small|large|wide|other)"
).search


def with_aliases(text: str, mentions: list[Mention], names: Names) -> list[Mention]:
    """The mentions with those of every alias, in order."""
    small = text.lower()
    found = [*mentions]
    if len(mentions) > 1 and may_have_legend(small) is not None:
        for mention in mentions_by_legend(text, mentions):
            _add(mention, found)
    if _may_hold(small) is None or _may(text) is None:
        return sorted(found) if len(found) > len(mentions) else mentions
    _add_short_forms(text, mentions, found)
    _add_labels(text, mentions, found)
    if len(names) == 2 and [_denies(name.wordings) for name in names].count(True) == 1:
        denying, other = sorted((name for name in names), key=lambda name: not _denies(name.wordings))
        for match in (*_BARE.finditer(text), *_ALONE.finditer(text, min(mention.start for mention in mentions))):
            denies = any(match.groupdict().get(group) is not None for group in _DENYING)
            _add(Mention(*match.span("said"), (denying if denies else other).key), found)
    _add_sides(text, names, found)
    _add_others(text, names, found)
    is_with_noun = False
    for match in _ORDER.finditer(text):
        is_with_noun = is_with_noun or match.end() > match.end("which")
        key = _key_in_order(match, mentions, is_bare=is_with_noun and _is_bare(text, match))
        if key:
            _add(Mention(match.start(), match.end(), key), found)
    return sorted(found)


_DENYING = ("no", "no_more", "none", "absence", "absent", "away", "had_not")


def _add_sides(text: str, names: Names, found: list[Mention]) -> None:
    """ "up to 3 mm 32 of 35, the larger ones 7 of 12"."""
    bounds = [name.bounds for name in names]
    if len(names) != 2 or bounds[0] is None or bounds[1] is None:
        return
    small, large = sorted(names, key=lambda name: name.bounds is None or name.bounds.low is not None)
    if small.bounds is None or large.bounds is None or small.bounds.high is None or large.bounds.low is None:
        return
    for match in _SIDE.finditer(text):
        is_large = match["low"] is not None or match["low2"] is not None
        _add(Mention(match.start(), match.end(), (large if is_large else small).key), found)


def _add_others(text: str, names: Names, found: list[Mention]) -> None:
    """ "39 of 47 with A, 30 of 45 in the other group": of two where the passage names one alone."""
    keys = {mention.key for mention in found}
    if len(names) == 2 and len(keys) == 1 and "" not in keys:
        (other,) = {name.key for name in names} - keys
        for match in _OTHERS.finditer(text, min(mention.start for mention in found)):
            _add(Mention(match.start(), match.end(), other), found)


def _denies(wordings: tuple[str, ...]) -> bool:
    return any(says_no(wording) for wording in wordings)


def _add(mention: Mention, found: list[Mention]) -> None:
    if not any(each.start < mention.end and mention.start < each.end for each in found):
        found.append(mention)


def _add_short_forms(text: str, mentions: list[Mention], found: list[Mention]) -> None:
    """ "calcium hydroxide (CH)": from here on CH is it too; "mineral trioxide aggregate (A)" is A in words."""
    for mention in mentions:
        match = _SHORT.match(text, mention.end)
        if match:
            _add_all(text, match["short"], mention.key, found)
        short = text[mention.start : mention.end]
        if text[mention.start - 1 : mention.start] in ("(", "[") and short.isupper():
            words = re.findall(r"[A-Za-z]+", text[max(mention.start - 90, 0) : mention.start - 1])[-len(short) :]
            if "".join(word[0] for word in words).upper() == short:
                at = text.rfind(words[0], 0, mention.start)
                _add_all(text, text[at : mention.start - 1].strip(), mention.key, found)


def _add_all(text: str, words: str, key: str, found: list[Mention]) -> None:
    for match in re.finditer(rf"(?<![A-Za-z0-9]){re.escape(words)}(?![A-Za-z0-9])", text):
        _add(Mention(match.start(), match.end(), key), found)


def _add_labels(text: str, mentions: list[Mention], found: list[Mention]) -> None:
    """ "group A (A)", "A (group A)": from here on group A is it too."""
    labels = list(_LABEL.finditer(text))
    keys: dict[str, str] = {}
    for number, label in enumerate(labels):
        is_listed = number > 0 and label.start() - labels[number - 1].end() < 6
        for mention in mentions:
            is_behind = mention.start >= label.end() and _BETWEEN.fullmatch(text, label.end(), mention.start)
            is_before = mention.end <= label.start() and text[mention.end : label.start()].strip() in ("(", "[")
            if (is_behind and not is_listed) or is_before:
                keys.setdefault(label["label"].upper(), mention.key)
    keys = _labels_in_turn(text, labels, mentions) or keys
    for label in labels:
        key = keys.get(label["label"].upper())
        if key:
            _add(Mention(label.start(), label.end(), key), found)
    if keys:
        for label in _BARE_LABEL.finditer(text, labels[-1].end()):
            key = keys.get(label["label"])
            if key:
                _add(Mention(*label.span("label"), key), found)


def _labels_in_turn(text: str, labels: list[re.Match[str]], mentions: list[Mention]) -> dict[str, str]:
    """ "A in 40 eyes (group 1) and B in 42 (group 2)": one name, one label, in turn, in the first sentence that has
    labels; empty where they do not stand so."""
    for sentence in sentences(text, 0, len(text)):
        here = [label for label in labels if sentence[0] <= label.start() < sentence[1]]
        named = [mention for mention in mentions if sentence[0] <= mention.start < sentence[1]]
        if not here:
            continue
        in_turn = sorted([*((label.start(), 0) for label in here), *((mention.start, 1) for mention in named)])
        is_in_turn = all(one[1] != other[1] for one, other in pairwise(in_turn))
        is_each_once = len({mention.key for mention in named} - {""}) == len(named) == len(here) > 1
        if not (is_in_turn and is_each_once):
            return {}
        return {label["label"].upper(): mention.key for label, mention in zip(here, named, strict=True)}
    return {}


def _is_bare(text: str, match: re.Match[str]) -> bool:
    """ "7 of 35 of the first group and 12 of 34 of the second"."""
    return (
        _ends_in_of_the(text, max(match.start() - 12, 0), match.start()) is not None
        and _match_end(text, match.end()) is not None
    )


_ends_in_of_the = late(r"\b(?:of|in|for|with|by|to)\s+the\s+$", re.IGNORECASE).search
_match_end = late(r"\s*(?:[.,;:)(]|$|(?:and|but|had|did|were|was|healed|survived|failed)\b)", re.IGNORECASE).match


def _key_in_order(match: re.Match[str], mentions: list[Mention], *, is_bare: bool) -> str:
    which = match["which"].lower()
    before = [mention.key for mention in mentions if mention.end <= match.start() and mention.key]
    if which in ("former", "latter"):
        last = before[-1] if before else ""
        other = next((key for key in reversed(before) if key != last), "")
        return "" if not other else last if which == "latter" else other
    if match.end() == match.end("which") and not is_bare:
        return ""
    in_order = list(dict.fromkeys(before))
    at = _IN_ORDER.index(which)
    return in_order[at] if at < len(in_order) else ""
