"""The forms in which clinical papers print numbers together: intervals, n of N, ranges, ratios, P values."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from functools import lru_cache

from .lexemes import Lexemes
from .lexicon import Lexicon
from .words import NOT, ROLES, TIMES, WHEN

# Over the letters of `lexemes.py`. Order matters: what holds more comes first. The letters a form may begin with are
# looked at once, before sixteen forms are tried.
FORMS = re.compile(
    r"""(?=[mcdpbn<(\[]|fd)(?:
    (?P<ratio>      m(?:\(m\))? (?P<stated>[(\[,]*(?:d%?-?)?c+[)\]]*)? (?P<between>[=:,ofrw]{0,4}) <?(?P<ratio_at>d)
                    (?!%?-?c) )
  | (?P<interval>   (?:(?P<level>d)%?-?)? c+ (?:\(c\))? (?:-?(?P<level_after>d)%?(?=[(\[:=,]*<?d%?u?[-t,;a]<?d))?
                    [)(\[:=,;of]* b? <?(?P<low>d)[%u]? [-t,;a]{1,2} <?(?P<high>d) )
  | (?P<level_only> (?P<alone>d)%?-?c )
  | (?P<square>     \[ <?(?P<square_low>d)%?u? [-t,;] <?(?P<square_high>d)%?u? \] )
  | (?P<round>      \( <?(?P<round_low>d)%? [,;] <?(?P<round_high>d)%? \) )
  | (?P<p_value>    p[fwr]{0,2}[=:o]?<?(?P<p_at>d) )
  | (?P<date>       d[-/]d[-/]d )
  | (?P<years>      (?P<years_at>d)u[a,]?(?P<months_at>d)u )
  | (?P<spread>     (?P<mean_at>d)[%u]?\+(?P<sd_at>d) )
  | (?P<of>         (?:n[=:])?(?P<events>d)[urfj]{0,3}(?:[(\[][^()\[\]]*[)\]])?o[fo]*(?P<total>d) )
  | (?P<share_of>   (?P<share_at>d)%[urfj]{0,3}o[fo]*(?P<whole_at>d) )
  | (?P<inside>     \((?:n[=:])?(?P<inside_events>d)\)o[fo]*(?P<inside_total>d) )
  | (?P<at_times>   f(?P<first_time>d)(?:,d)*,?a(?P<last_time>d)u )
  | (?P<slash>      (?:n[=:])?(?P<slash_events>d)/(?P<slash_total>d) )
  | (?P<range>      (?P<b>b)?<?(?P<range_low>d)(?:%|-?u)? (?:-(?=t))?(?P<by>[-ta])(?:(?<=t)-)? <?(?P<range_high>d) )
  | (?P<size>       n[=:]<?(?P<size_at>d) )
    )
    """,
    re.VERBOSE,
)


class Numeral:
    """One number while its form is being read; becomes a Token."""

    __slots__ = (
        "at", "comparator", "decimals", "end", "in_commas", "kind", "measure", "outer_end", "outer_start", "pair",
        "parent", "part", "roles", "share", "start", "unit", "value",
    )  # fmt: skip

    def __init__(self, at: int, start: int, end: int, value: Decimal, decimals: int) -> None:
        self.at = at
        self.start = self.outer_start = start
        self.end = self.outer_end = end
        self.value = value
        self.decimals = decimals
        self.unit = "none"
        self.kind = ""
        self.comparator = ""
        self.pair = -1
        self.part = ""
        self.parent = -1
        self.share = -1
        self.measure = ""
        self.roles: list[str] = []


_IN_MONTHS = {"month": 1, "year": 12}


@lru_cache(maxsize=4096)
def _forms_of(letters: str) -> tuple[re.Match[str], ...]:
    """Papers print the same few sentences: "39 of 47 healed (83%)" and "7 of 12 healed (58%)" are equal in letters."""
    return tuple(FORMS.finditer(letters))


def read_forms(
    lexemes: Lexemes, numerals: list[Numeral], order: dict[int, int], text: str, lexicon: Lexicon
) -> tuple[set[int], set[int]]:
    """Pair, name and carry units over within each form; gives commas that part no clause, and numerals to drop.

    order: place in `numerals` by place in the lexemes.
    """
    letters, payloads, starts, _, unreadable = lexemes
    commas: set[int] = set()
    dropped: set[int] = set()

    def couple(first: int, second: int, parts: tuple[str, str]) -> tuple[Numeral, Numeral]:
        one, other = order[first], order[second]
        low, high = numerals[one], numerals[other]
        low.pair, high.pair = other, one
        low.part, high.part = parts
        return low, high

    def interval(first: int, second: int, *, sure: bool) -> None:
        low, high = numerals[order[first]], numerals[order[second]]
        _carry(low, high)
        unreadable.difference_update(
            index for index in (first, second) if "." not in text[starts[index] : starts[index] + 1]
        )
        if low.value > high.value:
            if sure:  # a minus was lost, or the order: nobody knows which
                unreadable.update((first, second))
            return
        couple(first, second, ("low", "high"))
        if sure:
            low.kind = high.kind = "interval"
        commas.update(range(first, second))

    for match in _forms_of(letters):
        form = match.lastgroup
        at = match.start
        if form in _N_OF_N:
            first, second = (at(name) for name in _N_OF_N[form])
            events, total = numerals[order[first]], numerals[order[second]]
            counted = events.unit in lexicon.counts and total.unit in lexicon.counts
            if not counted or events.decimals or total.decimals:
                continue
            if events.value > total.value:
                if events.unit in ("none", total.unit):  # "71 of 37": a digit was lost
                    unreadable.update((first, second))
            else:
                couple(first, second, ("events", "total"))
                events.kind = total.kind = "count"
                if "label" in events.roles:  # "in the MTA group 2 of 41 failed"
                    events.roles.remove("label")
                if events.unit == "none":
                    events.unit = total.unit
                elif total.unit == "none":
                    total.unit = events.unit
        elif form == "interval":
            for name in ("level", "level_after"):
                if at(name) >= 0:
                    _confidence(numerals[order[at(name)]])
            interval(at("low"), at("high"), sure=True)
        elif form == "range":
            if (letters[at("by")] == "a") != (at("b") >= 0):
                continue
            low, high = numerals[order[at("range_low")]], numerals[order[at("range_high")]]
            if low.unit not in ("none", high.unit) and not (low.unit in _IN_MONTHS and high.unit in _IN_MONTHS):
                continue
            _carry(low, high)
            scale = {id(side): _IN_MONTHS.get(side.unit, 1) for side in (low, high)}
            if low.value * scale[id(low)] <= high.value * scale[id(high)]:
                couple(at("range_low"), at("range_high"), ("low", "high"))
            elif letters[at("by")] == "-" and low.unit != "none":
                unreadable.update((at("range_low"), at("range_high")))
            if low.value < 0 and payloads[at("by")] == "--" and high.value > 0:  # an en dash, or a hyphen and a minus
                unreadable.update((at("range_low"), at("range_high")))
        elif form == "ratio":
            ratio = numerals[order[at("ratio_at")]]
            after = match.end()
            is_low = bool(match["stated"]) and letters[after : after + 2] in _SEPARATED
            is_sure = "w" not in match["between"] or ratio.decimals
            if ratio.unit == "none" and is_sure and not is_low:
                ratio.kind = "ratio"
                ratio.measure = str(payloads[match.start()])
                named = text[starts[match.start()] : lexemes.ends[match.start()]].lower()
                if named in ("aor", "arr", "ahr"):
                    ratio.roles.append("adjusted")
            elif is_sure:
                ratio.measure = str(payloads[match.start()])
            stated = match["stated"] or ""
            if "d" in stated:
                _confidence(numerals[order[at("stated") + stated.index("d")]])
            if is_low:
                follower = letters.index("d", after)
                interval(at("ratio_at"), follower, sure=True)
        elif form == "p_value":
            p = numerals[order[at("p_at")]]
            if p.unit == "none" and p.value <= 1 and (p.decimals or p.value in (0, 1)):
                p.kind = "p"
        elif form == "square":
            interval(at("square_low"), at("square_high"), sure=True)
        elif form == "round":
            _round(numerals, order, letters, match.start(), at("round_low"), at("round_high"), interval)
        elif form == "years":
            years, months = numerals[order[at("years_at")]], numerals[order[at("months_at")]]
            if years.unit == "year" and months.unit == "month" and not years.decimals + months.decimals:
                years.value = years.value * 12 + months.value
                years.unit = "month"
                years.end = years.outer_end = lexemes.ends[at("months_at") + 1]
                dropped.add(order[at("months_at")])
        elif form == "spread":
            mean, deviation = numerals[order[at("mean_at")]], numerals[order[at("sd_at")]]
            _carry(mean, deviation)
            deviation.roles.append("sd")
        elif form == "share_of":
            numerals[order[at("whole_at")]].share = order[at("share_at")]
        elif form == "size":
            size = numerals[order[at("size_at")]]
            size.kind = "count" if size.unit in lexicon.counts else ""
            size.roles.append("n")
        elif form == "at_times":
            times = numerals[order[at("first_time")] : order[at("last_time")] + 1]
            unit = times[-1].unit
            if unit in _TIME_UNITS and text[starts[match.start()] : starts[match.start()] + 2].lower() == "at":
                for time in times:
                    if time.unit == "none":
                        time.unit = unit
        elif form == "level_only":
            _confidence(numerals[order[at("alone")]])
    calendar = [
        numeral
        for numeral in numerals
        if numeral.end - numeral.start == 4 and numeral.unit == "none" and 1900 <= numeral.value < 2100
        and numeral.kind in ("", "interval") and not numeral.decimals
    ]  # fmt: skip
    for each in calendar:
        _calendar(each, numerals, lexemes, text)
    return commas, dropped


def _calendar(numeral: Numeral, numerals: list[Numeral], lexemes: Lexemes, text: str) -> None:
    """ "in 2012", "1999 to 2009", "recruited 2012-2016": years of the calendar count nothing."""
    at = numeral.at
    before = text[lexemes.starts[at - 1] : lexemes.ends[at - 1]].lower() if at else ""
    mate = numerals[numeral.pair] if numeral.pair >= 0 and numeral.part in ("low", "high") else None
    is_span = mate is not None and mate.unit == "none" and 1900 <= mate.value < 2100 and mate.end - mate.start == 4
    if before in WHEN or is_span:
        numeral.kind = "calendar"


_TIME_UNITS = frozenset(TIMES.values())
_N_OF_N = {
    "of": ("events", "total"),
    "slash": ("slash_events", "slash_total"),
    "inside": ("inside_events", "inside_total"),
}
_SEPARATED = frozenset(f"{mark}d" for mark in "-t,;")


def _carry(low: Numeral, high: Numeral) -> None:
    """A unit printed once holds for both ends: "62 to 80%"."""
    if low.unit == "none" and high.unit != "none":
        low.unit = high.unit
    elif high.unit == "none" and low.unit == "%":
        high.unit = "%"


def _confidence(numeral: Numeral) -> None:
    numeral.kind = "confidence"
    numeral.unit = "%"


def _round(numerals, order, letters, bracket, low, high, interval) -> None:  # type: ignore[no-untyped-def]
    """ "2.9 (1.2, 7.1)" is an interval where the number before stands between the two."""
    before = bracket - 1 if letters[bracket - 1] != "%" else bracket - 2
    if before >= 0 and before in order:
        estimate = numerals[order[before]]
        if numerals[order[low]].value <= estimate.value <= numerals[order[high]].value and (
            estimate.kind == "ratio" or estimate.unit == "%"
        ):
            interval(low, high, sure=True)


def read_roles(
    lexemes: Lexemes, numerals: list[Numeral], order: dict[int, int], commas: set[int], lexicon: Lexicon
) -> None:
    """Give each number the role words of its clause, and numbers in brackets those of the number before."""
    letters, payloads = lexemes.letters, lexemes.payloads
    if "r" not in letters and "(" not in letters and "[" not in letters:
        return
    stands_for = lexicon.all_roles
    left: list[str] = []
    last: Numeral | None = None
    before = -1
    role_first = unit_seen = False
    heading: list[str] = []
    at_risk = False
    outside: list[tuple[list[str], Numeral | None, int, bool, bool]] = []
    for index, letter in enumerate(letters):
        if letter == "d":
            before = order[index]
            current = numerals[before]
            if current.kind == "calendar":  # "110 patients enrolled from 1999 to 2009"
                continue
            if left:
                if last is None:
                    role_first = True
                if current.unit in _TIME_UNITS and "at risk" in left:  # "number at risk at 36 months: 41 and 30"
                    left.remove("at risk")
                    at_risk = True
                current.roles += left
                left = []
            elif at_risk and current.unit in lexicon.counts and not current.decimals:
                current.roles.append("at risk")
            if outside:
                named, before_bracket, current.parent, _, _ = outside[-1]
                if before_bracket is None and named:  # "healed (n = 39)"
                    current.roles += named
                    named.clear()
                if heading and not current.roles:
                    current.roles += heading
            last = current
            unit_seen = False
        elif letter == "r":
            role = str(payloads[index])
            if (
                role in lexicon.participles
                and letters[index - 1 : index] == "d"
                and letters[index + 1 : index + 2] in ("u", "j")
            ):
                continue  # "60 extracted roots" are what was studied, not what was lost
            if role == "treated" and letters[index + 1 : index + 2] == "u" and letters[index - 1 : index] != "d":
                continue  # "8 extracted for the treated root"
            if "not" in payloads[max(index - 2, 0) : index]:
                role = _NOT.get(stands_for.get(role, ""), "")
                if not role:
                    continue
            if last is None or role_first or (stands_for.get(role) in _BEFORE and _leads_on(letters, index + 1)):
                left.append(role)
            else:
                _give(numerals, last, [role], unit_seen=unit_seen)
        elif letter == "u":
            unit_seen = True
        elif letter in ",;.:":
            # "healed: 39" is one clause; in "40 teeth: on both 28" the colon begins a new one.
            at_risk = at_risk and letter in ",:"
            if index not in commas and (letter != ":" or last is not None):
                if left and last is not None:
                    _give(numerals, last, left, unit_seen=unit_seen)
                kept = letter == "," and last is None  # "median, 31", "(range, 12-65 months)"
                left = [role for role in left if stands_for.get(role) in _KEPT] if kept else []
                last, role_first = None, False
        elif letter in "([":
            outside.append((left, last, before if last is not None else -1, role_first, unit_seen))
            left, last, role_first = [], None, False
        elif letter in ")]" and outside:
            if left and last is not None:
                _give(numerals, last, left, unit_seen=unit_seen)
            heading = left if last is None else []
            left, last, before, role_first, unit_seen = outside.pop()
    if left and last is not None:
        _give(numerals, last, left, unit_seen=unit_seen)


_NOT = {role: next(word for word, stands in ROLES.items() if word.startswith("not ") and stands == other)
        for role, other in NOT.items()}  # fmt: skip
_BEFORE = frozenset({"median", "mean", "sd", "range", "iqr", "minimum", "maximum"})
"""Roles that stand before their number wherever one follows: "56 teeth were reviewed at a mean of 26 months"."""
_leads_on = re.compile(r"[fowjt=]{0,5}d").match
_KEPT = frozenset({"median", "mean", "sd", "range", "iqr", "minimum", "maximum", "adjusted", "crude"})
"""Roles that a comma may part from their number."""


def _give(numerals: list[Numeral], last: Numeral, roles: list[str], *, unit_seen: bool) -> None:
    """Words behind "39 of 47" or "83% of 47" speak of the 39, those before what is counted of the 47 too."""
    share = last.pair if last.part == "total" else last.share
    if share >= 0:
        numerals[share].roles += roles
        if unit_seen:
            return
    last.roles += roles


def canonical(roles: list[str], stands_for: Mapping[str, str]) -> tuple[str, ...]:
    """What the words stand for, each once."""
    if len(roles) == 1:
        return (stands_for.get(roles[0], roles[0]),)
    return tuple(dict.fromkeys(stands_for.get(role, role) for role in roles))
