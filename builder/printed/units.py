"""What a number without a unit counts, where the words before it or the heading over it say so."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal
from functools import lru_cache

from ..compiled_patterns import compiled
from ..numerals import Lexicon, Token
from ..numerals.late import holds_any, in_small, late
from ..records import NamedTuple
from .belonging import owners_among
from .clauses import Span
from .counted_before import is_bare_behind
from .owner import Owners
from .tables import InCell, Table
from .wordings import Mention


class Counted(NamedTuple):
    """What numbers count, and the words that say so."""

    unit: str
    start: int
    end: int


_SENTENCE_END = late(r"[.;!?](?=\s|$)|\n")
_BARE_HEADING = late(r"\s*(?:the\s+)?(?:numbers? of\s+|no\.? of\s+|n of\s+)?", re.IGNORECASE)
_DESCRIBED = late(r"[a-z]+(?:ed|ful|ing|en)\s+", re.IGNORECASE)
""" "Healed roots": what befell them."""
_find_verb = late(r"\b(?:was|were|is|are|had|has|have|did|could|may)\b", re.IGNORECASE).search
_LONGEST_HEADING = 6
"""Words."""
_leads = late(r"(?:^|[,;:]\s*)(?:out\s+)?(?:of|among|amongst|from|in)\s+(?:the\s+|all\s+|these\s+)?$", re.IGNORECASE)


@lru_cache(maxsize=16)
def _units_in(lexicon: Lexicon) -> tuple[re.Pattern[str], dict[str, str]]:
    ids = {
        form: unit.id
        for unit in lexicon.units.values()
        if unit.id not in ("study", "arm", "specimen")
        for word in unit.words
        for form in (word, word.removesuffix("s"))
    }
    words = "|".join(re.escape(word) for word in sorted(ids, key=len, reverse=True))
    return in_small(rf"\b(?:{words})\b"), ids


def units_said(text: str, lexicon: Lexicon) -> set[str]:
    """Ids of the units whose words stand in a text."""
    pattern, ids = _units_in(lexicon)
    if not holds_any(text.lower(), ids):
        return set()
    return {ids[found[0]] for found in pattern.finditer(text)}


def unit_counted(
    text: str, tokens: Sequence[Token], at: int, cell: InCell | None, lexicon: Lexicon
) -> tuple[Counted, str] | None:
    """What a bare number counts, with the sentence, or the row and its headings, in which that is said."""
    token = tokens[at]
    if token.unit != "none" or token.kind not in ("count", "number"):
        return None
    if cell is not None:
        spans = [*cell.headings, *cell.others, *cell.above]
        around = " | ".join(text[start:end] for start, end in (*spans, cell.cell))
        return next(((said, around) for span in spans if (said := _heading(text, *span, lexicon))), None)
    begin = max((end.end() for end in _SENTENCE_END.finditer(text, 0, token.start)), default=0)
    ended = _SENTENCE_END.search(text, token.end)
    around = text[begin : ended.start() if ended else len(text)]
    colon = text.find(":", begin, token.start)
    said = _heading(text, begin, colon, lexicon) if colon >= 0 else None
    if said is None and (label := _label(text, begin, token.start, lexicon)) is not None:
        return label
    return (said, around) if said is not None else _among(text, begin, tokens[:at], around, lexicon)


def _label(text: str, begin: int, at: int, lexicon: Lexicon) -> tuple[Counted, str] | None:
    """ "Patients 61/84, eyes 70/101": the word that stands alone before a number, with its part of the sentence."""
    cuts = [found.end() for found in _PART_END.finditer(text, begin, at)]
    low = cuts[-1] if cuts else begin
    end = at - len(text[low:at]) + len(text[low:at].rstrip())
    said = _heading(text, low, end, lexicon) if low < end else None
    if said is None or said.end != end:
        return None
    stop = _PART_END.search(text, at)
    return said, text[low : stop.start() if stop else len(text)]


_PART_END = late(r"[,;:](?=\s)|\band\b", re.IGNORECASE)


def _heading(text: str, start: int, end: int, lexicon: Lexicon) -> Counted | None:
    """ "Patients with pain", "Number of patients"."""
    words = text[start:end]
    if len(words.split()) > _LONGEST_HEADING or _find_verb(words):
        return None
    pattern, ids = _units_in(lexicon)
    bare = _BARE_HEADING.match(text, start, end)
    begin = bare.end() if bare else start
    described = _DESCRIBED.match(text, begin, end)
    found = pattern.match(text, begin, end) or (pattern.fullmatch(text, described.end(), end) if described else None)
    if found is None or text[found.end() : found.end() + 1] in ("'", "’"):  # "Patients' age" counts nobody
        return None
    unit = ids[found[0].lower()]
    # "lesion: 37 of 54" is one of two levels; "lesions: 37 of 54" counts them.
    is_of_many = found[0].lower() in lexicon.units[unit].words[1:]
    return Counted(unit, *found.span()) if is_of_many else None


def _among(text: str, begin: int, before: Sequence[Token], around: str, lexicon: Lexicon) -> tuple[Counted, str] | None:
    """ "Of 72 patients, 61 ..."."""
    inside = [token for token in before if token.start >= begin and token.unit in lexicon.units]
    if not inside or len({token.unit for token in inside}) > 1:
        return None
    first = inside[0]
    if _leads.search(text[begin : first.start]) is None:
        return None
    pattern, _ = _units_in(lexicon)
    found = pattern.search(text, first.end)
    return (Counted(first.unit, first.start, found.end() if found else first.end), around)


@lru_cache(maxsize=16)
def _analysed(lexicon: Lexicon) -> re.Pattern[str]:
    words = "|".join(re.escape(word) for word in sorted(_units_in(lexicon)[1], key=len, reverse=True))
    scored = r"(?:scored|judged|graded|assessed|counted|analy[sz]ed|evaluated|rated|taken|recorded|regarded|treated)"
    return in_small(
        rf"\b(?:(?:at|on)[\s~]+the[\s~]+level[\s~]+of[\s~]+(?:the[\s~]+)?(?P<level>{words})|(?P<of>{words})[\s~-]+levels?|"
        rf"on[\s~]+an?[\s~]+(?P<basis>{words})[\s~]+basis|(?P<based>{words})-based|"
        rf"(?:with|using|taking)[\s~]+the[\s~]+(?P<taken>{words})[\s~]+as[\s~]+(?:the[\s~]+)?unit|"
        rf"(?P<unit>{words})[\s~]+(?:(?:was|were)[\s~]+(?:\w+[\s~]+)?)?as[\s~]+(?:the[\s~]+|our[\s~]+)?unit|"
        rf"(?P<was>{words})[\s~]+(?:was|were|is)[\s~]+(?:the|our)[\s~]+unit|"
        rf"unit[\s~]+of[\s~]+(?:\w+[\s~]+)?analysis[\s~]+(?:was|is|being)[\s~]+(?:the[\s~]+|an?[\s~]+)?(?P<named>{words})|"
        rf"(?:each|every)[\s~]+(?P<each>{words})[\s~]+(?:was|being)[\s~]+{scored}[\s~]+"
        rf"(?:separately|singly|individually|apart|alone|by[\s~]+itself|on[\s~]+its[\s~]+own|for[\s~]+itself)|"
        rf"{scored}[\s~]+(?:separately[\s~]+)?for[\s~]+(?:each|every)[\s~]+(?:single[\s~]+)?(?P<every>{words})|"
        rf"(?:analy[sz]ed|calculated|counted|reckoned|expressed|scored|given|taken)[\s~]+(?:per|by)[\s~]+(?P<counted>{words})|"
        rf"(?<![a-rt-z]s[\s~])per[\s~]+(?P<straight>{words})(?=[\s:,(=]*\d)|"
        rf"(?:(?<=[.;:,]\s)|(?<=\band\s)|(?<=\bwas\s)|(?<=\brate\s)|(?<=\bsuccess\s)|^)(?:per|by)[\s~]+(?P<per>{words})"
        r"(?![\s~-]+(?:size|type|volume|diameter|location|position|status|age|group|width|length|depth|side)\b))\b",
        holds=("level", "basis", "-based", " as ", "per ", "by ", "unit", "each ", "every "),
    )


def units_of_analysis(text: str, tokens: Sequence[Token], table: Table, lexicon: Lexicon) -> Owners:
    """For each number which unit was counted, where a passage says so: "on the level of the eye", "per eye"."""
    ids = _units_in(lexicon)[1]
    mentions = [
        Mention(*found.span(), ids[next(word for word in found.groups() if word)])
        for found in _analysed(lexicon).finditer(text)
    ]
    heads = [
        (cell.start, cell.end, ids[word])
        for line in table.lines for cell in line.cells[:1] if (word := text[cell.start : cell.end].lower()) in ids
    ]  # fmt: skip
    mentions += [Mention(*head) for head in heads] if len({unit for _, _, unit in heads}) > 1 else []
    if len({mention.key for mention in mentions}) < 1:
        return [None] * len(tokens)
    return owners_among(text, tokens, sorted(mentions), table, lexicon.beside_numbers, is_complete=False)


_OF_ALL = ("taken", "unit", "was", "named", "each", "every")


def unit_of_all(text: str, lexicon: Lexicon) -> Counted | None:
    """The one unit that a passage lays down for whatever it counts: "each eye was scored by itself"."""
    ids = _units_in(lexicon)[1]
    laid = [
        Counted(ids[found[key].lower()], *found.span())
        for found in _analysed(lexicon).finditer(text) for key in _OF_ALL if found[key]
    ]  # fmt: skip
    return laid[0] if len({each.unit for each in laid}) == 1 else None


_match_noun = late(
    r"[\s~]+(?:[a-z-]+[\s~]+){0,2}?(?P<noun>[a-z]{3,}s)\b(?=[\s~]*(?:[.,;:()]|\w+))", re.IGNORECASE
).match
_match_holding = late(
    r"[\s~]*(?:,|with|had|have|having|received|brought|contributed|provided|underwent|presented|presented with|gave|"
    r"and|"
    r"were (?:treated|operated on) (?:for|with|in|on)|(?:a total of|in all))?[\s~]*(?:a total of[\s~]+)?$",
    re.IGNORECASE,
).match
_match_held = late(
    r"(?:[\s~]+(?!than\b|not\b)[a-z-]+){0,4}?(?:[.;,][\s~]+(?:they|which|all|these)(?=[\s~]+(?:belong|came|were)))?[\s~]*"
    r"(?P<sign>\((?:\d+[\s~]*(?:/|of)[\s~]*)?|\b(?:of|in|from|belong(?:ed|ing)[\s~]+to|came[\s~]+from|"
    r"were[\s~]+(?:those[\s~]+of|from))[\s~]+(?:(?:the|these|all|a total of)[\s~]+)?)[\s~]*$",
    re.IGNORECASE,
).match


_WHO = frozenset({
    "smokers", "diabetics", "adults", "males", "females", "girls", "boys", "volunteers", "residents", "adolescents",
    "controls", "survivors", "responders", "completers", "attenders", "members", "drinkers", "was", "has", "years",
})  # fmt: skip
""" These are patients themselves, or nothing that is counted."""


def noun_of(text: str, tokens: Sequence[Token], at: int, lexicon: Lexicon) -> Span | None:
    """Where the word stands for what a whole counts, where no vocabulary declares it: behind it, "39 of 44 grafts", or
    behind an equal number before: "37 patients had 44 grafts; 39 of the 44 were clear"."""
    total = tokens[at]
    if (behind := _noun_behind(text, total, lexicon)) is not None or not is_bare_behind(text, total.end):
        return behind
    same = (each for each in tokens[:at] if each.value == total.value and each.unit == "none" and not each.part)
    return next((span for each in same if (span := _noun_behind(text, each, lexicon)) is not None), None)


def _noun_behind(text: str, total: Token, lexicon: Lexicon) -> Span | None:
    found = _match_noun(text, max(total.end, total.outer_end))
    if found is None or found["noun"].lower() in lexicon.beside_numbers | _WHO:
        return None
    return found.span("noun")


def in_other_line(
    text: str, tokens: Sequence[Token], cells: Sequence[InCell | None], at: int, own: Sequence[str]
) -> Span | None:
    """The head of a number's row or column, one word for many, where another row or column of its table is headed by
    what the study counts and has fewer there. own: words for what the study counts."""
    place = cells[at]
    if place is None:
        return _in_other_label(text, tokens, at, own)
    for index, other in enumerate(cells):
        if other is None or tokens[index].value >= tokens[at].value:
            continue
        heads = (
            (_row_head(place), _row_head(other)) if other.column == place.column and other.row != place.row
            else (_heading_of(place), _heading_of(other)) if other.row == place.row and other.column != place.column
            else (None, None)
        )  # fmt: skip
        head, others = heads
        if head is None or others is None or text[slice(*others)].strip().lower() not in own:
            continue
        said = text[slice(*head)].strip().lower()
        if _is_noun(said) and said not in own and said not in _WHO:
            return head
    return None


def _in_other_label(text: str, tokens: Sequence[Token], at: int, own: Sequence[str]) -> Span | None:
    """ "Grafts: 39 of 44 clear; eyes: 31 of 35"."""
    labels = {total: label for total in range(len(tokens)) if (label := _label_of(text, tokens, total)) is not None}
    label = labels.get(at)
    if label is None or not _is_noun(said := text[slice(*label)].lower()) or said in (*own, *_WHO):
        return None
    is_beside = any(
        tokens[total].value < tokens[at].value and text[slice(*other)].lower() in own for total, other in labels.items()
    )
    return label if is_beside else None


def _label_of(text: str, tokens: Sequence[Token], total: int) -> Span | None:
    if tokens[total].part != "total":
        return None
    found = _ends_in_label(text, 0, min(tokens[total].start, tokens[tokens[total].pair].start))
    return found.span("noun") if found is not None else None


_ends_in_label = late(
    r"(?:^|[.;,\n]\s*|\band\s+)(?P<noun>[a-z]{3,})(?:\s+[a-z]+ed)?\s*[:,=(]?\s*$", re.IGNORECASE
).search
_is_noun = compiled(r"[a-z]{3,}s").fullmatch


def _row_head(place: InCell) -> Span | None:
    return min((span for span in place.others if span[1] <= place.cell[0]), default=None)


def _heading_of(place: InCell) -> Span | None:
    return place.headings[0] if place.headings else None


def holders_of(text: str, tokens: Sequence[Token], noun: str, count: Decimal, unit: str) -> Span | None:
    """Where a passage says that fewer of a unit had so many of something: "44 grafts in 37 patients".

    noun: the word for the something, in any case. unit: id of what held them.
    """
    for token in tokens:
        if token.unit == unit and token.part != "events" and 0 < token.value < count:
            word = _match_word(text, token.end)
            own = (token.start, word.end() if word is not None else token.end)
            found = _held_before(text, noun, own) or _held_behind(text, tokens, noun, count, own)
            found = found or _held_each(text, noun, own)
            if found is not None:
                return found
    return None


def _held_before(text: str, noun: str, own: Span) -> Span | None:
    """ "44 grafts in 37 patients", "39 of 44 grafts (37 patients)". own: where the patients stand."""
    begin = text.lower().rfind(noun, max(own[0] - _NEAR_NOUN, 0), own[0])
    held = _match_held(text[begin + len(noun) : own[0]]) if begin >= 0 else None
    if held is None or (held["sign"][0] == "(" and text[own[1] : own[1] + 1] not in (")", ",", ";")):
        return None
    return begin, own[1]


def _held_behind(text: str, tokens: Sequence[Token], noun: str, count: Decimal, own: Span) -> Span | None:
    """ "37 patients received 44 grafts"."""
    behind = next((each for each in tokens if each.start > own[0] and each.value == count), None)
    if behind is None or behind.start - own[1] > _NEAR_NOUN or not _match_holding(text[own[1] : behind.start]):
        return None
    named = _match_noun(text, behind.end)
    return (own[0], named.end()) if named is not None and named["noun"].lower() == noun else None


def _held_each(text: str, noun: str, own: Span) -> Span | None:
    """ "In 31 of the 37 patients each graft was clear"."""
    found = _match_each(text, own[1])
    is_it = found is not None and found["noun"].lower() in (noun, noun.removesuffix("s"), noun.removesuffix("es"))
    return (own[0], found.end()) if found is not None and is_it else None


_match_each = late(
    r"[^.;\d]{0,20}?\b(?:each|every|both|either|all)[\s~]+(?:of[\s~]+(?:the|their)[\s~]+|their[\s~]+|the[\s~]+)?"
    r"(?:[a-z]+ed[\s~]+)?(?P<noun>[a-z]+)\b",
    re.IGNORECASE,
).match
_match_word = compiled(r"[\s~]*[a-z]+", re.IGNORECASE).match
_NEAR_NOUN = 60
"""Characters between what was held and those who held it."""


_MEASURES = {
    "second": ("seconds", "second", "secs", "sec", "s"), "minute": ("minutes", "minute", "mins", "min"),
    "hour": ("hours", "hour", "hrs", "hr", "h"), "day": ("days", "day"), "week": ("weeks", "week", "wks", "wk"),
    "month": ("months", "month"), "year": ("years", "year", "yrs", "yr"), "mm": ("mm", "millimetres", "millimeters"),
    "cm": ("cm", "centimetres", "centimeters"), "µm": ("µm", "μm", "um", "micrometres", "micrometers", "microns"),
}  # fmt: skip
_MEASURE_OF = {word: measure for measure, words in _MEASURES.items() for word in words}
_WORDS = "|".join(map(re.escape, sorted(_MEASURE_OF, key=len, reverse=True)))
_match_behind = late(rf"[\s~-]*(?P<unit>{_WORDS})\b", re.IGNORECASE).match
_find_heading = late(
    rf"(?:[(\[,;]\s*(?:in\s+)?|\bin\s+)(?P<unit>{_WORDS})(?:\s*[()\[\],:;|]|\s+(?:was|were)\b|\s*$)", re.IGNORECASE
).finditer


def measure_of(words: str) -> str:
    """The unit of time or length that words name; "" for any other."""
    return _MEASURE_OF.get(words.strip().lower(), "")


def measured_in(text: str, token: Token, cell: InCell | None) -> tuple[str, tuple[int, int]] | None:
    """In which unit of time or length a number was measured, by the word behind it, its heading or its sentence."""
    behind = _match_behind(text, token.end) or _match_behind(text, max(token.end, token.outer_end))
    if behind is not None:
        return measure_of(behind["unit"]), behind.span("unit")
    if cell is not None:
        spans = lines = [*cell.headings, *cell.others, *cell.above]
    else:
        spans = [(max((end.end() for end in _SENTENCE_END.finditer(text, 0, token.start)), default=0), token.start)]
        lines = _lines_over(text, token.start)
    found = [list(_find_heading(text, *span))[-1:] for span in spans]
    headed = [[each] for span in lines if (each := _match_line(text, *span)) is not None]
    said = next((each[0] for each in (*found, *headed) if each), None)
    return (measure_of(said["unit"]), said.span("unit")) if said is not None else None


_match_line = late(
    r"\s*(?P<unit>seconds|minutes|hours|days|weeks|months|years|millimetres|millimeters)\s+"
    r"(?:until|till|to|of|from|for|before|after|since|needed|spent|lost|off|in|without|with)\b",
    re.IGNORECASE,
).match
""" "Hours until relief" over some lines, or before the numbers of one."""


def _lines_over(text: str, at: int) -> list[tuple[int, int]]:
    """The line of a number as far as the number, and the last line without a figure above it."""
    start = text.rfind("\n", 0, at) + 1
    lines = [(start, at)]
    while start > 0:
        end = start - 1
        start = text.rfind("\n", 0, end) + 1
        if not any(letter.isdigit() for letter in text[start:end]):
            return [*lines, (start, end)]
    return lines
