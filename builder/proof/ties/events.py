"""Which event was counted: the outcome that the claim names, done or not done, good or bad, as the passage says it."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...numerals.late import late
from ...printed.clauses import Span
from ...printed.event_mentions import EventMention, Meaning
from ...printed.event_words import LENIENT, STRICT
from ...printed.events import NOTHING_SAID, Events, Said
from ...printed.pair_legends import legend_of_pairs
from ...printed.valued import RESULT
from ..asking import in_yaml
from .begun import only_begun
from .counted_events import Counted, OutcomeWords, counted, counting, has_marks_of_strictness
from .pinned import is_pinned_away
from .tie import Known, Stands, Ties

_BASIS = "Basis: the format of this guide; common practice, no source."

RULES: dict[str, str] = {
    "event-other": (
        "In the number's own clause, column or heading the passage speaks of another event than the claim: pain, "
        "swelling, survival, a technical success where the claim says healed. The number would be shown under the "
        "wrong outcome. Correct `outcome`; where the paper means the same by these words, add them to the synonyms of "
        f"the outcome in vocabulary.yaml. {_BASIS}"
    ),
    "event-opposite": (
        "In the number's own clause, column or heading the passage counts an event that goes the other way: failures "
        "where the claim counts successes, or a ratio of failing where `event_is` says good. Shown so, worse would "
        f"read as better. Correct `outcome` or `event_is`, or quote the narrower words in `in_words`. {_BASIS}"
    ),
    "event-denied": (
        "The passage denies the event that the claim counts: did not heal, without healing, no sign of failure. Type "
        "the number under the outcome that it counts; the paper's own words, whole with their negation, may stand in "
        f"`as`. {_BASIS}"
    ),
    "event-strictness": (
        "The passage counts by a looser or a stricter measure than the outcome of the claim: healed or healing where "
        "the outcome is strict, complete healing where it is lenient. The two are told apart on every page. Correct "
        f"`outcome`, or add the paper's words to its synonyms in vocabulary.yaml. {_BASIS}"
    ),
}


def find_events(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """The event of every number that counts one."""
    claim = ties.scope.claim
    if claim is None:
        return
    of_claim = counting(claim, known)
    words, blocks = of_claim.words, of_claim.blocks(ties.scope.name)
    for stands in standing:
        wanted = counted(stands, blocks)
        if wanted is None or not (ties.wanted or of_claim.speaks_against(stands.reading, wanted)):
            continue
        events = of_claim.events(stands.reading)
        if not stands.block.endswith("/contrast"):
            events = events.of_counts
        if events.mentions or wanted.said_as:
            Judged(stands, wanted, events, words, of_claim.levels).tell(ties)


def _without_those_turned(near: tuple[EventMention, ...]) -> tuple[EventMention, ...]:
    """Leave out of whom is spoken where the same is denied of them: "19 of 104 judged successful were no longer
    successful"."""
    denied = [each for each in near if each.is_denied and not each.is_of_a_group]
    if not denied:
        return near
    return tuple(
        each for each in near
        if not each.is_of_a_group or not any(each.meaning == one.meaning and each.end < one.start for one in denied)
    )  # fmt: skip


def places_of(small: str, wordings: Sequence[str]) -> list[Span]:
    """Where wordings stand as whole words. small: a passage in small letters."""
    found: list[Span] = []
    for wording in map(str.lower, wordings):
        start = small.find(wording)
        while start >= 0:
            end = start + len(wording)
            is_whole = not _is_of_word(small[start - 1 : start]) and not _is_of_word(small[end : end + 1])
            if is_whole:
                found.append((start, end))
            start = small.find(wording, end if is_whole and wording else start + 1)
    return found


def _is_of_word(letter: str) -> bool:
    return letter.isalnum() or letter == "_"


class Judged:
    """One number with what the passage says was counted."""

    def __init__(
        self, stands: Stands, wanted: Counted, events: Events, words: OutcomeWords, levels: Sequence[str]
    ) -> None:
        self.stands, self.wanted, self.events, self.words, self.levels = stands, wanted, events, words, levels
        said = events.said_of(stands.at)
        if said.listed is not None and self._names_several(said.listed):
            said = NOTHING_SAID
        exception = events.exception(stands.at) if events.mentions else None
        if exception is not None:  # "all but 8 healed"
            said = said._replace(
                own=tuple(mention.turned(exception) for mention in said.own),
                carried=tuple(mention.turned(exception) for mention in said.carried),
            )
        text = stands.reading.passage.text
        # "In the model lesion size (over 3 mm against up to 3 mm: OR 0.4) told": the name of a factor.
        heads = [mention for mention in said.own if self._heads_a_level(text, mention)]
        heads += [mention for mention in said.own if self._is_what_is_counted(text, mention)]
        if heads:
            said = said._replace(own=tuple(mention for mention in said.own if mention not in heads))
        self.said: Said = said
        self.text = stands.reading.passage.text

    def _heads_a_level(self, text: str, mention: EventMention) -> bool:
        """Whether words for an event stand straight before a bracket that begins with a level."""
        if text[mention.end : mention.end + 2] != " (" or not self.stands.block.endswith("/contrast"):
            return False
        small = self.stands.reading.small
        return any(small.startswith(level.lower(), mention.end + 2) for level in self.levels)

    def _is_what_is_counted(self, text: str, mention: EventMention) -> bool:
        """Whether words for an event are those for the unit of the study: "28 of 31 tears" counts tears."""
        lexicon, unit = self.stands.reading.lexicon, self.stands.row.unit
        return lexicon.unit_by_word.get(text[mention.start : mention.end].lower()) == unit

    def _names_several(self, span: Span) -> bool:
        """Whether a list may be one of levels: two are named beside it."""
        named = [place for place in places_of(self.stands.reading.small, self.levels) if span[0] <= place[0] < span[1]]
        return any(first[1] <= other[0] for first in named for other in named)

    def _is_bare(self, *spans: Span) -> bool:
        """Whether the part around the number holds nothing but small words, wordings of levels and these slices."""
        return self.events.is_bare(self.stands.at, [*places_of(self.stands.reading.small, self.levels), *spans])

    def tell(self, ties: Ties) -> None:
        """Tie or ask."""
        quoted = self._own_words()
        near = _without_those_turned(self._near())
        fitting = [mention for mention in near if self.against(mention) == ""]
        near = self._without_those_before(near, quoted)
        if near and not fitting and self._is_certain(near, quoted=bool(quoted)):
            worst = self._worst(near)
            if worst is not None:
                self._ask(ties, worst, self.against(worst))
                return
        marks = self._of_other_strictness(fitting) or self._loose_line()
        if marks is not None:
            self._ask_strictness(ties, marks)
            return
        if quoted or fitting:
            ties.settled.add(self.stands.row.id)
        if quoted:
            ties.tie(self.stands, "event", self.wanted.title, "reader", *quoted)
        elif fitting:
            ties.tie(self.stands, "event", self.wanted.title, "words", *fitting[0].spans)

    def _near(self) -> tuple[EventMention, ...]:
        """The words that stand nearest to a number: its own, else those it goes on from, else those of a legend."""
        if self.said.own:
            return self.said.own
        is_led = bool(self.said.carried) and (self.said.is_settled or self._is_bare())
        return self.said.carried if is_led else self._by_legend() or self._by_title()

    def _by_title(self) -> tuple[EventMention, ...]:
        """What a title over the passage says that its numbers are of: "Cumulative incidence of loss. Year 5: 18%"."""
        if self.said.carried or self.said.sentence or not self._is_bare():
            return ()
        start, end = self.events.layout.sentence(0)
        is_title = (
            end <= self.stands.token.start and end - start < _LONG and _is_title(self.text, start, end) is not None
        )
        return tuple(each for each in self.events.mentions if start <= each.start < end) if is_title else ()

    def _by_legend(self) -> tuple[EventMention, ...]:
        """What a legend says that the first of each pair counts: "Values are failures / eyes followed"."""
        span = legend_of_pairs(self.text) if self.stands.token.part == "events" else None
        if span is None or self.said.carried:
            return ()
        return tuple(each for each in self.events.mentions if span[0] <= each.start < span[1])

    def _without_those_before(self, near: tuple[EventMention, ...], quoted: Sequence[Span]) -> tuple[EventMention, ...]:
        return () if quoted and self._are_of_a_number_before(near, quoted) else near

    def _are_of_a_number_before(self, near: Sequence[EventMention], quoted: Sequence[Span]) -> bool:
        """Whether the words that a reader quoted lead straight to the number, and some others are said of a number
        before them: "72 were free of complaints, and 58 had closed"."""
        tokens, start = self.stands.reading.tokens, self.stands.token.start
        last = max((span for span in quoted if span[1] <= start), default=None)
        between = sum(last is not None and last[1] <= token.start < start for token in tokens)
        if last is None or not near or between > (self.stands.token.kind == "percent"):
            return False
        before = [at for at, token in enumerate(tokens) if token.start < last[0] and token.part != "total"]
        own = {(each.start, each.end) for at in before[-2:] for each in self._said_beside(at)}
        return all(each.end <= last[0] and (each.start, each.end) in own for each in near)

    def _said_beside(self, at: int) -> Sequence[EventMention]:
        """The words for events that are said of another number."""
        said = self.events.said_of(at)
        return said.own or said.carried

    def _worst(self, near: Sequence[EventMention]) -> EventMention | None:
        """The first of some words that break a rule, and that no reader quoted other words in place of."""
        broken = (mention for mention in near if self.against(mention) in RULES)
        return next((mention for mention in broken if not is_pinned_away(self.stands, *mention.spans)), None)

    def _is_certain(self, near: Sequence[EventMention], *, quoted: bool) -> bool:
        """Whether words that do not fit are meant: no word that fits stands where it may be meant as well."""
        own = bool(self.said.own)
        if self.said.is_settled:
            return True
        if self._is_one_of_several_signs(near):
            return False
        if quoted and not own:
            return False
        if own:
            if not all(mention.is_of_a_group for mention in near):
                return True
            if any(self.against(mention) == "event-denied" for mention in near):
                return True
            # "of 94 healed eyes 26% had lost it": what else is said there may be what was counted.
            if not self._is_bare(*(span for each in near for span in each.spans)):
                return False
        starts = {mention.start for mention in near}
        return not any(self.against(each) == "" for each in self.said.sentence if each.start not in starts)

    def against(self, mention: EventMention) -> str:
        """The rule that these words break; "" where they fit, "unclear" where nobody can tell."""
        wanted, meaning = self.wanted, mention.meaning
        if not wanted.may_be(meaning):
            # Whom nobody saw again nothing befell, whatever the outcome is.
            is_known = wanted.kinds or meaning.outcomes or meaning.kind == "attendance"
            return "event-other" if is_known else "unclear"
        if self._is_of_another(mention):
            return "event-other"
        # Of a number that is none, "none failed" and "0 failed" say the same.
        if not wanted.side or not mention.side or mention.side == wanted.side or not self.stands.token.value:
            is_of_any = meaning.kind == RESULT and "healing" not in wanted.kinds
            return "unclear" if is_of_any else ""
        return "event-denied" if mention.is_denied else "event-opposite"

    def _is_of_another(self, mention: EventMention) -> bool:
        """ "Graft survival: 91%" as survival of the patient, where the passage names that too: two outcomes alike."""
        own, named = self.wanted.outcome, mention.meaning.outcomes
        is_alike = not mention.is_denied and mention.side == self.wanted.side
        if not own or not named or own in named or not is_alike or self._twin([mention]):
            return False
        return any(own in each.meaning.outcomes and not each.is_denied for each in self.events.mentions)

    def _is_one_of_several_signs(self, near: Sequence[EventMention]) -> bool:
        """True of "46 of 50 were asymptomatic and showed no lesion" counted as healed: what healing means is listed."""
        if not self.wanted.side or any(mention.side != self.wanted.side for mention in near):
            return False
        last = max(mention.end for mention in near)
        further = [
            each
            for each in self.said.sentence
            if each.start > last and self.against(each) == "" and not self.events.has_number(last, each)
        ]
        return self.stands.token.start < last and bool(further)

    # Strictness

    def _of_other_strictness(self, fitting: Sequence[EventMention]) -> Span | None:
        """Where the words stand that count more, or less, than the outcome does; None where none do."""
        wanted = self.wanted
        if not wanted.strictness:
            return None
        own = [(each.start, each.end) for each in fitting if wanted.outcome in each.meaning.outcomes]
        if wanted.strictness == "strict" and (begun := only_begun(self.stands, fitting)) is not None:
            return begun
        lenient, strict = self._marks(LENIENT), self._marks(STRICT)
        is_marked = bool(lenient) if wanted.strictness == "lenient" else bool(strict)
        if not own and not is_marked and (twin := self._twin(fitting)) is not None:
            return twin
        found = lenient if wanted.strictness == "strict" else strict if not lenient else []
        others = [span for span in found if not any(start <= span[0] and span[1] <= end for start, end in own)]
        return others[0] if others and fitting and not is_pinned_away(self.stands, others[0]) else None

    def _loose_line(self) -> Span | None:
        """The words for a looser measure that lead the line of a number: "Complete and incomplete 53"."""
        at = self.stands.token.start
        start = self.text.rfind("\n", 0, at) + 1
        if not start or self.said.own or self.wanted.strictness != "strict":
            return None
        start += len(self.text[start:at]) - len(self.text[start:at].lstrip())
        found = LENIENT.match(self.text, start, at)
        if found is None or any(map(str.isdigit, self.text[found.end() : at])):
            return None
        return None if is_pinned_away(self.stands, found.span()) else found.span()

    def _marks(self, pattern: re.Pattern[str]) -> list[Span]:
        if not self.stands.reading.told(has_marks_of_strictness):
            return []
        return [
            found.span()
            for start, end in self.said.scope
            for found in pattern.finditer(self.text, start, min(end, len(self.text)))
        ]

    def _twin(self, fitting: Sequence[EventMention]) -> Span | None:
        """Words that the vocabulary gives to the outcome's lenient or strict twin alone."""
        outcomes = self.words.outcomes
        for mention in fitting:
            if self._is_less_than_lenient(mention):
                return mention.start, mention.end
            for name in mention.meaning.outcomes:
                of_own = outcomes[self.wanted.outcome].lenient_of
                of_other = outcomes[name].lenient_of
                is_twin = (of_own is not None and of_own.text == name) or (
                    of_other is not None and of_other.text == self.wanted.outcome
                )
                if is_twin and not mention.is_denied:
                    return mention.start, mention.end
        return None

    def _is_less_than_lenient(self, mention: EventMention) -> bool:
        """True of "healed" alone, where the outcome is "healed or healing"."""
        is_whole = self.text[mention.start : mention.end].lower() == "healed" and not mention.is_denied
        return is_whole and self.wanted.strictness == "lenient" and LENIENT.search(self.wanted.title) is not None

    # Words of the reader

    def _own_words(self) -> list[Span]:
        """Where the paper's own words for what was counted (`as`) stand beside the number."""
        found = []
        sentence = self.events.layout.sentence(self.stands.token.start)
        for words in self.wanted.said_as:
            pattern = r"\s+".join(map(re.escape, words.text.split()))
            for match in re.finditer(pattern, self.text, re.IGNORECASE):
                if sentence[0] <= match.start() < sentence[1] or any(
                    start <= match.start() < end for start, end in self.said.scope
                ):
                    found.append(match.span())
        return found

    # Questions

    def _ask(self, ties: Ties, mention: EventMention, rule: str) -> None:
        printed, title = self._printed(mention), self.wanted.title
        if rule == "event-other":
            ties.ask(
                self.stands, rule, f'speaks of "{printed}" there', f'the claim of "{title}"',
                self._mend(printed, mention.meaning),
            )  # fmt: skip
            return
        field = "event_is" if self.stands.block.endswith("/contrast") else "outcome"
        way = f" ({self.wanted.side})" if self.wanted.side else ""
        verb = "denies it there" if rule == "event-denied" else "counts the opposite there"
        ties.ask(
            self.stands, rule, f'{verb}: "{printed}"', f'the claim counts "{title}"{way}', f"correct `{field}`",
        )  # fmt: skip

    def _ask_strictness(self, ties: Ties, span: Span) -> None:
        printed = self.stands.printed(span)
        ties.ask(
            self.stands, "event-strictness", f'counts "{printed}" there',
            f'the claim "{self.wanted.title}", which is {self.wanted.strictness}', "correct `outcome`",
        )  # fmt: skip

    def _mend(self, printed: str, meaning: Meaning) -> str:
        """The outcome; or the words as a synonym, where they mean nothing else anywhere."""
        mend = "correct `outcome`"
        if self.words.may_be_synonym(printed, meaning, self.wanted):
            return (
                f"{mend}; or, where these words mean it here, give them to it in vocabulary.yaml:\n"
                f"synonyms: [{in_yaml(printed)}]"
            )
        return (
            f'{mend}; or type more of the report into the passage, where it says that these are "{self.wanted.title}"'
        )

    def _printed(self, mention: EventMention) -> str:
        """The words with what denies them."""
        start = min(low for low, _ in mention.spans)
        end = max(high for _, high in mention.spans)
        if end - start > _LONG:
            return self.stands.printed(*sorted(mention.spans))
        return self.stands.printed((start, end))


_LONG = 80
_is_title = late(
    r"(?:(?!\b(?:was|were|had|has|is|are|did|showed?|we|no|not)\b)[^\d;:|\n])+[.:]?\s*", re.IGNORECASE
).fullmatch
