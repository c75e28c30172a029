"""The words of a passage that say what each P value tests."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import late
from ..records import NamedTuple
from .clauses import Span
from .surroundings import Surroundings
from .tables import InCell


class Tested(NamedTuple):
    """Where the words of one P value stand."""

    spans: tuple[Span, ...]

    def words(self, text: str) -> str:
        """All of them."""
        return " ... ".join(text[low:high] for low, high in self.spans)


_match_behind = late(
    r"\s*(?:for|of|from|in|by)\s+(?:the\s+)?(?:(?!\b(?:and |or |but )?P\b)[^.,;()\d]){3,50}", re.IGNORECASE
).match
_TIME = (
    r"(?:(?:at|after|by|on|in)\s+)?(?:the\s+)?(?:(?:\d+|one|two|three|four|five|six|seven|eight|nine|ten|twelve|first|"
    r"second|third|fourth|fifth|sixth|seventh|tenth|last)"
    r"(?:[\s~-]*(?:hours?|hrs?|h|days?|weeks?|months?|years?|visit|recall)\b)?|(?:day|week|month|year)\s+\d+)"
)
_is_time_alone = late(
    rf"[\s,;:)\]]*(?:{_TIME}[\s,;:)\]]*)?(?:(?:but|and|or|yet|nor|though|while)\s+)?"
    r"(?:(?:not|no longer|nor|neither|also|again|still|only)\s+){0,2}"
    rf"(?:{_TIME})?[\s,:;(\[]*P?\W*",
    re.IGNORECASE,
).fullmatch
""" ") but not at 72 hours (P = ": between two P values."""
_has_time = compiled(
    r"\d|\b(?:one|two|three|four|five|six|seven|eight|nine|ten|twelve|first|second|third|fourth|last)\b", re.IGNORECASE
).search
_is_p = late(
    r"\s*\*?p(?:[\s-]*values?)?(?:\W*|[\s,:(]+(?:v|vs|versus|against|compared (?:with|to)|from|for)\b[^|\n]{1,40})",
    re.IGNORECASE,
).fullmatch
_has_list = late(r"\bp[\s-]values\b", re.IGNORECASE).search
SPECIAL = late(
    r"\b(?:interact(?:ions?|ed|s|ing)?|(?:effect )?modif(?:ication|ied|ier) by|(?:product|cross-product) terms?|"
    r"subgroup differences?|(?!mean\b)[a-z]{3,}(?: x | ?[×*] ?)[a-z]{3,}|[a-z]{3,} times [a-z]{3,}(?= ?[,:(])|"
    r"(?:effects?|benefits?|advantages?|differences?|superiority) (?:of|between|with|in favour of) [^.;()\d]{1,60}?\b"
    r"(?<!not )(?:differed|depended|varied|was modified|were modified)\b"
    r"(?= (?:by|on|with|according|across|between|in))|"
    r"heterogeneity|homogeneity|at baseline|baseline (?:difference|characteristic|comparison)s?|"
    r"hosmer|goodness[\s-]of[\s-]fit|proportional(?:ity| hazards)|normality|shapiro|levene|egger|publication bias|"
    r"kappa|intercept|cochran'?s? q|q[\s-](?:test|statistic))\b",
    re.IGNORECASE,
)
"""What a P value may test that is no difference between levels."""
find_within = late(
    r"\bfrom (?:the )?(?:baseline|start|before)\b|\b(?:than|versus|vs|compared (?:with|to)) (?:at |that )?(?:the )?"
    r"(?:baseline|before|start)\b|\bpaired\b|\bwithin[\s-](?:[a-z]+ ){0,7}?(?:groups?|arms?)\b|\bover time\b|"
    r"\btime effect\b|\beffect of time\b|\bintra-?group\b",
    re.IGNORECASE,
    holds=("baseline", "start", "before", "paired", "within", "over time", "time effect", "of time", "group"),
).search
"""Words for a change within those of one group, which is no test of the difference between groups."""
find_between = late(
    r"\b(?:between|against|versus|vs|differ\w*|compared? (?:with|to)(?! (?:the )?(?:baseline|before|start))|"
    r"than (?:in|with|after|for|among))\b",
    re.IGNORECASE,
).search
"""Words for a difference between groups."""
find_trend = late(r"\b(?:linear )?trends?\b|\blinear-by-linear\b|\bdose[\s-]response\b", re.IGNORECASE).search
"""Words for a trend over levels in their order, which is no test of their differences."""
find_start = late(
    r"\b(?:age|ages|aged|sex|gender|baseline|matched|comparable|initially|preoperative|pre-operative|at the start|"
    r"distribution|distributed|allocation|characteristics?)\b",
    re.IGNORECASE,
).search
"""Words for how groups differed at the start."""
_START = (
    r"(?:age|sex|gender|(?:at|on|upon) (?:study )?(?:entry|enrol+ment|inclusion|admission|randomi[sz]ation|allocation|"
    r"outset|baseline)|at the (?:start|outset|beginning|baseline)|before treatment)\b"
)
_ALIKE = r"(?:alike|similar|comparable|balanced|matched|identical|differ(?:ed|s|ences?)?|the same|equal|homogeneous)\b"
find_balance = late(
    rf"\b(?:groups?|arms?|they|both)\b[^.;()\d]{{0,40}}\b{_ALIKE}[^.;()\d]{{1,50}}?\b{_START}|"
    rf"\b{_ALIKE}\s+(?:in|as to|for|with respect to|regarding|between [^.;()\d]{{1,40}} in)\s"
    rf"[^.;()\d]{{0,40}}?\b{_START}|"
    rf"\b{_START}[^.;()\d]{{0,40}}\b{_ALIKE}[^.;()\d]{{0,20}}\b(?:groups|arms)\b",
    re.IGNORECASE,
    holds=("alike", "similar", "comparable", "balanced", "matched", "identical", "differ", "same", "equal", "homogen"),
).search
"""Words for groups that were alike at the start, or were not."""


class PValues:
    """The P values of one passage."""

    def __init__(
        self, text: str, tokens: Sequence[Token], around: Surroundings, cells: Sequence[InCell | None]
    ) -> None:
        self.text, self.tokens, self.around, self.cells = text, tokens, around, cells
        self.places = [at for at, token in enumerate(tokens) if token.kind == "p" or self._is_below_p(at)]
        """Of all P values among the numbers."""

    def _is_below_p(self, at: int) -> bool:
        """A bare number in a column headed "P"."""
        place, token = self.cells[at], self.tokens[at]
        if place is None or token.kind != "number" or token.part or not token.decimals or token.value > 1:
            return False
        return any(_is_p(self.text[low:high]) for low, high in place.headings)

    def all_listed(self) -> list[int]:
        """The same with those of "the P values were .02, .79 and .04", of which the first alone stands behind a P."""
        if _has_list(self.text) is None:
            return self.places
        return [
            at for at, token in enumerate(self.tokens)
            if at in self.places or (token.kind == "number" and token.decimals and not token.part and token.value <= 1)
        ]  # fmt: skip

    def tested(self, at: int) -> Tested:
        """What one P value speaks of: the words since the P before it; in a table, its row and the heading above."""
        place, token = self.cells[at], self.tokens[at]
        if place is not None:
            return Tested(place.row_and_column)
        low, _ = self.around.clause(token.start)
        last = -1
        for before in self.places:
            end = self.tokens[before].end
            if end <= token.start:
                own = _match_behind(self.text, end, token.start)
                low, last = max(low, own.end() if own is not None else end), before
        behind = _match_behind(self.text, token.end)
        words = (low, behind.end() if behind is not None else token.end)
        return Tested((*self._left_out(last, at), words))

    def _left_out(self, last: int, at: int) -> tuple[Span, ...]:
        """Words of the P before it, where this one has a time alone: "at 24 hours (P = .02) but not at 72 (P = .35)".

        last: the place of the P before it, -1 where there is none.
        """
        if last < 0 or self.cells[last] is not None:
            return ()
        end, start = self.tokens[last].end, self.tokens[at].start
        own = _match_behind(self.text, end, start)
        end = own.end() if own is not None else end
        if self.tokens[last].start < self.around.sentence(start)[0] or not _has_time(self.text, end, start):
            return ()
        if not _is_time_alone(self.text, end, start):
            return ()
        told = self.tested(last)
        words = told.words(self.text)
        return () if SPECIAL.search(words) or find_start(words) else told.spans

    def of_ratio(self, value: int) -> int:
        """The P value of a ratio: the next one of its sentence or row before another ratio; -1 where there is none."""
        _, high = self.around.sentence(self.tokens[value].start)
        for at in range(value + 1, len(self.tokens)):
            token = self.tokens[at]
            if token.start >= high or (token.kind == "ratio" and not token.part):
                return -1
            if at in self.places:
                return at
        return -1

    def special_between(self, value: int, at: int) -> str:
        """What else a P value behind a ratio tests, "heterogeneity"; "" where nothing says so."""
        end = self.tokens[at].end
        behind = _match_behind(self.text, end)
        found = SPECIAL.search(self.text, self.tokens[value].end, behind.end() if behind is not None else end)
        return found[0] if found is not None else ""

    def in_same_column(self, value: int, at: int) -> bool:
        """Whether the row of a ratio has a number of its own under the heading of a P that stands in another row."""
        mine, other = self.cells[value], self.cells[at]
        if mine is None or other is None or mine.row == other.row:
            return False
        return any(
            place is not None and place.row == mine.row and place.column == other.column and index != value
            for index, place in enumerate(self.cells)
        )
