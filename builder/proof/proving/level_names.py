"""What a passage may call the levels of a claim, and the other levels of their factor."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from ...numerals import Lexicon
from ...printed.wordings import Bounds, Name, Names
from ...reading.folded import folded
from ...reading.report_model import Claim, Pairs, Within
from ...reading.values import Missing, Range, Words
from ..declared_names import FactorWording, Span, span_of, span_of_wording
from .field_roles import Scope

Factors = Mapping[str, FactorWording]


def names_of(scope: Scope, factors: Factors) -> Names:
    """The levels by which the numbers of a claim or of a study's shares are told apart; none where there are none."""
    claim = scope.claim
    if claim is None:
        return _in_many(tuple(Name(wording, (wording,)) for wording in dict.fromkeys(scope.wordings)), scope.lexicon)
    if type(claim.pairs) is Pairs:
        return tuple(Name(words.text, (words.text,)) for words in (claim.pairs.a, claim.pairs.b))
    factor = factors.get(claim.factor.text) if claim.factor is not None else None
    typed = _typed(claim, factor)
    if not typed:
        return ()
    return _levels(tuple(typed.items()), factor, scope.lexicon)


# The same few levels stand in every claim about a factor.
@lru_cache(maxsize=512)
def _levels(typed: tuple[tuple[str, Range | None], ...], factor: FactorWording | None, lexicon: Lexicon) -> Names:
    return _in_many(_names(dict(typed), factor), lexicon)


def key_of(wording: str, names: Names) -> str:
    """The key of the name that a claim means by a wording: the one typed so, else the one that is also called so; ""
    of none. A claim may call one level "one visit" in its table and "single visit" beside its ratio."""
    plain = folded(wording)
    typed = next((name.key for name in names if folded(name.key) == plain), "")
    return typed or next((name.key for name in names if plain in map(folded, name.wordings)), "")


def names_tested(claim: Claim, factors: Factors, lexicon: Lexicon) -> Names:
    """The levels that the P values of a claim compare, and the other levels of its factor."""
    factor = factors.get(claim.factor.text) if claim.factor is not None else None
    typed = _typed(claim, factor)
    for test in claim.tests:
        for words in test.between if not isinstance(test.between, Missing) else ():
            if words.text not in typed and not _is_there(words.text, typed, factor):
                typed[words.text] = None
    factor = factor if claim.factor is not None else _holding(typed, factors)
    return _in_many(_names(typed, factor), lexicon)


def _holding(typed: Mapping[str, Range | None], factors: Factors) -> FactorWording | None:
    """The factor that has all of two levels or more, where a claim names none."""
    if len(typed) < 2:
        return None
    holding = (each for each in factors.values() if all(each.matches(*level) for level in typed.items()))
    return next(holding, None)


def names_within(within: Within, factors: Factors, lexicon: Lexicon) -> Names:
    """The level of a subgroup and the other levels of its factor."""
    return _in_many(_names({within.level.text: None}, factors.get(within.factor.text)), lexicon)


def _in_many(names: Names, lexicon: Lexicon) -> Names:
    """The names with what is counted as one and as many: "front eye" for "front eyes"."""
    return tuple(Name(name.key, _with_both(name.wordings, lexicon), name.bounds) for name in names)


@lru_cache(maxsize=4096)
def _with_both(wordings: tuple[str, ...], lexicon: Lexicon) -> tuple[str, ...]:
    both, ends = _one_and_many(lexicon)
    counted = [(words, small) for words in wordings if (small := words.lower()).endswith(ends)]
    other = [words[: -len(end)] + instead for words, small in counted for end, instead in both if small.endswith(end)]
    return (*wordings, *other)


@lru_cache(maxsize=8)
def _one_and_many(lexicon: Lexicon) -> tuple[list[tuple[str, str]], tuple[str, ...]]:
    """Each end of a wording with what may stand in its place, and all the ends."""
    forms = [(f" {unit.one}", f" {unit.many}") for unit in lexicon.units.values()]
    both = [*forms, *((many, one) for one, many in forms)]
    return both, tuple(end for end, _ in both)


def _typed(claim: Claim, factor: FactorWording | None) -> dict[str, Range | None]:
    """The wordings of a claim's levels with the range typed beside each; those of its contrast where it adds some."""
    typed: dict[str, Range | None] = {level.level.text: level.range for level in claim.levels}
    known = {folded(wording) for wording in typed}
    contrast = claim.contrast
    for words in (contrast.level, contrast.reference) if contrast is not None else ():
        if type(words) is Words and folded(words.text) not in known and not _is_there(words.text, typed, factor):
            known.add(folded(words.text))
            typed[words.text] = None
    return typed


def _is_there(wording: str, typed: Mapping[str, Range | None], factor: FactorWording | None) -> bool:
    """Whether a wording is one more name of a level that is typed already: "single visit" beside "one visit"."""
    if factor is None:
        return False
    plain = folded(wording)
    return any(
        plain in called.folded and any(folded(other) in called.folded for other in typed)
        for called in factor.called.values()
    )


def _names(typed: Mapping[str, Range | None], factor: FactorWording | None) -> Names:
    if factor is None:
        return tuple(Name(wording, (wording,), _bounds_of(wording)) for wording in typed)
    matched = {wording: factor.matches(wording, bounds) for wording, bounds in typed.items()}
    met = [level.id.text for levels in matched.values() for level in levels]
    names = []
    for wording, levels in matched.items():
        if not levels:  # a rule of its own tells that no vocabulary has it
            continue
        typed_range = typed[wording]
        bounds = _bounds_of(wording) if typed_range is None else _bounds(span_of(typed_range))
        words: tuple[str, ...] = ()
        if len(levels) == 1 and met.count(levels[0].id.text) == 1:
            own = factor.called[levels[0].id.text]
            if bounds == _bounds(own.span) or folded(wording) in own.folded:
                words = own.words
                bounds = bounds or _bounds(own.span)  # "45 years or more", whose range the vocabulary has
        names.append(Name(wording, (wording, *words), bounds))
    others = [called for name, called in factor.called.items() if name not in met]
    names += [Name(called.words[0], called.words, _bounds(called.span)) for called in others]
    return tuple(names)


@lru_cache(maxsize=4096)
def _bounds_of(wording: str) -> Bounds | None:
    return _bounds(span_of_wording(wording))


def _bounds(span: Span | None) -> Bounds | None:
    return None if span is None else Bounds(span.low, span.high, span.unit)
