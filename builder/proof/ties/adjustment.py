"""Whether a ratio is crude or adjusted, and for what, as the words of its clause, row, column or heading say."""

from __future__ import annotations

from collections.abc import Sequence

from ...compiled_patterns import compiled
from ...numerals.late import late
from ...printed.adjustments import Adjustments, cues_of_bracket, listed_behind
from ...printed.clauses import Span
from ...printed.governing import Cue
from ...reading.model import Factor
from ...reading.report_model import Contrast
from ...reading.values import Missing, Words
from ..asking import in_yaml
from ..proving.printed_passage import Reading, surroundings_in
from .tie import Known, Stands, Ties, ratio_of

RULES: dict[str, str] = {
    "other-adjustment": (
        "The passage calls a ratio or difference adjusted and the claim calls it crude (`adjusted_for: none`), or the "
        "other way round, or the passage names other things that it was adjusted for than the claim. Crude and "
        "adjusted ratios answer different questions and never stand in one row or pool. Type what the passage says: "
        "`adjusted_for: none` for a crude one, the list of factors or words for an adjusted one."
    ),
}


def find_adjustment(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """The ratio of a claim."""
    claim = ties.scope.claim
    contrast = claim.contrast if claim is not None else None
    if contrast is None or type(contrast.adjusted_for) is Missing:
        return
    stands = ratio_of(standing)
    if stands is None:
        return
    typed = _listed(contrast)
    cue, words = _said(stands)
    if cue is None:
        return
    if cue.kind == ("adjusted" if typed else "crude"):
        ties.tie(stands, "adjustment", ", ".join(typed) or "none", "words", *words)
        if typed and words:
            _ask_about_list(stands, ties, known, typed, cue)
        return
    said = _quoted(stands, cue) if words else stands.reading.passage.bracket
    if cue.kind == "adjusted":
        mend = _list_to_type(stands, cue) if words else "adjusted_for: not reported"
        ties.ask(stands, "other-adjustment", f'calls it adjusted ("{said}")', "the claim calls it crude", mend)
    else:
        told = f"the claim calls it adjusted for {', '.join(typed)}"
        ties.ask(stands, "other-adjustment", f'calls it crude ("{said}")', told, "adjusted_for: none")


def _listed(contrast: Contrast) -> list[str]:
    """What a claim says it was adjusted for; empty where it was for nothing."""
    typed = contrast.adjusted_for
    return [words.text for words in typed if type(words) is Words] if type(typed) is tuple else []


def _said(stands: Stands) -> tuple[Cue | None, list[Span]]:
    """What is said of a number, and in which words of the passage; in none where its bracket says so."""
    cue = stands.reading.told(_adjustments).of(stands.at)
    if cue is not None:
        return cue, [(cue.start, cue.end)]
    return cues_of_bracket(stands.reading.passage.bracket), []


def _adjustments(reading: Reading) -> Adjustments:
    return Adjustments(reading.passage.text, reading.tokens, reading.told(surroundings_in), reading.table)


def _quoted(stands: Stands, cue: Cue) -> str:
    """The words with the few behind them."""
    text = stands.reading.passage.text
    found = _SHOWN.match(text, cue.end)
    return stands.printed((cue.start, found.end() if found else cue.end))


_SHOWN = late(r"(?:(?:\s+(?:for|of|with|including)\b|(?<=\bfor)|(?<=\bof)|(?<=\bwith))(?:\s+[a-zA-Z-]+){1,3})?")


def _list_to_type(stands: Stands, cue: Cue) -> str:
    sentence = stands.reading.told(surroundings_in).sentence(cue.start)
    items = listed_behind(stands.reading.passage.text, cue, sentence[1])
    named = [item for item in items if item in _COMMON]
    return f"adjusted_for: [{', '.join(map(in_yaml, named))}]" if named else "adjusted_for: not reported"


_COMMON = frozenset({
    "age", "sex", "gender", "smoking", "diabetes", "centre", "center", "operator", "clinic", "ethnicity", "education",
    "income", "comorbidity", "body mass index", "baseline score", "baseline value",
})  # fmt: skip
"""What is adjusted for in any trade."""
_ALIKE = ({"sex", "gender"}, {"smoking", "tobacco", "smokers"}, {"centre", "center", "clinic", "site"})


def _ask_about_list(stands: Stands, ties: Ties, known: Known, typed: Sequence[str], cue: Cue) -> None:
    """ "adjusted for age and sex", where the claim has smoking alone."""
    text = stands.reading.passage.text
    sentence = stands.reading.told(surroundings_in).sentence(cue.start)
    printed = [item for item in listed_behind(text, cue, sentence[1]) if item in _COMMON or _factor_called(item, known)]
    if not printed:
        return
    plain = _words_of(text)
    others = [item for item in printed if not any(_is_same(item, name, known) for name in typed)]
    unsaid = [name for name in typed if not names_of(name, known) & plain]
    if others and unsaid:
        ties.ask(
            stands, "other-adjustment", f"says that it was adjusted for {', '.join(printed)}",
            f"the claim for {', '.join(typed)}", f"adjusted_for: [{', '.join(map(in_yaml, printed))}]",
        )  # fmt: skip


def _factor_called(item: str, known: Known) -> bool:
    return any(item == words.text.lower() for each in known.factors.values() for words in _titles(each.factor))


def _titles(factor: Factor) -> tuple[Words, ...]:
    return (factor.title, *factor.synonyms)


_find_words = compiled(r"[a-z]+").findall


def _words_of(text: str) -> set[str]:
    return {word for word in _find_words(text.lower()) if len(word) > 2}


def names_of(typed: str, known: Known) -> set[str]:
    """The words by which a passage may name what a claim adjusted for."""
    words = _words_of(typed)
    wording = known.factors.get(typed)
    if wording is not None:
        for title in (*_titles(wording.factor), *(level.title for level in wording.factor.levels)):
            words |= _words_of(title.text)
    for alike in _ALIKE:
        if alike & words:
            words |= alike
    return words


def _is_same(item: str, typed: str, known: Known) -> bool:
    return bool(_words_of(item) & names_of(typed, known))
