"""What a patient hears or takes home is easy to follow."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..compiled_patterns import compiled
from ..problems import Problem
from ..proof.asking import ask
from ..reading.model import Question
from ..reading.prose import split_references
from ..reading.values import Words
from ..records import NamedTuple

RULES = {
    "sheet-hard-to-read": (
        "The sentences of a sheet for the patient are harder to follow than what an eighth grader reads, by two "
        "measures that count letters, words and sentences: automated readability index (Smith & Senter 1967, "
        "AMRL-TR-66-220) and Coleman & Liau 1975, J Appl Psychol 60:283-284. The sixth grade is common practice for "
        "what patients are given, the eighth is asked about here (no source), and of fewer than twenty-five words "
        "nothing is said. Use shorter words and shorter sentences; or, where no other word will do, answer it under "
        "`acknowledged` at the top of the question file."
    ),
}

_GRADE = 8
_FEWEST = 25
"""Of fewer words such measures say little."""
_words = compiled(r"\S*\w\S*").findall
_ends = compiled(r"[.!?](?:\s|$)").findall


class Counts(NamedTuple):
    """What measures of how hard a text is ask for."""

    letters: int
    words: int
    sentences: int

    @property
    def grade(self) -> float:
        """The lower of the two measures, in grades of school in the United States. words and sentences: at least 1."""
        length, share = self.letters / self.words, self.sentences / self.words
        return min(4.71 * length + 0.5 / share - 21.43, 5.88 * length - 29.6 * share - 15.8)


def counts_of(text: str) -> Counts:
    """Letters, words and sentences of a text as people wrote it; a figure that it names is left out."""
    plain = " ".join(part for part in split_references(text) if isinstance(part, str))
    return Counts(sum(map(str.isalnum, plain)), len(_words(plain)), max(1, len(_ends(plain))))


def find_in_question(question: Question) -> Iterator[Problem]:
    """The two lists of sentences of a sheet for the patient."""
    if question.patient is not None:
        for name in ("chair", "afterwards"):
            yield from _in_list(name, getattr(question.patient, name), question.id)


def _in_list(name: str, sentences: Sequence[Words], question: str) -> Iterator[Problem]:
    parts = [(each, counts_of(each.text)) for each in sentences]
    whole = Counts(
        sum(part.letters for _, part in parts),
        sum(part.words for _, part in parts),
        sum(part.sentences for _, part in parts),
    )
    if whole.words < _FEWEST or whole.grade <= _GRADE:
        return
    hardest, _ = max(((each, part) for each, part in parts if part.words), key=lambda both: both[1].grade)
    tells = (
        f"the sentences under `{name}` read like grade {whole.grade:.0f} of school, this one is the hardest, and what "
        f"a patient hears should be for grade {_GRADE} at most"
    )
    yield ask(
        hardest.position, "sheet-hard-to-read", hardest.text, tells, f"question:{question}",
        closing="use shorter words and shorter sentences",
    )  # fmt: skip
