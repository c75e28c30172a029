"""Sentences of faculty that are long to hear: over forty words, as is an answer, or with more than two numbers."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...reading.model import Question
from ...records import NamedTuple
from ...results.findings.findings import Catalogue
from ...results.values.document import walk
from ...results.values.figures import Figure
from ...results.values.line import Line, above_and_below, plain_text
from ..sentences.prose import NamedResult, prose

# House rules: what a tired reader takes in at once.
WORDS_AT_MOST = 40
NUMBERS_AT_MOST = 2

_NEXT = re.compile(r"(?<=[.!?])\s+")


class LongSentence(NamedTuple):
    """One sentence as pages print it."""

    question: Question
    place: str
    """The part of the page, in words."""
    line: Line
    is_long: bool
    """Over forty words."""
    has_many: bool
    """More than two numbers: a count with its total and percentage is one, a share with its time another."""


def long_sentences(catalogue: Catalogue, named: NamedResult) -> Iterator[LongSentence]:
    """In the answers, the advice and the words for patients, question by question."""
    for _, question in sorted(catalogue.evidence.questions.items()):
        for place, text in _texts(question):
            sentences = _NEXT.split(text)
            if place == "answer" and len(sentences) > 1:
                whole, _ = above_and_below(prose(text, catalogue, named))
                is_long, has_many = len(plain_text(whole).split()) > WORDS_AT_MOST, _numbers(whole) > NUMBERS_AT_MOST
                if is_long or has_many:
                    yield LongSentence(question, "the answer as a whole", whole, is_long, has_many)
            for typed in sentences:
                said = prose(typed, catalogue, named)
                sentence, _ = above_and_below(said)
                is_long = len(plain_text(sentence).split()) > WORDS_AT_MOST
                has_many = _numbers(sentence) > NUMBERS_AT_MOST
                if is_long or has_many:
                    yield LongSentence(question, place, said, is_long, has_many)


def _texts(question: Question) -> Iterator[tuple[str, str]]:
    if question.answer is not None:
        yield "answer", question.answer.text
    lists = [
        ("what not to do now", question.stop),
        ("is it really this", question.is_it_this),
        ("medical questions", question.medical),
        *((f"{option.title.text}, {name}", entries) for option in question.options for name, entries in option.advice),
        ("steps", question.steps),
        ("when to call", question.call),
    ]
    for place, entries in lists:
        for entry in entries:
            yield place, entry.words.text
            if entry.caution is not None:
                yield place, entry.caution.text
    if question.patient is not None:
        for word in (*question.patient.chair, *question.patient.afterwards):
            yield "words for the patient", word.text


def _numbers(said: Line) -> int:
    return len({item.id.rpartition("/")[0] for item in walk(said) if isinstance(item, Figure)})
