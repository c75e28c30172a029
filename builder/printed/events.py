"""What befell the units that a printed number counts, as the words of its own clause, column or heading say it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cached_property
from itertools import pairwise

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import late
from ..numerals.words import SMALL
from ..records import NamedTuple
from .clauses import Span
from .ellipses import Elided, elided
from .event_mentions import EventMention, EventWords, is_listed
from .lists import Item, items_of, runs_of
from .negation import left_unsaid
from .passing_words import ratio_events_in
from .sentences import Layout, layout_of
from .tables import InCell
from .word_stream import Word


class Said(NamedTuple):
    """The words for events around one number."""

    own: tuple[EventMention, ...]
    """In its own part of the sentence, its column or its row."""
    carried: tuple[EventMention, ...] = ()
    """Where its own part has none: those it goes on from."""
    sentence: tuple[EventMention, ...] = ()
    """All of the sentence."""
    is_settled: bool = False
    """True where the order of words and numbers says which of several is its own."""
    scope: tuple[Span, ...] = ()
    """Slices of the passage that these words stand in."""
    listed: Span | None = None
    """Where a bare list stands that goes through the events of the clause before: "the figures were 70, 16 and 14"."""


NOTHING_SAID = Said(())


class Events:
    """The words for events of one passage, with the number each speaks of."""

    def __init__(
        self,
        text: str,
        tokens: Sequence[Token],
        words: Sequence[Word],
        cells: Sequence[InCell | None],
        event_words: EventWords,
        masked: Sequence[Span] = (),
    ) -> None:
        self.text, self.tokens, self.words, self.cells = text, tokens, words, cells
        self.event_words, self._masked = event_words, masked
        self.mentions = event_words.mentions(self.words, masked)
        self.layout: Layout = layout_of(text, self.words, [mention.start for mention in self.mentions], tokens)
        self._groups = _groups(self.words, self.mentions)
        self._units = event_words.units
        self._said: dict[int, Said] = {}

    @cached_property
    def of_counts(self) -> Events:
        """The same for numbers that are no ratios: "failure" in "OR for failure" tells them nothing."""
        names = ratio_events_in(self.text) if self.mentions else []
        if not any(start <= mention.start < end for mention in self.mentions for start, end in names):
            return self
        masked = [*self._masked, *names]
        return Events(self.text, self.tokens, self.words, self.cells, self.event_words, masked)

    def said_of(self, at: int) -> Said:
        """What is said of the number at this place among the passage's; looked for once for all that ask."""
        found = self._said.get(at)
        if found is None:
            found = self._said[at] = self._looked_for(at)
        return found

    def _looked_for(self, at: int) -> Said:
        if not self.mentions:
            return NOTHING_SAID
        token = self.tokens[at]
        cell = self.cells[at]
        if cell is not None:
            return self._in_a_table(cell)
        sentence = self.layout.sentence(token.start)
        inside = self._within(sentence)
        if (listed := self._as_before(at, sentence)) is not None:
            return listed
        unsaid = self._elided(at)
        if not inside:
            return self._of_next(sentence, unsaid) if unsaid is not None and not unsaid.is_turned else NOTHING_SAID
        if (ordered := self._by_order(at, sentence)) is not None:
            return Said((ordered,), sentence=inside, is_settled=True, scope=((ordered.start, ordered.end),))
        part = self.layout.part(token.start)
        own = self._within(part)
        if unsaid is not None and (again := self._told_again(unsaid, token.start, part, inside)) is not None:
            return again
        if own:
            return self._of_part(at, part, own, inside)
        if (subject := self._over_an_aside(part, sentence)) is not None:
            return Said(self._with_group(self._within(subject)), sentence=inside, scope=(subject, part))
        if (behind := self._of_clause(part, sentence)) is not None:
            return Said((), behind, inside, is_settled=True, scope=(part,))
        denied = left_unsaid([word for word in self.words if sentence[0] <= word.start < part[1]], part[0])
        carried = self._carried(part, inside, is_elided=denied is not None)
        scope = (part, *(self.layout.part(mention.start) for mention in carried))
        if denied is not None and token.kind != "ratio":  # of a ratio: "it did not raise the odds"
            return Said((), tuple(mention.turned(denied) for mention in carried), inside, is_settled=True, scope=scope)
        return Said((), carried, inside, scope=scope)

    def _over_an_aside(self, part: Span, sentence: Span) -> Span | None:
        """ "Whole or partial healing, the usual definition, was noted in 50": what the verb behind an aside goes on
        from, where it names events."""
        if _goes_on(self.text, *part) is None:
            return None
        aside = self.layout.part(part[0] - 2)
        if aside[0] <= sentence[0] or _is_aside(self.text, *aside) is None:
            return None
        subject = self.layout.part(aside[0] - 2)
        return subject if subject[1] <= aside[0] and self._within(subject) else None

    def _elided(self, at: int) -> Elided | None:
        """The verb behind a count that says yes or no alone."""
        token = self.tokens[at]
        if token.kind == "ratio" or token.part == "total":
            return None
        end = max(token.end, token.outer_end)
        if token.pair >= 0 and token.part == "events":
            end = max(end, self.tokens[token.pair].outer_end, self.tokens[token.pair].end)
        return elided(self.text, token, end)

    def _told_again(self, unsaid: Elided, start: int, part: Span, inside: tuple[EventMention, ...]) -> Said | None:
        """What "had" or "did not" takes up; None where its own part says something of the number already."""
        own = self._within(part)
        if own and not (unsaid.is_denied and all(each.end <= start for each in own)):
            return None
        taken = own or self._carried(part, inside, is_elided=True)
        told = tuple(unsaid.said_of(self.text, each) for each in taken)
        scope = (part, *(self.layout.part(each.start) for each in taken))
        return Said((), told, inside, is_settled=True, scope=scope) if told else None

    def _of_next(self, sentence: Span, unsaid: Elided) -> Said:
        """What is said in the sentence before, or in the one behind: "26 of 32 did not. Only 6 healed"."""
        before = self._within(self.layout.sentence(sentence[0] - 1)) if sentence[0] else ()
        taken = before[-1:] or self._within(self.layout.sentence(sentence[1]))[:1]
        told = tuple(unsaid.said_of(self.text, each) for each in taken)
        return Said((), told, told, is_settled=bool(told), scope=(sentence,))

    def _within(self, span: Span) -> tuple[EventMention, ...]:
        return tuple(mention for mention in self.mentions if span[0] <= mention.start < span[1])

    def _of_part(self, at: int, part: Span, own: tuple[EventMention, ...], inside: tuple[EventMention, ...]) -> Said:
        """Its own part has words: all of them, or by order where numbers and words take turns."""
        own = self._without_the_rest(at, part, own)
        numbers = [index for index in self._counts(part) if not self.layout.is_in_brackets(self.tokens[index].start)]
        grouped = self._with_group(own)
        if len(own) > 1 and len(numbers) > 1:
            start = self.tokens[at].start
            is_word_first = own[0].start < self.tokens[numbers[0]].start
            before = [mention for mention in own if mention.start < start]
            behind = [mention for mention in own if mention.start > start]
            chosen = (before[-1:] or behind[:1]) if is_word_first else (behind[:1] or before[-1:])
            return Said(self._with_group(tuple(chosen)), sentence=inside, is_settled=True, scope=(part,))
        return Said(grouped, sentence=inside, scope=(part,))

    def _without_the_rest(self, at: int, part: Span, own: tuple[EventMention, ...]) -> tuple[EventMention, ...]:
        """Of "19 of 97 had failed and the others were a success" what is said before "the others"."""
        start = self.tokens[at].start
        rest = next(
            (word.start for word in self.words if start < word.start < part[1] and word.text in _THE_REST), part[1]
        )
        before = tuple(mention for mention in own if mention.start < rest)
        return before if any(mention.start > start for mention in before) else own

    def _counts(self, span: Span) -> list[int]:
        """Numbers of a slice that may count events: no totals, times or bounds."""
        return [
            index
            for index, token in enumerate(self.tokens)
            if span[0] <= token.start < span[1]
            and token.part != "total"
            and token.kind in ("count", "number", "percent")
        ]

    def _with_group(self, mentions: tuple[EventMention, ...]) -> tuple[EventMention, ...]:
        """With those of one list: "pain and swelling"."""
        out: list[EventMention] = []
        for mention in mentions:
            out += [each for each in self._groups.get(mention.start, [mention]) if each not in out]
        return tuple(out)

    def _by_order(self, at: int, sentence: Span) -> EventMention | None:
        """ "healed, uncertain and failed: 39, 5 and 3": as many numbers as events, each in its place."""
        lists = {id(group): group for group in self._groups.values() if sentence[0] <= group[0].start < sentence[1]}
        if not lists:
            return None
        kind = self.tokens[at].kind
        for group in lists.values():
            numbers = [
                index
                for index in self._counts(sentence)
                if (self.tokens[index].kind == "percent") == (kind == "percent")
                and (kind == "percent" or not self.layout.is_in_brackets(self.tokens[index].start))
            ]
            outside = all(not group[0].start < self.tokens[index].start < group[-1].start for index in numbers)
            if len(numbers) == len(group) and at in numbers and outside:
                return group[numbers.index(at)]
            runs = self._runs(sentence) if outside and len(group) > _TWO and len(numbers) > len(group) else []
            if all(len(run) == len(group) for run in runs):  # once for each of several levels
                places = [at_ for run in runs for at_, item in enumerate(run) if at in item.numbers[:1]]
                if places:
                    return group[places[0]]
        return None

    def _carried(
        self, part: Span, inside: tuple[EventMention, ...], *, is_elided: bool = False
    ) -> tuple[EventMention, ...]:
        """The words that a part without any goes on from: those before it, or else those behind.

        is_elided: "8 had healed; the remaining 39 had not" goes on from them, "the remaining 39" beside others does
        not.
        """
        words = [word for word in self.words if part[0] <= word.start < part[1]]
        if not is_elided and any(word.text in _THE_REST for word in words):
            return ()
        before = [
            mention for mention in inside
            if mention.start < part[0] and not self.layout.is_in_brackets(mention.start)
        ]  # fmt: skip
        if not before:
            behind = [mention for mention in inside if mention.start > part[0]]
            return self._with_group(tuple(behind[:1]))
        return self._with_group((before[-1],))

    def _of_clause(self, part: Span, sentence: Span) -> tuple[EventMention, ...] | None:
        """ "31 and 44 had died, whereas 58 and 83 were admitted": the words of a clause that a joining word opens."""
        cuts = [
            word.start for word in self.words if sentence[0] < word.start < sentence[1] and word.text in _OPENING
        ]  # fmt: skip
        low = max((cut for cut in cuts if cut <= part[0]), default=-1)
        if low < 0:
            return None
        found = self._within((low, min((cut for cut in cuts if cut > part[0]), default=sentence[1])))
        group = self._with_group(found[:1])
        return group if found and len(group) == len(found) else None

    def _as_before(self, at: int, sentence: Span) -> Said | None:
        """A list without any words for events goes through those of the clause before, each in its place."""
        start = self.tokens[at].start
        stretch = self._stretch(start, sentence)
        if self._within(stretch) or self.tokens[at].kind not in ("count", "number", "percent"):
            return None
        run = next((run for run in self._runs(stretch) if any(at in item.numbers for item in run)), [])
        place = next((index for index, item in enumerate(run) if item.numbers[0] == at), -1)
        if len(run) < 2 or place < 0 or not stretch[0] or self._times_in(stretch) > 1:
            return None
        last = stretch[0] - 1
        events = self._told_in_turn(self._stretch(last, self.layout.sentence(last)), len(run))
        if events is None:
            return None
        mention = events[place]
        return Said((mention,), sentence=tuple(events), is_settled=True, listed=stretch)

    def _stretch(self, at: int, sentence: Span) -> Span:
        """The part of a sentence between its semicolons."""
        cuts = [word.start for word in self.words if word.text == ";" and sentence[0] < word.start < sentence[1]]
        low = max((cut for cut in cuts if cut <= at), default=sentence[0])
        return low, min((cut for cut in cuts if cut > at), default=sentence[1])

    def _runs(self, span: Span) -> list[list[Item]]:
        numbers = [index for index in self._counts(span) if not self.layout.is_in_brackets(self.tokens[index].start)]
        return runs_of(items_of(self.text, self.tokens, numbers, [], self._units))

    def _times_in(self, span: Span) -> int:
        return sum(span[0] <= token.start < span[1] and token.kind == "length" for token in self.tokens)

    def _told_in_turn(self, span: Span, count: int) -> list[EventMention] | None:
        """The events of so many numbers, each with its own: "84 healed, 11 were doubtful and 5 failed"."""
        events: list[EventMention] = []
        for index in self._counts(span):
            token = self.tokens[index]
            if self.layout.is_in_brackets(token.start) or _is_of_whole(self.text[span[0] : token.start]) is not None:
                continue
            if self.layout.part(token.start) == span and count > 1:
                return None
            said = self.said_of(index)
            if len(said.own) != 1:
                return None
            events.append(said.own[0])
        is_each_once = len({(event.start, event.end) for event in events}) == len(events)
        return events if len(events) == count and is_each_once else None

    def is_bare(self, at: int, named: Sequence[Span]) -> bool:
        """Whether the part around a number holds nothing but small words, units, times and what is named.

        Only such a part goes on from the words before it: "up to 3 mm: 36 of 38"; in "lesion smaller 11" other words
        say what was counted. named: slices with the wordings of levels.
        """
        cell = self.cells[at]
        start, end = cell.cell if cell is not None else self.layout.part(self.tokens[at].start)
        return all(
            word.is_number or word.is_mark or word.text in _SMALL or word.text in self._units
            or any(low <= word.start < high for low, high in named)
            for word in self.words
            if start <= word.start < end and not self.layout.is_in_brackets(word.start)
        )  # fmt: skip

    def _in_a_table(self, cell: InCell) -> Said:
        """The cell itself, or the headings of its column and its row; else what stands above the table."""
        own = self._within(cell.cell)
        if own:
            return Said(self._with_group(own), sentence=own, scope=(cell.cell,))
        beside = (*cell.headings, *(other for other in cell.others if not self._has_figure(other)))
        named = tuple(mention for span in beside for mention in self._within(span))
        if named:
            return Said(named, sentence=named, scope=beside)
        over = tuple(mention for span in cell.above for mention in self._within(span))
        return Said((), over, over, scope=cell.above)

    def _has_figure(self, cell: Span) -> bool:
        """Whether a cell holds digits that are no time: those of "healed by 12 months" are."""
        if not _digit(self.text, *cell):
            return False
        start = cell[0]
        for token in self.tokens:
            if token.kind == "length" and cell[0] <= token.start < cell[1]:
                if _digit(self.text, start, token.start):
                    return True
                start = token.end
        return _digit(self.text, start, cell[1]) is not None

    def has_number(self, start: int, mention: EventMention) -> bool:
        """Whether numbers part a place from words for an event behind it, or stand in their own part."""
        part = self.layout.part(mention.start)
        return any(start <= token.start < part[1] for token in self.tokens)

    def exception(self, at: int) -> Span | None:
        """Where "all but 8" stands of "all but 8 healed": the 8 did not. None where a number is excepted by nothing."""
        token = self.tokens[at]
        if token.part == "events" and self.tokens[token.pair].end <= token.start:  # "all 30 but two", read as 28 of 30
            return None
        low = max(0, token.outer_start - 30)
        found = _excepted(self.text[low : token.outer_start])
        return (low + found.start(), token.end) if found is not None else None


_SMALL = frozenset({
    "a", "about", "after", "against", "all", "also", "an", "and", "apart", "approximately", "are", "arm", "arms", "as",
    "at", "except", "exception",
    "be", "been", "but", "by", "case", "cases", "cent", "ci", "compared", "control", "controls", "day", "days",
    "did", "do", "even", "for", "from", "group", "groups", "had", "has", "have", "in", "is", "it", "just", "mm",
    "month", "months", "n", "not", "of", "on", "only", "or", "over", "p", "per", "percent", "rate", "rates",
    "respectively", "risk", "so", "strict", "strictly", "lenient",
    "criteria", "test", "than", "that", "the", "them", "then", "there", "these", "they", "this", "those", "to",
    "under", "up", "versus", "vs", "was", "without", "week", "weeks", "were", "whereas", "which", "while", "who",
    "whom", "with", "within", "year", "years", *SMALL,
})  # fmt: skip
"""Words that say nothing of what was counted."""
_TWO = 2
""" "Healed and failed were 84 and 70, and 16 and 30, with A and B": two may be levels."""
_OPENING = frozenset({"while", "whereas", "but", "although", "though", ";"})
_is_of_whole = late(r"\b(?:of|among|from)\s+(?:the\s+|all\s+|these\s+)?$", re.IGNORECASE).search
_digit = compiled(r"\d").search
_goes_on = late(
    r"[\s,]*(?:was|were|had been|has been)\s+(?:seen|found|noted|recorded|observed|registered|reported|reached|"
    r"achieved|obtained|counted|present|confirmed|documented|verified|established|diagnosed|demonstrated)\b",
    re.IGNORECASE,
).match
_is_aside = late(
    r"[\s,]*(?:(?:the|an?|our|their|which|as|that is|i\.e\.)\b[^\d]*|(?:however|moreover|finally|therefore|though|"
    r"(?:in|by) contrast|in turn|on the other hand|in fact|by comparison)\s*)$",
    re.IGNORECASE,
).match
_THE_REST = frozenset({"remaining", "others", "other", "rest", "remainder"})
EXCEPTING = frozenset({"but", "except", "excepting", "exception", "bar", "apart"})
"""One of them stands in whatever excepts a number."""
_excepted = late(
    r"(?:\b(?:all|everyone|any|every\s\w+)\s+(?:\w+\s+)?(?:but|except|bar|save)(?:\s+for)?|\bwith\s+the\s+exception\s+of|"
    r"\bexcept(?:ing)?(?:\s+(?:for|in|with|among))?|\bapart\s+from)\s+(?:the\s+)?$",
    re.IGNORECASE,
    holds=("but", "except", "bar", "apart", "save"),
).search


def _groups(words: Sequence[Word], mentions: Sequence[EventMention]) -> dict[int, list[EventMention]]:
    """By the start of each: the events that are listed with it."""
    by_start = {word.start: at for at, word in enumerate(words)}
    by_end = {word.end: at for at, word in enumerate(words)}
    out: dict[int, list[EventMention]] = {}
    for before, mention in pairwise(mentions):
        if is_listed(words, by_end[before.end], by_start[mention.start]):
            group = out.setdefault(before.start, [before])
            group.append(mention)
            out[mention.start] = group
    return out
