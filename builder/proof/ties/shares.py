"""A share printed straight behind a count, which is of another whole than the claim's."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal

from ...numerals.late import late
from ...synthesis.rounding import is_share_of
from .tie import Known, Stands, Ties

RULES: dict[str, str] = {
    "share-of-another-whole": (
        "The passage prints a percentage straight after the events of a claim, and it is not that of the claim's "
        'total: "21 cases (10.7%)" are no 21 of 64. Type the total of which the report reckons, or the number under '
        "the words that the passage has for it; where the report reckons otherwise, answer the question."
    ),
}
_opens = late(r"[\s~]*(?:[a-z-]+[\s~]+){0,5}[(\[][\s~]*", re.IGNORECASE).fullmatch
_RATES = frozenset({"rate", "success_rate"})


def find_shares(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Every count of events that stands alone, where the claim types no share of its own."""
    if ties.scope.claim is None:
        return
    typed = {row.id for row in ties.scope.quoted if row.name in _RATES}
    for stands in standing:
        token, tokens = stands.token, stands.reading.tokens
        if stands.row.name != "events" or token.pair >= 0 or stands.at + 1 >= len(tokens):
            continue
        share = tokens[stands.at + 1]
        if share.kind != "percent" or share.part or share.comparator:
            continue
        if any(f"{stands.block}/{rate}" in typed for rate in _RATES):
            continue
        gap = stands.reading.passage.text[max(token.end, token.outer_end) : share.outer_start]
        whole = next((each for each in standing if each.row.id == f"{stands.block}/total"), None)
        if whole is None or not whole.row.value or _opens(gap) is None:
            continue
        if not _is_near(share.value, share.decimals, stands.row.value, whole.row.value):
            ties.ask(
                stands, "share-of-another-whole", f"has {share.shown} straight after it",
                f"the claim has {stands.row.typed} of {whole.row.typed}, which are other than {share.shown}",
                "type the total of which the report reckons",
            )  # fmt: skip


def _is_near(share: Decimal, decimals: int, events: Decimal, total: Decimal) -> bool:
    """Whether a share is that of so many, to its last place."""
    off = Decimal(1).scaleb(-decimals)
    return is_share_of(share, decimals, events, total) or abs(100 * events / total - share) <= off
