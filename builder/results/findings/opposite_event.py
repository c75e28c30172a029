"""Whether the event of a ratio is nothing but the opposite of an outcome: who has the one has not the other."""

from __future__ import annotations

import re
from collections.abc import Iterable

from ...reading.folded import folded
from ...reading.model import Outcome
from ...reading.values import Words

_NEGATIONS = frozenset({"not", "no", "non", "without", "never", "free", "from", "of"})
_MUST_NEGATE = _NEGATIONS - {"from", "of"}
# Words of every trade for an ending as such. None that tells of what was there before: a reversal, a loss, a relapse.
_WELL = frozenset({"healed", "healing", "heal", "success", "successful", "survived", "survival"})
_FAILED = frozenset({"failed", "failure", "failures", "failing", "unsuccessful", "unhealed", "nonhealed", "nonhealing"})
_GLUE = frozenset({"to", "of", "the", "treatment"})
_words = re.compile(r"[^\W\d_]+").findall


def is_opposite(event: Words | None, outcome: Outcome, outcomes: Iterable[Outcome]) -> bool:
    """True where these words say that the outcome did not come about, and nothing more.

    event: as typed beside a ratio of the other side. "not healed", "failure", or the name of an outcome that is counted
    alike on the other side. "no longer healed" and "reversal" are false: only what had healed can have them; so is
    whatever these words do not tell.
    """
    if event is None:
        return False
    wanted = folded(event.text)
    for other in outcomes:
        names = (other.title, *other.synonyms)
        if any(folded(name.text) == wanted for name in names) and _is_counterpart(other, outcome):
            return True
    said = set(_words(wanted))
    own = {word for name in (outcome.title, *outcome.synonyms) for word in _words(folded(name.text))}
    own |= _WELL if outcome.good else _FAILED
    ending = (_FAILED if outcome.good else _WELL) - own
    if said & ending:
        return not said & _MUST_NEGATE and said <= ending | own | _GLUE
    return bool(said & _MUST_NEGATE - own) and bool(said & own) and said <= own | _NEGATIONS


def _is_counterpart(other: Outcome, outcome: Outcome) -> bool:
    """True where two outcomes of the vocabulary part everybody in two."""
    if other.good == outcome.good or other.reverses is not None or other.construct.text != outcome.construct.text:
        return False
    if outcome.construct.text == "survival":
        return True
    is_graded = outcome.strictness.text in ("strict", "lenient")
    return is_graded and (other.strictness.text, other.threshold.text) == (
        outcome.strictness.text,
        outcome.threshold.text,
    )
