"""Every way to part those studied, and what a claim and its study say of everybody."""

from __future__ import annotations

from collections.abc import Mapping

from ...numerals import Lexicon
from ...numerals.late import holds_any
from ...printed.groups import OF_PEOPLE, Grouping, groupings_of, plain
from ...printed.wordings import Name
from ...reading.report_model import Claim
from ...reading.values import Words
from ...records import NamedTuple
from ..declared_names import FactorWording
from ..proving.printed_passage import Reading
from .latest import latest
from .tie import Known, Ties, studies_of

SHORT = 5
"""Letters of a word that says nothing of whom a figure is."""


class Groupings:
    """Every way to part those studied, those of the vocabulary first, which can be pasted."""

    def __init__(self, factors: Mapping[str, FactorWording], lexicon: Lexicon) -> None:
        named = (_grouping_of(id_, wording) for id_, wording in factors.items())
        every = (*named, *OF_PEOPLE, *groupings_of(lexicon))
        self._all = [grouping for grouping in every if grouping.names]  # measured factors have none
        words = {word for grouping in self._all for word in grouping.words}
        self._shortest: list[str] = []
        """Of which one stands wherever any word for a part does: "men" in "women"."""
        for word in sorted(words, key=len):
            if not holds_any(word, self._shortest):
                self._shortest.append(word)

    def said_in(self, reading: Reading) -> list[Grouping]:
        """Those that a passage may name; for `Reading.told`."""
        return self.named_in(reading.passage.text)

    def named_in(self, text: str) -> list[Grouping]:
        """The same of any text."""
        text = plain(text)
        if not holds_any(text, self._shortest):
            return []
        return [grouping for grouping in self._all if grouping.may_stand_in(text)]


_made = latest(Groupings)


def groupings_of_all(known: Known) -> Groupings:
    """Those of a compendium, made once for all its claims."""
    return _made(known.factors, known.lexicon)


def _grouping_of(id_: str, wording: FactorWording) -> Grouping:
    factor = wording.factor
    is_measured = factor.unit is not None or len(factor.levels) < 2
    names = tuple(
        Name(level.title.text, (level.title.text, *(word.text for word in level.synonyms)))
        for level in (() if is_measured else factor.levels)
    )
    return Grouping(id_, names, may_begin=factor.role is not None and factor.role.text == "treatment")


class Own(NamedTuple):
    """What the claim and its study say of everybody: a part that they name is no part of it."""

    claim: str
    population: str

    def says(self, *words: str) -> bool:
        """Whether one of these words stands in the claim, or is how its study describes all."""
        said = [word.casefold() for word in words]
        said += [word.removesuffix("s") for word in said if len(word) > SHORT]
        if any(word in self.claim or word in self.population for word in said):
            return True
        # "multirooted" of the claim, where the passage has "multirooted eyes"
        return any(word.startswith(f"{wording} ") for word in said for wording in self.claim.split(" | "))

    def is_of_others(self, grouping: Grouping, key: str) -> bool:
        """Whether the study describes all as another part: "right", where the passage says "left"."""
        kinds = [name.key.split()[0].casefold() for name in grouping.names]
        own = key.split()[0].casefold()
        return own not in self.population and any(
            kind != own and f" {kind} " in self.population for kind in kinds if len(kinds) > 1
        )


def own_words(claim: Claim, ties: Ties, known: Known) -> Own:
    words = [wording for name in ties.scope.names for wording in name.wordings]
    contrast = claim.contrast
    said = (
        claim.reference,
        claim.note,
        claim.given,
        *((contrast.level, contrast.reference) if contrast is not None else ()),
    )
    words += [each.text for each in said if type(each) is Words]
    words += [level.level.text for level in claim.levels]
    words += [text for test in claim.tests for text in _texts(test.between)]
    outcome = known.outcomes.get(claim.outcome.text)
    if outcome is not None:
        words += [outcome.title.text, *(word.text for word in outcome.synonyms)]
    population: list[str] = []
    for study in studies_of(claim, ties, known):
        population += [value.text for value in study.population.values()]
        if isinstance(study.setting, dict):
            population += [value.text for value in study.setting.values()]
    return Own(" | ".join(words).casefold(), f" {' | '.join(population)} ".casefold())


def _texts(between: object) -> list[str]:
    return [words.text for words in between] if isinstance(between, tuple) and type(between) is tuple else []
