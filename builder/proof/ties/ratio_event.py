"""Which event a ratio is of, good or bad, as the words around it and the claim's own names say."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...compiled_patterns import compiled
from ...numerals.late import late
from ...printed.clauses import Span
from ...printed.comparisons import Region
from ...printed.model_outcomes import modelled
from ...reading.folded import folded
from ...reading.report_model import Claim, Contrast
from .counted_events import counting, outcome_words
from .tie import Known, Stands, Ties


def contradicts_itself(stands: Stands, ties: Ties, contrast: Contrast, claim: Claim, known: Known) -> bool:
    """An event that its own words, or the title of the claim's outcome, call good, and `event_is: bad`, or back."""
    if contrast.event is None or contrast.event_is is None:
        return False
    side = _side_of_event(contrast.event.text, claim, known)
    if side in ("", contrast.event_is.text):
        return False
    ties.ask(
        stands, "event-opposite", f'has it for what the claim calls "{contrast.event.text}", which is {side} for whom '
        "it befalls", f"and the claim has `event_is: {contrast.event_is.text}`", f"event_is: {side}",
    )  # fmt: skip
    return True


def _side_of_event(event: str, claim: Claim, known: Known) -> str:
    outcome = known.outcomes.get(claim.outcome.text)
    plain = folded(event)
    if outcome is not None:
        titles = {folded(words.text) for words in (outcome.title, *outcome.synonyms)}
        undenied = " ".join(word for word in plain.split() if word != "not")
        if undenied in titles:
            return "good" if outcome.good == (plain == undenied or plain in titles) else "bad"
    return outcome_words(known).side_in(event) or ("bad" if _loses(plain) else "")


_loses = compiled(r"^(?!.*\b(?:no|not|without)\b).*\b(?:lost|loss|losses)\b").match


def is_of_opposite_event(
    stands: Stands, ties: Ties, contrast: Contrast, claim: Claim, known: Known, regions: Sequence[Region]
) -> bool:
    """ "healed, A against B: OR 0.31" as a ratio of not healing: every word for the event there goes the other way."""
    of_claim = counting(claim, known)
    wanted = of_claim.blocks(ties.scope.name).get(f"{ties.scope.name}/contrast")
    if wanted is None or not wanted.side:
        return False
    opposite = "bad" if wanted.side == "good" else "good"
    if not of_claim.words.may_go(stands.reading, opposite):
        return False
    mentions = of_claim.events(stands.reading).mentions
    # What was coded 1, and what the model was fitted for: "logistic regression for failure".
    of_model = modelled(stands.reading.passage.text, stands.token.start)
    for start, end in (*((each.start, each.end) for each in regions), *_heading_of(stands), *of_model):
        own = [
            mention
            for mention in mentions
            if start <= mention.start < end
            and (wanted.outcome in mention.meaning.outcomes or mention.meaning.kind in wanted.kinds)
        ]
        if not own:
            continue
        if {mention.side for mention in own} != {opposite}:
            return False
        said = stands.printed((min(low for low, _ in own[0].spans), own[0].end))
        ties.ask(
            stands, "event-opposite", f'speaks of "{said}" there', f"the claim of a ratio of the {wanted.side} event",
            f"event_is: {opposite}",
        )  # fmt: skip
        return True
    return False


def _heading_of(stands: Stands) -> list[Span]:
    """The nearest line without a figure above the line of a ratio: "Loss of the graft, Cox model"."""
    text = stands.reading.passage.text
    end = text.rfind("\n", 0, stands.token.start)
    while end > 0:
        start = text.rfind("\n", 0, end) + 1
        words = _TIME.sub("", text[start:end])
        if words.strip() and not any(letter.isdigit() for letter in words):
            return [(start, end)]
        end = start - 1
    return []


_TIME = late(r"\b\d+[\s-]*(?:years?|months?|weeks?|days?)\b", re.IGNORECASE)


def event_said(stands: Stands, low: int, high: int, contrast: Contrast, claim: Claim, known: Known) -> str:
    """Which event a slice of a passage speaks of: good or bad, "both", or "" where it names none."""
    mentions = counting(claim, known).events(stands.reading).mentions
    said = {mention.side for mention in mentions if low <= mention.start < high and mention.side}
    if said:
        return said.pop() if len(said) == 1 else "both"
    event = contrast.event.text.lower() if contrast.event is not None else ""
    is_named = bool(event) and event in stands.reading.passage.text[low:high].lower()
    return contrast.event_is.text if is_named and contrast.event_is is not None else ""
