"""A text in its smallest pieces: numbers, and the words and signs beside them."""

from __future__ import annotations

import re
from decimal import Decimal
from functools import lru_cache

from ..compiled_patterns import compiled
from . import words
from .kinds import Kind
from .late import late, lowered
from .lexicon import Lexicon
from .meanings import NUMBERS, Meaning
from .rows import layout_of
from .spelt import is_in_a_list, spelt_number
from .touching import has_foreign_digit, is_spoilt

_LETTER = "[a-zµß-ɏα-ω]"
_GAP = r"(?:[\s~]|\\[ ,;])+"
_POINT = r"(?:\.|·|∙|\{?\\cdot\}?|\$\\cdot\$|\\textperiodcentered(?:\{\})?)"
_THOUSANDS = r"(?:,|\{,\}|\\,|\\thinspace\s?|[\u2009\u202f\u00a0\u2008'’])"

_PIECE = compiled(
    rf"""[\s~${{}}]*+
    (?:
    ( c\.i\. | ci(?=[5-9]\d\b) | °(?:[cf]\b)? | i\^\{{?2\}}? | {_LETTER}+(?:-{_LETTER}+)*(?:[\d²³][\d.·]*)? )
  | (
        # A sign belongs to the number only where nothing but an opening or a dash stands before it: "12-65" is a range.
        (?: (?<![\w%)\]}}.\-−]) [-−]\$? | (?<=[-–—])− | (?<=–)- | (?<![\w%)\]}}.\-−–—$])–(?=[\d.·]) )?
        (?: (?:[1-9]\d{{0,2}}(?:{_THOUSANDS}\d{{3}})+(?!\d) | \d+) (?:{_POINT}\d+)*
          | (?<![\d.·])[.·]\d+ (?:{_POINT}\d+)* )
    )
  | ( [%(),;:=<>≤≥⩽⩾±/\[\]+％] | \.(?=\s|$) | --+ | [-–—−‐‑] | (?:\\textsuperscript|\^)\{{[^{{}}]{{1,6}}\}}
    | \\(?:[a-z]+|[^a-z\s]) )
    )
  | [\s~${{}}]++  # blanks before nothing are passed over in one step, not tried again from each of them
    """,
    re.VERBOSE,
)
"""Over lower-cased text: a word, a number, or a sign; what it does not match parts nothing."""
_WORD, _NUMBER, _SIGN = range(1, 4)

_match_next_word = compiled(rf"{_GAP}({_LETTER}+)").match
_match_whole_word = compiled(rf"{_GAP}({_LETTER}+)\b").match
_match_no_end = compiled(rf"{_GAP}(?:than|[\d.])").match
"""Behind "or more" they show that the words lead on: "or more than 3"."""

_TEN = Decimal(10)
_GLUED = (Decimal(0), 0)
"""In place of a number with two decimal signs: "88.4992.34" was two numbers once."""


class Pieces:
    """A text in pieces: columns of equal length, filled from left to right."""

    __slots__ = (
        "destroyed", "has_groups", "is_ascii", "lexicon", "lowered", "meanings", "spans", "spoilt", "text", "values",
    )  # fmt: skip

    def __init__(self, text: str, lexicon: Lexicon) -> None:
        self.text = text
        self.is_ascii = text.isascii()
        self.lowered = lowered(text)
        self.lexicon = lexicon
        self.meanings: list[Meaning] = []
        """Of each piece its kind and what it says."""
        self.spans: list[tuple[int, int]] = []
        """Where each begins and ends."""
        self.values: dict[int, tuple[Decimal, int]] = {}
        """Value and decimals of each number, by its place among the pieces."""
        self.destroyed: set[int] = set()
        """Places of numbers that copying from the paper destroyed."""
        self.has_groups = False
        """True where three digits stand one blank behind a number: "1 039"."""
        self.spoilt: set[int] = set()
        """Those of them that no form around them explains."""

    def add(self, meaning: Meaning, start: int, end: int) -> None:
        """One piece more."""
        self.meanings.append(meaning)
        self.spans.append((start, end))

    def add_number(self, value: tuple[Decimal, int], start: int, end: int) -> None:
        """One number more."""
        self.values[len(self.spans)] = value
        self.meanings.append(A_NUMBER)
        self.spans.append((start, end))

    def last_is(self, kind: Kind, end: int | None = None) -> bool:
        """True where the last piece is of this kind and, where it is asked, ends just there."""
        return bool(self.spans) and self.meanings[-1][0] == kind and end in (None, self.spans[-1][1])


A_NUMBER: Meaning = (Kind.NUMBER, "")
"""What a number is among the pieces."""
_A_WORD: Meaning = (Kind.WORD, "")


def read_pieces(text: str, lexicon: Lexicon) -> Pieces:
    """The pieces of a text, in order."""
    pieces = Pieces(text, lexicon)
    known, add_meaning, add_span = lexicon.pieces, pieces.meanings.append, pieces.spans.append
    read_up_to = 0
    row_end = _row_end(text, 0) if layout_of(text) else len(text)
    for match in _PIECE.finditer(pieces.lowered):
        what = match.lastindex or 0
        span = match.span(what)
        if span[0] < read_up_to:
            continue
        if span[0] > row_end:  # "6 | 12 | 24" in one row, "healed of 61" in the next: nobody says 24 of 61
            pieces.add(_ROW_END, row_end, row_end)
            row_end = _row_end(text, span[0])
        piece = match[what]
        meaning = known.get(piece)
        if meaning is not None:
            add_meaning(meaning)
            add_span(span)
        elif what == _NUMBER:
            _add_digits(pieces, piece, *span)
        elif what == _WORD:
            read_up_to = _add_words(pieces, piece, *span)
        else:
            _add_sign(pieces, piece, *span)
    return pieces


_ROW_END: Meaning = (Kind.STOP, "")


def _row_end(text: str, start: int) -> int:
    end = text.find("\n", start)
    return end if end >= 0 else len(text)


# Numbers in digits


_find_point = compiled(_POINT)
_find_thousands = compiled(_THOUSANDS)


@lru_cache(maxsize=4096)  # the same few digits are printed again and again, and a Decimal is slow to hash
def value_of(printed: str) -> tuple[Decimal, int]:
    """Value and decimals of digits as printed."""
    if printed.isascii() and printed.isdigit():
        return Decimal(printed), 0
    plain = _find_thousands.sub("", _find_point.sub(".", printed)).replace("−", "-").replace("–", "-").replace("$", "")
    decimals = plain.partition(".")[2]
    return _GLUED if "." in decimals else (Decimal(plain), len(decimals))


def _add_digits(pieces: Pieces, printed: str, start: int, end: int) -> None:
    value = value_of(printed)
    if value is _GLUED:
        pieces.destroyed.add(len(pieces.spans))
        pieces.spoilt.add(len(pieces.spans))
    elif pieces.spans:
        if pieces.spans[-1][1] == start:
            _look_at_what_touches(pieces)
        elif end - start == 3 and pieces.spans[-1][1] == start - 1 and pieces.meanings[-1] is A_NUMBER:
            pieces.has_groups = True
        if printed[0] in "-−–" and _begins_a_cell(pieces.text, start):
            pass  # "3.1 | -5.0 to 11.2": a minus, whatever stands in the cell before
        elif printed[0] in "-−" and pieces.meanings[-1][0] in _BEFORE_A_DASH:
            start, value = _without_dash(pieces, printed, start)
        elif printed[0] == "–" and pieces.meanings[-1][0] not in _BEFORE_A_MINUS:
            pieces.add((Kind.DASH, "–"), start, start + 1)
            start, value = start + 1, value_of(printed[1:])
    if not pieces.is_ascii and (has_foreign_digit(printed) or is_spoilt(pieces.text, start, end)):
        pieces.destroyed.add(len(pieces.spans))
        pieces.spoilt.add(len(pieces.spans))
    pieces.add_number(value, start, end)


def _begins_a_cell(text: str, start: int) -> bool:
    """Whether a bar, a tab or a gap of blanks stands before a number."""
    before = text[max(start - 2, 0) : start]
    return before.endswith(("|", "\t", "  ", "| "))


def _look_at_what_touches(pieces: Pieces) -> None:
    """The last piece ends where a number begins: both may be what is left of something else."""
    place = len(pieces.spans)
    if pieces.meanings[-1] == A_NUMBER:
        pieces.destroyed.add(place)
    elif _is_decimal_comma(pieces):
        pieces.destroyed.update((place - 2, place))


def _is_decimal_comma(pieces: Pieces) -> bool:
    """ "12,5": a decimal comma or a list without blanks, nobody knows."""
    if pieces.meanings[-1][0] != Kind.COMMA or len(pieces.spans) < 2:
        return False
    return pieces.meanings[-2] == A_NUMBER and pieces.spans[-2][1] == pieces.spans[-1][0]


_BEFORE_A_DASH = frozenset({Kind.NUMBER, Kind.PERCENT, Kind.UNIT})


_BEFORE_A_MINUS = frozenset({
    Kind.MEASURE, Kind.CI, Kind.EQUALS, Kind.COLON, Kind.COMMA, Kind.SEMICOLON, Kind.TO, Kind.AND, Kind.OF,
    Kind.ROUND_OPEN, Kind.SQUARE_OPEN, Kind.FILLER, Kind.BETWEEN,
})  # fmt: skip
"""Behind these an en dash that touches its number is a minus: "MD –0.98 (95% CI –3.58 to 1.62)"."""


def _without_dash(pieces: Pieces, printed: str, start: int) -> tuple[int, tuple[Decimal, int]]:
    """Start and value of a number that a sign leads behind another number."""
    gap = pieces.text[pieces.spans[-1][1] : start]
    if "|" in gap or "\t" in gap:  # "24.7 | -6.5": the next cell
        return start, value_of(printed)
    if gap.strip("$}{"):  # "12 -65": a range or a minus, nobody knows
        pieces.destroyed.add(len(pieces.spans))
        return start, value_of(printed)
    pieces.add((Kind.DASH, "-"), start, start + 1)  # "$12$-65"
    start += 2 if printed[1] == "$" else 1
    return start, value_of(printed[1:])


# Signs


def _add_sign(pieces: Pieces, sign: str, start: int, end: int) -> None:
    if sign == "=" and pieces.last_is(Kind.COMPARATOR, start) and pieces.meanings[-1][1] in ("<", ">"):  # "<="
        pieces.meanings[-1] = (Kind.COMPARATOR, f"{pieces.meanings[-1][1]}=")
        pieces.spans[-1] = (pieces.spans[-1][0], end)
    elif sign == "=":
        pieces.add((Kind.EQUALS, ""), start, end)
    elif sign[0] == "-":  # a line of dashes
        pieces.add((Kind.DASH, sign), start, end)
    elif sign[0] in "\\^" and pieces.last_is(Kind.NUMBER) and any(character.isdigit() for character in sign):
        place = len(pieces.spans) - 1
        if pieces.values[place][0] == _TEN:  # "10^{3}" is no ten, "39^{2}" has a footnote
            pieces.destroyed.add(place)
            pieces.spoilt.add(place)


# Words


def _add_words(pieces: Pieces, word: str, start: int, end: int) -> int:
    """Add what a word, or the phrase it begins, says to the numbers beside it; gives the end of what was read."""
    lexicon, said = pieces.lexicon, word
    meaning = lexicon.word_meanings.get(word)
    if word in lexicon.phrase_starts and (phrase := _phrase_at(pieces, word, end)):
        said, end = phrase
        meaning = lexicon.phrase_meanings[said]
    spelt = spelt_number(pieces.lowered, start) if meaning == A_NUMBER or "-hundred" in word else None
    if spelt is not None:
        value, end = spelt
        pieces.add_number((value, 0), start, end)
    elif meaning == A_NUMBER:
        pieces.add_number((NUMBERS[said], 0), start, end)
    elif meaning is None and word in words.ORDINALS and _is_time(pieces.lowered, start, end):
        pieces.add_number((Decimal(words.ORDINALS[word]), 0), start, end)
    elif meaning is None:
        _add_strange_word(pieces, word, start, end)
    elif meaning[1] == "or" and pieces.text[start:end] == "OR":
        pieces.add((Kind.MEASURE, "odds ratio"), start, end)
    else:
        pieces.add(meaning, start, end)
    return end


def _phrase_at(pieces: Pieces, word: str, end: int) -> tuple[str, int] | None:
    """The longest phrase that begins with a word, and where it ends; None where none does. end: of the word."""
    lexicon, lowered = pieces.lexicon, pieces.lowered
    if word == "none":
        behind = _match_whole_word(lowered, end)
        is_number = (behind and behind[1] in lexicon.befalls_none) or is_in_a_list(lowered, end - len(word), end)
        return (word, end) if is_number else None
    found = None
    said = word
    while said in lexicon.phrase_starts and (behind := _match_next_word(lowered, end)):
        said, end = f"{said} {behind[1]}", behind.end()
        if said in lexicon.phrase_meanings and not (word in ("or", "and") and _match_no_end(lowered, end)):
            found = said, end
    return found


_ORDINAL = frozenset({"st", "nd", "rd", "th"})


def _add_strange_word(pieces: Pieces, word: str, start: int, end: int) -> None:
    """A word of no meaning here, which may still have destroyed, or be part of, the number beside it."""
    behind_number = pieces.last_is(Kind.NUMBER)
    adjacent = pieces.last_is(Kind.NUMBER, start)
    last = len(pieces.spans) - 1
    if word[-1].isdigit() and adjacent:  # "0.42e21.72": one piece, and no number
        pieces.spans[last] = (pieces.spans[last][0], end)
        pieces.destroyed.add(last)
    elif word[-1].isdigit() and ("." in word or "·" in word):  # "OR2.15"
        pieces.destroyed.add(last + 1)
        pieces.add_number(_GLUED, start, end)
    elif "-" in word and not adjacent and not word[-1].isdigit():
        _add_joined_words(pieces, word, start, end)
    else:
        if (behind_number and word in words.PARTS) or (adjacent and word in _ORDINAL):  # "two thirds", "2nd"
            pieces.meanings[last] = _A_WORD
            del pieces.values[last]
        elif adjacent and not _is_footnote(pieces, word):  # "3D"
            pieces.destroyed.add(last)
        pieces.add(_A_WORD, start, end)


def _is_time(lowered: str, start: int, end: int) -> bool:
    """ "after the first year 39 of 47": one year; "first-year students" and "the second week of March" are no time."""
    if _match_unit_of_time(lowered, end) is None:
        return False
    before = lowered[max(start - 24, 0) : start]
    if lowered.startswith("first", start) and _ends_with_in(before) is not None and _ends_clause(lowered, end):
        return True  # "lost in the first year." is by one year
    return _ends_with_when(before) is not None


_ends_clause = late(r"\s+(?:year|month|week|day)\s*(?:[.,;:)](?!\d)|$)").match
_ends_with_in = late(r"\b(?:in|over)\s+(?:the|their|its)\s+$").search
_match_unit_of_time = compiled(r"\s+(?:year|month|week|day)\b(?!\s+(?:of\b|students?|residents?))").match
_ends_with_when = late(
    r"(?:\bafter|\bby|\bat|\bon|\buntil|\bwithin|\bduring|\bend of)\s+(?:the\s+)?(?:end\s+of\s+(?:the\s+)?)?$"
).search


def _is_footnote(pieces: Pieces, word: str) -> bool:
    """ "n = 47b", "39b/47"."""
    return len(word) == 1 and len(pieces.spans) > 1 and pieces.meanings[-2][0] in (Kind.EQUALS, Kind.OF, Kind.SLASH)


def _add_joined_words(pieces: Pieces, word: str, start: int, end: int) -> None:
    head, _, tail = word.partition("-")
    unit = pieces.lexicon.word_meanings.get(tail, _A_WORD)
    if head in words.NUMBER_WORDS and unit[0] == Kind.UNIT:  # "two-year"
        middle = start + len(head)
        pieces.add_number((words.NUMBER_WORDS[head], 0), start, middle)
        pieces.add(unit, middle + 1, end)
    else:  # "full-thickness", "one-third"
        pieces.add((Kind.ADJECTIVE, ""), start, end)
