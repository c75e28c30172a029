"""Text as typed to the numbers printed in it."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import cast

from .format_units import FORMAT_1
from .forms import Numeral, canonical, read_forms, read_roles
from .lexemes import Lexemes, read_lexemes
from .lexicon import Lexicon
from .token import Token
from .words import LEADING_TIMES


def read_numerals(text: str, lexicon: Lexicon = FORMAT_1) -> tuple[Token, ...]:
    """Every number printed in a text, TeX forms included, in order of place. lexicon: the words of the trade.

    A unit holds for both ends of a range; what the text does not show stays "none". A number that extraction destroyed
    ("88.4992.34", reversed limits of an interval, a decimal comma) is of kind "unreadable". Any text is taken.

    Forms: ISO 80000-1:2009 section 7.3 (thin space between thousands, decimal sign) and AMA Manual of Style, chapters
    17
    and 18 ("95% CI, 1.2-7.1"; "P = .02" without a leading zero), both from memory; the raised decimal point is the
    house
    style of some British journals, from memory; number words, "n/N" and "mean (SD) 31 (12)" are common practice, no
    source.
    """
    lexemes = read_lexemes(text, lexicon)
    if "d" not in lexemes.letters:
        return ()
    numerals, order = _numerals(lexemes, text, lexicon)
    commas, dropped = read_forms(lexemes, numerals, order, text, lexicon)
    read_roles(lexemes, numerals, order, commas, lexicon)
    unreadable = lexemes.unreadable
    kinds, stands_for = lexicon.kinds, lexicon.all_roles
    is_plain = not _find_tex(text)

    tokens: list[Token] = []
    new_token = tuple.__new__  # the NamedTuple's own constructor costs as much again as all the rest of this loop
    nothing: tuple[str, ...] = ()
    for index, numeral in enumerate(numerals):
        if dropped and index in dropped:
            continue
        roles = numeral.roles
        kind = numeral.kind
        if numeral.parent >= 0:  # "2 years and 3 months (27.4 months)": the months were read with their years
            parent = numerals[numeral.parent - (numeral.parent in dropped)]
            if not roles and parent.roles:
                if not kind:
                    roles = [role for role in parent.roles if stands_for.get(role) in _INHERITED]
                if not roles and _is_same_time(numeral, parent):
                    roles = parent.roles
            if parent.kind == "ratio" and numeral.part in ("low", "high"):
                kind = "interval"
            if kind == "interval" and not numeral.measure:
                numeral.measure = parent.measure
        pair, part = numeral.pair, numeral.part
        if pair >= 0:
            if part == "high" and not roles:
                roles = numerals[pair].roles
            if unreadable and (numeral.at in unreadable or numerals[pair].at in unreadable):
                pair, part = -1, ""
            elif dropped:
                pair -= sum(gone < pair for gone in dropped)
        if unreadable and numeral.at in unreadable:
            kind = "unreadable"
        start, end = numeral.start, numeral.end
        outer_start, outer_end = numeral.outer_start, numeral.outer_end
        printed = text[start:end]
        whole = printed if outer_start == start and outer_end == end else text[outer_start:outer_end]
        if roles:
            role, named = (roles[0] if len(roles) == 1 else " ".join(roles)), canonical(roles, stands_for)
        else:
            role, named = "", nothing
        tokens.append(
            new_token(
                Token,
                (
                    start, end, printed, numeral.value, numeral.decimals, numeral.unit, kind or kinds[numeral.unit],
                    role, numeral.comparator, pair, outer_start, outer_end, whole if is_plain else shown(whole), part,
                    named, numeral.measure,
                ),
            )
        )  # fmt: skip
    return tuple(tokens)


_INHERITED = frozenset({
    "eligible", "treated", "due", "examined", "lost", "discontinued", "died", "extracted", "good", "bad", "who", "both",
    "neither", "only",
})  # fmt: skip
"""Roles that a number in brackets has from the number before: "39 healed (83%)"."""


_IN_MONTHS = {"month": 1, "year": 12}


def _is_same_time(numeral: Numeral, parent: Numeral) -> bool:
    """ "mean 2 years and 3 months (27.4 months)": the number in brackets is the one before it, said again."""
    if numeral.part or numeral.unit not in _IN_MONTHS or parent.unit not in _IN_MONTHS:
        return False
    inner, outer = numeral.value * _IN_MONTHS[numeral.unit], parent.value * _IN_MONTHS[parent.unit]
    return 20 * abs(inner - outer) < outer


def _numerals(lexemes: Lexemes, text: str, lexicon: Lexicon) -> tuple[list[Numeral], dict[int, int]]:
    """Each number with the unit and comparator that stand beside it."""
    letters, payloads, starts, ends, _ = lexemes
    padded = letters + "    "
    numerals: list[Numeral] = []
    order: dict[int, int] = {}
    at = letters.find("d")
    while at >= 0:
        value, decimals = cast(tuple[Decimal, int], payloads[at])
        numeral = Numeral(at, starts[at], ends[at], value, decimals)
        after = padded[at + 1]
        behind = at + 1
        if after == "%":
            numeral.unit = "%"
            numeral.outer_end = ends[at + 1]
            behind = at + 2
        elif after == "u":
            numeral.unit = str(payloads[at + 1])
            behind = at + 2
        elif after == "-" and padded[at + 2] == "u":
            numeral.unit = str(payloads[at + 2])
        elif after in "rj":
            noun = at + 2
            while padded[noun] in "rj-" and noun < at + 5:
                noun += 1
            if padded[noun] == "u" and payloads[noun] in lexicon.units:
                numeral.unit = str(payloads[noun])
        elif after == "(":  # "31 (12) months"
            close = letters.find(")", at)
            if close > 0 and padded[close + 1] == "u":
                numeral.unit = str(payloads[close + 1])
        elif after == ")" and padded[at + 2] == "u":
            numeral.unit = str(payloads[at + 2])
        if decimals and after == "u" and numeral.unit in lexicon.units and "\n" in text[ends[at] : starts[at + 1]]:
            numeral.unit = "none"  # "P 0.001", and the next row of the table begins "Lesion"
        if at:
            previous = letters[at - 1]
            if previous == "<":
                numeral.comparator = str(payloads[at - 1])
                numeral.outer_start = starts[at - 1]
            elif numeral.unit == "none":
                word = text[starts[at - 1] : ends[at - 1]].lower()
                if previous == "u" and (at < 2 or letters[at - 2] not in "d-"):
                    if word in LEADING_TIMES:
                        numeral.unit = str(payloads[at - 1])
                    elif word in lexicon.numbered:
                        numeral.roles.append("label")
                elif previous == "l":
                    numeral.roles.append(str(payloads[at - 1]))
        if padded[behind] == ">":
            numeral.comparator = str(payloads[behind])
        order[at] = len(numerals)
        numerals.append(numeral)
        at = letters.find("d", at + 1)
    return numerals, order


_TEX = re.compile(
    r"\\textperiodcentered(?:\{\})?|\\cdot\b|\\text(?:less|greater|endash|minus)(?:\{\})?|\\(?:leq?|geq?|lt|gt)(?:slant)?(?![a-z])"
    r"|\\[, ]|\\thinspace\s?|\\(.)|--+|[~{}$]|\s+"
)
_SIGNS = {
    r"\textperiodcentered": "·", r"\cdot": "·", r"\textless": "<", r"\textgreater": ">", r"\textendash": "–",
    r"\textminus": "−", r"\le": "≤", r"\leq": "≤", r"\leqslant": "≤", r"\ge": "≥", r"\geq": "≥", r"\geqslant": "≥",
    r"\lt": "<", r"\gt": ">", r"\,": "\u2009", r"\ ": " ", r"\thinspace": "\u2009", "~": "\u00a0", "--": "–",
    "{": "", "}": "", "$": "",
}  # fmt: skip


_find_tex = re.compile(r"[\\~{}$\n\t]|--").search


def shown(printed: str) -> str:
    """A printed number as a page shows it: TeX resolved, everything else as printed."""
    if not _find_tex(printed):
        return printed
    return _TEX.sub(
        lambda found: _SIGNS.get(found[0].strip().rstrip("{}") or found[0], found[1] or " "), printed
    ).strip()
