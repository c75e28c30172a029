"""Text as typed to the numbers printed in it."""

from __future__ import annotations

from .at_risk import AT_RISK, give_to_those_alike
from .beside import read_beside
from .format_units import FORMAT_1
from .forms import read_forms
from .forms.times import read_hours, read_months
from .forms.wholes import with_wholes
from .levels import read_levels
from .lexicon import Lexicon
from .months import MONTHS_IN
from .printed import Numeral, Printed
from .roles import read_roles
from .shown import has_tex, shown
from .token import Token
from .zeros import read_zeros


def read_numerals(text: str, lexicon: Lexicon = FORMAT_1) -> tuple[Token, ...]:
    """Every number printed in a text, TeX forms included, in order of place. lexicon: the words of the trade.

    A unit holds for both ends of a range; what the text does not show stays "none". A number that copying destroyed
    ("88.4992.34", reversed limits of an interval, a comma that may part two numbers) is of kind "unreadable". Any text
    is taken.

    Forms: ISO 80000-1:2009 section 7.3 (thin space between thousands, decimal sign) and AMA Manual of Style, chapters
    17 and 18 ("95% CI, 1.2-7.1"; "P = .02" without a leading zero), both from memory; the raised decimal point is the
    house style of some British journals, from memory; number words, "n/N" and "mean (SD) 31 (12)" are common practice,
    no source.
    """
    printed = Printed(text, lexicon)
    if not printed.numerals:
        return ()
    read_beside(printed)
    read_forms(printed)
    read_months(printed)
    read_hours(printed)
    read_levels(printed)
    read_roles(printed)
    if AT_RISK in printed.said:
        give_to_those_alike(printed)
    read_zeros(printed)
    kept = _without_parts_of_others(with_wholes(printed))
    is_plain = not has_tex(text)
    kinds = lexicon.kinds
    for numeral in kept:
        form, words, mate = numeral.form, numeral.words, numeral.mate
        if numeral.parent is not None:
            form, words = _told_by_parent(numeral, printed)
        if mate is not None:
            if not words and numeral.part == "high":
                words = mate.words
            if numeral.is_destroyed or mate.is_destroyed:
                numeral.part = ""
            else:
                numeral.pair = mate.index
            numeral.mate = None  # two that hold each other would stay in memory for good
        if words:
            numeral.role = " ".join(words)
            numeral.roles = lexicon.roles_of(words)
        numeral.kind = "unreadable" if numeral.is_destroyed else form or kinds[numeral.unit]
        numeral.text = text[numeral.start : numeral.end]
        whole = text[numeral.outer_start : numeral.outer_end]
        numeral.shown = whole if is_plain else shown(whole)
    return tuple(kept)


def _without_parts_of_others(numerals: list[Numeral]) -> list[Numeral]:
    """The numbers that stand for themselves, counted anew."""
    kept = [numeral for numeral in numerals if not numeral.is_dropped]
    if len(kept) == len(numerals):
        return kept
    for index, numeral in enumerate(kept):
        numeral.index = index
    return kept


_INHERITED = frozenset({
    "eligible", "treated", "due", "examined", "lost", "discontinued", "died", "extracted", "good", "bad", "who", "both",
    "neither", "only",
})  # fmt: skip
"""Roles that a number in brackets has from the number before: "39 healed (83%)"."""


def _told_by_parent(numeral: Numeral, printed: Printed) -> tuple[str, list[str]]:
    """Form and role words of a number in brackets, with what it has from the number before them."""
    form, words, parent = numeral.form, numeral.words, numeral.parent
    assert parent is not None
    if parent.is_dropped:  # "2 years and 3 months (27.4 months)": the months were read with their years
        parent = printed.numerals[parent.index - 1]
    if not words and parent.words:
        stands_for = printed.lexicon.all_roles
        if not form:
            words = [word for word in parent.words if stands_for.get(word) in _INHERITED]
        if numeral.unit in printed.lexicon.units:  # "37 women and 41 men (78 patients)"
            words = [word for word in words if stands_for.get(word) != "who"]
        if not words and _is_same_time(numeral, parent):
            words = parent.words
    if parent.form == "ratio" and numeral.part in ("low", "high"):
        form = "interval"
    if form == "interval" and not numeral.measure:
        numeral.measure = parent.measure
    return form, words


def _is_same_time(numeral: Numeral, parent: Numeral) -> bool:
    """ "mean 2 years and 3 months (27.4 months)": the number in brackets is the one before it, said again."""
    if numeral.part or numeral.unit not in MONTHS_IN or parent.unit not in MONTHS_IN:
        return False
    inner, outer = numeral.value * MONTHS_IN[numeral.unit], parent.value * MONTHS_IN[parent.unit]
    return 20 * abs(inner - outer) < outer
