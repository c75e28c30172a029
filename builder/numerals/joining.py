"""Numbers that fell into several pieces and are one: "1 039", "82,9%", "2 1/2 years", "sixty-four (64)"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal

from ..compiled_patterns import compiled
from ..records import NamedTuple
from .kinds import Kind
from .late import late
from .pieces import Pieces
from .told_times import ToldTime, may_tell_a_time, told_times
from .words import SIZES, TIMES

_MEASURED = frozenset({*TIMES.values(), *SIZES.values()})
_POINT_FIVE = Decimal("0.5")


class _Joined(NamedTuple):
    """Pieces that become one number."""

    first: int
    last: int
    """Behind the last of them."""
    value: Decimal
    decimals: int
    start: int
    end: int
    unit: str = ""
    """Of a length whose unit stands within: "a year and a half"."""


def join_numbers(pieces: Pieces) -> None:
    """Make one piece of each number that blanks, a decimal comma or a half parted."""
    if pieces.has_groups:
        _replace(pieces, list(_in_thousands(pieces)))
    if pieces.destroyed:
        _replace(pieces, list(_with_decimal_comma(pieces)))
    lowered = pieces.lowered
    if "(" in lowered:
        _replace(pieces, list(_said_twice(pieces)))
    if "half" in lowered or "1/2" in lowered or (not pieces.is_ascii and "½" in lowered):
        _replace(pieces, list(_halves(pieces)))
    if may_tell_a_time(lowered):
        _replace(pieces, list(told_times(pieces)))


def _replace(pieces: Pieces, found: Sequence[_Joined | ToldTime]) -> None:
    """Put each joined number in the place of its pieces; it is no longer destroyed."""
    if not found:
        return
    meanings, spans, values = pieces.meanings, pieces.spans, pieces.values
    destroyed, spoilt = pieces.destroyed, pieces.spoilt
    pieces.meanings, pieces.spans, pieces.values, pieces.destroyed, pieces.spoilt = [], [], {}, set(), set()
    at = 0
    for joined in [*found, None]:
        for place in range(at, joined.first if joined else len(spans)):
            new = len(pieces.spans)
            if place in values:
                pieces.values[new] = values[place]
            if place in destroyed:
                pieces.destroyed.add(new)
            if place in spoilt:
                pieces.spoilt.add(new)
            pieces.add(meanings[place], *spans[place])
        if joined:
            pieces.add_number((joined.value, joined.decimals), joined.start, joined.end)
            if joined.unit:
                pieces.add((Kind.UNIT, joined.unit), joined.end, joined.end)
            at = joined.last


def _kind(pieces: Pieces, place: int) -> str:
    return pieces.meanings[place][0] if 0 <= place < len(pieces.meanings) else ""


def _text(pieces: Pieces, place: int) -> str:
    """A piece in lower case; "" before the first and behind the last."""
    return pieces.lowered[slice(*pieces.spans[place])] if 0 <= place < len(pieces.spans) else ""


def _between(pieces: Pieces, place: int) -> str:
    """What stands between a piece and the next."""
    if not 0 <= place < len(pieces.spans) - 1:
        return ""
    return pieces.lowered[pieces.spans[place][1] : pieces.spans[place + 1][0]]


def _is_whole(pieces: Pieces, place: int) -> bool:
    return place in pieces.values and _text(pieces, place).isdecimal() and place not in pieces.spoilt


# Blanks between thousands

_NAMES_OR_BOUNDS = frozenset({Kind.LABEL, Kind.UNIT, Kind.COMPARATOR, Kind.DASH, Kind.MEASURE, Kind.PERCENT})
"""Before two numbers they show that the first is a whole of its own: "group 2 120 eyes", "eye 2 120"."""
_SAYS_WHAT_IS_COUNTED = frozenset({Kind.UNIT, Kind.ADJECTIVE, Kind.OF, Kind.SLASH})
_LEADS_TO_A_COUNT = frozenset({Kind.OF, Kind.SLASH, Kind.EQUALS})


def _in_thousands(pieces: Pieces) -> Iterator[_Joined]:
    """ "1 039 of 1 147 eyes": a group with a leading 0 or behind "~" surely belongs to the number before.

    Any other number must say what it counts, or stand in a text in which another one does, and in no row of numbers.
    """
    runs = list(_runs_of_groups(pieces))
    is_usual = any(
        _is_sure_group(pieces, run) or (_says_what(pieces, run) and not _is_parted(pieces, run)) for run in runs
    )
    for run in runs:
        first, last = run[0], run[-1]
        if _is_sure_group(pieces, run) or (is_usual and len(run) == 2 and not _is_parted(pieces, run)):
            digits = "".join(_text(pieces, place) for place in run)
            yield _Joined(first, last + 1, Decimal(digits), 0, pieces.spans[first][0], pieces.spans[last][1])


def _is_sure_group(pieces: Pieces, run: list[int]) -> bool:
    if any(_text(pieces, place)[0] == "0" or _between(pieces, place - 1) == "~" for place in run[1:]):
        return True
    return "|" in pieces.lowered and _is_alone_in_cell(pieces, run)


def _is_alone_in_cell(pieces: Pieces, run: list[int]) -> bool:
    """ "| 1 206 |"."""
    before, behind = pieces.lowered[: pieces.spans[run[0]][0]], pieces.lowered[pieces.spans[run[-1]][1] :]
    return before.rstrip(" ")[-1:] == "|" and behind.lstrip(" ")[:1] in ("|", "\n", "")


def _says_what(pieces: Pieces, run: list[int]) -> bool:
    is_counted = _kind(pieces, run[-1] + 1) in _SAYS_WHAT_IS_COUNTED
    leads = _kind(pieces, run[0] - 1) in _LEADS_TO_A_COUNT or _is_part_of_thousands(pieces, run)
    return len(run) == 2 and (is_counted or leads)


def _is_part_of_thousands(pieces: Pieces, run: list[int]) -> bool:
    """ "Of 1248 eyes 1 123": a part of what was counted just before."""
    whole = pieces.values.get(run[0] - 2, (0, 0))[0]
    return _ends_a_count(pieces, run[0] - 1) and whole >= Decimal("".join(_text(pieces, place) for place in run))


def _is_parted(pieces: Pieces, run: list[int]) -> bool:
    is_in_row = _is_beside_number(pieces, run[0] - 1) or _is_beside_number(pieces, run[-1])
    is_named = _kind(pieces, run[0] - 1) in _NAMES_OR_BOUNDS and not _ends_a_count(pieces, run[0] - 1)
    return is_in_row or is_named


def _ends_a_count(pieces: Pieces, place: int) -> bool:
    """ "1 248 eyes": a unit that says what the number before it counts, and names nothing behind it."""
    return _kind(pieces, place) == Kind.UNIT and place - 1 in pieces.values


def _runs_of_groups(pieces: Pieces) -> Iterator[list[int]]:
    """Places of numbers of which each but the first is a group of three digits, one blank behind the one before."""
    place = 0
    while place < len(pieces.spans):
        run = [place]
        head = _text(pieces, place)
        if _is_whole(pieces, place) and len(head) <= 3 and head[0] != "0":
            while (
                _between(pieces, run[-1]) in (" ", "~")
                and _is_whole(pieces, run[-1] + 1)
                and len(_text(pieces, run[-1] + 1)) == 3
            ):
                run.append(run[-1] + 1)
        if len(run) > 1:
            yield run
        place += len(run)


def _is_beside_number(pieces: Pieces, place: int) -> bool:
    """True where this piece and the next are numbers with blanks alone between them."""
    return _kind(pieces, place) == _kind(pieces, place + 1) == Kind.NUMBER and not _between(pieces, place).strip()


# Decimal commas


def _with_decimal_comma(pieces: Pieces) -> Iterator[_Joined]:
    """ "82,9%", in a passage that has a comma where a decimal sign must be; where it prints decimal points too, "82,9%
    (P = 0.03)", only those commas that must be one.

    "1,125" stays a thousand and more, and in "[12,5]" and "1,3,5" the comma parts numbers.
    """
    found = [place for place in pieces.values if _is_parted_by_comma(pieces, place)]
    sure = [place for place in found if _is_sure(pieces, place)]
    if any(decimals for _, decimals in pieces.values.values()):
        found = [place for place in sure if not (_is_list(pieces, place) or _is_alone_under_percent(pieces, place))]
    if not sure or any(_is_list(pieces, place) for place in found):
        return
    for place in found:
        if _kind(pieces, place - 1) != Kind.LABEL:
            whole, behind = _text(pieces, place), _text(pieces, place + 2)
            value = Decimal(f"{whole}.{behind}")
            start, end = pieces.spans[place][0], pieces.spans[place + 2][1]
            if _text(pieces, place + 3) in ("a", "à", "bis") and place + 4 in found:
                pieces.meanings[place + 3] = (Kind.TO, "")
            yield _Joined(place, place + 3, value, len(behind), start, end)


def _is_parted_by_comma(pieces: Pieces, place: int) -> bool:
    return (
        _kind(pieces, place + 1) == Kind.COMMA
        and _is_whole(pieces, place + 2)
        and _text(pieces, place).lstrip("-−–$").isdecimal()
        and place not in pieces.spoilt
        and pieces.lowered[pieces.spans[place][1] : pieces.spans[place + 2][0]] in (",", "{,}")
    )


def _is_list(pieces: Pieces, place: int) -> bool:
    """ "1,3,5", "[55,85]"."""
    is_longer = _kind(pieces, place + 3) == Kind.COMMA and _is_parted_by_comma(pieces, place + 2)
    is_in_brackets = _kind(pieces, place - 1) == Kind.SQUARE_OPEN and _kind(pieces, place + 3) == Kind.SQUARE_CLOSE
    return is_longer or is_in_brackets


def _is_sure(pieces: Pieces, place: int) -> bool:
    """ "0,84", "12,5%", "4,3 years", "OR 2,4", "1,1 to 6,0", "82,9" alone under "%": no list, and no thousands."""
    if _text(pieces, place) == "0" or _kind(pieces, place + 3) == Kind.PERCENT:
        return True
    if _kind(pieces, place + 3) == Kind.UNIT and pieces.meanings[place + 3][1] in _MEASURED:
        return True
    if _is_to(pieces, place + 3) and _is_parted_by_comma(pieces, place + 4):
        return True
    before = place - 2 if _kind(pieces, place - 1) in (Kind.EQUALS, Kind.COLON, Kind.OF) else place - 1
    return _kind(pieces, before) == Kind.MEASURE or _is_alone_under_percent(pieces, place)


def _is_to(pieces: Pieces, place: int) -> bool:
    """ "1,1 to 6,0"; "1,98 a 10,93" in Spanish and Portuguese."""
    return _kind(pieces, place) == Kind.TO or _text(pieces, place) in ("a", "à", "bis")


def _is_alone_under_percent(pieces: Pieces, place: int) -> bool:
    """ "58 (82,9)" or a cell of a table with "82,9" alone, where the passage has "%"."""
    start, end = pieces.spans[place][0], pieces.spans[place + 2][1]
    is_share = len(_text(pieces, place)) <= 2 and len(_text(pieces, place + 2)) <= 2
    if not is_share or "%" not in pieces.lowered:
        return False
    before, behind = _ends_before(pieces.lowered[max(start - 8, 0) : start]), _match_behind(pieces.lowered, end)
    return before is not None and behind is not None and (before["open"] is None) == (behind["close"] is None)


_ends_before = late(r"(?:\||\t|;|\d\s?(?P<open>\())\s*$").search
_match_behind = compiled(r"\s*(?:\||\t|\n|;|$|(?P<close>\)))").match


# Words and digits


def _said_twice(pieces: Pieces) -> Iterator[_Joined]:
    """ "sixty-four (64) patients", "six (n = 6)": one number, in words and in digits."""
    for place, (value, decimals) in pieces.values.items():
        start, end = pieces.spans[place]
        if not pieces.lowered[start].isalpha() or _kind(pieces, place + 1) != Kind.ROUND_OPEN:
            continue
        again = place + 2
        if _kind(pieces, again) == Kind.N_SIGN:
            again += 2 if _kind(pieces, again + 1) == Kind.EQUALS else 1
        is_same = again in pieces.values and pieces.values[again] == (value, decimals)
        if is_same and _kind(pieces, again + 1) == Kind.ROUND_CLOSE:
            yield _Joined(place, again + 2, value, decimals, start, end)


# Halves


def _halves(pieces: Pieces) -> Iterator[_Joined]:
    """ "one and a half years", "2 1/2 years", "2½ years", "half a year", "a year and a half"."""
    place = 0
    while place < len(pieces.spans):
        found = _half_behind(pieces, place) or _half_before(pieces, place) or _half_of_one(pieces, place)
        if found is not None:
            yield found
        place = found.last if found is not None else place + 1


def _is_time(pieces: Pieces, place: int) -> bool:
    return _kind(pieces, place) == Kind.UNIT and pieces.meanings[place][1] in _MEASURED


def _half_behind(pieces: Pieces, place: int) -> _Joined | None:
    """ "one and a half years", "2 1/2 years", "2½ years"."""
    if place not in pieces.values or pieces.values[place][1]:
        return None
    start, end = pieces.spans[place]
    if pieces.lowered[end : end + 1] == "½":
        last, end = place + 1, end + 1
    elif _said(pieces, place + 1, 3) in ("and a half", "1 / 2"):
        last = place + 4
        end = pieces.spans[place + 3][1]
    else:
        return None
    is_low = _kind(pieces, last) == Kind.TO and _is_time(pieces, last + 2)
    behind = last + 1 if _kind(pieces, last) == Kind.DASH else last
    if not is_low and not _is_time(pieces, behind):
        return None
    return _Joined(place, last, pieces.values[place][0] + _POINT_FIVE, 1, start, end)


def _half_before(pieces: Pieces, place: int) -> _Joined | None:
    """ "half a year", "a half year"."""
    if _text(pieces, place) != "half" or _text(pieces, place - 1) == "and":
        return None
    last = place + 2 if _text(pieces, place + 1) == "a" else place + 1
    if not _is_time(pieces, last):
        return None
    start, end = pieces.spans[place][0], pieces.spans[last][1]
    return _Joined(place, last + 1, _POINT_FIVE, 1, start, end, pieces.meanings[last][1])


def _half_of_one(pieces: Pieces, place: int) -> _Joined | None:
    """ "a year and a half", "one year and a half"."""
    is_one = _text(pieces, place) in ("a", "one", "1")
    if not is_one or not _is_time(pieces, place + 1) or _said(pieces, place + 2, 3) != "and a half":
        return None
    unit = pieces.meanings[place + 1][1]
    start, end = pieces.spans[place][0], pieces.spans[place + 4][1]
    return _Joined(place, place + 5, 1 + _POINT_FIVE, 1, start, end, unit)


def _said(pieces: Pieces, place: int, count: int) -> str:
    return " ".join(_text(pieces, at) for at in range(place, place + count))
