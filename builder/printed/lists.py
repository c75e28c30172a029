"""Numbers of a clause taken together as they were printed, "39 of 47 (83%)", and which stand in a list."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import holds_any, late
from ..records import NamedTuple
from .clauses import Span, brackets_inside, is_comparison, parts_between_semicolons
from .wordings import Mention


class Item:
    """Numbers that say one thing: "39 of 47 eyes (83%)"."""

    __slots__ = ("end", "gap", "is_listed", "numbers", "start")

    def __init__(self, number: int, start: int, end: int, gap: str = "", *, is_listed: bool) -> None:
        self.numbers = [number]
        self.start = start
        self.end = end
        self.gap = gap
        """The words between it and the item before."""
        self.is_listed = is_listed
        """Whether nothing but a comma, "and", "versus" parts it from the item before."""


class Bracket(NamedTuple):
    """A bracket of a clause with what stands in it."""

    start: int
    end: int
    mentions: list[Mention]
    numbers: list[int]


STRUCTURAL = frozenset({"count", "percent", "number"})
MEASURES = frozenset({"minutes", "size", "length"})

_OF = compiled(r"\s*(?:[a-z]+\s+)?(?:of|/|out of|from|among)?\s*(?:the|all|these|those|a total of)?\s*", re.IGNORECASE)
_BLANK = compiled(r"[\s~:=|]*|\s*%?\s*")
_SHARE = compiled(r"\s*(?:[a-z]+)?\s*[,;:=–-]?\s*", re.IGNORECASE)
_SPLIT = compiled(r",|;|&|/|\b(?:and|or|vs?|versus|against|compared|opposed|rather|than)\b", re.IGNORECASE)
_LISTING = frozenset({
    "and", "or", "v", "vs", "versus", "against", "compared", "with", "to", "as", "respectively", "the", "of", "in",
    "only", "cases", "women", "men", "n", "than", "after", "opposed", "rather",
})  # fmt: skip
_NAMING = _LISTING | {
    "for", "by", "on", "from", "group", "groups", "arm", "arms", "those", "was", "were", "who", "had",
    "received", "between", "both", "over", "more", "less", "better", "worse", "higher", "lower", "inferior", "superior",
    "often", "frequent", "favoured", "favored", "outperformed", "did", "level", "levels", "site", "sites", "alone",
    "samples", "a", "an",
}  # fmt: skip
_words_in = compiled(r"[^\W\d_]+").findall
_is_of_list = compiled(r"[\s,;/&=+.–-]*(?:[^\W\d_]+[\s,;/&=+.–-]*){0,6}").fullmatch
find_list_sign = compiled(r"\b(?:and|or|vs?|versus|against|compared|opposed|rather)\b|,|/|;", re.IGNORECASE).search


find_end_of_list = compiled(r"\b(?:and|or|vs?|versus|against|compared|opposed|rather)\b|/|&", re.IGNORECASE).search


def is_naming(gap: str, counted: frozenset[str]) -> bool:
    """Whether the words between two names only list them: "A and", "higher in A than in".

    counted: what is counted, and what is said of it: "eyes", "healed".
    """
    return len(gap) < _LONGEST and _is_made_of(gap, _NAMING | counted)


_LEADING = frozenset({"with", "without", "in", "of", "from", "for", "the", "a", "an", "given", "on", "to", "by"})
_is_clear = compiled(r"[\s~-]*(?:[^\W\d_]+[\s~-]+){0,5}").fullmatch


def is_leading(gap: str, counted: frozenset[str]) -> bool:
    """Whether nothing between a number and a name parts them: "61 eyes with A". counted: as above."""
    if len(gap) > _LONGEST or _is_clear(gap) is None:
        return False
    return all(word in _LEADING or word in counted or word.endswith("ed") for word in _words_in(gap.lower()))


def _is_made_of(gap: str, words: frozenset[str]) -> bool:
    return _is_of_list(gap) is not None and words.issuperset(_words_in(gap.lower()))


_LONGEST = 70
"""Characters between two names, or two numbers, of one list."""


def name_runs(
    text: str, mentions: Sequence[Mention], attached: Sequence[Item], free: Sequence[Item], counted: frozenset[str]
) -> list[list[Mention]]:
    """Names in lists, "A and B": each run is a list, or one name alone.

    attached: numbers that are a name's own already; free: those that part two names. counted: as above.
    """
    runs: list[list[Mention]] = []
    for mention in mentions:
        last = runs[-1][-1] if runs else None
        if last is not None:
            gap = text[last.end : mention.start]
            for item in attached:
                if last.end <= item.start < mention.start:
                    gap = text[last.end : item.start] + text[item.end : mention.start]
            gap = _BRACKET.sub(" ", gap)
        is_parted = last is not None and any(last.end <= item.start < mention.start for item in free)
        if last is not None and not is_parted and is_naming(gap, counted):
            runs[-1].append(mention)
        else:
            runs.append([mention])
    return runs


def brackets_in(
    text: str, region: Span, mentions: Sequence[Mention], tokens: Sequence[Token], numbers: Sequence[int]
) -> list[Bracket]:
    """The brackets of a clause with the names and numbers in each; those with neither are left out."""
    found = []
    for start, end in brackets_inside(text, *region):
        named = [mention for mention in mentions if start <= mention.start < end]
        inside = [index for index in numbers if start <= tokens[index].start < end]
        if named or inside:
            found.append(Bracket(start, end, named, inside))
    return found


def items_of(
    text: str, tokens: Sequence[Token], numbers: Sequence[int], closed: Sequence[Bracket], counted: frozenset[str]
) -> list[Item]:
    """Numbers as they stand together. closed: brackets that belong to the number before them. counted: as above."""
    items: list[Item] = []
    for index in numbers:
        token = tokens[index]
        start, end = max(token.outer_start, 0) or token.start, max(token.end, token.outer_end)
        around = next((each for each in closed if each.start < token.start < each.end), None)
        last = items[-1] if items else None
        if last is not None and (
            token.start < last.end
            or (around is not None and is_near(text[last.end : around.start]))
            or _belongs(text[last.end : start], tokens, last.numbers[-1], index)
        ):
            last.numbers.append(index)
            last.end = max(last.end, end)
        else:
            gap = _BRACKET.sub("", text[last.end : start]) if last is not None else ""
            items.append(Item(index, start, end, gap, is_listed=last is not None and _is_list_gap(gap, counted)))
        if around is not None:
            items[-1].end = max(items[-1].end, around.end)
    _take_in_brackets(text, items, closed)
    return items


def brackets_within(text: str, tokens: Sequence[Token], bracket: Bracket) -> list[Bracket]:
    """The brackets in a bracket, which belong to the number before them: "(41/45 [91%] versus 32/43 [74%])"."""
    return brackets_in(text, (bracket.start, bracket.end), [], tokens, bracket.numbers)


def is_list(text: str, tokens: Sequence[Token], bracket: Bracket, counted: frozenset[str]) -> bool:
    """ "(39 of 47 versus 30 of 45)", but not "(88% to 95%)"; what stands behind a semicolon is no part of it."""
    end = parts_between_semicolons(text, bracket.start + 1, bracket.end)[0][1]
    ends = [index for index in bracket.numbers if tokens[index].part != "high" and tokens[index].start < end]
    structural = [index for index in ends if tokens[index].kind in STRUCTURAL]
    items = items_of(text, tokens, structural, brackets_within(text, tokens, bracket), counted)
    # "(83.1 vs 71.4%)": the sign stands behind the last alone.
    firsts = [tokens[item.numbers[0]] for item in items]
    kinds = {
        (first.kind == "percent" or first.decimals > 0, len(item.numbers))
        for first, item in zip(firsts, items, strict=True)
    }
    return len(items) > 1 and len(kinds) == 1 and all(item.is_listed for item in items[1:])


def _take_in_brackets(text: str, items: Sequence[Item], closed: Sequence[Bracket]) -> None:
    """ "83% (95% CI 70 to 91)" ends behind its bracket."""
    for item in items:
        for bracket in closed:
            if item.end <= bracket.start and is_near(text[item.end : bracket.start]):
                item.end = bracket.end


_BRACKET = compiled(r"\([^()]*\)")
_near = compiled(r"\s*(?:[a-zA-Z-]+\s*)?").fullmatch


def is_near(gap: str) -> bool:
    """Nothing but one word."""
    return _near(gap) is not None


def _is_list_gap(gap: str, counted: frozenset[str]) -> bool:
    if _is_dash(gap) is not None:  # "83.1-71.4%"
        return True
    return len(gap) < _LONGEST and find_list_sign(gap) is not None and _is_made_of(gap, _LISTING | counted)


_has_of = compiled(r"\bof\b|/").search
_has_of_the = late(r"\bof the\b").search
_is_dash = compiled(r"[\s~]*(?:--?|[–−])[\s~]*").fullmatch


def _belongs(gap: str, tokens: Sequence[Token], before: int, index: int) -> bool:
    """Whether a number says more of the number before it: its total, its share, the next column of its row."""
    token, last = tokens[index], tokens[before]
    if "," not in gap and " and " not in gap and (token.pair == before or last.pair == index):
        return True
    if _BLANK.fullmatch(gap):
        # "In 61 (1.3%): 44 of 2210 with A and 17 of 2442 with B": behind the colon the whole falls into parts.
        return not (":" in gap and token.part == "events")
    if token.kind == "percent" and last.kind != "percent":
        # "88% (22 of 25), 81% (34 of 42)": the second share is of the next.
        if before > 1 and "," in gap and tokens[before - 2].kind == "percent" and last.part == "total":
            return False
        return _SHARE.fullmatch(gap) is not None and find_end_of_list(gap) is None
    return _SPLIT.search(gap) is None and _has_of(gap) is not None and _OF.fullmatch(gap) is not None


def runs_of(items: Sequence[Item]) -> list[list[Item]]:
    """Items in lists: each run is a list, or one item alone. "47 and 45 eyes, 39 and 30" are two lists."""
    runs: list[list[Item]] = []
    is_ended = False
    for item in items:
        is_last = find_end_of_list(item.gap) is not None
        if item.is_listed and runs and not (is_ended and not is_last):
            runs[-1].append(item)
        else:
            runs.append([item])
            is_last = False
        is_ended = is_last and len(item.numbers) == len(runs[-1][0].numbers)
    return runs


def apart(
    text: str, tokens: Sequence[Token], item: Item, mentions: Sequence[Mention], counted: frozenset[str]
) -> list[Item]:
    """The last of a list of counts, where the first of a list of totals stands straight behind it before a name:
    "39, 30 and 21 of the 47 A, 45 B and 44 C"; any other item as it is."""
    is_before_name = any(is_leading(text[item.end : each.start], counted) for each in mentions if each.start > item.end)
    for at in range(1, len(item.numbers) if item.is_listed and is_before_name else 0):
        first, last = tokens[item.numbers[at - 1]], tokens[item.numbers[at]]
        if _has_of_the(text[first.end : last.start]):
            one = Item(item.numbers[0], item.start, max(first.end, first.outer_end), item.gap, is_listed=True)
            other = Item(item.numbers[at], last.start, item.end, is_listed=False)
            one.numbers, other.numbers = item.numbers[:at], item.numbers[at:]
            return [one, other]
    return [item]


def last_list(
    text: str, tokens: Sequence[Token], region: Span, mentions: Sequence[Mention], items: Sequence[Item]
) -> list[Item]:
    """ "30 of 33 with A and 22 of 31 with B (90.9% and 71.0%)": the list behind all names, each of which has a number
    already; empty where there is none. mentions: more than one."""
    run = runs_of(items)[-1] if items else []
    is_each_once = len({mention.key for mention in mentions}) == len(mentions) == len(run)
    if not is_each_once or run[0].start < mentions[-1].end or is_comparison(text[region[0] : mentions[0].start]):
        return []
    before = [
        token for token in tokens
        if region[0] <= token.start < run[0].start and token.kind in STRUCTURAL and token.part != "total"
    ]  # fmt: skip
    are_shares = all(tokens[item.numbers[0]].kind == "percent" for item in run)
    is_told = says_respectively(text, run[-1].start, region[1])
    if not is_told and all(find_against(item.gap) for item in run[1:]):  # of groups, never of times
        is_told = not any(token.kind == "length" and each.holds(token.start) for token in tokens for each in mentions)
    is_behind_counts = are_shares and all(token.kind != "percent" for token in before)
    return run if len(before) >= len(run) and (is_told or is_behind_counts) else []


find_against = compiled(r"\b(?:vs?|versus|against|opposed to|rather than)\b", re.IGNORECASE).search


def says_respectively(text: str, start: int, end: int) -> bool:
    """Whether a slice says that its lists go in step."""
    return "respectively" in text[start:end].lower() and _find_respectively(text, start, end) is not None


_find_respectively = compiled(r"\brespectively\b", re.IGNORECASE).search


def in_step(text: str, run: list[Item], tokens: Sequence[Token], count: int) -> list[list[int]] | None:
    """The numbers of a list for each of so many names; None where the list has another length.

    "3 (5%), 5 (9%) and 8 (13%) of the 60, 57 and 62" is a list of three with three totals: the third has the first.
    """
    if len(run) == count:
        return [item.numbers for item in run]
    if count < 2 or len(run) != 2 * count - 1 or has_total(text, run[0], tokens):
        return None
    middle = run[count - 1].numbers
    for at in range(1, len(middle)):
        gap = text[tokens[middle[at - 1]].end : tokens[middle[at]].start]
        if _has_of(gap):
            first = [*(item.numbers for item in run[: count - 1]), middle[:at]]
            second = [middle[at:], *(item.numbers for item in run[count:])]
            return [[*one, *other] for one, other in zip(first, second, strict=True)]
    return None


def has_total(text: str, item: Item, tokens: Sequence[Token]) -> bool:
    """ "24/31": an item that has what it is of needs none from behind."""
    ends = [tokens[index] for index in item.numbers]
    return any(_has_of(text[one.end : other.start]) for one, other in pairwise(ends))


OF_ALL = ("overall", "altogether", "in total", "in all")
"""Words that give a number to all names together."""
_OF_ALL = rf"(?:{'|'.join(OF_ALL)})"
_ends_in_all = late(rf"\b{_OF_ALL}\b(?:(?!\band\b)[^,;:.\d]){{0,15}}$", re.IGNORECASE).search
_begins_with_all = late(rf"[^,;:.\d]{{0,12}}\b{_OF_ALL}\b", re.IGNORECASE).match


def is_of_all(text: str, item: Item) -> bool:
    """ "Overall 69 of 92"."""
    if not holds_any(text.lower(), OF_ALL):
        return False
    before = text[max(item.start - 30, 0) : item.start]
    if _ends_in_all(before) is not None or _begins_with_all(text, item.end) is not None:
        return True
    return any(word in text[item.start : item.end].lower() for word in ("overall", "altogether"))


_leads_each = compiled(
    r"\b(?:each|every|either|both)(?:\s+of\s+the)?(?:\s+[a-z]+)?\s+(?:of|with|had|having|held|=|:|n)\s*(?:=\s*)?$",
    re.IGNORECASE,
).search
_is_each_behind = compiled(
    r"(?:\s+[a-z]+){0,2}?\s+(?:(?:in|of|per|for)\s+)?(?:each|apiece|every|either|both|per (?:group|arm))\b",
    re.IGNORECASE,
).match


def is_of_each(text: str, item: Item) -> bool:
    """Whether a number is the whole of each that is named: "in each group of 47, 40 and 30", "47 each"."""
    before = text[max(item.start - 40, 0) : item.start]
    return _leads_each(before) is not None or _is_each_behind(text, item.end) is not None


_EACH = ("each", "every", "either", "both", "apiece", "per group", "per arm")
is_bracket_of_each = compiled(
    r"\((?:n\s*=\s*)?\d+(?:\s+[a-z]+){0,2}?\s+(?:each|apiece|per (?:group|arm))\)", re.IGNORECASE
).fullmatch
""" "A and B (47 each): 40 and 30"."""


def without_wholes_of_each(text: str, items: list[Item]) -> list[Item]:
    """The items that are no such whole; what stands behind one begins a list of its own."""
    if not holds_any(text, _EACH):
        return items
    kept: list[Item] = []
    for at, item in enumerate(items):
        if at + 1 < len(items) and len(item.numbers) == 1 and is_of_each(text, item):
            items[at + 1].is_listed = False
        else:
            kept.append(item)
    return kept


def without_leading_whole(text: str, items: list[Item]) -> list[Item]:
    """The items without what a clause takes up first: "of 239 seen, 73 and 55 healed, respectively"."""
    if len(items) < 3 or len(items[0].numbers) > 1 or not (items[1].is_listed and items[2].is_listed):
        return items
    if "," not in items[1].gap or not _words_in(items[1].gap):  # "of 47 and 45", "of 47, 45 and 44"
        return items
    start = items[0].start
    if _ends_in_of(text[max(start - _BEFORE_WHOLE, 0) : start]) is None:
        return items
    items[1].is_listed = False
    return items[1:]


_BEFORE_WHOLE = 24
_ends_in_of = late(
    r"(?:^|[\s(])(?:of|among|amongst|out of)\s+(?:(?:the|all|these|those|a total of)\s+){0,2}$", re.IGNORECASE
).search


def stands_behind(mention: Mention, items: Sequence[Item]) -> bool:
    """Whether a name stands behind all of some items."""
    return not items or items[-1].start < mention.start


def begins_with_name(parts: Sequence[tuple[str, Sequence[Mention], Sequence[Item]]]) -> bool:
    """Whether of the parts of a clause, each with its names and its numbers, the first that has any has a name."""
    return next((bool(named) for _, named, items in parts if named or items), True)
