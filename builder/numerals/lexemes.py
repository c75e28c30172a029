"""The smallest pieces of a passage: numbers, the words and signs beside them, each as one letter of a short
alphabet."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import NamedTuple

from . import words

# One letter a piece, so that the forms of print in `forms.py` are regular expressions over a short string:
#   d number   % percent   u unit   o of   / slash   t to   - dash   < comparator before   > comparator after
#   c CI   m name of a ratio or difference   p P   n "n" or "N"   r role   l label   j adjective   f filler
#   a and   b between   + plus-minus   = equals   w any other word   ( [ ) ] , ; : . as they are

_LETTER = "[a-zµß-ɏα-ω]"
_GAP = r"(?:[\s~]|\\[ ,;])+"
_POINT = r"(?:\.|·|∙|\{?\\cdot\}?|\$\\cdot\$|\\textperiodcentered(?:\{\})?)"
_THOUSANDS = r"(?:,|\{,\}|\\,|\\thinspace\s?|[\u2009\u202f\u00a0\u2008'’])"

LEXEME = re.compile(
    rf"""[\s~${{}}]*+
    (?:
    ( c\.i\. | ci(?=9[05]\b) | i\^\{{?2\}}? | {_LETTER}+(?:-{_LETTER}+)*(?:[\d²][\d.·]*)? )
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

_PHRASE = re.compile(
    rf"""(?:
        up{_GAP}to | at{_GAP}(?:least|most) | at{_GAP}risk
      | (?:no|not){_GAP}(?:more|less|fewer|longer|later){_GAP}than
      | (?:more|greater|larger|longer|wider|older|less|fewer|smaller|shorter|lower|higher|younger){_GAP}than
      | (?:or|and){_GAP}(?:less|more|fewer|larger|greater|smaller|longer|shorter|above|below|over|under|older|younger
        |wider)
        (?!{_GAP}(?:than|[\d.]))
      | equal{_GAP}to | out{_GAP}of | per{_GAP}cent(?:age)? | percentage{_GAP}points?
      | (?:assessed|screened){_GAP}for{_GAP}eligibility
      | root{_GAP}(?:canals?{_GAP}(?:treat(?:ed|ments?)|fill(?:ed|ings?)|therapy|surgery)|end|filled|treated|resected)
      | confidence{_GAP}(?:intervals?|limits?) | standard{_GAP}deviation | due{_GAP}to | lost{_GAP}to
      | (?:odds|risk|hazards?|rate){_GAP}ratios? | relative{_GAP}risks? | (?:risk|mean){_GAP}difference
      | difference{_GAP}in{_GAP}means | prevented{_GAP}fraction
      | (?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety){_GAP}(?:one|two|three|four|five|six|seven|eight|nine)
      | (?:every|each|no|any|this|that|which){_GAP}one | one{_GAP}hundred
      | none(?={_GAP}(?:of|was|were|had|lost|died|failed|healed|extracted|discontinued)\b)
    )(?!{_LETTER})""",
    re.VERBOSE,
)
"""Words that say one thing together."""

_PHRASES: dict[str, tuple[str, object]] = {
    "up to": ("<", "<="), "at least": ("<", ">="), "at most": ("<", "<="), "at risk": ("r", "at risk"),
    "equal to": ("=", ""), "out of": ("o", ""), "per cent": ("%", ""), "percent": ("%", ""), "percentage": ("%", ""),
    "per centage": ("%", ""), "ci": ("c", ""), "c.i.": ("c", ""), "confidence interval": ("c", ""),
    "confidence intervals": ("c", ""), "confidence limit": ("c", ""), "confidence limits": ("c", ""),
    "standard deviation": ("r", "sd"), "due to": ("w", ""), "assessed for eligibility": ("r", "eligible"),
    "screened for eligibility": ("r", "eligible"), "lost to": ("r", "lost"),
    "one hundred": ("d", Decimal(100)), "none": ("d", Decimal(0)),
    **{f"percentage {points}": ("w", "") for points in ("point", "points")},
    **{f"{which} one": ("w", "") for which in ("every", "each", "no", "any", "this", "that", "which")},
    "i2": ("r", "i2"), "i^2": ("r", "i2"), "i^{2}": ("r", "i2"),
    **{phrase: ("m", measure) for phrase, measure in words.MEASURE_PHRASES.items()},
    **{f"{no} {less} than": ("<", "<=") for no in ("no", "not") for less in ("more", "longer", "later")},
    **{f"{no} {less} than": ("<", ">=") for no in ("no", "not") for less in ("less", "fewer")},
    **{f"{more} than": ("<", ">") for more in ("more", "greater", "larger", "longer", "wider", "older", "higher")},
    **{f"{less} than": ("<", "<") for less in ("less", "fewer", "smaller", "shorter", "lower", "younger")},
    **{f"{either} {more}": (">", ">=") for either in ("or", "and")
       for more in ("more", "larger", "greater", "longer", "above", "over", "older", "wider")},
    **{f"{either} {less}": (">", "<=") for either in ("or", "and")
       for less in ("less", "fewer", "smaller", "shorter", "below", "under", "younger")},
    **{f"{tens} {small}": ("d", words.NUMBER_WORDS[tens] + words.NUMBER_WORDS[small])
       for tens in words.TENS for small in words.SMALL[1:10]},
}  # fmt: skip

_WORDS: dict[str, tuple[str, object]] = {
    **dict.fromkeys(words.FILLERS, ("f", "")),
    **dict.fromkeys(words.ADJECTIVES, ("j", "")),
    **{word: ("r", word) for word in words.ROLES},
    **dict.fromkeys(words.LABELS, ("l", "label")),
    **{word: ("u", unit) for table in (words.COUNTED, words.TIMES, words.SIZES) for word, unit in table.items()},
    **dict.fromkeys(words.OTHER_UNITS, ("u", "other")),
    **{word: ("d", value) for word, value in words.NUMBER_WORDS.items()},
    **{word: ("m", measure) for word, measure in words.MEASURES.items()},
    **{word: ("<", sign) for word, sign in words.BEFORE.items()},
    **{f"{tens}-{small}": ("d", words.NUMBER_WORDS[tens] + words.NUMBER_WORDS[small])
       for tens in words.TENS for small in words.SMALL[1:10]},
    "percent": ("%", ""), "percentage": ("%", ""), "c.i.": ("c", ""), "i2": ("r", "i2"), "i²": ("r", "i2"),
    "i^2": ("r", "i2"), "i^{2}": ("r", "i2"),
    "of": ("o", ""), "to": ("t", ""), "through": ("t", ""), "and": ("a", ""), "between": ("b", ""), "ci": ("c", ""),
    "cis": ("c", ""), "p": ("p", ""), "p-value": ("p", ""), "p-values": ("p", ""), "per": ("l", "per"), "n": ("n",
    ""), "pct": ("%", ""), "or": ("w", "or"),
    "not": ("w", "not"), "nor": ("w", "not"), "never": ("w", "not"),
}  # fmt: skip

_MARKS: dict[str, tuple[str, object]] = {
    **{mark: (mark, "") for mark in "%()[],;:=./"},
    "％": ("%", ""), "±": ("+", ""), "+": ("w", ""), "<": ("<", "<"), ">": ("<", ">"), "≤": ("<", "<="),
    "≥": ("<", ">="), "⩽": ("<", "<="), "⩾": ("<", ">="),
}  # fmt: skip

_COMMANDS: dict[str, tuple[str, object]] = {
    r"\%": ("%", ""), r"\pm": ("+", ""), r"\textpm": ("+", ""), r"\lt": ("<", "<"), r"\textless": ("<", "<"),
    r"\gt": ("<", ">"), r"\textgreater": ("<", ">"), r"\le": ("<", "<="), r"\leq": ("<", "<="),
    r"\leqslant": ("<", "<="), r"\ge": ("<", ">="), r"\geq": ("<", ">="), r"\geqslant": ("<", ">="),
    r"\textendash": ("-", "–"), r"\textemdash": ("-", "—"), r"\textminus": ("-", "−"), r"\[": ("[", ""),
    r"\]": ("]", ""), r"\percent": ("%", ""), r"\textpercent": ("%", ""),
}  # fmt: skip

_PHRASE_STARTS = frozenset({"root", *(phrase.partition(" ")[0] for phrase in _PHRASES)})
_DESCRIBES: tuple[str, object] = ("j", "")
"""Of "root canal treated", "root end": no root is counted there."""
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


def read_lexemes(text: str) -> Lexemes:
    """The pieces of a text, in order."""
    lowered = _lowered(text)
    letters: list[str] = []
    payloads: list[object] = []
    starts: list[int] = []
    ends: list[int] = []
    unreadable: set[int] = set()
    skip = 0
    add_letter, add_payload, add_start, add_end = letters.append, payloads.append, starts.append, ends.append
    meaning = _WORDS.get
    for match in LEXEME.finditer(lowered):
        group = match.lastindex
        start, end = match.span(group)  # type: ignore[arg-type]
        if start < skip:
            continue
        piece = lowered[start:end]
        payload: object
        if group == _WORD:
            if piece in _PHRASE_STARTS and (phrase := _PHRASE.match(lowered, start)):
                end = skip = phrase.end()
                letter, payload = _PHRASES.get(_GAPS.sub(" ", phrase.group()), _DESCRIBES)
            else:
                found = meaning(piece)
                if found is None:
                    found = _unknown(piece, start, end, letters, payloads, starts, ends, unreadable)
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
            letter, payload = _MARKS[piece]
            if letter == "=" and letters and letters[-1] == "<" and ends[-1] == start and payloads[-1] in ("<", ">"):
                payloads[-1] = f"{payloads[-1]}="
                ends[-1] = end
                continue
        elif group == _DASH:
            letter, payload = "-", piece
        else:
            known = _COMMANDS.get(piece)
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
    unreadable: set[int],
) -> tuple[str, object] | None:  # fmt: skip
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
        unit = _WORDS.get(tail, ("w", ""))
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
