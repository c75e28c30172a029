"""The smallest pieces of a passage: numbers, the words and signs beside them, each as one letter of a short
alphabet."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import NamedTuple

from . import words
from .lexicon import Lexicon
from .meanings import COMMANDS, DESCRIBES, LETTER, MARKS, Meaning

# One letter a piece, so that the forms of print in `forms.py` are regular expressions over a short string:
#   d number   % percent   u unit   o of   / slash   t to   - dash   < comparator before   > comparator after
#   c CI   m name of a ratio or difference   p P   n "n" or "N"   r role   l label   j adjective   f filler
#   a and   b between   + plus-minus   = equals   w any other word   ( [ ) ] , ; : . as they are

_POINT = r"(?:\.|·|∙|\{?\\cdot\}?|\$\\cdot\$|\\textperiodcentered(?:\{\})?)"
_THOUSANDS = r"(?:,|\{,\}|\\,|\\thinspace\s?|[\u2009\u202f\u00a0\u2008'’])"

LEXEME = re.compile(
    rf"""[\s~${{}}]*+
    (?:
    ( c\.i\. | ci(?=9[05]\b) | i\^\{{?2\}}? | {LETTER}+(?:-{LETTER}+)*(?:[\d²][\d.·]*)? )
  | (
        # A sign belongs to the number only where nothing but an opening or a dash stands before it: "12-65" is a range.
        (?: (?<![\w%)\]}}.\-−]) [-−] | (?<=[-–—])− | (?<=–)- )?
        (?: (?:[1-9]\d{{0,2}}(?:{_THOUSANDS}\d{{3}})+(?!\d) | \d+) (?:{_POINT}\d+)* | (?<![\d.·])[.·]\d+ )
    )
  | ( [%(),;:=<>≤≥⩽⩾±/\[\]+％] | \.(?=\s|$) )
  | ( --+ | [-–—−‐‑] )
  | ( \\(?:[a-z]+|[^a-z\s]) )
    )
    """,
    re.VERBOSE,
)
"""Over lower-cased text, in the order of `_WORD` to `_COMMAND`; what it does not match parts nothing."""

_WORD, _NUMBER, _MARK, _DASH, _COMMAND = range(1, 6)

_ORDINAL = frozenset({"st", "nd", "rd", "th"})
_GAPS = re.compile(r"(?:[\s~-]|\\[ ,;])+")
_ODD = re.compile(_POINT)
_SEPARATOR = re.compile(_THOUSANDS)


class Lexemes(NamedTuple):
    """A text in pieces: four columns of equal length."""

    letters: str
    payloads: list[object]
    starts: list[int]
    ends: list[int]
    unreadable: set[int]
    """Pieces of letter d that extraction destroyed."""


_GLUED = (Decimal(0), 0)
"""In place of a number with two decimal signs: "88.4992.34" was two numbers once."""


def _lowered(text: str) -> str:
    lowered = text.lower()
    if len(lowered) != len(text):  # "İ" becomes two characters, and every offset behind it would be wrong
        lowered = "".join(low if len(low := character.lower()) == 1 else character for character in text)
    return lowered


_known: dict[str, tuple[Decimal, int]] = {}
"""Whole numbers met so far: the same few hundred stand in every passage."""


def _number(printed: str) -> tuple[Decimal, int]:
    """Value and decimals of digits as printed."""
    known = _known.get(printed)
    if known is not None:
        return known
    if printed.isascii() and printed.isdigit():
        if len(_known) > 20_000:
            _known.clear()
        known = _known[printed] = (Decimal(printed), 0)
        return known
    plain = _SEPARATOR.sub("", _ODD.sub(".", printed)).replace("−", "-").replace("–", "-")
    point = plain.find(".")
    if point >= 0 and "." in plain[point + 1 :]:
        return _GLUED
    return Decimal(plain), 0 if point < 0 else len(plain) - point - 1


def read_lexemes(text: str, lexicon: Lexicon) -> Lexemes:
    """The pieces of a text, in order."""
    lowered = _lowered(text)
    letters: list[str] = []
    payloads: list[object] = []
    starts: list[int] = []
    ends: list[int] = []
    unreadable: set[int] = set()
    skip = 0
    add_letter, add_payload, add_start, add_end = letters.append, payloads.append, starts.append, ends.append
    meaning, phrase_starts, match_phrase = lexicon.words.get, lexicon.phrase_starts, lexicon.phrase.match
    for match in LEXEME.finditer(lowered):
        group = match.lastindex
        start, end = match.span(group)  # type: ignore[arg-type]
        if start < skip:
            continue
        piece = lowered[start:end]
        payload: object
        if group == _WORD:
            if piece in phrase_starts and (phrase := match_phrase(lowered, start)):
                end = skip = phrase.end()
                letter, payload = lexicon.phrase_meanings.get(_GAPS.sub(" ", phrase.group()), DESCRIBES)
            else:
                found = meaning(piece)
                if found is None:
                    found = _unknown(piece, start, end, letters, payloads, starts, ends, unreadable, lexicon)
                    if found is None:
                        continue
                    start = start if found[0] != "u" else ends[-1] + 1
                letter, payload = found
            if letter == "d":
                payload = (payload, 0)
            elif payload == "or" and text[start:end] == "OR":
                letter, payload = "m", "odds ratio"
        elif group == _NUMBER:
            letter = "d"
            payload = _number(piece)
            if payload is _GLUED or (ends and ends[-1] == start and letters[-1] == "d"):
                unreadable.add(len(letters))
            elif (
                letters[-2:] == ["d", ","] and ends[-1] == start and ends[-2] == starts[-1]
            ):  # "12,5": a decimal comma or a list without blanks, nobody knows
                unreadable.update((len(letters) - 2, len(letters)))
            elif piece[0] in "-−" and letters and letters[-1] in "d%u":
                if text[ends[-1] : start].strip("$}{"):  # "12 -65": a range or a minus, nobody knows
                    unreadable.add(len(letters))
                else:  # "$12$-65"
                    letters.append("-")
                    payloads.append("-")
                    starts.append(start)
                    ends.append(start + 1)
                    start += 1
                    payload = _number(piece[1:])
        elif group == _MARK:
            letter, payload = MARKS[piece]
            if letter == "=" and letters and letters[-1] == "<" and ends[-1] == start and payloads[-1] in ("<", ">"):
                payloads[-1] = f"{payloads[-1]}="
                ends[-1] = end
                continue
        elif group == _DASH:
            letter, payload = "-", piece
        else:
            known = COMMANDS.get(piece)
            if known is None:
                continue
            letter, payload = known
        add_letter(letter)
        add_payload(payload)
        add_start(start)
        add_end(end)
    return Lexemes("".join(letters), payloads, starts, ends, unreadable)


def _unknown(
    piece: str, start: int, end: int, letters: list[str], payloads: list[object], starts: list[int], ends: list[int],
    unreadable: set[int], lexicon: Lexicon,
) -> Meaning | None:  # fmt: skip
    """A word of no meaning here, which may still have destroyed, or be part of, the number beside it."""
    after_number = bool(letters) and letters[-1] == "d"
    adjacent = after_number and ends[-1] == start
    if piece[-1].isdigit():
        if adjacent:  # "0.42e21.72": one piece, and no number
            ends[-1] = end
            unreadable.add(len(letters) - 1)
            return None
        if "." in piece or "·" in piece:  # "OR2.15"
            unreadable.add(len(letters))
            return "d", Decimal(0)
    elif adjacent:
        if piece in _ORDINAL or piece in words.PARTS:
            letters[-1] = "w"
        else:  # "3D"
            unreadable.add(len(letters) - 1)
    elif "-" in piece:
        head, _, tail = piece.partition("-")
        unit = lexicon.words.get(tail, ("w", ""))
        if head in words.NUMBER_WORDS and unit[0] == "u":  # "two-year"
            letters.append("d")
            payloads.append((words.NUMBER_WORDS[head], 0))
            starts.append(start)
            ends.append(start + len(head))
            return unit
        return "j", ""  # "root-filled", "one-third"
    elif after_number and piece in words.PARTS:  # "two thirds"
        letters[-1] = "w"
    return "w", ""
