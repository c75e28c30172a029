"""A figure under other words than its claim's, where the passage has another figure under the claim's own."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from functools import cached_property

from ...compiled_patterns import compiled
from ...numerals.late import in_small, late
from ...printed.clauses import Span
from ...printed.event_mentions import EventMention
from ...printed.events import Events
from ...printed.tables import InCell
from ...printed.valued import RESULT
from ...reading.report_model import Claim
from ...reading.values import Words
from .counted_events import Counted, counted, counting
from .pinned import is_pinned_away
from .tie import Known, Stands, Ties

RULES: dict[str, str] = {
    "event-in-other-place": (
        "The passage has the figure in a column, row or part of a list under other words, and another figure under the "
        'words of the claim\'s outcome: of "intact 57, fractured 2" the 57 are not those fractured; of "fracture: yes, '
        'no" those under "no" are not. Type the figure that stands under the outcome\'s own words; where the others '
        "mean the same, add them to its synonyms in vocabulary.yaml."
    ),
}  # fmt: skip

_FIGURES = frozenset({"events", "rate", "success_rate", "mean", "median"})


def find_beside_own(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Every figure of a claim whose event nothing around it says."""
    claim = ties.scope.claim
    if claim is None or type(claim.outcome) is not Words:
        return
    silent: _Silent | None = None
    for stands in standing:
        if stands.row.name not in _FIGURES or stands.row.role.kind == "length" or stands.row.id in ties.asked:
            continue
        # Most numbers stand in prose beside no label: of them the claim's words need not be gathered.
        cell = stands.reading.cells()[stands.at]
        label = _labelled(stands.reading.passage.text, stands.token.start) if cell is None else None
        if label is None and (cell is None or not (cell.headings or cell.others)):
            continue
        silent = silent or _Silent(claim, known)
        place = _Place(stands, ties, claim, known, silent)
        if place.may_tell_of_another(label):
            place.tell(ties, label)


class _Silent:
    """Words that say nothing of what was counted: general ones, those of levels, of units, of the claim's own part and
    of its outcome."""

    __slots__ = ("stems", "words")

    def __init__(self, claim: Claim, known: Known) -> None:
        outcome = known.outcomes.get(claim.outcome.text)
        titles = [words.text for words in (outcome.title, *outcome.synonyms)] if outcome is not None else []
        given = [claim.given.text] if type(claim.given) is Words else []
        levels = counting(claim, known).levels
        said = " ".join([*levels, *titles, *given, *(within.level.text for within in claim.within)])
        own = known.lexicon.beside_numbers | frozenset(map(str.lower, _words_in(said)))
        self.words = _GENERAL | own
        self.stems = {word[:_STEM] for word in own - _GENERAL if len(word) >= _STEM}
        """How the telling ones of them begin."""


class _Place:
    """Where one figure stands, with the words of its place."""

    def __init__(self, stands: Stands, ties: Ties, claim: Claim, known: Known, silent: _Silent) -> None:
        self.stands, self.claim, self.known, self.silent = stands, claim, known, silent
        self.names, self.scope = ties.scope.names, ties.scope.name
        self.text = stands.reading.passage.text
        self.cell: InCell | None = stands.reading.cells()[stands.at]

    def may_tell_of_another(self, label: _Label | None) -> bool:
        """Whether the words of its place may mean something else, seen without reading the passage's events."""
        if self.cell is None:
            return label is not None and self._tells(label[1])
        heads = (*self.cell.headings[:1], *self._left[:1])
        return any(_ends_in_no(self.text, *head) is not None or self._tells(head) for head in heads)

    @property
    def _left(self) -> list[Span]:
        """The cells of its row to its left, the head of the row first."""
        assert self.cell is not None
        return sorted(span for span in self.cell.others if span[1] <= self.cell.cell[0])

    def tell(self, ties: Ties, label: _Label | None) -> None:
        """Ask where another place is the claim's own."""
        if not self._own and not (self.cell is not None and self._stems):
            return
        found = self._in_list(label) if self.cell is None else self._denied(self.cell) or self._in_table(self.cell)
        if found is None or is_pinned_away(self.stands, found[0]):
            return
        said, instead = (self.stands.printed(span) for span in found)
        ties.ask(
            self.stands, "event-in-other-place", f'has it under "{said}", and another figure under "{instead}"',
            f'the claim of "{self._title}"',
            f'type the figure under "{instead}"; where "{said}" means the same, add it to the synonyms of the outcome',
        )  # fmt: skip

    # What the passage says of events

    @cached_property
    def _wanted(self) -> Counted | None:
        return counted(self.stands, counting(self.claim, self.known).blocks(self.scope))

    @property
    def _title(self) -> str:
        return self._wanted.title if self._wanted is not None else ""

    @cached_property
    def _events(self) -> Events:
        return counting(self.claim, self.known).events(self.stands.reading)

    @cached_property
    def _own(self) -> list[Span]:
        """Where the claim's own words stand."""
        wanted = self._wanted
        if wanted is None or not wanted.outcome:
            return []
        mentions = self._events.mentions
        return [(each.start, each.end) for each in mentions if not each.is_denied and _means(each, wanted)]

    def _is_own(self, span: Span) -> bool:
        return any(span[0] <= start < span[1] for start, _ in self._own)

    def _heads_own(self, span: Span) -> bool:
        return self._is_own(span) or self._is_form_of_own(span)

    @cached_property
    def _stems(self) -> frozenset[str]:
        """How the telling words of the outcome, and of what a reader quoted for it, begin."""
        wanted = self._wanted
        outcome = self.known.outcomes.get(wanted.outcome) if wanted is not None else None
        if wanted is None or outcome is None:
            return frozenset()
        said = (outcome.title, *outcome.synonyms, *wanted.said_as)
        words = {word.lower() for each in said for word in _words_in(each.text)}
        return frozenset(word[:_STEM] for word in words - _GENERAL if len(word) > _STEM)

    def _is_form_of_own(self, span: Span) -> bool:
        """Whether the head of a row or column has the outcome's words in another form, "Leaking" of a leakage, or those
        that a reader quoted for it, and names no measure."""
        words = [word.lower() for word in _words_in(self.text[slice(*span)])]
        quoted = self._wanted.said_as if self._wanted is not None else ()
        if any([word.lower() for word in _words_in(each.text)] == words for each in quoted):
            return True
        telling = [word for word in words if word not in _GENERAL]
        is_form = len(telling) == 1 and len(telling[0]) > _STEM and telling[0][:_STEM] in self._stems
        return is_form and _OF_MEASURES.isdisjoint(words) and not self._has_event(span)

    def _has_event(self, *spans: Span) -> bool:
        return any(low <= each.start < high for low, high in spans for each in self._events.mentions)

    def _tells(self, span: Span) -> bool:
        """Whether words say what was counted, and may not be another form of the outcome's."""
        words = [word.lower() for word in _words_in(self.text[slice(*span)])]
        telling = [
            word for word in words if len(word) > 3 and word not in self.silent.words and not word.endswith("ly")
        ]
        return bool(telling) and not any(word[:_STEM] in self.silent.stems for word in words)

    # Tables

    def _in_table(self, cell: InCell) -> tuple[Span, Span] | None:
        """The heading of its column, or the head of its row, with the one that is the claim's own."""
        if self._has_event(cell.cell, *cell.headings, *self._left):
            return None
        places = [place for place in self.stands.reading.cells() if place is not None]
        heading = cell.headings[0] if cell.headings else None
        if heading is not None and self._tells(heading):
            columns = {place.headings[0] for place in places if place.column != cell.column and place.headings}
            instead = next(filter(self._heads_own, sorted(columns)), None)
            return None if instead is None else (heading, instead)
        if self._left and self._tells(self._left[0]):
            rows = {min(place.others) for place in places if place.row != cell.row and place.column and place.others}
            instead = next(filter(self._heads_own, sorted(rows)), None)
            return None if instead is None else (self._left[0], instead)
        return None

    def _denied(self, cell: InCell) -> tuple[Span, Span] | None:
        """Under "no" of "Fracture: yes | no", or below "Fracture" over "Yes | No"; in rows the same."""
        places = [place for place in self.stands.reading.cells() if place is not None]
        rows = {min(place.others) for place in places if place.column and place.others}
        columns = {place.headings[0] for place in places if place.headings}
        for heads, head, over in (
            (columns, cell.headings[:1], (*cell.headings, *cell.above)),
            (rows, tuple(self._left[:1]), (*self._left[:1], *cell.above)),
        ):
            found = _ends_in_no(self.text, *head[0]) if head else None
            if found is None or not any(map(self._is_own, over)) or self._is_a_level(found.start("no")):
                continue
            lead = self.text[head[0][0] : found.start("no")].strip().lower()
            for other in sorted(heads):
                yes = _ends_in_yes(self.text, *other)
                if yes is not None and self.text[other[0] : yes.start("yes")].strip().lower() == lead:
                    return head[0], other
        return None

    def _is_a_level(self, at: int) -> bool:
        mentions = self.stands.reading.mentions(self.names) if self.names else ()
        return any(mention.holds(at) for mention in mentions)

    # Lists

    def _in_list(self, label: _Label | None) -> tuple[Span, Span] | None:
        """The words of its part of a list, "intact 57, deformed 5, fractured 2", with those of the claim's own."""
        if label is None or self._has_event(label[1]):
            return None
        low, high = self._events.layout.sentence(self.stands.token.start)
        if _ends_in_no(self.text, *label[1]):  # "pain: none 70, mild 20"
            colon = self.text.rfind(":", low, label[1][0])
            head = next((span for span in self._own if low <= span[0] < colon), None)
            return None if head is None or "," in self.text[colon : label[1][0]] else (label[1], head)
        for start, _ in self._own:
            other = _labelled(self.text, start) if low <= start < high else None
            if other is not None and other[0] == label[0]:
                return label[1], other[1]
        return None


_Label = tuple[str, Span]
"""On which side of its number a few words stand, and where."""


def _labelled(text: str, at: int) -> _Label | None:
    """The words of a number's own part of a list, between commas, semicolons, colons and "and"s; None of a part with
    more in it."""
    low = max((found.end() for found in _CUT.finditer(text, max(at - _FAR, 0), at)), default=0)
    cut = _CUT.search(text, at)
    high = cut.start() if cut is not None else len(text)
    for side, form in _SHAPES:
        found = form(text, low, high)
        if found is not None and _OF_WHOM.isdisjoint(map(str.lower, _words_in(found["words"]))):
            return side, found.span("words")
    return None


def _means(mention: EventMention, wanted: Counted) -> bool:
    """Whether words are the outcome's own, or another form of them."""
    meaning = mention.meaning
    is_form = meaning.kind != RESULT and meaning.kind in wanted.kinds and meaning.side == wanted.side
    return wanted.outcome in meaning.outcomes or is_form


_words_in: Callable[[str], list[str]] = compiled(r"[^\W\d_]{2,}").findall
_STEM = 4
"""Letters by which two forms of a word are known: "heal", "frac"."""
_OF_MEASURES = frozenset({"time", "score", "scores", "days", "months", "years", "mean", "median", "sd", "mm", "depth"})
_FAR = 120
_CUT = in_small(r"[,;:.](?=\s)|\n|\b(?:and|but|while|whereas)\b")
_NUMBER = r"\d[\d.,·/]*(?:\s*%)?(?:\s*\([^()]*\))?"
_LABEL = r"(?P<words>[^\W\d_]{2,}+(?:[\s-]+[^\W\d_]{2,}+){0,2})"
_SHAPES = (
    ("before", compiled(rf"\s*{_LABEL}\s*(?:[:=]|n\s*=|\(n\s*=)?\s*{_NUMBER}[\s.)]*").fullmatch),
    ("behind", compiled(rf"\s*{_NUMBER}\s+{_LABEL}[\s.)]*").fullmatch),
)
""" "Intact 57", "57 intact"."""
_ends_in_no = late(r"(?<![\w-])(?P<no>no|absent|negative|none)\W*$", re.IGNORECASE).search
_ends_in_yes = late(r"(?<![\w-])(?P<yes>yes|present|positive|some|any)\W*$", re.IGNORECASE).search
_OF_WHOM = frozenset({
    "of", "in", "with", "by", "for", "at", "to", "after", "from", "on", "during", "against", "among", "former",
    "latter", "without", "under", "over", "first", "second", "third", "did", "not", "were", "was", "had", "group",
    "arm", "than",
})  # fmt: skip
"""Words of a part that tell of whom it is, or go on from another."""
_GENERAL = frozenset({
    "about", "absolute", "adjusted", "after", "afterwards", "again", "all", "already", "also", "altogether", "among",
    "and", "another", "are", "arm", "arms", "at", "been", "before", "both", "by", "case", "cases", "cent", "ci",
    "complete", "control", "controls", "count", "counts", "crude", "cumulative", "data", "day", "days", "developed",
    "each", "estimate", "estimated", "event", "events", "every", "examined", "first", "follow", "followed", "for",
    "found", "frequency", "from", "group", "groups", "had", "has", "have", "incidence", "included", "interval",
    "last", "later", "mean", "median", "month", "months", "namely", "nos", "noted", "now", "number", "numbers",
    "observed", "occurred", "odds", "only", "other", "others", "outcome", "outcomes", "over", "overall", "per",
    "percent", "percentage", "present", "probability", "prop", "proportion", "rate", "rates", "ratio", "recall",
    "recorded", "remaining", "reported", "respectively", "result", "results", "risk", "sample", "second", "seen",
    "share", "size", "still", "study", "sum", "test", "than", "that", "the", "their", "them", "then", "there",
    "these", "they", "third", "those", "time", "total", "treated", "treatment", "unadjusted", "under", "value",
    "values", "versus", "was", "week", "weeks", "were", "which", "who", "whole", "with", "within", "without", "year",
    "years",
})  # fmt: skip
"""Words of headings and lists that say nothing of what was counted."""
