"""Numbers in doubt, about which the words around them, or around what is typed with them, say enough."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence

from ...numerals.late import late
from ..proving.field_roles import Scope
from ..proving.settling import count_ends
from ..proving.sharing import Choice
from .tie import Stands


def is_settled(
    stands: Stands, choice: Choice, scope: Scope, standing: Sequence[Stands], settled: Collection[str]
) -> bool:
    """Whether the words around a doubtful number, or around what is typed with it, say enough."""
    if stands.row.id in settled:
        is_own_p = choice.failure == "ambiguous" and stands.row.name == "p"
        if is_own_p or _is_doubted_for_its_side(stands, choice):
            return True
    return choice.failure == "pair" and _is_number_of_its_level(stands, scope, standing, settled)


def _is_number_of_its_level(total: Stands, scope: Scope, standing: Sequence[Stands], settled: Collection[str]) -> bool:
    """Whether a total that stands in another pair is the number of its level, and the words say of the count, which
    stands alone, what it counts: "14 of the 52 over 5 mm did not heal; the other 38 were healed"."""
    events = next((each for each in standing if each.row.id == f"{total.block}/events"), None)
    if not total.row.level or events is None or events.token.part or not _is_told(events, standing, settled):
        return False
    owner = total.reading.owners(scope.names)[total.at] if scope.names else None
    return owner is not None and owner.key == total.row.level and owner.is_sure


def _is_told(events: Stands, standing: Sequence[Stands], settled: Collection[str]) -> bool:
    """Whether the words say what a count is of, or what the counts of other levels in its sentence are; or take up the
    figures of the clause before: "by 72 hours the differences had disappeared (8, 6 and 7)"."""
    reading, start = events.reading, events.token.start
    for other in standing:
        is_count = other.row.name == "events" and other.row.id in settled and other.reading is reading
        if is_count and not count_ends(reading, *sorted((other.token.start, start))):
            return True
    text = reading.passage.text
    clause = text[max(text.rfind(sign, 0, start) for sign in ";.") + 1 : start]
    return _takes_up(clause) is not None and _tells_anew(clause) is None


_takes_up = late(
    r"\b(?:differences?|(?:these|corresponding|the) (?:figures|numbers|rates|counts|results))\b", re.IGNORECASE
).search
_tells_anew = late(
    r"\b(?:of|in|for|with)\s+(?!the\b|these\b|those\b)[a-z]{4,}|\b(?:found|seen|noted|observed|recorded)\b",
    re.IGNORECASE,
).search
_SIDES = frozenset({"good", "bad", "extracted", "died"})


def _is_doubted_for_its_side(stands: Stands, choice: Choice) -> bool:
    """Whether nothing but a word for the other side speaks against a number."""
    # "Pain was told by 11 patients" may be of 104 eyes; "9 of 155 patients" is of patients.
    is_of_other = bool(other_unit(stands)) and stands.token.pair >= 0
    is_of_side = not is_of_other and _SIDES.issuperset(stands.token.roles)
    return is_of_side and choice.failure not in ("ambiguous", "taken", "pair")


def other_unit(stands: Stands) -> str:
    """What a number counts by the word beside it, where that is not what the study does."""
    row, unit = stands.row, stands.token.unit
    return unit if row.role.kind == "count" and unit not in ("none", row.unit) else ""
