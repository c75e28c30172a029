"""Answers to questions: each holds for its rule, its place and its printed text alone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ..problems import Problem, error
from ..proof.asking import collapsed
from ..reading.model import Question
from ..reading.report_model import Acknowledged, Report
from ..records import NamedTuple

RULES = {
    "acknowledgement-without-question": (
        "An `acknowledged` block answers a question that the check does not ask. Either the figures have changed "
        "since, so that the answer no longer holds, or its `rule`, `printed` or place differs from the question's. An "
        "outdated answer would hide the next question, so it is an error: delete the block, or paste the one that the "
        "question prints. Basis: the design of this guide; common practice, no source."
    ),
}


class Answer(NamedTuple):
    """One `acknowledged` block and where it stands."""

    key: str
    place: str
    block: Acknowledged


def answers_of(report: Report) -> Iterator[Answer]:
    """Every answer of one claim file."""
    key = report.key
    for block in report.acknowledged:
        yield Answer(key, key, block)
    for study in report.studies:
        for block in study.acknowledged:
            yield Answer(key, f"{key}/studies/{study.id.text}", block)
    for claim in report.claims:
        for block in claim.acknowledged:
            yield Answer(key, f"{key}/{claim.id.text}", block)


def answers_in_question(question: Question) -> Iterator[Answer]:
    """Every answer of one question file."""
    place = f"question:{question.id}"
    for block in question.acknowledged:
        yield Answer(place, place, block)


def apply_answers(
    problems: Iterable[Problem], answers: Iterable[Answer], withheld: frozenset[str] = frozenset()
) -> Iterator[Problem]:
    """The problems, answered where somebody did, and one more for each answer to no question.

    withheld: keys of reports whose figures could not all be read or proved. Rules were silent about those, so that an
    answer may have lost its question without anybody having changed the figures it is about.
    """
    waiting = {_question(answer): answer for answer in answers}
    used = set()
    errors: dict[tuple[str, str], Problem] = {}
    for problem in problems:
        if problem.severity == "error":
            errors.setdefault((problem.position.file, problem.rule), problem)
        if problem.severity == "ask":
            question = _asked(problem)
            if question in waiting:
                used.add(question)
                problem = problem._replace(acknowledged=waiting[question].block.reason.text)
        yield problem
    for question, answer in waiting.items():
        other = question[-1]
        block = answer.block
        met = errors.get((block.position.file, block.rule.text))
        if question not in used and met is not None:
            yield error(
                block.position,
                "acknowledgement-without-question",
                f"{block.rule.text} is an error here (line {met.position.line}) and no question, so that no answer "
                "settles it",
                "mend it and delete the block",
            )
        elif question not in used and answer.key not in withheld and other not in withheld:
            yield error(
                block.position,
                "acknowledgement-without-question",
                f'no question about "{collapsed(block.printed.text)}" is asked here by the rule {block.rule.text}: '
                "the figures have changed, or the answer belongs in another place",
                "delete the block, or paste the one that an open question prints",
            )


_Question = tuple[str, str, str, str]


def _asked(problem: Problem) -> _Question:
    # A question about two reports is answered anywhere in its file; any other where it arose.
    place = problem.place.partition("/")[0] if problem.with_key else problem.place
    return problem.rule, place, problem.printed, problem.with_key


def _question(answer: Answer) -> _Question:
    block = answer.block
    other = block.with_key.text if block.with_key else ""
    return block.rule.text, answer.key if other else answer.place, collapsed(block.printed.text), other
