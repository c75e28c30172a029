"""Which counts of a passage are of a part, where it has the count of the whole beside: "60 of 80 overall, 22 of 34"."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal
from functools import lru_cache

from ..compiled_patterns import compiled
from ..numerals import Lexicon, Token
from ..numerals.late import late
from ..records import NamedTuple
from .belonging import owners_among
from .clauses import Span, sentences
from .event_words import EVENTS
from .groups import ALL
from .lists import Item, is_of_all
from .owner import Owner, Owners
from .tables import Cell, InCell, Table
from .wordings import Mention


class PartOfWhole(NamedTuple):
    """Whose a count is, by the passage's words, and where they stand."""

    words: Span
    content: tuple[str, ...]
    """Those of the words, in small letters, that say whom: "diabetes"."""
    totals: frozenset[Decimal]
    """Of how many it may be counted: the number behind "of", or those beside it in its row or column."""


_STEMS = ("overall", "total", "altogether", "whole", "entire", "combined", "all ")
_FEW = (
    r"(?:(?!(?:was|were|is|are|had|have|has|did|healed|at|after|by|from|to|and|or|but|than|versus|there|it|we|fared|"
    r"showed|reached|survived|succeeded|failed|occurred|which|whom)\b)"
)
_NP = r"(?!(?:in|of|on|for|among|amongst)\b)" + _FEW + r"[a-z-]+(?:[\s~]+|(?=[^a-z])|$)){1,6}"
_STOPS = frozenset({
    "a", "an", "the", "those", "these", "that", "who", "whose", "which", "whom", "with", "without", "in", "of", "on",
    "for", "all", "any", "each", "both", "only", "alone", "cases", "case", "series", "cohort", "sample", "group",
    "groups", "subgroup", "total", "whole", "entire", "main", "study", "studied", "present", "included", "sites",
    "having", "been", "being", "their", "its", "other", "others", "number", "numbers", "results", "result", "one",
    "two", "three", "rate", "rates", "n", "per", "cent", "percent", "outcome", "outcomes", "overall", "remaining",
    "population", "analysis", "analyses", "intention", "protocol", "addition", "contrast", "general", "particular",
    "fact", "turn", "table", "figure", "model", "set", "value", "data", "ones", "available", "evaluable", "valid",
    "treated", "operated", "restored", "placed", "filled", "repaired", "when", "where", "had", "were", "same",
})  # fmt: skip
""" They say nothing of whom a count is."""
_tells_no_part = compiled(
    r"follow|recall|seen|examin|year|month|week|day|visit|image|record|complete|return|attend|remain|evaluat|assess|"
    r"analy|surviv|alive|randomi|enrol|includ|consent|respon|reach|eligib|heal|succe|fail|lost|success|retain|result|"
    r"outcome|report|receiv|allocat|assign|film|radiograph|observer|reader|criteri|treatments"
).search
_words = compiled(r"[a-z]+(?:-[a-z]+)*").findall
_LONGEST_HEAD = 6
"""Words of the head of a row that says whom it counts."""


@lru_cache(maxsize=16)
def _patterns(lexicon: Lexicon) -> tuple[re.Pattern[str], re.Pattern[str]]:
    """The words for a whole, and those for what may be a part of it."""
    units = "|".join(sorted(map(re.escape, (*lexicon.unit_by_word, "cases", "sites")), key=len, reverse=True))
    whole = late(
        r"\b(?:overall|in all(?=,)|in total|altogether|totals?|as a whole|combined|"
        r"(?:whole|entire) (?:group|sample|series|cohort|population|study)|"
        rf"all (?:the |of the )?(?:\d+ )?(?:[a-z]+ )?(?:{units}))\b",
        re.IGNORECASE,
        holds=_STEMS,
    )
    part = late(
        rf"\b(?:in|among|amongst|within|for|of)[\s~]+(?:only[\s~]+)?(?:the[\s~]+|those[\s~]+|these[\s~]+)?(?:\d+[\s~]+)?"
        rf"(?P<of>{_NP})|"
        rf"\b(?:{units}|those)[\s~]+(?P<having>(?:with|without|that|who|whose|which|having)[\s~]+(?:had[\s~]+|were[\s~]+)?{_NP})|"
        r"\b(?P<when>(?:where|when|if)[\s~]+(?:an?|the|no)[\s~]+[a-z-]+(?:[\s~]+[a-z-]+){0,3}?)[\s~]+(?:had|has|was|were)\b|"
        r"(?:^|[.;:(\n]\s*|,[\s~]+(?:and[\s~]+|but[\s~]+|whereas[\s~]+)?|\bof (?:which|whom)[\s~]+(?:the[\s~]+)?)"
        rf"(?P<head>(?!(?:in|of|for|among|with|at|after|all)\b)(?:{_FEW}[a-z-]+[\s~]+){{1,2}}(?:{units})|"
        rf"(?:{units})[\s~]+(?:with|without)[\s~]+{_NP}))\b",
        re.IGNORECASE,
    )
    return whole, part


def parts_of_wholes(text: str, tokens: Sequence[Token], table: Table, lexicon: Lexicon) -> dict[int, PartOfWhole]:
    """By the place of each count that is of a part: whose it is."""
    if not table.has_cells and sum(token.kind in _COUNTS or token.part == "total" for token in tokens) < _LEAST:
        return {}
    counts = list(_counts(text, tokens))
    if not table.has_cells and not any(_holds(tokens, one, other) for one in counts for other in counts):
        return {}
    whole, _ = _patterns(lexicon)
    wholes = [Mention(found.start(), found.end(), ALL) for found in whole.finditer(text)]
    if table.has_cells:
        wholes += _alone(text, table)
        return dict(_of_rows(text, tokens, table, wholes, lexicon)) if wholes else {}
    return _of_sentences(text, tokens, table, wholes, counts, lexicon)


def _of_sentences(
    text: str, tokens: Sequence[Token], table: Table, wholes: list[Mention], counts: Sequence[tuple[int, int]],
    lexicon: Lexicon,
) -> dict[int, PartOfWhole]:  # fmt: skip
    said: dict[str, tuple[str, ...]] = {}
    mentions = list(wholes)
    for span in _parts_said(text, lexicon):
        content = _content(text[slice(*span)], lexicon)
        if content and not any(span[0] < each.end and each.start < span[1] for each in wholes):
            key = text[slice(*span)].lower()
            said[key] = content
            mentions.append(Mention(*span, key))
    if not said:
        return {}
    owners = _owners(text, tokens, table, lexicon, wholes, mentions[len(wholes) :])
    ends = sentences(text, 0, len(text) + 1)
    found: dict[int, PartOfWhole] = {}
    for at, total in counts:
        words = _part_of(at, total, tokens, owners, [each for each in mentions if each.key in said])
        if words is None:
            continue
        sentence = next(each for each in ends if each[0] <= tokens[at].start < each[1])
        if any(_may_be_all(owners[one[0]], tokens[one[0]].start, sentence) and _holds(tokens, one, (at, total))
               for one in counts):  # fmt: skip
            found[at] = PartOfWhole(words, said[text[slice(*words)].lower()], frozenset({tokens[total].value}))
    return found


def _owners(
    text: str, tokens: Sequence[Token], table: Table, lexicon: Lexicon, wholes: Sequence[Mention],
    parts: Sequence[Mention],
) -> Owners:  # fmt: skip
    """To which of them each number belongs; "overall" beside a number gives it to all, whatever else is named."""
    owners = owners_among(text, tokens, sorted([*wholes, *parts]), table, lexicon.beside_numbers, is_complete=False)
    for at, token in enumerate(tokens):
        if owners[at] is None and token.kind in (*_COUNTS, "percent"):
            start, end = max(token.outer_start, 0) or token.start, max(token.end, token.outer_end)
            near = [each for each in wholes if start - _NEAR <= each.end <= start or end <= each.start <= end + _NEAR]
            if near and is_of_all(text, Item(at, start, end, is_listed=False)):
                owners[at] = Owner(ALL, "words", ((near[0].start, near[0].end),))
    return owners


def _part_of(at: int, total: int, tokens: Sequence[Token], owners: Owners, parts: Sequence[Mention]) -> Span | None:
    """The words for the part that a count is of."""
    if not tokens[at].part:  # "Of the 34 eyes with a graft 22 healed"
        low, high = tokens[total].end, tokens[at].start
        return next(((each.start, each.end) for each in parts if low <= each.start and each.end <= high), None)
    owner = owners[at]
    spans = [(each.start, each.end) for each in parts]
    return owner.words[0] if owner is not None and owner.is_sure and owner.words and owner.words[0] in spans else None


def _may_be_all(owner: Owner | None, at: int, sentence: Span) -> bool:
    """Whether a count is of all; one of which nothing is said may be so beside the part alone."""
    return sentence[0] <= at < sentence[1] if owner is None or not owner.is_sure else owner.key == ALL


def _parts_said(text: str, lexicon: Lexicon) -> Iterator[Span]:
    _, part = _patterns(lexicon)
    units = frozenset(lexicon.unit_by_word) | {"cases", "those", "sites"}
    for found in part.finditer(text):
        name = next(key for key in ("of", "having", "when", "head") if found[key])
        words = found[name].rstrip()
        is_of_units = not units.isdisjoint(_words(words.lower())) or found[0][-1:].isdigit()
        if name != "of" or is_of_units or any(letter.isdigit() for letter in found[0]):
            yield found.start(name), found.start(name) + len(words)


def _counts(text: str, tokens: Sequence[Token]) -> Iterator[tuple[int, int]]:
    """The counts of a passage, each with that of which it is one: "22 of 34"; "Of 34 cracked eyes 22 healed"."""
    for at, token in enumerate(tokens):
        if token.part == "events" and token.kind == "count":
            yield at, token.pair
        elif token.part == "" and at + 1 < len(tokens) and not tokens[at + 1].part:
            behind = tokens[at + 1]
            if behind.value > token.value or not all(
                each.kind in ("count", "number") and each.unit != "%" for each in (token, behind)
            ):
                continue
            is_led = _leads(text[max(token.start - _NEAR, 0) : token.start]) is not None
            if is_led and _is_clear(text, token.end, behind.start):
                yield at + 1, at


_leads = late(r"\b(?:of|among|amongst|in)[\s~]+(?:the[\s~]+|those[\s~]+|these[\s~]+)?$", re.IGNORECASE).search
_NEAR = 20
_is_clear = late(r"[^\d.;:()]{0,80}").fullmatch


def _holds(tokens: Sequence[Token], whole: Span, part: Span) -> bool:
    """Whether the counts of a whole can hold those of a part: as many events and as many without, and more in all."""
    events, total = (tokens[at].value for at in whole)
    some, of = (tokens[at].value for at in part)
    return of < total and some <= events and of - some <= total - events


def _content(words: str, lexicon: Lexicon) -> tuple[str, ...]:
    """Those of some words that say whom a count is of; none where they tell when, or what was found."""
    small = words.lower()
    if _tells_no_part(small):
        return ()
    passing = _passing(lexicon)
    return tuple(word for word in _words(small) if word not in passing and len(word) > 2)


@lru_cache(maxsize=16)
def _passing(lexicon: Lexicon) -> frozenset[str]:
    events = {phrase for phrase in (*EVENTS, *lexicon.events) if " " not in phrase}
    return _STOPS | frozenset(lexicon.unit_by_word) | events | frozenset(lexicon.all_roles)


def figures_of_wholes(
    text: str, tokens: Sequence[Token], table: Table, lexicon: Lexicon, parts: Sequence[Mention], part: str
) -> dict[int, Span]:
    """By place of each figure of all, where one part has such a figure of its own too: the words for all.

    parts: where the passage names parts. part: the key of the one.
    """
    whole, _ = _patterns(lexicon)
    wholes = [Mention(found.start(), found.end(), ALL) for found in whole.finditer(text)]
    wholes = [each for each in wholes if not any(each.start < other.end and other.start < each.end for other in parts)]
    wholes += _alone(text, table)
    if not wholes:
        return {}
    owners = _owners(text, tokens, table, lexicon, wholes, parts)
    own = [at for at, owner in enumerate(owners) if owner is not None and owner.key == part and owner.is_sure]
    return {
        at: owner.words[0]
        for at, owner in enumerate(owners)
        if owner is not None and owner.key == ALL and owner.is_sure
        and any(_is_part(tokens, table, other, at) for other in own)
    }  # fmt: skip


def _is_part(tokens: Sequence[Token], table: Table, at: int, whole: int) -> bool:
    """Whether one figure can be of a part of what another is of."""
    one, other = tokens[at], tokens[whole]
    if one.kind in _COUNTS and other.kind in _COUNTS:
        if one.part in ("events", "total") and one.part == other.part:
            pair, of = ((at, one.pair), (whole, other.pair))
            return _holds(tokens, *((of, pair) if one.part == "events" else (of[::-1], pair[::-1])))
        places = table.places[at], table.places[whole]
        is_beside = None not in places and places[0].column == places[1].column and places[0].row != places[1].row  # type: ignore[union-attr]
        return is_beside and one.value < other.value
    return one.kind == other.kind in ("percent", "ratio") and not one.part and not other.part


# Tables


def _of_rows(
    text: str, tokens: Sequence[Token], table: Table, wholes: list[Mention], lexicon: Lexicon
) -> Iterator[tuple[int, PartOfWhole]]:
    """The same of rows, columns and sections, where another is headed "all"."""
    places = table.places
    cells = [(at, place) for at, place in enumerate(places) if place is not None and tokens[at].kind in _COUNTS]
    heads: tuple[tuple[Callable[[InCell], Span | None], Is, Is], ...] = (
        (_row_head, lambda one, other: one.column == other.column and one.above == other.above, _in_row),
        (_column_head, _in_row, lambda one, other: one.column == other.column),
        (_section, lambda one, other: one.column == other.column and _same_head(text, one, other), _in_row),
    )
    for head_of, is_beside, is_in in heads:
        of_all = [(at, place) for at, place in cells if (head := head_of(place)) and _is_whole(head, wholes)]
        for at, place in cells if of_all else ():
            head = head_of(place)
            content = _content_of_head(text, head, wholes, lexicon) if head is not None else ()
            if head is None or not content:
                continue
            if any(is_beside(place, its) and _may_hold(tokens, other, at) for other, its in of_all):
                beside = [each for each, its in cells if is_in(place, its)]
                yield at, PartOfWhole(head, content, _totals(tokens, beside, at))


def _may_hold(tokens: Sequence[Token], whole: int, part: int) -> bool:
    """Whether one number of a table can be of all that another is of a part of."""
    one, other = tokens[whole], tokens[part]
    of_one, of_other = (token.pair if token.part == "events" else at for token, at in ((one, whole), (other, part)))
    return one.part == other.part and _holds(tokens, (whole, of_one), (part, of_other))


def _totals(tokens: Sequence[Token], beside: Sequence[int], at: int) -> frozenset[Decimal]:
    """Of how many a count may be: the other of its pair, or what stands beside it in its row or its column."""
    if tokens[at].part == "events":
        return frozenset({tokens[tokens[at].pair].value})
    return frozenset(tokens[each].value for each in beside if each != at and tokens[each].value >= tokens[at].value)


Is = Callable[[InCell, InCell], bool]


def _in_row(one: InCell, other: InCell) -> bool:
    return one.row == other.row


_COUNTS = ("count", "number")
_LEAST = 3
"""Numbers of a count and its whole, and of another that has the first as its whole, or one of its own."""


def _row_head(place: InCell) -> Span | None:
    left = [span for span in place.others if span[1] <= place.cell[0]]
    return left[-1] if left else None


def _column_head(place: InCell) -> Span | None:
    return place.headings[-1] if place.headings else None


def _section(place: InCell) -> Span | None:
    return place.above[0] if place.above else None


def _same_head(text: str, one: InCell, other: InCell) -> bool:
    heads = [_row_head(place) for place in (one, other)]
    return None not in heads and len({text[slice(*head)].lower() for head in heads if head is not None}) == 1


def _is_whole(span: Span, wholes: Sequence[Mention]) -> bool:
    return any(span[0] <= each.start and each.end <= span[1] for each in wholes)


def _alone(text: str, table: Table) -> Iterator[Mention]:
    """Cells that hold no more than "all"."""
    for line in table.lines:
        for cell in (*line.cells, Cell(line.start, line.end)):
            if text[cell.start : cell.end].strip(" .:").lower() == "all":
                yield Mention(cell.start, cell.end, ALL)


def _content_of_head(text: str, span: Span, wholes: Sequence[Mention], lexicon: Lexicon) -> tuple[str, ...]:
    words = text[slice(*span)]
    if _is_whole(span, wholes) or len(words.split()) > _LONGEST_HEAD:
        return ()
    return _content(words, lexicon)
