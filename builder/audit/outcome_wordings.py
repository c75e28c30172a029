"""The outcomes of the vocabulary: no words stand for two of them."""

from __future__ import annotations

from collections.abc import Iterator

from ..problems import Problem, error
from ..reading.folded import folded
from ..reading.model import Vocabulary
from ..reading.values import Words

_BASIS = "Basis: the format of this guide; common practice, no source."

RULES = {
    "outcome-word-twice": (
        "One wording is a title or synonym of two outcomes, so a passage with these words could speak of either, and a "
        "number typed under the wrong one of the two would never be asked about. Keep it at the outcome that reports "
        f"mean by it. {_BASIS}"
    ),
}


def find_in_vocabulary(vocabulary: Vocabulary) -> Iterator[Problem]:
    """A wording that stands for two outcomes."""
    known: dict[str, tuple[str, Words]] = {}
    for name, outcome in vocabulary.outcomes.items():
        for word in (outcome.title, *outcome.synonyms):
            other, first = known.setdefault(folded(word.text), (name, word))
            if other != name:
                file, line, _ = first.position
                yield error(
                    word.position,
                    "outcome-word-twice",
                    f'"{word.text}" stands for the outcome {name} and, at {file}:{line}, for the outcome {other}',
                    "keep it at one of the two",
                )
