"""The talk of a question: nine slides of ten minutes, and behind the end what somebody may ask."""

from __future__ import annotations

from functools import partial

from ...reading.model import Question
from ...results.findings.findings import Catalogue
from ...results.saying.source_reference import doi_of, reference_text, source_link
from ...results.saying.titles import factor_title, levels_of
from ...results.values.line import plain_text
from ...results.values.talk import Publication, Slide, Talk, Talks
from ..question.situation import factors_asked
from ..sentences.prose import NamedResult
from . import asked, frames, literature
from .paragraphs import keys_in


def talks(catalogue: Catalogue, named: NamedResult) -> Talks:
    """The talk of each question, in the order of their ids."""
    questions = sorted(catalogue.evidence.questions.items())
    return Talks({name: partial(talk, catalogue, question, named) for name, question in questions})


def talk(catalogue: Catalogue, question: Question, named: NamedResult) -> Talk:
    """Every slide of one question, from the same findings as its pages."""
    slides: tuple[Slide, ...] = (
        frames.opening(catalogue, question),
        frames.complaint(catalogue, question, named),
        frames.findings(catalogue, question, named),
        frames.ways_and_consent(catalogue, question, named),
        frames.visits(catalogue, question, named),
        frames.recalls(question),
        literature.over_time(catalogue, question),
        literature.factors_of_case(catalogue, question),
        frames.lessons(question),
        asked.in_short(catalogue, question, named),
        asked.definitions(catalogue, question),
        asked.came_back(catalogue, question),
        asked.same_patients(catalogue, question),
        *asked.other_ways(catalogue, question, named),
        asked.failing(catalogue, question, named),
        asked.guideline(catalogue, question, named),
        *literature.of_answers(catalogue, question),
        *literature.of_other_factors(catalogue, question),
        asked.disagreements(catalogue, question),
        asked.pooled_or_not(catalogue, question),
        asked.study_table(catalogue, question),
        asked.how_to_cite(catalogue, question),
    )
    answers = {
        f"{factor}={level}": title for factor in factors_asked(catalogue, question)
        for level, title in levels_of(catalogue, factor)
    }  # fmt: skip
    fields = tuple((factor, factor_title(catalogue, factor)) for factor in factors_asked(catalogue, question))
    references = {key: _reference(catalogue, key) for key in keys_in(slides)}
    return Talk(question.id, question.title.text, slides, references, fields, answers)


def _reference(catalogue: Catalogue, key: str) -> Publication:
    source = catalogue.evidence.sources.get(key)
    short = plain_text(source_link(key, catalogue).line)
    if source is None:
        return Publication(short, short, "")
    return Publication(short, reference_text(catalogue, source), doi_of(catalogue, source))
