"""What a value is told that no field takes since it passes a limit: asked for only when a message is made."""

from __future__ import annotations

from ..compiled_patterns import compiled
from . import parsing
from .limits import DECIMALS, FIRST_YEAR, LAST_YEAR, NUMBER, YEARS
from .values import Date, Length

_find_large = compiled(rf"[0-9][0-9,]{{{len(str(NUMBER)) - 1},}}|\.[0-9]{{{DECIMALS + 1}}}").search
_find_date = compiled(r"([0-9]{4})-[0-9]{2}-[0-9]{2}").fullmatch
_LONGEST = 400  # longer texts are not looked at for what their fault may be


def passed_by(text: str, make: type) -> tuple[str, str] | None:
    """What a text that is no `make` says beyond a limit, and what to do about it; None where that is not its fault."""
    begin = text[:_LONGEST]
    if make is Date:
        found = _find_date(text)
        if found is None or FIRST_YEAR <= int(found[1]) <= LAST_YEAR:
            return None
        return f"lies outside the years {FIRST_YEAR} to {LAST_YEAR}", "correct the year"
    if _find_large(begin) is not None:
        tells = f"is more than this form takes: a number lies below {NUMBER:,} and has at most {DECIMALS} decimals"
        return tells, "count its digits again"
    if make is Length and parsing.length_typed(text) is not None:
        return f"is longer than the {YEARS} years that a length of time may have", "correct the number or the unit"
    return None
