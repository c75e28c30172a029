"""A total of those who were looked at, where the events are told of those who entered: "of 210 screened 96 entered"."""

from __future__ import annotations

from collections.abc import Sequence

from ...printed.steps import MAY_TELL, later_step
from ...reading.report_model import Claim
from ...reading.values import Words
from ..proving.printed_passage import different_words_in
from .tie import Stands, Ties

RULES: dict[str, str] = {
    "total-of-earlier-step": (
        "The total of the claim counts those of an earlier step than its events are told of: of 210 who were screened "
        "96 entered, and 4 of these had the event. The share would be of people in whom nobody could have seen it. "
        "Type the number of those who were studied; where the report does count all, say so in `given`."
    ),
}


def find_earlier_steps(claim: Claim, pairs: Sequence[tuple[Stands, Stands]], ties: Ties) -> None:
    """Every total that stands apart from its events."""
    if type(claim.given) is Words or claim.within:
        return
    for events, total in pairs:
        reading = total.reading
        if total.token.part or total.row.level or events.token.pair >= 0 or reading.cells()[total.at] is not None:
            continue
        if MAY_TELL.isdisjoint(reading.told(different_words_in)):
            continue
        found = later_step(reading.passage.text, reading.tokens, total.at, events.at)
        if found is not None:
            place, first, later = found
            other = reading.tokens[place]
            ties.ask(
                total, "total-of-earlier-step",
                f'has it as those "{total.printed(first.words)}", and {other.text} as "{total.printed(later.words)}"',
                "the claim as the whole of its events", f"total: {other.text}",
            )  # fmt: skip
