"""At which time each figure of a passage was taken: by its clause, its place in a list, its row, column or heading."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from decimal import Decimal
from functools import cached_property, partial
from itertools import pairwise

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import holds_any, late
from ..numerals.months import MEAN_MONTHS_IN
from ..records import NamedTuple
from .belonging import owners_among
from .clauses import Span, parts_between_semicolons, sentences
from .lengths import what_else
from .lists import STRUCTURAL, Item, brackets_in, items_of, runs_of
from .owner import Owner, Owners, is_inside
from .tables import Line, Table, unit_of_times
from .wordings import Mention

MONTHS_IN = {**MEAN_MONTHS_IN, "minute": MEAN_MONTHS_IN["day"] / 1440}
"""Months of a twelfth of a year in each unit of time."""


class Time(NamedTuple):
    """A time as a passage prints it."""

    months: Decimal
    unit: str
    shown: str
    """ "12 months", also where the unit stands behind the last of several times."""


class Times:
    """The times of a passage."""

    def __init__(
        self, by_key: Mapping[str, Time], mentions: tuple[Mention, ...], find_owners: Callable[[], Owners]
    ) -> None:
        self.by_key = by_key
        """By the key of an owner."""
        self.mentions = mentions
        """Where the times stand."""
        self._find_owners = find_owners

    @cached_property
    def owners(self) -> Owners:
        """For each number the time it belongs to; None where its clause, row, column and heading say none."""
        return self._find_owners()

    def of(self, index: int) -> tuple[Time, Owner] | None:
        """The time of a number, where it is beyond doubt."""
        owner = self.owners[index]
        return (self.by_key[owner.key], owner) if owner is not None and owner.key and owner.is_sure else None

    def leading(self, text: str, start: int) -> list[Mention]:
        """Times before this place, in its sentence, that no figure has: "At 5 years, 41 of the 47 healed at 1 year"."""
        had = {words[0] for owner in self.owners if owner is not None for words in owner.words}
        return [
            mention for mention in self.mentions
            if mention.end <= start and mention.start not in had and _find_end(text, mention.end, start) is None
        ]  # fmt: skip


_may = compiled(r"(?:minute|hour|day|week|month|year|hr|wk|yr|\bmo)s?\b|\d ?[hdym]\b").search
"""Of small letters."""


def times_of(text: str, tokens: Sequence[Token], table: Table, counted: frozenset[str]) -> Times:
    """The time of every figure of a passage that prints times.

    counted: what is counted, and what is said of it: "eyes", "healed".
    """
    small = text.lower()
    if not (table.lines or any(token.unit in MONTHS_IN for token in tokens) or holds_any(small, _ORDINALS)):
        return _without_times(tokens)
    if not _may(small):
        return _without_times(tokens)
    headed = _headed(table.lines, text)
    by_key: dict[str, Time] = {}
    mentions = [
        _mention(time, span, by_key) for time, span in (*headed, *_in_words(text, tokens, _heads_by_time(table, text)))
    ]
    mentions = sorted(_without_overlap(mentions))
    if not mentions:
        return _without_times(tokens)
    return Times(by_key, tuple(mentions), partial(_owners_of, text, tokens, mentions, table, counted))


def _without_times(tokens: Sequence[Token]) -> Times:
    return Times({}, (), lambda: [None] * len(tokens))


def _owners_of(
    text: str, tokens: Sequence[Token], mentions: list[Mention], table: Table, counted: frozenset[str]
) -> Owners:
    owners = owners_among(text, tokens, mentions, table, counted, is_complete=False)
    if len(mentions) > 1 and not table.lines:
        _in_step(text, tokens, mentions, owners, counted)
    for index, owner in enumerate(owners):
        is_over_column = owner is not None and owner.by == "position" and table.places[index] is not None
        if owner is not None and owner.key and not is_over_column:
            owners[index] = _as_told(text, tokens[index].start, owner)
    return owners


# In lists

_find_list = late(r",|;|&|\b(?:and|or|vs?|versus)\b", re.IGNORECASE).search
_leads_whole = late(r"\b(?:of|among|amongst|from)[\s~]+(?:the[\s~]+|all[\s~]+|these[\s~]+)?$", re.IGNORECASE).search
_ends_whole = late(r"[\s~]*(?:[^\W\d_][^\d,;.:]*)?,[\s~]*").fullmatch
_find_whole = late(
    r"(?:\d[\s~]+[^\W\d_][^\d,;.:]*|\bof[\s~]+(?:the[\s~]+|all[\s~]+)?\d+),[\s~]*$", re.IGNORECASE
).search


def _in_step(
    text: str, tokens: Sequence[Token], mentions: list[Mention], owners: Owners, counted: frozenset[str]
) -> None:
    """As many numbers in one list as times in another: "Of 50, 29, 36 and 41 had healed at 6, 12 and 24 months"."""
    for sentence in sentences(text, 0, len(text)):
        for part in parts_between_semicolons(text, *sentence):
            times = [mention for mention in mentions if part[0] <= mention.start < part[1]]
            if len({time.key for time in times}) < max(len(times), 2) or not _are_listed(text, times):
                continue
            listed = [run for run in _counts_in(text, part, tokens, mentions, counted) if len(run) > 1]
            if len(listed) == 1 and len(listed[0]) == len(times) and _is_of_both(text, part, listed[0], times):
                for item, time in zip(listed[0], times, strict=True):
                    for index in item.numbers:
                        owners[index] = Owner(time.key, "position", ((time.start, time.end),))


def _are_listed(text: str, times: Sequence[Mention]) -> bool:
    return all(_BETWEEN_TIMES.fullmatch(text, one.end, other.start) for one, other in pairwise(times))


def _counts_in(
    text: str, part: Span, tokens: Sequence[Token], mentions: list[Mention], counted: frozenset[str]
) -> list[list[Item]]:
    """The counts and shares of a clause in their lists; the whole, "Of 50 eyes, 29, 36", is none of them."""
    numbers = [
        index for index, token in enumerate(tokens)
        if part[0] <= token.start < part[1] and token.kind in STRUCTURAL and not is_inside(token, mentions)
    ]  # fmt: skip
    items = items_of(text, tokens, numbers, brackets_in(text, part, [], tokens, numbers), counted)
    for whole, first in pairwise(items):
        if _leads_whole(text, part[0], whole.start) and _ends_whole(text, whole.end, first.start):
            first.is_listed = False
    return runs_of(items)


def _is_of_both(text: str, part: Span, numbers: Sequence[Item], times: Sequence[Mention]) -> bool:
    """Whether nothing else stands in a list that the numbers may be of: "had healed clinically and by film"."""
    (begin, end), (other, _) = sorted([(numbers[0].start, numbers[-1].end), (times[0].start, times[-1].end)])
    lead = text[part[0] : begin]
    is_whole = _find_whole(lead) is not None
    return _find_list(text[end:other].strip(" ,:~\n")) is None and (is_whole or _find_list(lead) is None)


def _mention(time: Time, span: Span, by_key: dict[str, Time]) -> Mention:
    key = str(time.months.normalize())
    by_key.setdefault(key, time)
    return Mention(*span, key)


def _without_overlap(mentions: Sequence[Mention]) -> Iterator[Mention]:
    end = -1
    for mention in sorted(mentions):
        if mention.start >= end:
            yield mention
            end = mention.end


# In words

_BETWEEN_TIMES = compiled(
    r"[\s~,&/-]*(?:(?:and|or|at|after|on|by|the|day|week|month|year)\b[\s~,&/-]*){0,3}", re.IGNORECASE
)
_match_unit = compiled(
    r"[\s~\\,-]{0,3}(?:hours?|hrs?|days?|weeks?|wks?|months?|mos?|years?|yrs?|h|d|wk|mo|m|yr|y)\b"
    r"(?:\.(?!\s+(?-i:[A-Z])|\s*$))?",
    re.IGNORECASE,
).match
_match_behind = compiled(
    r"[\s~-]*(?:later|follow-?up|recalls?|visits?|post-?operatively|post-?treatment|of follow-?up|"
    r"after(?: (?:the )?(?:treatment|repair|surgery|operation|completion))?)\b",
    re.IGNORECASE,
).match
"""What may stand behind a time and belongs to it: "two years after treatment"."""
_led = compiled(
    r"(?:\b(?:at|after|by|until|till|through|during|within|on|follow-?up)(?:[\s~]+(?:the|a|an|about|approximately|each|"
    r"end|of|first|last|recalls?|visits?|follow-?up|month|week|day|year|months|weeks|days|years|only)\b){0,4}"
    r"|(?:[:;|,(/\[.\n\t]|  |^)[\s~]*(?:(?:days?|weeks?|months?|years?)[\s~]+)?|"
    r"\bon[\s~]+(?:\w+[\s~-]+)?days?[\s~]+|\bsurviv(?:ed|ing)[\s~]+(?:for[\s~]+)?)[\s~]*$",
    re.IGNORECASE,
).search
"""What stands before a time at which something was found."""
_followed = compiled(
    r"[\s~-]*(?:results?|survival|success|healing|rates?|outcomes?|examinations?|controls?|data|cumulative)\b",
    re.IGNORECASE,
).match
"""What is found at one: "5-year survival"."""
_led_straight = compiled(r"\b(?:at|after)[\s~]+$", re.IGNORECASE).search
""" "mean (SD) after 12 months": whatever else is said, this is a time."""
_LED_BEHIND = 60
_SPREAD = frozenset({"mean", "median", "sd", "range", "iqr", "minimum", "maximum", "tolerance"})
"""Times with these words say how long all were followed, not when a figure was taken."""


def _in_words(text: str, tokens: Sequence[Token], heads: Sequence[Span]) -> Iterator[tuple[Time, Span]]:
    """Times at which something was found, those of one list together. heads: of rows that are told apart by a time."""
    run: list[Token] = []
    for token in tokens:
        if not _may_be_a_time(token) or not (
            _SPREAD.isdisjoint(token.roles)
            or _led_straight(text, max(token.start - _LED_BEHIND, 0), token.start)
            or _is_in(token.start, heads)
        ):
            continue
        if run and _BETWEEN_TIMES.fullmatch(text, _end_of_unit(text, run[-1]), token.start) is None:
            yield from _of_run(text, tokens, run, heads)
            run = []
        run.append(token)
    yield from _of_run(text, tokens, run, heads)
    for match in _counted(text) if holds_any(text.lower(), _ORDINALS) else ():
        value = Decimal(_ORDINALS.index(match["which"].lower()) + 1)
        unit = match["unit"].lower()
        yield Time(value * MONTHS_IN[unit], unit, match[0]), match.span()


def _may_be_a_time(token: Token) -> bool:
    is_length = token.unit in MONTHS_IN and (token.kind == "length" or is_in_hours(token))
    return is_length and not token.comparator and not token.part


def is_in_hours(token: Token) -> bool:
    """ "6 h", which are 360 minutes."""
    is_said = token.stands_for == "hour" or _ends_in_hours(token.shown or token.text) is not None
    return token.unit in ("minute", "day") and is_said


_ends_in_hours = compiled(r"(?<![^\W\d_])h(?:(?:ou)?rs?)?$", re.IGNORECASE).search


def _of_run(
    text: str, tokens: Sequence[Token], run: Sequence[Token], heads: Sequence[Span]
) -> Iterator[tuple[Time, Span]]:
    if not run:
        return
    first, last = run[0], run[-1]
    end = _end_of_unit(text, last)
    is_behind = _match_behind(text, end) or _followed(text, end)
    is_led = _led(text, max(first.start - _LED_BEHIND, 0), first.start) is not None
    if not (is_led or is_behind or _is_in(first.start, heads)) or any(what_else(text, tokens, token) for token in run):
        return
    for token in run:
        yield Time(token.value * MONTHS_IN[token.unit], token.unit, shown(token)), (token.start, _end(text, token))


def shown(token: Token) -> str:
    """ "12 months", also for the 12 of "6, 12 and 24 months"."""
    number = token.shown or token.text
    if token.stands_for:
        return f"{number} {token.stands_for}s"
    if (any(letter.isalpha() for letter in number) and token.unit in number) or is_in_hours(token):
        return number
    return f"{number} {token.unit}{'' if token.value == 1 else 's'}"


def _end_of_unit(text: str, token: Token) -> int:
    found = _match_unit(text, token.end)
    return found.end() if found else token.end


def _end(text: str, token: Token) -> int:
    """Behind the unit of a time, and behind "later" and the like."""
    end = _end_of_unit(text, token)
    found = _match_behind(text, end)
    return found.end() if found else end


_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")
_counted = compiled(rf"\b(?P<which>{'|'.join(_ORDINALS)})\s+(?P<unit>day|week|month|year)\b", re.IGNORECASE).finditer


# In tables


def _headed(lines: Sequence[Line], text: str) -> list[tuple[Time, Span]]:
    """The times of rows such as "Months | 6 | 12 | 24"."""
    found: list[tuple[Time, Span]] = []
    for line in lines:
        unit = unit_of_times(text, line) if line.is_heading else ""
        if unit:
            found += [(_time(text, cell, unit), (cell.start, cell.end)) for cell in line.cells[1:]]
    return found


_digits = compiled(r"\d+")


def _heads_by_time(table: Table, text: str) -> list[Span]:
    """The heads of rows that are alike but for a number: "Pain 24 h, mean" and "Pain 72 h, mean"."""
    alike: dict[str, list[Span]] = {}
    for line in table.lines if table.has_cells else ():
        cell = line.cells[0] if line.cells else None
        if cell is not None and len(_digits.findall(words := text[cell.start : cell.end])) == 1:
            alike.setdefault(_digits.sub("", words), []).append((cell.start, cell.end))
    return [span for spans in alike.values() if len(spans) > 1 for span in spans]


def _is_in(at: int, spans: Sequence[Span]) -> bool:
    return any(low <= at < high for low, high in spans)


def _time(text: str, cell: Span, unit: str) -> Time:
    number = text[cell[0] : cell[1]]
    return Time(Decimal(number) * MONTHS_IN[unit], unit, f"{number} {unit}{'' if number == '1' else 's'}")


# How sure

_find_end = late(r"[.!?](?=\s|$)|\n\s*\n|\n(?=\s*\[)").search
_heads_what_follows = compiled(r"[^.;|\d]{0,40}:").match


def _as_told(text: str, start: int, owner: Owner) -> Owner:
    """A time said in another sentence holds only where it heads what follows: "Five-year results: ..."."""
    begin, end = owner.words[0]
    is_same = _find_end(text, min(start, end), max(start, begin)) is None
    if is_same and owner.by == "position":
        return owner
    heads = end <= start and _heads_what_follows(text, end) is not None
    if heads and is_same:
        return owner._replace(is_sure=True)
    return owner if is_same else owner._replace(is_sure=False)
