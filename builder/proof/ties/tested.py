"""What a P value tests, as the words beside it say: these levels and this outcome, or something else."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ...printed.p_words import SPECIAL, PValues, Tested, find_balance, find_between, find_start, find_trend, find_within
from ...printed.pairs_tested import pairs_in_table, pairs_of
from ...printed.wordings import Names, Plain, mentions_of
from ...reading.report_model import Claim, SignificanceTest
from ...reading.values import Missing, Words
from ..asking import collapsed
from ..proving.level_names import key_of, names_tested
from ..proving.printed_passage import Reading, p_values_in
from .counted_events import counting
from .tested_factors import WORDLESS, others_named, own_stems
from .tie import Known, Stands, Ties, ratio_of

RULES: dict[str, str] = {
    "other-test": (
        "The words beside a P value say that it tests something else than the claim: another factor, another outcome, "
        "another two levels, an interaction or a difference at the start. Type the P value that stands beside the "
        "comparison of the claim, or leave it out."
    ),
}


def find_tests(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Every P value of a claim."""
    claim = ties.scope.claim
    if claim is None:
        return
    for stands in standing:
        if stands.row.name != "p":
            continue
        found = stands.reading.told(p_values_in)
        if stands.block.endswith("/contrast"):
            value = ratio_of(standing)
            if value is not None and value.reading is stands.reading and _is_settled(stands, value, found, ties, claim):
                continue
        _find_other(stands, found, claim, ties, known, standing)


def _is_settled(stands: Stands, value: Stands, found: PValues, ties: Ties, claim: Claim) -> bool:
    """Whether the ratio's own P is known, and so told or asked about."""
    own = found.of_ratio(value.at)
    if own == stands.at:
        special = found.special_between(value.at, own)
        if special and special.lower() not in _own_words(claim):
            ties.ask(
                stands, "other-test", f'has it beside "{special}"', f"the claim gives it to {value.row.typed}",
                "p: not reported",
            )  # fmt: skip
            return True
        ties.tie(stands, "test", value.row.typed, "position", (value.token.start, value.token.end))
        return True
    if own >= 0:
        shown = stands.reading.tokens[own].shown
        ties.ask(
            stands, "other-test", f'has it beside "{_quoted(stands, found.tested(stands.at))}"',
            f"the claim gives it to {value.row.typed}, whose own P is {shown}", f"p: {_typed(shown)}",
        )  # fmt: skip
        return True
    if found.in_same_column(value.at, stands.at):
        ties.ask(
            stands, "other-test", "has it in another row", f"the claim gives it to {value.row.typed}",
            "type the P of the ratio's own row",
        )  # fmt: skip
        return True
    return False


def _typed(shown: str) -> str:
    plain = shown.replace(" ", "")
    return f'"{plain}"' if plain[:1] == ">" else plain


def _quoted(stands: Stands, tested: Tested) -> str:
    words = stands.printed(*tested.spans).lstrip(" .,;:)(")
    return words if len(words) < 80 else f"... {words[-76:]}"


def _find_other(
    stands: Stands, found: PValues, claim: Claim, ties: Ties, known: Known, standing: Sequence[Stands]
) -> None:
    text = stands.reading.passage.text
    pair = _of_a_pair(stands, found, claim, ties, known)
    if pair == "told":
        ties.settled.add(stands.row.id)
        return
    tested = found.tested(stands.at)
    words = tested.words(text)
    others = [found.tested(at) for at in found.places if at != stands.at]
    if _is_of_something_else(stands, tested, others, claim, ties):
        return
    start = find_balance(words)
    if (not others and start is None) or WORDLESS(words) or _is_of_trend(stands, words, found, others, claim, ties):
        return
    about = _About(claim, ties, known)
    own = about.named_in(tested, stands.reading)
    if pair == "own":
        own |= about.wanted(stands, claim)
    if _is_printed_again(stands, found, about, about.wanted(stands, claim)):
        ties.settled.add(stands.row.id)
        return
    if start is not None and own.isdisjoint({about.OUTCOME, about.FACTOR}):
        ties.ask(
            stands, "other-test", f'has it for how they were at the start ("{collapsed(start[0])}")',
            "the claim gives it to its own comparison", "p: not reported",
        )  # fmt: skip
        return
    better = _of_the_factor(stands, tested, own, others, about) or _of_the_comparison(
        stands, tested, own, others, about, about.wanted(stands, claim)
    )
    if better is not None and not _stands_behind_counts(stands, tested, standing):
        _ask_for(stands, ties, tested, better)


def _is_of_something_else(stands: Stands, tested: Tested, others: Sequence[Tested], claim: Claim, ties: Ties) -> bool:
    """Whether a P is of no difference between groups, and that was asked about."""
    text = stands.reading.passage.text
    words = tested.words(text)
    special = SPECIAL.search(words)
    if special is not None and special[0].lower() not in _own_words(claim):
        ties.ask(
            stands, "other-test", f'has it beside "{special[0]}"', "the claim gives it to its own comparison",
            "p: not reported",
        )  # fmt: skip
        return True
    between = _of_between(words, others, claim, text)
    if between is not None:
        _ask_for(stands, ties, tested, between)
    return between is not None


def _of_between(words: str, others: Sequence[Tested], claim: Claim, text: str) -> Tested | None:
    """The P of a difference between groups, where this one is of a change within those of one."""
    if find_within(words) is None or find_between(words) is not None or find_within(_own_words(claim)) is not None:
        return None
    said = ((other, other.words(text)) for other in others)
    return next((other for other, told in said if find_between(told) and not find_within(told)), None)


def _stands_behind_counts(stands: Stands, tested: Tested, standing: Sequence[Stands]) -> bool:
    """Whether the claim's own counts stand with a P: "(8, 6 and 7 of the patients; P = .87)"."""
    beside = {
        each.row.level
        for each in standing
        if each.row.level and each.row.name in ("events", "mean", "median") and each.reading is stands.reading
        and any(low <= each.token.start < high for low, high in tested.spans)
    }  # fmt: skip
    return len(beside) > 1


def _is_of_trend(
    stands: Stands, words: str, found: PValues, others: Sequence[Tested], claim: Claim, ties: Ties
) -> bool:
    """Whether a P is of a trend, and that is the claim's own, by its method, or was asked about."""
    if find_trend(words) is None:
        return False
    if "trend" in _own_words(claim):
        return True
    if not _has_plain(stands, found, others):
        return False
    ties.ask(
        stands, "other-test", "has it for a trend", "the claim gives it to the difference of levels",
        "type the P of the difference, or method: test for trend",
    )  # fmt: skip
    return True


def _has_plain(stands: Stands, found: PValues, others: Sequence[Tested]) -> bool:
    """Whether the sentence or the row of a P has another one that is of no trend."""
    text, (low, high) = stands.reading.passage.text, found.around.sentence(stands.token.start)
    near = [other for other in others if any(low <= start < high or low <= end < high for start, end in other.spans)]
    return any(find_trend(other.words(text)) is None for other in near)


def _is_printed_again(stands: Stands, found: PValues, about: _About, wanted: set[str]) -> bool:
    """Whether the same P stands beside the claim's own comparison too: "all three (P < .001); A and B (P < .001)"."""
    tokens, own = stands.reading.tokens, stands.token
    for at in found.places:
        if at != stands.at and (tokens[at].value, tokens[at].comparator) == (own.value, own.comparator):
            named = about.named_in(found.tested(at), stands.reading)
            if wanted and wanted <= named and named.isdisjoint(about.foreign):
                return True
    return False


def _of_a_pair(stands: Stands, found: PValues, claim: Claim, ties: Ties, known: Known) -> str:
    """Of three levels or more: "own", where the passage says that a P value compares the two of the claim, "told" where
    that is settled otherwise or was asked about, "" where it does not say."""
    names = names_tested(claim, known.factors, known.lexicon)
    wanted = _compared(stands, claim, names)
    if len(names) < 3 or len(wanted) < 2:
        return ""
    tokens, text = stands.reading.tokens, stands.reading.passage.text
    places = {at: (tokens[at].start, tokens[at].end) for at in found.all_listed()}
    mentions = stands.reading.mentions(names)
    pairs = pairs_of(text, mentions, list(places.values()))
    if stands.reading.table.has_cells:
        cells = {at: stands.reading.table.places[at] for at in places}
        in_table = pairs_in_table(text, mentions, list(cells.values()))
        pairs |= {places[at]: in_table[cell.cell] for at, cell in cells.items() if cell and cell.cell in in_table}
    of_claim = [at for at, place in places.items() if place in pairs and pairs[place].levels == wanted]
    own = pairs.get(places.get(stands.at, (-1, -1)))
    if stands.at in of_claim and own is not None:
        ties.tie(stands, "test", f"{own.first} against {own.second}", "words", (own.start, own.end))
        return "own"
    token = stands.token
    if any((tokens[at].value, tokens[at].comparator) == (token.value, token.comparator) for at in of_claim):
        return "told"
    if own is None:
        return ""
    ties.ask(
        stands, "other-test", f'has it for "{stands.printed((own.start, own.end))}"',
        f"the claim for {' against '.join(sorted(wanted))}", "type the P that stands beside the claim's own comparison",
    )  # fmt: skip
    return "told"


def _compared(stands: Stands, claim: Claim, names: Names) -> set[str]:
    """The levels that a claim says a P value compares, by their keys; empty where it does not say."""
    for test in _tests_of(stands, claim):
        if not isinstance(test.between, Missing):
            return {key_of(words.text, names) or words.text for words in test.between}
    contrast = claim.contrast
    if contrast is not None and stands.block.endswith("/contrast"):
        compared = (words.text for words in (contrast.level, contrast.reference) if type(words) is Words)
        return {key_of(words, names) or words for words in compared}
    return set()


def _of_the_factor(
    stands: Stands, tested: Tested, own: set[str], others: Sequence[Tested], about: _About
) -> Tested | None:
    """The P of the claim's factor, where this one is of another factor."""
    foreign = set() if about.is_of_factor(own) else about.others_in(tested, stands.reading)
    for other in others if foreign else ():
        is_own = about.is_of_factor(about.named_in(other, stands.reading))
        if is_own and foreign.isdisjoint(about.others_in(other, stands.reading)):
            return other
    return None


def _of_the_comparison(
    stands: Stands, tested: Tested, own: set[str], others: Sequence[Tested], about: _About, wanted: set[str]
) -> Tested | None:
    """The P of the claim's levels and outcome, where this one is of others, or of how they were at the start."""
    start = find_start(tested.words(stands.reading.passage.text))
    is_of_start = start is not None and about.OUTCOME not in own and not about.is_own_word(start[0])
    if not is_of_start and not own.isdisjoint(about.mine) and own.isdisjoint(about.foreign):
        return None
    for other in others:
        better = about.named_in(other, stands.reading)
        is_own = is_of_start and about.OUTCOME in better and wanted <= better | own
        if is_own or _is_better(own, better, wanted, about):
            return other
    return None


def _ask_for(stands: Stands, ties: Ties, tested: Tested, other: Tested) -> None:
    """The P of the words of another one."""
    ties.ask(
        stands, "other-test", f'has it beside "{_quoted(stands, tested)}"',
        f'the claim gives it to what stands beside "{_quoted(stands, other)}"',
        "type the P that stands beside the claim's own comparison",
    )  # fmt: skip


def _is_better(own: set[str], better: set[str], wanted: set[str], about: _About) -> bool:
    """Whether the words of another P are about the claim, and those of this one are not."""
    if not wanted.isdisjoint(own) and about.foreign.isdisjoint(own):
        return False
    if own.isdisjoint(about.mine):
        is_of_outcome = about.OTHER in own and about.OUTCOME in better and about.OTHER not in better
        return is_of_outcome or not better.isdisjoint(wanted | {about.FACTOR})
    if not own.isdisjoint(about.foreign_levels) and not wanted <= own:
        return len(wanted) > 1 and wanted <= better
    return not own.isdisjoint(about.foreign_outcomes) and about.OUTCOME not in own and about.OUTCOME in better


class _About:
    """What a claim is about, and what else its passages may name."""

    FACTOR, OUTCOME, OTHER = "the factor", "the outcome", "another outcome"

    def __init__(self, claim: Claim, ties: Ties, known: Known) -> None:
        self.names: Names = names_tested(claim, known.factors, known.lexicon)
        typed = {level.level.text for level in claim.levels}
        contrast = claim.contrast
        for words in (contrast.level, contrast.reference) if contrast is not None else ():
            if type(words) is Words:
                typed.add(words.text)
        for test in claim.tests:
            if not isinstance(test.between, Missing):
                typed |= {words.text for words in test.between}
        typed = {key_of(words, self.names) or words for words in typed}
        self.typed = typed = typed or {name.key for name in self.names}
        factor = claim.factor.text if claim.factor is not None else ""
        self._factor = own_stems(factor, known) if factor in known.factors else None
        self._known = known
        self._not_other = {factor, *(within.factor.text for within in claim.within)}
        self.outcome = claim.outcome.text
        self._counting = counting(claim, known)
        self.mine = typed | {self.FACTOR, self.OUTCOME}
        self.foreign_levels = {name.key for name in self.names} - typed
        self.foreign_outcomes = {self.OTHER}
        self.foreign = self.foreign_levels | self.foreign_outcomes

    def wanted(self, stands: Stands, claim: Claim) -> set[str]:
        """The levels that a P value compares."""
        return _compared(stands, claim, self.names) or self.typed

    def named_in(self, tested: Tested, reading: Reading) -> set[str]:
        """Which of them the words of a P value name."""
        found: set[str] = set()
        words: set[str] = set()
        for low, high in tested.spans:
            piece = reading.passage.text[low:high]
            found |= {mention.key for mention in mentions_of(piece, Plain(piece), (), self.names) if mention.key}
            words |= set(re.findall(r"[a-z]+", piece.lower()))
        if self._factor is not None and self._factor.are_in(words):
            found.add(self.FACTOR)
        return found | self._outcomes_in(tested, reading)

    def is_of_factor(self, named: set[str]) -> bool:
        """Whether words name the factor of the claim or a level of it."""
        return self.FACTOR in named or any(name.key in named for name in self.names)

    def is_own_word(self, word: str) -> bool:
        """Whether a word is one of the claim's factor: "sex"."""
        return self._factor is not None and self._factor.are_in({word.lower()})

    def others_in(self, tested: Tested, reading: Reading) -> set[str]:
        """Other factors that the words of a P value name as what it tests."""
        return others_named(tested.words(reading.passage.text), self._factor, self._not_other, self._known)

    def _outcomes_in(self, tested: Tested, reading: Reading) -> set[str]:
        own = self._counting.words.kinds.get(self.outcome, frozenset())
        found = set()
        for mention in self._counting.events(reading).mentions:
            if any(low <= mention.start < high for low, high in tested.spans):
                is_own = self.outcome in mention.meaning.outcomes or mention.meaning.kind in own
                found.add(self.OUTCOME if is_own else self.OTHER)
        return found


def _tests_of(stands: Stands, claim: Claim) -> Iterator[SignificanceTest]:
    for test in claim.tests:
        if getattr(test.p, "position", None) == stands.row.position:
            yield test


def _own_words(claim: Claim) -> str:
    words = [getattr(test.method, "text", "") for test in claim.tests]
    words += [getattr(claim.note, "text", "")]
    if claim.contrast is not None:
        words.append(getattr(claim.contrast.model, "text", ""))
    return " ".join(words).lower()
