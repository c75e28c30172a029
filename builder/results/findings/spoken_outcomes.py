"""Titles of outcomes as one says them aloud: a word of our files for how strictly it was judged becomes speech."""

from __future__ import annotations

import re

from ...reading.model import Evidence, Outcome
from ...reading.values import Words

DEFINITIONS = {"strict": "by the stricter definition", "lenient": "by the looser definition"}
"""How strictly something was judged, as one says it."""
_FILE_WORD = re.compile(r"[,;]?\s*\(?\b(?:strict|lenient)(?:ly)?\b\)?", re.IGNORECASE)


def with_spoken_outcomes(evidence: Evidence) -> Evidence:
    """The evidence with titles that may be read aloud: "healed, strict" is "healed", which its looser fellow is not."""
    spoken = {name: _spoken(outcome) for name, outcome in evidence.vocabulary.outcomes.items()}
    return evidence._replace(vocabulary=evidence.vocabulary._replace(outcomes=spoken))


def _spoken(outcome: Outcome) -> Outcome:
    typed = outcome.title.text
    plain = _FILE_WORD.sub("", typed).strip(" ,;")
    if plain in ("", typed):
        return outcome
    looser = f", {DEFINITIONS['lenient']}" if outcome.strictness.text == "lenient" else ""
    return outcome._replace(title=Words(f"{plain}{looser}", outcome.title.position))


def strictness_words(outcome: Outcome) -> str:
    """ "by the stricter definition"; "" where strictness says nothing, or the title says it."""
    said = DEFINITIONS.get(outcome.strictness.text, "")
    return "" if said in outcome.title.text else said
