"""Which two outcomes part the same units: healed and not healed, and a reversal among the healed."""

from __future__ import annotations

from ..reading.model import Outcome


def are_linked(one: Outcome, other: Outcome) -> bool:
    return (one.reverses is not None and one.reverses.text == other.id) or (
        other.reverses is not None and other.reverses.text == one.id
    )


def are_two_ends(one: Outcome, other: Outcome) -> bool:
    """Whether two outcomes part the same units at one threshold. "As defined in the report" is none: a bridge and
    inflammation may both be so defined; then only a title denies the other, "not healed"."""
    if _axes(one) != _axes(other):
        return False
    if not one.threshold.text.lower().startswith(_NO_THRESHOLD):
        return True
    titles = sorted((one.title.text.lower(), other.title.text.lower()), key=len)
    return titles[1] in {f"{deny}{titles[0]}" for deny in ("not ", "no ", "un", "non-", "without ")}


_NO_THRESHOLD = ("as defined", "as reported", "as stated", "not reported", "not applicable", "not stated")


def _axes(outcome: Outcome) -> tuple[str, ...]:
    return tuple(word.text for word in (outcome.construct, outcome.strictness, outcome.basis, outcome.threshold))
