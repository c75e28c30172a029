"""The choice among printed numbers: within one claim each proves one field, and nothing is preferred."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from ...compiled_patterns import compiled
from ...numerals import Token
from ...printed.ellipses import rest_before
from ...printed.owner import Owners
from ...printed.wordings import Names
from ...synthesis.rounding import is_share_of
from .field_roles import Quoted, Scope
from .likeness import has_precision, is_like, is_whole_in_turn
from .matching import candidates, candidates_in_structure
from .own_clause import choose_bounds, choose_times
from .printed_passage import Reading
from .settling import count_ends, settle_one
from .sharing import Choice, Fields


def choose(scope: Scope, readings: Sequence[Reading | None]) -> list[Choice | None]:
    """For each field of one claim or one study's facts the printed number that proves it; None where it has no passage.

    Within a scope one printed number proves one field. Nothing is preferred: what could prove a field equally well as
    another number makes it ambiguous, for otherwise a wrong digit in the one would be covered by the other.
    """
    rows = scope.quoted
    options = [
        candidates(quoted, reading, scope) if reading is not None else []
        for quoted, reading in zip(rows, readings, strict=True)
    ]
    fields = Fields(rows, readings, options)
    within_levels(scope, fields)
    _within_row_of_all(scope, fields)
    partners = _pair_up(scope, fields)
    waiting, times, bounds = [], [], []
    for at, row in enumerate(rows):
        if readings[at] is None or fields.chosen[at] is not None:
            continue
        shares = row.role.shares
        if shares == "bound":
            bounds.append(at)
        elif shares == "at":
            times.append(at)
        elif not options[at]:
            fields.fail_as_absent(at)
        elif len(options[at]) > 1 or not fields.prove_if_free(at, options[at][0]):
            waiting.append(at)
    while waiting:
        waiting = _settle(waiting, fields, partners, scope.names)
    choose_times(fields, times)
    choose_bounds(fields, bounds)
    return fields.chosen


def _settle(waiting: list[int], fields: Fields, partners: dict[int, int], names: Names) -> list[int]:
    """Decide whatever can be decided now; gives the fields that still wait, fewer at each call."""
    left = []
    for at in waiting:
        free = _free_beside_partner(at, fields, partners)
        if not free:
            fields.fail_as_taken(at)
        elif len(free) == 1:
            fields.prove(at, free[0])
        else:
            left.append(at)
    if len(left) < len(waiting):
        return left
    settled = settle_one(left, fields, names)
    if settled is None:
        for at in left:
            fields.fail_as_ambiguous(at, fields.options[at])
        return []
    left.remove(settled)
    return left


def _free_beside_partner(at: int, fields: Fields, partners: dict[int, int]) -> list[int]:
    """What may still prove a field; beside a partner that is proved only the other half of its pair."""
    free = fields.free(at)
    partner = fields.chosen[partners[at]] if at in partners else None
    if partner is None or partner.at < 0:
        return free
    mate = fields.tokens(at)[partner.at].pair
    return [index for index in free if index == mate]


# Pairs


def _pair_up(scope: Scope, fields: Fields) -> dict[int, int]:
    """Fields that are printed as pairs get the numbers of pairs, or two that stand alone; gives each one's partner."""
    partners: dict[int, int] = {}
    for at, row in enumerate(fields.rows):
        if row.leads and fields.readings[at] is not None and fields.readings[at] is fields.readings[at + 1]:
            if _take_pairs(at, fields) or _take_pairs_in_structure(at, scope, fields):
                partners[at], partners[at + 1] = at + 1, at
            else:
                _take_apart(at, fields)
    return partners


def _take_pairs(at: int, fields: Fields) -> bool:
    """Leave two fields only the printed pairs that could prove both; False where none could."""
    tokens = fields.tokens(at)
    first, second = fields.options[at], fields.options[at + 1]
    mates = [index for index in first if tokens[index].part and tokens[index].pair in second]
    if mates:
        fields.options[at] = mates
        fields.options[at + 1] = [tokens[index].pair for index in mates]
    return bool(mates)


def _take_pairs_in_structure(at: int, scope: Scope, fields: Fields) -> bool:
    """The same of pairs beside words that are not said of them: "61 of the 88 re-examined eyes were clear"."""
    before = fields.options[at : at + 2]
    for each in (at, at + 1):
        reading = fields.readings[each]
        if reading is not None:
            more = candidates_in_structure(fields.rows[each], reading, scope)
            fields.options[each] = [*fields.options[each], *(index for index in more if index not in before[each - at])]
    if fields.options[at : at + 2] != before and _take_pairs(at, fields):
        return True
    fields.options[at : at + 2] = before
    return False


def _take_apart(at: int, fields: Fields) -> None:
    """Two fields that no printed pair proves must match two numbers that stand alone."""
    tokens = fields.tokens(at)
    first, second = fields.options[at], fields.options[at + 1]
    alone = [index for index in first if not tokens[index].part]
    # The count of a pair may prove a total only where it is a whole in its turn.
    others = [index for index in second if tokens[index].part in ("", "events")]
    if alone and others:
        fields.options[at], fields.options[at + 1] = alone, others
    elif (reading := fields.readings[at]) and (rest := _of_the_rest(at, fields.rows, alone, second, reading)):
        fields.options[at], fields.options[at + 1] = rest
        fields.of_one_whole.add(at + 1)
    elif first and second:
        halves = tuple(tokens[index].pair for index in first if tokens[index].pair >= 0)
        fields.chosen[at + 1] = Choice(-1, "pair", halves or tuple(first))


def _of_the_rest(
    at: int, rows: Sequence[Quoted], alone: list[int], second: list[int], reading: Reading
) -> tuple[list[int], list[int]] | None:
    """The whole of another count that is printed once for this one too: by the printed share, "9 of the 50 patients on
    day 1; by day 7 one (2%)", or by the words."""
    quoted, total = rows[at], rows[at + 1]
    paired = [index for index in second if reading.tokens[index].part == "total"]
    if not alone or not paired:
        return None
    share = _share_of(quoted, rows)
    if share is None:
        return _told_of_the_rest(quoted, total, alone, paired, reading)
    return (alone, paired) if is_share_of(share.value, share.decimals, quoted.value, total.value) else None


def _told_of_the_rest(
    quoted: Quoted, total: Quoted, alone: list[int], paired: list[int], reading: Reading
) -> tuple[list[int], list[int]] | None:
    """ "23 of 29 healed; 6 did not heal" also prints that 6 of 29 did not: the two add up, and a word says which, or
    they stand in one sentence, or "the remaining 6" takes up the others. So do the levels of "64 of 125 with A, 79
    with B"."""
    tokens = reading.tokens
    named = [index for index in alone if quoted.side and quoted.side in tokens[index].roles]
    rest = [index for index in paired if tokens[tokens[index].pair].value + quoted.value == total.value]
    behind = [index for index in alone if any(_is_behind(reading, whole, index) for whole in rest or paired)]
    taken_up = named or behind or _with_the_rest(reading, alone)
    if rest and taken_up:
        return taken_up, rest
    listed = [index for index in alone if any(_is_listed_before(reading, whole, index) for whole in paired)]
    if quoted.level:
        return (behind or listed, paired) if behind or listed else None
    return _told_further(reading, behind, paired) if quoted.name == "events" else None


def _with_the_rest(reading: Reading, alone: list[int]) -> list[int]:
    """Counts behind "the remaining", "the other"."""
    text, tokens = reading.passage.text, reading.tokens
    return [index for index in alone if rest_before(text, tokens[index].outer_start) >= 0]


def _told_further(reading: Reading, behind: list[int], paired: list[int]) -> tuple[list[int], list[int]] | None:
    """Counts behind a pair that have its whole, and that whole."""
    tokens = reading.tokens
    further = [index for index in behind if _is_told_further(reading, index)]
    wholes = [
        whole for whole in paired
        if not is_whole_in_turn(tokens[tokens[whole].pair]) and any(_is_behind(reading, whole, at) for at in further)
    ]  # fmt: skip
    return (further, wholes) if wholes else None


def _is_told_further(reading: Reading, index: int) -> bool:
    """ "8 of the 52 patients had pain, 14 had swelling and 3 had trismus": a part of the sentence that begins with the
    count and goes on with a verb."""
    text, token = reading.passage.text, reading.tokens[index]
    begin = max(token.outer_start - 12, 0)
    return _ends_a_part(text, begin, token.outer_start) is not None and _goes_on(text, token.end) is not None


_ends_a_part = compiled(r".*(?:[,;]|\band|\bbut|\bwhile)\s+", re.DOTALL | re.IGNORECASE).fullmatch
_goes_on = compiled(
    r"\s*(?:\([^()]*\)\s*)?(?:also\s+)?(?:had|have|were|was|showed|developed|reported|experienced|suffered|complained|"
    r"needed|required|presented|lost)\b",
    re.IGNORECASE,
).match


def _is_listed_before(reading: Reading, whole: int, index: int) -> bool:
    """Whether a count stands in one list with the count of a pair, before it: the 70 of "70, 46 and 34 of 100"."""
    places = [*range(index, reading.tokens[whole].pair + 1)]
    text, tokens = reading.passage.text, reading.tokens
    gaps = (text[tokens[one].outer_end : tokens[other].outer_start] for one, other in pairwise(places))
    return len(places) > 1 and all(_is_list_sign(_BRACKET.sub("", gap)) for gap in gaps)


_BRACKET = compiled(r"\([^()]*\)")
_is_list_sign = compiled(
    r"\s*(?:,|,?\s*and|,?\s*or|versus|vs?\.?|(?:as )?against|as opposed to|"
    r"(?:as )?compared (?:with|to)|rather than|/|;)\s*",
    re.IGNORECASE,
).fullmatch


def _is_behind(reading: Reading, whole: int, index: int) -> bool:
    """Whether a count stands behind a total in its sentence, and no other total between."""
    between = reading.tokens[whole + 1 : index]
    ends = count_ends(reading, reading.tokens[whole].end, reading.tokens[index].start) if index > whole else 1
    return not ends and not any(token.part == "total" for token in between)


def _share_of(events: Quoted, rows: Sequence[Quoted]) -> Quoted | None:
    """The percentage typed beside a count of events."""
    block = events.id.removesuffix("events")
    ids = (f"{block}rate", f"{block}success_rate")
    return next((row for row in rows if row.role.kind == "percent" and row.id in ids), None)


# Levels


def within_levels(scope: Scope, fields: Fields) -> None:
    """A number in the words of its own level comes before one of which nothing is said; another level's comes last."""
    names = scope.names
    if not names:
        return
    for at, quoted in enumerate(scope.quoted):
        found = fields.options[at]
        reading = fields.readings[at]
        if len(found) < 2 or not quoted.level or reading is None:
            continue
        owners = reading.owners(names)
        own = [index for index in found if (owner := owners[index]) is not None and owner.key == quoted.level]
        if len(own) == len(found):
            continue
        neutral = [index for index in found if (owner := owners[index]) is None or not owner.key]
        is_asked = bool(own and neutral) and _has_all(scope, quoted, own)
        if is_asked and _is_complete(scope, quoted, fields, reading, owners):
            neutral = []
        fields.options[at] = own + neutral or found


def _has_all(scope: Scope, quoted: Quoted, own: list[int]) -> bool:
    """Whether the words of a level hold as many equal numbers as it has fields of that value: a row with 20 events
    below "20 eyes per arm" holds one of two."""
    return not quoted.within_words and len(own) >= sum(
        row.level == quoted.level and row.value == quoted.value for row in scope.quoted
    )


def _within_row_of_all(scope: Scope, fields: Fields) -> None:
    """What is said of all comes from the row "All" of a table, where it has the number."""
    if scope.claim is None or scope.claim.within:
        return
    for at, quoted in enumerate(scope.quoted):
        reading, found = fields.readings[at], fields.options[at]
        if quoted.level or len(found) < 2 or reading is None or not reading.table.has_cells:
            continue
        own = [index for index in found if _is_of_all(reading, index)]
        fields.options[at] = own or found


def _is_of_all(reading: Reading, index: int) -> bool:
    place = reading.table.places[index]
    if place is None:
        return False
    head = reading.table.lines[place.row].cells[0]
    return _names_all(reading.passage.text, head.start, head.end) is not None


_names_all = compiled(r"\s*(?:all|totals?|overall|whole|altogether|sum)\b", re.IGNORECASE).match


def _is_complete(scope: Scope, quoted: Quoted, fields: Fields, reading: Reading, owners: Owners) -> bool:
    """True where the words of a level hold as many numbers of this kind as the level has fields of it."""
    kind = quoted.role.kind
    wanted = [
        row
        for row, place in zip(scope.quoted, fields.readings, strict=True)
        if row.level == quoted.level and row.role.kind == kind and place is reading
    ]
    named = {row.role.own for row in wanted if row.role.own and reading.shows(row)}

    def is_wanted(token: Token) -> bool:
        return any(
            is_like(row, token, scope)
            and has_precision(row, token)
            and (row.role.own not in named or row.role.own in token.roles)
            for row in wanted
        )

    inside = [
        token
        for owner, token in zip(owners, reading.tokens, strict=True)
        if owner is not None and owner.key == quoted.level
    ]
    return sum(is_wanted(token) for token in inside) >= len(wanted)
