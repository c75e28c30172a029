"""Whose result a printed number is: of this report or others, observed or assumed, of the start, of which analysis."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from functools import cached_property

from ..numerals import Token
from ..records import NamedTuple
from .beside_ours import set_against_ours, set_beside_ours
from .clauses import Span
from .footnotes import note_of
from .from_to import first_of_change, is_before_arrow, is_behind_arrow
from .leading_works import leads_to, tells_of
from .other_works import Work, cited_in, work_of, works_in
from .passing_words import adjusters_in
from .sentences import Layout, layout_of
from .start_told import bracket_of_start, came_with, is_timed, title_of_start, title_over_table
from .start_words import (
    ACT,
    AFTER,
    BEFORE_ALONE,
    BEFORE_CELL,
    COMPARED_WITH,
    DONE,
    IN_WHOM,
    LATER,
    OF_WHOM,
    PLACED,
    PLACED_CLOSES,
    START,
    WENT_ON,
    before_treatments,
)
from .tables import InCell
from .unobserved import WORDS_OF_PLANS, unobserved
from .whose_words import (
    ALTHOUGH,
    APPOSED,
    AS_EXAMPLE,
    ASSUMED,
    BY_INTENTION,
    CITED_YEAR,
    CONDITION,
    CONSEQUENCE,
    CRITERIA,
    IMPUTED,
    LED,
    NAMED_ONLY,
    NOT_NAMES,
    OF_OURS,
    OF_PLANS,
    ON_WHICH,
    PER_PROTOCOL,
    SEEN,
    TOLD,
    TRIGGERS,
    may_lead,
    may_tell,
)
from .word_stream import Word


class Cue(NamedTuple):
    """Words that say whose a number is."""

    start: int
    end: int
    kind: str
    """others, assumed, imputed, start, change (the first of two), day (of the treatment itself), per protocol or
    intention to treat."""
    place: str = ""
    """Of a study that is named by a place, which may be this one: "In the Leeds trial"."""


class Whose:
    """What one passage says of whose its numbers are."""

    def __init__(
        self, text: str, tokens: Sequence[Token], said: frozenset[str], words: Callable[[], Sequence[Word]],
        cells: Sequence[InCell | None], authors: str, treatments: frozenset[str],
    ) -> None:  # fmt: skip
        """said: the words of the passage, each once. words: gives them in their order, which is seldom asked.
        treatments: what the trade does to what it counts."""
        self.text, self.tokens, self.cells, self.authors, self._words = text, tokens, cells, authors, words
        self._before = before_treatments(treatments)
        self._spoken: dict[int, tuple[list[re.Match[str]], list[re.Match[str]], list[Work]]] = {}
        self._planned: dict[int, list[Cue]] = {}
        self._may_be_unobserved = not WORDS_OF_PLANS.isdisjoint(said)
        self.is_silent = TRIGGERS.isdisjoint(said) and not self._may_be_unobserved and not CITED_YEAR.search(text)

    @cached_property
    def layout(self) -> Layout:
        """Its sentences and their parts."""
        return layout_of(self.text, self._words(), (), self.tokens)

    @cached_property
    def _adjusters(self) -> list[Span]:
        return adjusters_in(self.text)

    def others(self, number: int, *, is_discussion: bool, is_introduction: bool = False) -> Cue | None:
        """Words that give the number to another report; of an introduction such words anywhere in its sentence."""
        if self.is_silent:
            return None
        token = self.tokens[number]
        start, end = self.layout.sentence(token.start)
        sentence = self.text[start:end]
        place = token.start - start
        if OF_OURS.match(sentence, token.end - start):
            return None
        if start not in self._spoken:  # asked once for all numbers of the sentence
            self._spoken[start] = (
                list(LED.finditer(sentence)) if may_lead(sentence) else [],
                list(TOLD.finditer(sentence)) if may_tell(sentence) else [],
                works_in(sentence, self.authors),
            )
        led, told, works = self._spoken[start]
        for matches, speaks, is_alone_too in ((led, leads_to, is_discussion), (told, tells_of, True)):
            for found in matches:
                if self._has_own_number(start + found.end(), token.start):
                    continue
                if speaks(found, sentence, place) and self._is_another(found, sentence, is_discussion=is_alone_too):
                    name = next((found[key] for key in _PLACES if found.groupdict().get(key)), "")
                    return Cue(start + found.start(), start + found.end(), "others", name)
        at = (place, max(token.end, token.outer_end) - start)
        work = work_of(sentence, works, at, self.tokens, start, is_discussion=is_discussion)
        if work is not None:
            return Cue(start + work[0], start + work[1], "others")
        ours = self._beside_ours(token, (start, end), start + at[1])
        if ours is None and is_introduction:
            ours = cited_in(self.text, (start, end), token)
        return Cue(*ours, "others") if ours is not None else None

    def _beside_ours(self, token: Token, sentence: Span, end: int) -> Span | None:
        """What the authors set their own result against, where that is the number. end: of the number."""
        following = self.layout.sentence(sentence[1]) if sentence[1] < len(self.text) else None
        ours = set_against_ours(self.text, sentence, (token.start, end), following)
        return ours or set_beside_ours(self.text, sentence, (token.start, end))

    def _has_own_number(self, end: int, place: int) -> bool:
        """Whether the clause of others' words has a number, and another clause this one: "found 66 of 81; 39 of 47"."""
        stop = self.text.find(";", end, max(end, place))
        return stop >= 0 and any(end <= each.start < stop and each.kind in ("count", "percent") for each in self.tokens)

    def _is_another(self, found: re.Match[str], sentence: str, *, is_discussion: bool) -> bool:
        """Whether the name is one, and not an author of this report; no name alone outside of a discussion."""
        groups = found.groupdict()
        name = next((groups[key] for key in _NAMED if groups.get(key)), "")
        ahead = sentence[: found.start()]
        if CRITERIA.search(ahead.lower()) or (NAMED_ONLY.search(ahead) and " who " not in found[0]):
            return False
        if groups.get("alone") and not (is_discussion and not name.endswith("s")):
            return False
        first = name.split(" ")[0].rstrip(",")
        return not first or (first not in NOT_NAMES and first not in self.authors)

    def planned(self, at: int, *, is_near: bool) -> Cue | None:
        """Words that make the number an assumption, a plan, or what would have been; is_near: straight before it."""
        if self.is_silent or (is_near and not self._has_plans):
            return None
        token = self.tokens[at]
        start, end = self.layout.sentence(token.start)
        for cue in self._plans(start, min(end, len(self.text))):
            if is_near and not 0 <= token.start - cue.end < _NEAR:
                continue
            if is_near and self.text.find(",", cue.end, token.start) >= 0:
                continue
            if self._is_parted(cue, token):
                continue
            if cue.start <= token.start and self._is_told_beside(cue.end, token, end):
                continue
            return cue
        return None if is_near else self._supposed(at, start, min(end, len(self.text)))

    def _is_parted(self, cue: Cue, token: Token) -> bool:
        """Whether a semicolon, or a comma behind the number, parts it from words for a plan."""
        between = self.text[min(cue.end, token.end) : max(cue.start, token.start)]
        is_behind_comma = cue.start > token.start and ", " in between and not ON_WHICH.search(self.text, token.end)
        return ";" in between or (is_behind_comma and APPOSED.search(between) is None)

    @cached_property
    def _has_plans(self) -> bool:
        return IMPUTED.search(self.text) is not None or ASSUMED.search(self.text) is not None

    def _plans(self, start: int, end: int) -> list[Cue]:
        """Every word of a sentence for what was only assumed, asked once for all its numbers."""
        if start not in self._planned:
            self._planned[start] = [
                Cue(*found.span(), kind)
                for kind, pattern in (("imputed", IMPUTED), ("assumed", ASSUMED))
                for found in pattern.finditer(self.text, start, end)
            ]
        return self._planned[start]

    def _is_told_beside(self, begin: int, token: Token, end: int) -> bool:
        """ "Although the sample size rested on 80%, 42 of 50 healed": the number before was assumed, this was seen."""
        comma, sentence = self.text.rfind(", ", begin, token.start), self.layout.sentence(token.start)[0]
        if comma > 0 and ALTHOUGH(self.text, sentence) is not None and " would " not in self.text[comma:end]:
            return any(sentence <= each.start < comma and each.kind in OF_PLANS for each in self.tokens)
        has_own = any(begin <= each.start < comma and each.kind in ("count", "percent") for each in self.tokens)
        stop = self.text.find(";", token.end, min(end, len(self.text)))  # behind it another thing is supposed
        stop = stop if stop >= 0 else min(end, len(self.text))
        is_supposed = not has_own or self.text.find(" would ", token.end, stop) >= 0
        return not is_supposed and SEEN.search(self.text, token.end, stop) is not None

    def _supposed(self, at: int, start: int, end: int) -> Cue | None:
        """ "If 30 of 40 heal, the trial has power", "By way of example, 30 of 40 heal in such a clinic"."""
        token = self.tokens[at]
        if self._may_be_unobserved and self.cells[at] is None:
            number = token.start, max(token.end, token.outer_end)
            if (words := unobserved(self.text, (start, end), number)) is not None:
                return Cue(*words, "assumed")
        if (found := AS_EXAMPLE.search(self.text, start, token.start)) and not SEEN.search(self.text, found.end(), end):
            return Cue(found.start(), found.end(), "assumed")
        found = CONDITION.search(self.text[start : token.start])
        if found is not None and CONSEQUENCE.search(self.text, token.end, end):
            return Cue(start + found.start(), token.start, "assumed")
        return None

    def at_start(self, at: int) -> Cue | None:
        """Words that place the number before the treatment, or at it."""
        if self.is_silent:
            return None
        token = self.tokens[at]
        if (over := self._start_over(at)) is not None or self.cells[at] is not None:
            return over
        start, _ = self.layout.sentence(token.start)
        if is_before_arrow(self.text, token) and (told := self._starts(0, token.start)):
            return told[0]
        if (first := first_of_change(self.text, self.tokens, token, start)) is not None:
            return Cue(*first, "change")
        end = min(self.layout.part(token.start)[1], len(self.text))
        line = self.text.find("\n", token.end, end)
        behind = next(iter(self._starts(token.end, end if line < 0 else line)), None)
        # "to 8 of 47 at 1 week"
        if is_behind_arrow(self.text, token) or is_timed(
            self.text, self.tokens, token.end, behind.start if behind else end
        ):
            return None
        if behind is not None and self._is_of(token, behind):
            return behind
        placed = self._start_before(token, start, end) or self._placed(token, start, end)
        return placed or self._told_apart(token, (start, end))

    def _told_apart(self, token: Token, part: Span) -> Cue | None:
        """A title over all, or why people came."""
        came = came_with(self.text, token.end, part, self.layout.sentence(token.start)[1])
        if came is not None and self._is_of(token, cue := Cue(*came, "start")):
            return cue
        title = None if is_timed(self.text, self.tokens, *part) else title_of_start(self.text, token.start, part)
        return Cue(*title, "start") if title is not None else None

    def _start_over(self, at: int) -> Cue | None:
        """Words of the start in the headings and the row of a number in a table."""
        for heading in self._headings(at):
            if found := self._starts(*heading):
                return found[0]
            if BEFORE_CELL.fullmatch(self.text, *heading):
                return Cue(*heading, "start")
        title = title_over_table(self.text, self.tokens[at].start) if self.cells[at] is not None else None
        return Cue(*title, "start") if title is not None else None

    def _is_of(self, token: Token, behind: Cue) -> bool:
        """Whether words of the start behind a number are its own, and do not tell of whom it is."""
        own = bracket_of_start(self.text, token.end, behind.start)
        if self._counts(token.outer_end, behind.start) or (own is not None and self._figures(*own)):
            return False
        if OF_WHOM.search(self.text, token.end, behind.start) is None:
            return True
        is_whose = IN_WHOM.search(self.text, token.end, behind.start) is not None
        return not is_whose and PLACED_CLOSES.match(self.text, behind.end) is not None

    def _start_before(self, token: Token, start: int, end: int) -> Cue | None:
        """Words of the start that lead to the number."""
        before = [cue for cue in self._starts(start, token.start) if not OF_WHOM.search(self.text, start, cue.start)]
        if ACT.match(self.text, start, end):
            return None
        if before and not self._is_later(before[-1].end, token.start) and not LATER.search(self.text, token.end, end):
            cue = before[-1]
            own = self.layout.part(cue.start)
            # "fell from 20 of 47 at baseline to 8 of 47": the words are those of the number before them.
            if own[0] > start or not self._counts(own[0], cue.start):
                return cue
        return None

    def _placed(self, token: Token, start: int, end: int) -> Cue | None:
        """The same in words that may tell of what was done: "Before loading, 50 of 52", "before 45 of 88, after"."""
        for found in PLACED.finditer(self.text, start, end):
            kind = "day" if found["day"] else "start"
            if found.end() <= token.start and self._leads(found.start(), found.end(), start, token.start):
                return Cue(found.start(), found.end(), kind)
            if found.start() >= token.end and self._closes(token, found.start(), found.end()):
                return Cue(found.start(), found.end(), kind)
        _, stop = self.layout.sentence(token.start)
        if AFTER.search(self.text, start, min(stop, len(self.text))) is None:
            return None
        for found in BEFORE_ALONE.finditer(self.text, start, end):
            is_straight_before = (
                not self.text[found.end() : token.outer_start].strip(" :=,(nN") and found.end() <= token.start
            )
            if is_straight_before and self._leads(found.start(), found.end(), start, token.start):
                return Cue(found.start(), found.end(), "start")
            if found.start() >= token.end and self._closes(token, found.start(), found.end()):
                return Cue(found.start(), found.end(), "start")
        return None

    def _leads(self, begin: int, stop: int, start: int, number: int) -> bool:
        """Whether words lead a sentence or part, and to this number straight."""
        ahead, between = self.text[start:begin].rstrip(), self.text[stop:number]
        if ahead and ahead[-1] not in ":;,(|" and not ahead.endswith(" and") and not between.lstrip().startswith(":"):
            return False
        if ";" in between or between.count(",") > 1 or between.find(",") > _NEAR or WENT_ON.search(between):
            return False
        return not self._counts(stop, number) and not self._is_later(stop, number)

    def _closes(self, token: Token, begin: int, stop: int) -> bool:
        """Whether words stand behind a number and end its part."""
        return (
            not self._counts(token.outer_end, begin)
            and OF_WHOM.search(self.text, token.end, begin) is None
            and DONE.search(self.text[token.end : begin]) is None
            and PLACED_CLOSES.match(self.text, stop) is not None
        )

    def _starts(self, low: int, high: int) -> list[Cue]:
        found = [*START.finditer(self.text, low, high)]
        if self._before is not None:
            found = sorted([*found, *self._before.finditer(self.text, low, high)], key=lambda each: each.start())
        return [
            Cue(each.start(), each.end(), "start") for each in found
            if not COMPARED_WITH.search(self.text[max(0, each.start() - 24) : each.start()])
            and not any(start <= each.start() < end for start, end in self._adjusters)
        ]  # fmt: skip

    def _counts(self, start: int, end: int) -> bool:
        return any(
            start <= each.start < end and each.kind == "count" and each.part != "total" and "n" not in each.roles
            for each in self.tokens
        )

    def _figures(self, start: int, end: int) -> bool:
        return any(
            start <= each.start < end
            and (each.kind in ("count", "percent", "ratio") or (each.kind == "number" and each.decimals > 0))
            for each in self.tokens
        )

    def _is_later(self, start: int, end: int) -> bool:
        """Whether another time is told between some words and a number."""
        return is_timed(self.text, self.tokens, start, end) or LATER.search(self.text, start, end) is not None

    def analysis(self, at: int) -> Cue | None:
        """Words that say by which analysis the number was counted."""
        if self.is_silent:
            return None
        token = self.tokens[at]
        note = note_of(self.text, max(token.outer_end, self.tokens[token.pair].outer_end if token.pair >= 0 else 0))
        for low, high in (*([note] if note is not None else []), *self._headings(at)):
            if (cue := next(self._analyses(low, high), None)) is not None:
                return cue
        if self.cells[at] is not None:
            return None
        start, _ = self.layout.sentence(token.start)
        part = self.layout.part(token.start)
        before = list(self._analyses(start, token.start))
        behind = next(self._analyses(token.end, min(part[1], len(self.text))), None)
        if not before or self.text.find(";", before[-1].end, token.start) >= 0:
            return behind
        # "70/100 by intention to treat, 70/84 per protocol": the words behind the number before it are that one's.
        if behind is not None and self._figures(self.layout.part(before[-1].start)[0], before[-1].start):
            return behind
        return before[-1]

    def has_both_analyses(self) -> bool:
        """True where the passage prints numbers of both."""
        return not self.is_silent and len({cue.kind for cue in self._analyses(0, len(self.text))}) > 1

    def _analyses(self, start: int, end: int) -> Iterator[Cue]:
        found = [
            Cue(match.start(), match.end(), kind)
            for kind, pattern in (("per protocol", PER_PROTOCOL), ("intention to treat", BY_INTENTION))
            for match in pattern.finditer(self.text, start, end)
        ]
        # "completed as allocated" is no "as allocated"
        yield from (
            cue for cue in sorted(found)
            if not any(each is not cue and each.start <= cue.start and cue.end <= each.end for each in found)
        )  # fmt: skip

    def _headings(self, at: int) -> tuple[Span, ...]:
        """Of a number in a table: the headings of its column, the other cells of its row, what stands above."""
        cell = self.cells[at]
        return () if cell is None else (*cell.headings, *cell.others, *cell.above)


_PLACES = ("place", "place2", "place3", "place4")
_NAMED = ("name", "series", "alone", "cited", "etal", "dated", "later", "inside", *_PLACES)
_NEAR = 40
"""Characters within which a word is beside another."""
