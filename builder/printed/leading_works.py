"""Whether words for another work, "Smith et al. reported", go on to a number of their sentence."""

from __future__ import annotations

import re

from ..numerals.late import late
from .whose_words import LAYS_DOWN, LIKE, OWN, RESUMES, SAYS, SUBORDINATE, TURN


def leads_to(found: re.Match[str], sentence: str, place: int) -> bool:
    """Whether "Smith et al. reported" goes on to a number behind it; not "unlike previous studies, 39 of 47"."""
    begin, end = found.span()
    if begin >= place or OWN.search(sentence, end, place) or _turns(found, sentence, place):
        return False
    if OWN.search(sentence, max(0, begin - 4), begin):  # "our earlier"
        return False
    if _is_aside(found, sentence, place):
        return False
    is_compared = TURN.search(sentence, max(0, begin - _NEAR), begin) is not None
    # "Unlike Smith et al., who reported 39", but "Contrary to what Smith et al. reported, 39".
    return not is_compared or _says(sentence, max(begin, sentence.rfind(", ", begin, place)), place) is not None


def _turns(found: re.Match[str], sentence: str, place: int) -> bool:
    """Whether the sentence turns to another thing before a number; one that opens with the others' words and has no own
    only compares what they found: "In an earlier analysis it was higher with A than with B (HR 1.8)"."""
    turns = [turn[0].lower() for turn in TURN.finditer(sentence, found.end(), place)]
    if found.start() < _OPENS and OWN.search(sentence) is None:
        turns = [turn for turn in turns if turn not in _COMPARING]
    return bool(turns)


_OPENS = 4
_COMPARING = frozenset({"higher", "lower", "than", "versus", "compared"})


def tells_of(found: re.Match[str], sentence: str, place: int) -> bool:
    """Whether "found in the earlier series" tells of a number before it; not of one that "our" stands before."""
    begin = found.start()
    if begin <= place or ";" in sentence[place:begin] or OWN.search(sentence, place, begin):
        return False
    if LIKE.search(sentence, place, begin):
        return False
    turns = [turn.start() for turn in TURN.finditer(sentence, 0, begin)]
    low = turns[-1] if turns else 0
    return low <= place and OWN.search(sentence, low, place) is None


def _is_aside(found: re.Match[str], sentence: str, place: int) -> bool:
    """Whether the words are put into a sentence that goes on with its own: "scored as Smith described, was seen in"."""
    if SUBORDINATE.search(sentence, 0, found.start()) is None:
        return False
    return RESUMES.search(sentence, found.end(), place) is not None or LAYS_DOWN.search(found[0]) is not None


_says = late(rf"\b(?:{SAYS}|where|in which)\b").search
_NEAR = 40
"""Characters before such words in which others compare them with something."""
