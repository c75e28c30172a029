"""Whether the words around an event deny it: "did not show any healing", "no sign of failure", "healing was absent"."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from .word_stream import Word

_VERBAL = frozenset({
    "not", "never", "nothing", "cannot", "nor", "neither", "hardly", "didn't", "wasn't", "weren't", "hadn't",
    "isn't", "aren't", "nowhere",
    "doesn't", "don't", "couldn't", "haven't", "hasn't", "can't",
})  # fmt: skip
"""Deny what is done behind them: "not considered healed"."""
_NOMINAL = frozenset(
    {
        "no",
        "without",
        "none",
        "lack",
        "lacked",
        "lacking",
        "absence",
        "nobody",
        "denied",
        "zero",
        "missed",
        "spared",
        "escaped",
    }
)
"""Deny the thing named straight behind them: "without any healing"."""
_PAIRS = {
    ("free", "of"), ("free", "from"), ("failed", "to"), ("failure", "to"), ("failing", "to"), ("unable", "to"),
    ("clear", "of"), ("short", "of"), ("freedom", "from"), ("ruled", "out"), ("no", "longer"), ("instead", "of"),
    ("fail", "to"), ("yet", "to"), ("far", "from"),
}  # fmt: skip
"""Deny together. Behind those that end in "to" and "longer" something is done."""
_NO_NEGATION = frozenset({"only", "more", "less", "fewer", "later", "earlier", "least", "until", "necessarily"})
"""Behind "no" or "not" these say how many or when."""
_DIFFERENCE = frozenset({
    "difference", "differences", "differ", "differed", "different", "significant", "significantly", "associated",
    "association", "related", "relation", "affect", "affected", "influence", "influenced", "effect", "correlated",
    "statistically", "predict", "predicted", "predictor",
})  # fmt: skip
"""What is denied is then a difference, and no event."""

_SAID = frozenset({
    "considered", "observed", "achieved", "classified", "judged", "deemed", "regarded", "confirmed", "recorded",
    "detected", "noted", "noticed", "showed", "demonstrated", "exhibited", "displayed", "established", "obtained",
    "reached", "experienced", "developed", "described", "rated", "scored", "called", "documented", "attained",
    "completed", "reported", "counted", "proved", "completely", "diagnosed", "categorised", "categorized",
    "continued",
    "classed", "accepted", "termed", "labelled", "labeled", "ranked", "registered", "entered", "certified", "declared",
    "remained", "needed", "yet", "fully", "graded", "listed", "verified", "expected", "supposed",
})  # fmt: skip
"""Words in "ed" and the like through which a "not" reaches what follows; any other ends with itself: "not sutured"."""
_BESIDE_A_NOUN = frozenset({
    "a", "an", "the", "any", "sign", "signs", "evidence", "indication", "indications", "radiographically",
    "clinically",
    "further", "new", "visible", "detectable", "obvious", "apparent", "complete", "of", "or", "from", "postoperative",
    "post-operative", "persistent", "persisting", "such", "true", "recurrent", "single", "case", "cases", "one",
    "all",
    "these", "those", "whatsoever", "form", "kind", "manifest", "overt", "spontaneous", "severe", "definite",
    "symptom",
    "symptoms", "longer", "more", "trace", "traces", "proof", "suggestion", "appreciable", "remaining", "having",
    "patients", "patient", "persons", "people", "other", "ongoing", "reported", "recorded", "late", "early",
})  # fmt: skip
"""Through these a "no" or "without" reaches the noun behind, and through adjectives in "al", "ic", "ive"."""
_REACH = 9
_HAPPENING = frozenset({
    "observed", "seen", "achieved", "found", "evident", "noted", "recorded", "detected", "present", "complete",
    "confirmed", "reached", "attained", "obtained", "apparent", "visible", "established", "occur", "occurred", "take",
    "taken", "reported", "felt", "experienced", "happen", "detectable", "demonstrated", "demonstrable", "noticed",
    "diagnosed", "encountered", "ensue", "follow", "appear", "develop", "developed", "documented", "shown",
    "completed",
    "came", "come", "set", "materialise", "materialize", "forthcoming", "result", "began", "begin",
    "materialised", "materialized",
    "discernible", "identified", "registered", "arise", "needed", "required", "necessary", "performed", "requested",
})  # fmt: skip
_AUXILIARY = frozenset({
    "was", "were", "is", "are", "had", "has", "have", "did", "does", "do", "could", "can", "been", "be",
})  # fmt: skip
_ABSENT = frozenset(
    {
        "absent",
        "spared",
        "denied",
        "avoided",
        "averted",
        "prevented",
        "lacking",
        "missing",
        "excluded",
        "eluded",
        "wanting",
        "outstanding",
        "awaited",
        "stalled",
        "elusive",
        "unattained",
        "unachieved",
        "unreached",
    }
)


CEASED = frozenset({"ceased", "disappeared", "subsided", "stopped", "vanished", "gone", "resolved", "settled"})
"""Said of pain and the like, these tell that it is no more."""


_FIRST_OF_PAIRS = frozenset(first for first, _ in _PAIRS)
_SINGLE = _VERBAL | _NOMINAL | _ABSENT | CEASED | {"stayed"}


def may_deny(words: frozenset[str]) -> bool:
    """Whether words, wherever they stand, can deny anything."""
    if not _SINGLE.isdisjoint(words):
        return True
    return not _FIRST_OF_PAIRS.isdisjoint(words) and any(first in words and second in words for first, second in _PAIRS)


def denials(
    words: Sequence[Word], first: int, last: int, is_event: Callable[[int], bool], units: frozenset[str]
) -> tuple[Word, ...]:
    """The words that deny an event, of which two make a yes: "not without pain".

    first, last: the event's own words. is_event: whether the word at a place belongs to an event; a negation does not
    reach over one. units: words for what is counted: "no eye failed".
    """
    return (*_before(words, first, is_event, units), *_behind(words, last, is_event))


def _before(words: Sequence[Word], first: int, is_event: Callable[[int], bool], units: frozenset[str]) -> list[Word]:
    found: list[Word] = []
    between: list[Word] = []
    for at in range(first - 1, max(first - 1 - _REACH, -1), -1):
        word = words[at]
        if word.text == "and" and (free := _free_of_both(words, at, first)) is not None:
            return [*found, free]
        if (word.is_mark and word.text != "/") or word.text in ("and", "but", "while", "whereas", "although"):
            break
        if _negates(words, at):
            if not _reaches(words, at, between, units):
                break
            found.append(word)
            between = []
            continue
        if is_event(at):
            break
        between.append(word)
    return found


def _free_of_both(words: Sequence[Word], at: int, first: int) -> Word | None:
    """ "Free from cracks and fractures". at: of the "and"."""
    low = at - 4 if at > 3 and words[at - 2].text == "any" else at - 3
    if low < 0 or words[low].text != "free" or words[low + 1].text not in ("of", "from"):
        return None
    return words[low] if words[first].text.endswith(_NOUN_ENDS) else None


_NOUN_ENDS = ("s", "ness", "symptom", "lesion", "ture", "tion", "pain", "swelling", "bleeding", "fever")
_FINITE = frozenset({"had", "was", "were", "showed", "experienced", "survived"})
_FINITE_BEFORE = frozenset({"did", "does", "do", "was", "were", "is", "are"})
"""In "those that did not had a survival of 77%" the "not" ends a clause before the verb of the next."""


def _negates(words: Sequence[Word], at: int) -> bool:
    text = words[at].text
    behind = words[at + 1].text if at + 1 < len(words) else ""
    if text in ("no", "not") and behind in _NO_NEGATION:
        return False
    if text == "not" and behind in _FINITE and at > 1 and words[at - 1].text in _FINITE_BEFORE:
        return False
    if (text, behind) in _PAIRS:
        return not (text == "no" and at + 2 < len(words) and words[at + 2].text == "than")
    return text in _VERBAL or text in _NOMINAL


def _reaches(words: Sequence[Word], at: int, between: Sequence[Word], units: frozenset[str]) -> bool:
    """Whether a negation reaches over the words between it and the event."""
    text = words[at].text
    pair = (text, words[at + 1].text if at + 1 < len(words) else "")
    passed = [word.text for word in between]
    if not _DIFFERENCE.isdisjoint(passed):
        return False
    if text in ("nor", "neither") and pair[1] in _AUXILIARY:  # "nor did 26 of the 32 heal"
        return True
    if text in _VERBAL or (pair in _PAIRS and pair[1] in ("to", "longer")):
        is_of_all = text == "not" and "one" in passed  # "not one of the 47 failed"
        return is_of_all or not any(_stops(word, units) for word in between)
    if text in ("none", "no") and passed and ("of" in passed or passed[-1] in units or passed[-1] == "single"):
        return _reaches_as_none(words, at, passed, units)
    return all(map(_is_beside, passed))


def _reaches_as_none(words: Sequence[Word], at: int, passed: Sequence[str], units: frozenset[str]) -> bool:
    """ "No eye failed", "none of the eyes failed"; but of "roots with no lesion were healed" nobody says it."""
    is_of_whom = "of" not in passed and passed[-1] != "single" and at > 0 and words[at - 1].text in _HAVING
    return not is_of_whom and all(
        _is_beside(word) or word in units or word[0].isdigit() or word in _AUXILIARY for word in passed
    )


_HAVING = frozenset({"with", "had", "have", "has", "having", "showed", "showing"})


def _stops(word: Word, units: frozenset[str]) -> bool:
    """Where a "not" ends: at a number, at what is counted, at another deed ("not sutured")."""
    return word.is_number or word.text in units or (word.text.endswith("ed") and word.text not in _SAID)


def _is_beside(word: str) -> bool:
    return word in _BESIDE_A_NOUN or word.endswith(("al", "ic", "ive"))


def _behind(words: Sequence[Word], last: int, is_event: Callable[[int], bool]) -> list[Word]:
    """ "healing of the wound was not seen", "pain absent", "pain had ceased"."""
    for at in range(last + 1, min(last + 6, len(words))):
        word = words[at]
        is_ceased = word.text in CEASED and all(each.text in _AUXILIARY for each in words[last + 1 : at])
        if word.text == "failed" and [each.text for each in words[at + 1 : at + 2]] == ["to"]:
            return [] if is_event(at + 2) else [word]  # "the fistula failed to close": the closing is denied
        if is_ceased:
            return [word]
        if _is_no_longer(words, at):
            return [word]
        if word.is_number or word.is_mark or is_event(at):
            break
        if (denied := _denies(words, at, last)) is not None:
            return denied
    return []


def _denies(words: Sequence[Word], at: int, last: int) -> list[Word] | None:
    """Whether the word at a place, behind an event, denies it; None where it says nothing of that."""
    word = words[at]
    before = words[at - 1].text if words[at - 1].text not in ("still", "yet") else words[at - 2].text
    is_straight, is_aided = at == last + 1, before in _AUXILIARY
    if word.text in _ABSENT and (is_straight or is_aided or before in _STAYING):
        return [word]
    if word.text == "out" and (before in _STAYING or before == "ruled"):  # "healing stayed out", "could be ruled out"
        return [word]
    if (word.text in _NOT and is_aided) or (word.text == "never" and is_straight):
        return [word] if _denies_happening(words, at) else []
    return None


_NOT = ("not", "never", "nowhere")
_STAYING = frozenset({"stayed", "remained", "proved", "stays", "remains"})


def _is_no_longer(words: Sequence[Word], at: int) -> bool:
    """ "The pain was no longer there"."""
    texts = [each.text for each in words[at - 1 : at + 2]]
    return texts[0] in _AUXILIARY and texts[1:] == ["no", "longer"]


def _denies_happening(words: Sequence[Word], at: int) -> bool:
    """True of "was not seen", false of "was not different"."""
    behind = [each.text for each in words[at + 1 : at + 4]]
    return not _HAPPENING.isdisjoint(behind) and _DIFFERENCE.isdisjoint(behind)


def left_unsaid(words: Sequence[Word], start: int) -> tuple[int, int] | None:
    """Where "8 did not" and "8 were not" deny what was said before; None where nothing does.

    words: of a sentence up to the end of a part of it, which begins at `start`.
    """
    first = next((at for at, word in enumerate(words) if word.start >= start), len(words))
    texts = [word.text for word in words]
    for at in range(first, len(words) - 1):
        if texts[at] in _AUXILIARY and texts[at + 1] == "not":
            behind = texts[at + 2] if at + 2 < len(texts) else ""
            is_end = not behind or not behind[0].isalpha() or behind in _ENDS or behind in _FINITE
            if is_end and not _tells_a_group(words, at):
                return words[at].start, words[at + 1].end
    own = texts[first:]
    if any(text in ("didn't", "weren't", "wasn't", "hadn't") for text in own[-1:]):
        return (words[-1].start, words[-1].end) if not _tells_a_group(words, len(words) - 1) else None
    length = 4 if " ".join(own[-4:]) == "failed to do so" else 2 if " ".join(own[-2:]) == "failed to" else 0
    return (words[-length].start, words[-1].end) if length else _but_not_in(words, first)


def _but_not_in(words: Sequence[Word], first: int) -> tuple[int, int] | None:
    """ "Healing was seen in 26, but not in 6"."""
    at = next(
        (at for at in range(first, len(words)) if words[at].text not in ("but", "and", "though", ",")), len(words)
    )
    texts = [each.text for each in words[at : at + 2]]
    if len(words) <= at + 2 or texts[0] != "not" or texts[1] not in _OF_WHOM or not words[at + 2].is_number:
        return None
    return words[at].start, words[at + 1].end


def _tells_a_group(words: Sequence[Word], at: int) -> bool:
    """True of "in those that did not": those who were not treated so; false of "8 that did not".

    at: of the auxiliary.
    """
    before = words[max(at - 5, 0) : at]
    if not before or before[-1].text not in _RELATIVE or any(word.is_number for word in before[-3:]):
        return False
    if any(word.text in _OF_WHOM for word in before[:-1]):
        return True
    # "eyes that were sutured ..., those that were not": one clause in "that" answers another.
    return any(word.text in _RELATIVE for word in words[: at - 1])


_RELATIVE = frozenset({"that", "who", "which"})
_OF_WHOM = frozenset({"of", "in", "for", "among", "with", "to", "than", "versus", "vs", "from", "by", "against"})
_ENDS = frozenset({"so", "do", "yet", "in", "at", "by", "with", "of", "after", "within", "for", "on", "during"})


_COUNTED_AS = frozenset({
    "counted", "considered", "classed", "classified", "regarded", "treated", "taken", "scored", "handled", "analysed",
    "analyzed", "imputed", "recorded", "assumed", "rated",
})  # fmt: skip
_NOT_SEEN = frozenset({
    "missing", "lost", "dropouts", "drop-outs", "dropout", "drop-out", "withdrawn", "withdrawals", "absent", "unseen",
    "absentees", "non-attenders", "attend", "return", "returning", "unavailable",
})  # fmt: skip


def is_a_rule_for_others(words: Sequence[Word], first: int) -> bool:
    """ "with missing eyes counted as failures, 88 of 110": how those who were not seen were counted, no event."""
    before = [word.text for word in words[max(first - 12, 0) : first]]
    while before and before[-1] in ("a", "an", "as", "having", "to", "be", "the"):
        before.pop()
    return bool(before) and before[-1] in _COUNTED_AS and not _NOT_SEEN.isdisjoint(before)
