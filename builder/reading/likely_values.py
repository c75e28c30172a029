"""What was surely meant by a text that is no value of its field: asked for only when a message is made."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Iterable, Iterator

from ..numerals.spelt import spelt_number
from ..numerals.words import NUMBER_WORDS
from . import parsing
from .refusals import meant, missing_value_meant, no_break_space
from .values import Date, Ends as Interval, Length, Number, Percentage, PValue, Range

_NUMBER = r"[-−]?[0-9]*(?:[.,][0-9]+)?"
_SIGNS = {"<": "<", "≤": "<=", "<=": "<=", "⩽": "<=", ">": ">", "≥": ">=", ">=": ">=", "⩾": ">=", "=": "", "": ""}
_UNITS = {
    "month": "mo mos mth mths mon months month m",
    "year": "y yr yrs year years a",
    "week": "w wk wks week weeks",
    "day": "d day days",
    "hour": "h hr hrs hour hours",
}
_UNIT_OF = {word: unit for unit, words in _UNITS.items() for word in words.split()}
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_MONTH_NAMES = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)  # fmt: skip
_BOUNDS = {
    "over": "over", "more than": "over", "greater than": "over", ">": "over",
    "from": "from", "at least": "from", "≥": "from", ">=": "from",
    "under": "under", "less than": "under", "below": "under", "<": "under",
    "up to": "up to", "at most": "up to", "≤": "up to", "<=": "up to",
}  # fmt: skip


def value_meant(text: str, make: type, takes: Callable[[str], object], *, missing: bool) -> str:
    """What to type in place of a text that is no `make`: the value that was surely meant, or not reported.

    takes: None for what the field cannot hold. missing: the field may say that the paper gives none.
    """
    if unbroken := no_break_space(text):
        return unbroken
    plain = _in_quotes(text)
    own = "the quotes belong to no number: " if plain != text.strip() and make is not Date else ""
    if several := _of_several_fields(plain, make):
        return several
    likely = [each for each in dict.fromkeys(_likelyby(plain, make)) if takes(each.strip('"')) is not None]
    if likely:
        return f"{own}did you mean {', or '.join(likely)}?"
    if missing and (told := missing_value_meant(text)):
        return told
    if make is Date:
        return _day_meant(plain)
    return "where the paper gives none, type not reported" if missing else ""


def _in_quotes(text: str) -> str:
    """The text without the quotes of a word processor around it."""
    return text.strip().strip("“”„‟«»‘’‚'\"").strip()


def _of_several_fields(text: str, make: type) -> str:
    """Two numbers in one field: "112 of 140", "21.4 (9.8)", "12 to 60 months"."""
    if make is Number:
        found = re.fullmatch(r"([0-9][0-9,]*) ?(?:of|out of|from|/) ?([0-9][0-9,]*)(?: \w+)?", text)
        if found:
            return f"type each number in a field of its own: events: {found[1]}, total: {found[2]}"
        found = re.fullmatch(rf"({_NUMBER}) ?(?:\((?:SD ?)?|± ?|\+/- ?)({_NUMBER})\)?", text)
        if found and found[2]:
            return f"type each number in a field of its own: mean: {found[1]}, sd: {found[2]}"
    if make is Length:
        found = re.fullmatch(r"([0-9.]+) ?([a-z]*) ?(?:to|-|–) ?([0-9.]+) ?([a-z]+)", text)
        unit = _UNIT_OF.get(found[4]) if found else None
        if found and unit:
            first, second = (_length(number, unit) for number in (found[1], found[3]))
            return f"type each end in a field of its own: minimum: {first}, maximum: {second}"
    return ""


def _likelyby(text: str, make: type) -> Iterator[str]:
    if make is Number:
        yield from _numbers(text)
    elif make is Percentage:
        yield from _percentages(text)
    elif make is PValue:
        yield from _p_values(text)
    elif make is Length:
        yield from _lengths(text)
    elif make is Range:
        yield from _ranges(text)
    elif make is Date:
        yield from _dates(text)
    elif make is Interval:
        yield from _intervals(text)


def _numbers(text: str) -> Iterator[str]:
    text = re.sub(r"^[nN] ?= ?", "", text)
    if re.fullmatch(r"[0-9]{1,3}(?:[.'’ \u2009][0-9]{3})+", text):
        yield re.sub(r"[.'’ \u2009]", ",", text)
    elif parsing.number(text):
        yield text.removesuffix(".0")
    elif re.fullmatch(r"[-−]?[0-9]+,[0-9]+", text):
        yield text.replace(",", ".")
    elif re.fullmatch(r"[0-9OoIl,]*[0-9][0-9OoIl,]*", text):
        yield text.translate(str.maketrans("OoIl", "0011"))
    elif (found := re.fullmatch(r"([0-9][0-9,]*) ?[^\W\d][^\W\d ]*(?: [^\W\d ]+)?", text)) is not None:
        yield found[1]
    elif (worth := _in_words(text)) is not None:
        yield str(worth)


def _in_words(text: str) -> int | None:
    """ "twelve", "twenty-five", "one hundred and fifty-two"."""
    lowered = text.lower()
    spelt = spelt_number(lowered, 0)
    if spelt is not None:
        return int(spelt[0]) if spelt[1] == len(lowered) else None
    parts = lowered.replace("-", " ").split()
    values = [NUMBER_WORDS.get(part) for part in parts]
    if not parts or None in values or len(parts) > 2:
        return None
    return sum(int(value) for value in values if value is not None)


def _percentages(text: str) -> Iterator[str]:
    plain = re.sub(r" ?(?:per ?cent|pct\.?|%)$", "", text.lower())
    plain = re.sub(r"^([0-9]+),([0-9]+)$", r"\1.\2", plain)
    number = parsing.number(plain)
    if number is None:
        spelt = _in_words(plain)
        if spelt is not None and spelt <= 100:
            yield f"{spelt}%"
    elif plain == text and 0 < number[0] < 1:
        yield f"{(number[0] * 100).normalize():f}%"
        yield f"{plain}%"
    elif 0 <= number[0] <= 100:
        yield f"{plain}%"


def _p_values(text: str) -> Iterator[str]:
    found = re.fullmatch(r"(?:[pP](?:-?[ ]?[vV]alue)? ?)?(<=|>=|[<>≤≥⩽⩾=]?) ?([0-9]*[.,][0-9]+|[01])", text)
    if found:
        typed = _SIGNS[found[1]] + found[2].replace(",", ".")
        yield f'"{typed}"' if typed[0] in "<>" else typed


def _length(number: str, unit: str) -> str:
    return f"{number} {unit}" if number == "1" else f"{number} {unit}s"


def _lengths(text: str) -> Iterator[str]:
    lowered = text.lower().replace(",", ".")
    if parsing.number(lowered):
        yield f"{lowered} months"
        return
    if re.fullmatch(r"(?:a )?half (?:a )?year|half-year", lowered):
        yield "6 months"
        return
    found = re.fullmatch(r"([0-9.]+|[a-z-]+?)[ -]*([a-z]+)\.?", lowered)
    unit = _UNIT_OF.get(found[2]) if found else None
    if found is None or unit is None:
        return
    value = "1" if found[1] in ("a", "an") else found[1]
    if not parsing.number(value):
        spelt = _in_words(value)
        value = "" if spelt is None else str(spelt)
    if value and parsing.length(_length(value, unit)):
        yield _length(value, unit)


def _ranges(text: str) -> Iterator[str]:
    words = "|".join(sorted(map(re.escape, _BOUNDS), key=len, reverse=True))
    found = re.fullmatch(rf"({words}) ?({_NUMBER}) ?([a-z%]*)", text)
    if found and found[2]:
        yield f"{_BOUNDS[found[1]]} {found[2].replace(',', '.')} {found[3]}".strip()
        return
    found = re.fullmatch(rf"({_NUMBER}) ?[a-z%]* ?(?:to|-|–|—) ?({_NUMBER}) ?([a-z%]*)", text)
    if found and found[1] and found[2]:
        low, high = (end.replace(",", ".") for end in (found[1], found[2]))
        yield f"{low} {found[3]} to {high} {found[3]}".replace("  ", " ").strip()


def _intervals(text: str) -> Iterator[str]:
    plain = re.sub(r"^(?:[0-9]+ ?% ?)?(?:CI|confidence interval):? ?", "", text).strip("[]() ")
    found = re.fullmatch(rf"({_NUMBER}) ?(%?) ?(?:to|-|–|—|−|,|;|and) ?({_NUMBER}) ?(%?)", plain)
    if found and found[1] and found[3]:
        low, high = (re.sub(r"^([-−]?[0-9]*),", r"\1.", end) for end in (found[1], found[3]))
        sign = "%" if found[2] or found[4] else ""
        yield f"{low}{sign} to {high}{sign}"


def interval_meant(text: str, example: str, *, percent: bool) -> str:
    """What to type in place of a text that is no interval; percent: it is one of percentages."""
    if unbroken := no_break_space(text):
        return unbroken
    meant = list(_intervals(_in_quotes(text)))
    if meant:
        is_share = percent and "%" not in meant[0] and not re.search(r"(?:^|[^0-9])0?\.[0-9]", meant[0])
        return f"did you mean {meant[0].replace(' to ', '% to ') + '%' if is_share else meant[0]}?"
    return missing_value_meant(text) or f"type both ends like {example}, or not reported"


def _dates(text: str) -> Iterator[str]:
    parts = [part for part in re.split(r"[\s./,-]+", text.lower()) if part]
    if len(parts) != 3:
        return
    numbers = [_month(part) or (int(part) if part.isdecimal() and len(part) < 5 else 0) for part in parts]
    is_named = [not part[0].isdecimal() for part in parts]
    if len(parts[0]) == 4:
        orders: list[tuple[int, int, int]] = [(0, 1, 2)]
    elif len(parts[2]) != 4:
        return
    elif is_named[0]:
        orders = [(2, 0, 1)]
    else:
        # With strokes the month stands first in some countries, with points it never does.
        orders = [(2, 1, 0), (2, 0, 1)] if "/" in text else [(2, 1, 0)]
    for year, month, day in orders:
        try:
            yield datetime.date(numbers[year], numbers[month], numbers[day]).isoformat()
        except ValueError:
            continue


def _month(word: str) -> int:
    return _MONTHS.index(word[:3]) + 1 if word[:3] in _MONTHS and not word[0].isdecimal() else 0


def _day_meant(text: str) -> str:
    """For a day that its month does not have, how many it has."""
    found = re.fullmatch(r"([0-9]{4})-([0-9]{2})-([0-9]{2})", text)
    if found and 1 <= int(found[2]) <= 12 and int(found[1]):
        year, month = int(found[1]), int(found[2])
        following = datetime.date(year + month // 12, month % 12 + 1, 1) if year < 9999 else None
        if following is not None:
            days = (following - datetime.timedelta(days=1)).day
            return f"{_MONTH_NAMES[month - 1]} {year} has {days} days: look up the day"
    return "type the year, the month and the day: 2026-02-03"


def word_meant(text: str, choices: Iterable[str]) -> str:
    """What to type in place of a text that is no word of a closed list; "" where none is near."""
    choices = tuple(choices)
    whole = _ABBREVIATIONS.get(text.strip().lower().rstrip("."), "")
    if whole in choices:
        return f"did you mean {whole}?"
    return meant(text, choices)


_ABBREVIATIONS = {
    "or": "odds ratio", "rr": "risk ratio", "relative risk": "risk ratio", "hr": "hazard ratio",
    "rd": "risk difference", "md": "mean difference", "pf": "prevented fraction",
    "preoperative": "before", "pre-operative": "before", "intraoperative": "during", "intra-operative": "during",
    "postoperative": "after", "post-operative": "after",
}  # fmt: skip
