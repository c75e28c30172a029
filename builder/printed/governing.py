"""Which ratios of a sentence words such as "adjusted" speak of: by brackets, by clauses, by what stands nearest."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from ..numerals.late import late
from ..records import NamedTuple
from .clauses import Span
from .surroundings import Surroundings

Kind = Literal["adjusted", "crude"]


class Cue(NamedTuple):
    """Words that say of ratios that they are adjusted, or that they are crude."""

    start: int
    end: int
    kind: Kind


class Value(NamedTuple):
    """A ratio of a sentence with its interval and P behind it."""

    at: int
    """Its place among the numbers of the passage."""
    start: int
    end: int


_by_pronoun = late(
    r"\b(?:(?P<crude>without|before)|(?P<adjusted>after|with))\s+(?:it|this|that|them|these|afterwards?)\b|"
    r"\b(?P<afterwards>thereafter|afterwards|together with|along with)\b|"
    r"(?<=[\d)\]]\s)(?:(?P<last_crude>without|before|beforehand)|(?P<last_adjusted>after|with))(?=\s*(?:[.,;)\]]|$))",
    re.IGNORECASE,
    holds=("with", "before", "after"),
).finditer
_first_of_two = late(
    r"[\s,()\[\]]*(?:(?P<crude>before|without)|(?P<adjusted>after|with))[\s,]*(?:and|but)\s*(?:was|of|became|at|to)?\s*",
    re.IGNORECASE,
).fullmatch
_from = late(r"\bfrom\s+(?:(?:an?|the)\s+)?(?:[a-z]+\s+){0,3}$", re.IGNORECASE).search
_to = late(r"[\s,]*\bto\s+(?:(?:an?|the)\s+)?(?:[a-z]+\s+){0,2}", re.IGNORECASE).fullmatch
_against = late(
    r"[\s,;(\[]*(?:versus|vs\.?|against|compared (?:with|to)|instead of|rather than|(?:down|up) from)\s+"
    r"(?:(?:an?|the)\s+)?(?:[a-z-]+\s+){0,4}",
    re.IGNORECASE,
).fullmatch
_changed_to = late(
    r"[^.;]*?\b(?:f[ae]ll(?:s|ing|en)?|r[io]se?(?:s|n)?|rising|dropp(?:ed|ing)|dropped|shr[aiu]nk(?:ing)?|decreas\w+|"
    r"increas\w+|reduc\w+|attenuat\w+|lower\w+|became|becoming|weaken\w+|went|chang\w+|grew|"
    r"br(?:ings?|ought)|pull(?:s|ed|ing)|cuts?|cutting|took|tak(?:es|ing)|mov(?:ed|es|ing)|push(?:ed|es|ing)|came|sank|"
    r"moderat\w+|diminish\w+|halv\w+)\b"
    r"(?:\s+[a-z]+){0,3}?(?:\s+to)?(?:\s+(?:an?|the))?(?:\s+[a-z]+)?\s*",
    re.IGNORECASE,
).fullmatch
_ends_in_to = late(r"\bto\s+(?:an?\s+|the\s+)?$").search
_leads_straight = late(
    r"\s*(?:for\s+[a-z]+\s+)?(?:(?:odds|hazard|risk|rate)\s+ratios?|[ac]?(?:OR|HR|RR)s?|figure|values?|estimates?|ratios?|"
    r"ones?|models?|analys[ie]s|effect)?s?(?:\s+of\s+[a-z]+)?\s*(?:was|were|of|is|gave|showed|=|:|at)?\s*",
    re.IGNORECASE,
).fullmatch
_blank = late(r"[\s()\[\]]*(?:(?:after|when|with|on|once|if|the|an?|is|was|fully|and)\s+|;)?", re.IGNORECASE).fullmatch
_joins = late(
    r"\b(?:and|but|while|whereas|versus|vs|against|compared|although|though|then|also|than)\b", re.IGNORECASE
).search
_of_all = late(r"\b(?:both|all|each|these|those)\b", re.IGNORECASE).search
_heads = late(r"[^.;\d]{0,60}?:", re.IGNORECASE).match
_turns = late(r"\b(?:together with|along with|without|instead|otherwise|alone|with)\b", re.IGNORECASE).search


def governed(
    text: str, around: Surroundings, sentence: Span, values: Sequence[Value], cues: Sequence[Cue]
) -> dict[int, Cue]:
    """By the place of each ratio: the words that speak of it."""
    return _Sentence(text, around, sentence, values, cues).read()


class _Sentence:
    def __init__(
        self, text: str, around: Surroundings, sentence: Span, values: Sequence[Value], cues: Sequence[Cue]
    ) -> None:
        self.text, self.around, self.sentence, self.values = text, around, sentence, values
        self.cues = sorted({*cues, *self._pronouns(cues)})

    def _pronouns(self, cues: Sequence[Cue]) -> list[Cue]:
        """ "without it", where the sentence has said before what: "with age in the model"; "0.62 before"."""
        found = _by_pronoun(self.text, cues[0].end, self.sentence[1])
        return [
            Cue(each.start(), each.end(), "crude" if each["crude"] or each["last_crude"] else "adjusted")
            for each in found
        ]

    def read(self) -> dict[int, Cue]:
        """By the place of each ratio its words."""
        told = self._in_turn() or self._from_to() or self._before_and_after()
        if told:
            return told
        found: dict[int, Cue] = {}
        led: set[int] = set()
        for at, cue in enumerate(self.cues):
            since = self.cues[at - 1].end if at else self.sentence[0]
            until = self.cues[at + 1].start if at + 1 < len(self.cues) else self.sentence[1]
            before = [value for value in self.values if since <= value.start < cue.start]
            behind = [value for value in self.values if cue.end <= value.start < until]
            for value in self._of(cue, before, behind):
                # "unadjusted 0.62, and 0.70 after adjustment": the second has words of its own straight behind it.
                if value.at not in found or (value in before[-1:] and value.at in led):
                    found[value.at] = cue
            led |= {value.at for value in behind[1:]}
        self._add_opposites(found)
        return found

    def _add_opposites(self, found: dict[int, Cue]) -> None:
        """ "1.8, against 2.9 unadjusted"; "2.9, falling to 1.8 after adjustment": the other is what this one is not."""
        for one, other in pairwise(self.values):
            cue = found.get(other.at)
            gap = (self.text, one.end, other.start)
            if one.at in found or cue is None:
                continue
            if _against(*gap) or (cue.kind == "adjusted" and _changed_to(*gap)):
                found[one.at] = cue._replace(kind="crude" if cue.kind == "adjusted" else "adjusted")

    def _in_turn(self) -> dict[int, Cue]:
        """ "2.9 unadjusted and 1.8 adjusted"; "the unadjusted and adjusted ratios were 2.9 and 1.8"."""
        cues, values = self.cues, self.values
        if len(cues) != len(values) or len({cue.kind for cue in cues}) < 2:
            return {}
        if cues[-1].end <= values[0].start:
            return {value.at: cue for value, cue in zip(values, cues, strict=True)}
        return {}

    def _from_to(self) -> dict[int, Cue]:
        """ "fell from 2.9 to 1.8 after adjustment"."""
        kinds = {cue.kind for cue in self.cues}
        if kinds != {"adjusted"}:
            return {}
        for one, other in pairwise(self.values):
            if _from(self.text[self.sentence[0] : one.start]) and _to(self.text, one.end, other.start):
                cue = self.cues[0]
                return {one.at: cue._replace(kind="crude"), other.at: cue}
        return {}

    def _before_and_after(self) -> dict[int, Cue]:
        """ "2.9 before and 1.8 after adjustment"."""
        for one, other in pairwise(self.values):
            parted = _first_of_two(self.text, one.end, other.start)
            behind = [cue for cue in self.cues if cue.start >= other.end]
            if parted is not None and behind:
                kind: Kind = "crude" if parted["crude"] else "adjusted"
                return {one.at: behind[0]._replace(kind=kind), other.at: behind[0]}
        return {}

    def _of(self, cue: Cue, before: list[Value], behind: list[Value]) -> list[Value]:
        """The ratios that a cue speaks of, of those between it and the cues beside it."""
        bracket = self.around.bracket(cue.start)
        if bracket is not None:
            inside = [[value for value in side if _is_in(value, bracket)] for side in (before, behind)]
            if any(inside):
                return self._of_side(cue, *inside)
            before = [value for value in before if value.start < bracket[0]]
            return before[-1:] or behind
        clause = self.around.clause(cue.start)
        near = [[value for value in side if _is_in(value, clause)] for side in (before, behind)]
        found = self._of_side(cue, *near) if any(near) else (self._of_side(cue, before, []) or behind)
        is_heading = _heads(self.text, cue.end, self.sentence[1]) is not None or not any(
            value.start < cue.start for value in self.values
        )
        if is_heading and near[1] and found == near[1]:
            found = [value for value in behind if _is_in(value, clause) or not self._is_turned(value)]
        return found

    def _is_turned(self, value: Value) -> bool:
        """Whether the clause of a ratio says of itself with what it was calculated."""
        return _turns(self.text, self.around.clause(value.start)[0], value.start) is not None

    def _of_side(self, cue: Cue, before: list[Value], behind: list[Value]) -> list[Value]:
        if not before:
            return behind
        if behind and self._leads(cue, before[-1], behind[0]):
            return behind
        is_of_all = _of_all(self.text, before[-1].end, min(cue.end + _BEHIND, self.sentence[1])) is not None
        return before if is_of_all else before[-1:]

    def _leads(self, cue: Cue, before: Value, behind: Value) -> bool:
        """Whether a cue between two ratios speaks of the one behind it."""
        gap, ahead = self.text[before.end : cue.start], self.text[cue.end : behind.start]
        if _leads_straight(ahead) or (":" in ahead and ";" not in ahead):
            return True
        if ";" in gap or ";" in ahead:
            return ";" in gap
        if _blank(gap) and "and" not in gap:
            return False
        if _changed_to(ahead) and _ends_in_to(ahead):  # "2.4, a figure which adjustment for age brought down to 1.7"
            return True
        if "," in gap:
            return "," not in ahead and _joins(ahead) is None
        return _joins(gap) is not None or _joins(ahead) is None


_BEHIND = 12
"""Characters behind "adjusted" in which "both" speaks of the ratios before it."""


def _is_in(value: Value, span: Span) -> bool:
    return span[0] <= value.start < span[1]
