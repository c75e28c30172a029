"""Which way a comparison goes, in the words of the event that was counted: "fewer healed", "no pain less often"."""

from __future__ import annotations

import re

from ...reading.model import Outcome
from ..findings.findings import Finding
from ..findings.spoken_outcomes import DEFINITIONS
from ..findings.which_way import Direction
from ..values.line import Line, line, typed

# Words that make a sentence of a title, which neither "fewer" can lead nor "less often" follow.
_VERBS = frozenset({"is", "are", "was", "were", "has", "have", "had", "stays", "stayed", "remains", "feels", "came"})
_ENDINGS = frozenset({"kept", "lost", "free", "gone", "dead", "alive", "vital", "sound", "intact", "well", "broken"})
# Words after which "more often" would be read as one with them: "lost again more often".
_ADVERBS = frozenset({"again", "later", "early", "late", "soon", "often", "more", "less", "fewer"})
_SEVERAL_PARTS = re.compile(r"[,;:(]")
_DEFINED = re.compile(rf"[,;]?\s*(?:{'|'.join(DEFINITIONS.values())})$")


def way_words(finding: Finding, direction: Direction) -> Line:
    """ "fewer healed" where that is the side of the event; empty where there is no side.

    direction: better or worse for the patient; whether that is more or fewer hangs on whether the event is good.
    """
    return _way(_text(finding), direction, is_good=_is_good(finding), is_measured=is_measured(finding))


def way_words_of(outcome: Outcome, direction: Direction, *, is_measured: bool = False) -> Line:
    """The same of an outcome, for several studies together."""
    return _way(said_of(outcome), direction, is_good=outcome.good, is_measured=is_measured)


def ends_of(finding: Finding) -> tuple[str, str, str]:
    """The words for less and for more of what was counted, and what that is: ("fewer", "more", "healed")."""
    text = _text(finding)
    if is_measured(finding):
        return "lower", "higher", text
    is_of_units = _is_of_units(text) or text.casefold().startswith("no ")
    return ("fewer", "more", text) if is_of_units else ("less often", "more often", text)


def short_way_words(finding: Finding, direction: Direction) -> str:
    """ "fewer", "less", where a heading says of what and how often; "" where there is no side."""
    if direction not in ("better", "worse"):
        return ""
    less, more, _ = ends_of(finding)
    return (more if (direction == "better") == _is_good(finding) else less).removesuffix(" often")


def _way(text: str, direction: Direction, *, is_good: bool, is_measured: bool) -> Line:
    if direction not in ("better", "worse"):
        return ()
    is_more = (direction == "better") == is_good
    if is_measured:
        return line("higher" if is_more else "lower")
    return _led(text, "more" if is_more else "fewer", "more often" if is_more else "less often")


def _led(text: str, word: str, often: str) -> Line:
    words = text.casefold().split()
    if _SEVERAL_PARTS.search(text) or (words and words[-1] in _ADVERBS):
        # "lost later less often" is read as one, and "less often: lost later" says of nobody what became of them.
        return line(f"{word} with ", typed(text, "definition"))
    if words[:1] == ["no"] and len(words) > 1:
        # "no pain less often" is a riddle at the end of a day.
        return line(f"{word} free of ", typed(text.partition(" ")[2], "definition"))
    if _is_of_units(text):
        return line(f"{word} ", typed(text, "definition"))
    return line(typed(text, "definition"), f" {often}")


def _is_sentence(text: str) -> bool:
    return bool(_VERBS & {item.casefold() for item in text.split()} or _SEVERAL_PARTS.search(text))


def _is_of_units(text: str) -> bool:
    """True for what "fewer" can lead: a word of what became of those counted."""
    words = text.split()
    first = words[0].casefold() if words else ""
    ending = words[1].casefold() if first == "not" and len(words) > 1 else first
    return not _is_sentence(text) and (ending.endswith("ed") or ending in _ENDINGS)


def said_of(outcome: Outcome) -> str:
    """What was counted, without how strictly: the line that leads a comparison says that."""
    return _DEFINED.sub("", outcome.title.text)


def _text(finding: Finding) -> str:
    item = finding.contrast
    if item is not None and item.event is not None:
        return item.event.text
    return said_of(finding.outcome)


def _is_good(finding: Finding) -> bool:
    item = finding.contrast
    return item.event_is.text == "good" if item is not None and item.event_is is not None else finding.outcome.good


def is_measured(finding: Finding) -> bool:
    """True where a length, a load or a time was measured and nothing counted."""
    item = finding.contrast
    return finding.kind == "measured" or (item is not None and item.measure.text == "mean difference")
